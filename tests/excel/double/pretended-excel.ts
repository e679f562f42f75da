/**
 * Which Excel the double pretends to be, and the limits that every Excel keeps. What stands behind each is named; none of
 * it was recorded from a running Excel.
 */

export interface PretendedExcel {
  /** Newest set of the API, 12 for ExcelApi 1.12. */
  readonly excelApi: number;
  readonly platform: "PC" | "OfficeOnline";
  /**
   * What parts several areas in one address. Desktop Excel in languages with decimal commas takes semicolons only
   * (office-js issues 1167 and 1985).
   */
  readonly separator: "," | ";";
  readonly decimal: "." | ",";
  /** How names tell their formula: in the user's language and style (office-js issue 2834). */
  readonly referenceStyle: "A1" | "R1C1";
  readonly calculation: "Automatic" | "Manual";
  /**
   * Which undo groups are refused beside those that hold an API without undo ("Undo support with the Excel JavaScript
   * API"): such with a write that the library cuts (office-js issue 6491), such that also wait for the end of an edit
   * (office-js issue 6711), or all.
   */
  readonly refusedGroups: "none" | "cut writes" | "delayed" | "all";
}

export const USUAL_EXCEL: PretendedExcel = {
  excelApi: 12,
  platform: "PC",
  separator: ",",
  decimal: ".",
  referenceStyle: "A1",
  calculation: "Automatic",
  refusedGroups: "none",
};

/** In which everything that the pane asks of Excel must work. */
export const EXCELS: Readonly<Record<string, PretendedExcel>> = {
  "Excel at the base set": USUAL_EXCEL,
  "Excel at the base set, in a language with semicolons": {
    ...USUAL_EXCEL,
    separator: ";",
    decimal: ",",
    referenceStyle: "R1C1",
  },
  "Excel at 1.18": {
    ...USUAL_EXCEL,
    excelApi: 18,
    separator: ";",
    decimal: ",",
    refusedGroups: "all",
  },
  "Excel at 1.18 that calculates when it is asked to": {
    ...USUAL_EXCEL,
    excelApi: 18,
    calculation: "Manual",
  },
  "the newest Excel": { ...USUAL_EXCEL, excelApi: 20, refusedGroups: "cut writes" },
  "the newest Excel on the web": {
    ...USUAL_EXCEL,
    excelApi: 20,
    platform: "OfficeOnline",
    refusedGroups: "delayed",
  },
};

/** Of a request and of an answer ("Resource limits and performance optimization for Office Add-ins": 5 MB on the web). */
export const MOST_BYTES = 5 * 1024 * 1024;

/** "Excel specifications and limits": 409 points. That more is refused and not cut is by analogy. */
export const MOST_ROW_POINTS = 409;

/** "Excel specifications and limits": 255 characters of some 5.25 points. */
export const MOST_COLUMN_POINTS = 1_342;

/** Of those without undo in the list of the same page as above the ones that an add-in like this may call. */
export const WITHOUT_UNDO: readonly string[] = ["Worksheet.Delete", "Worksheet.Copy"];
