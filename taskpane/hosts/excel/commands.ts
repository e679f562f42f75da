/** The way into Excel for every command of this adapter, and the way out of it for its errors. */
import { EditingError, type Feature, HostError } from "../host.js";

/** What Excel offers beyond the requirement sets that the manifest asks for. */
const SINCE = {
  notes: "1.18",
  "single undo": "1.20",
} as const satisfies Partial<Record<Feature, string>>;

export function excelCan(feature: Feature): boolean {
  if (feature === "pictures" || feature === "charts" || feature === "page setup") return true;
  // Its web view answers no link to what the pane itself has made.
  if (feature === "saved files") return Office.context.platform !== Office.PlatformType.Mac;
  return (
    feature in SINCE &&
    Office.context.requirements.isSetSupported("ExcelApi", SINCE[feature as keyof typeof SINCE])
  );
}

/**
 * Runs a batch as one undo step where Excel can; elsewhere each `sync` that changes something is one.
 * Waits until the user has finished typing into a cell.
 * @throws {HostError} for whatever Excel refuses.
 */
export async function inExcel<T>(batch: (context: Excel.RequestContext) => Promise<T>): Promise<T> {
  const options: Excel.RunOptions = {
    delayForCellEdit: true,
    ...(excelCan("single undo") && { mergeUndoGroup: true }),
  };
  try {
    return await Excel.run(options, batch);
  } catch (error) {
    throw isExcelError(error) ? hostError(error) : error;
  }
}

/** As `inExcel`, for work on sheets that may not be there: the refusal names the one that is missing. */
export async function onSheets<T>(
  names: readonly string[],
  batch: (context: Excel.RequestContext) => Promise<T>,
  run = inExcel<T>,
): Promise<T> {
  try {
    return await run(batch);
  } catch (error) {
    if (excelCode(error) !== "ItemNotFound") throw error;
    const missing = await missingSheet(names);
    throw missing === undefined
      ? error
      : new HostError(`there is no sheet called ${missing}`, { cause: error });
  }
}

async function missingSheet(names: readonly string[]): Promise<string | undefined> {
  const there = await inExcel(async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load("items/name");
    await context.sync();
    return worksheets.items.map(({ name }) => name.toLowerCase());
  });
  return names.find((name) => !there.includes(name.toLowerCase()));
}

/** Excel's own code for an error, its cause's where it has been put into words already. */
export function excelCode(error: unknown): string | undefined {
  if (isExcelError(error)) return error.code;
  return error instanceof HostError ? excelCode(error.cause) : undefined;
}

export function isExcelError(error: unknown): error is OfficeExtension.Error {
  return error instanceof OfficeExtension.Error;
}

/** What the user can do about it, where there is something. */
const ADVICE: Readonly<Record<string, string>> = {
  AccessDenied:
    "the workbook or the sheet is protected or may only be read; unprotect it or save a copy, then try again",
  InvalidOperationInCellEditMode: "a cell is being edited; press Enter or Esc, then try again",
  RequestAborted: "Excel broke off the request; try again",
  ApiNotFound: "this version of Excel is too old for it; update Excel",
};

export function hostError(error: OfficeExtension.Error): HostError {
  const advice = ADVICE[error.code];
  const what = `${error.message} (${error.code})`;
  const Kind = error.code === "InvalidOperationInCellEditMode" ? EditingError : HostError;
  return new Kind(advice === undefined ? `Excel refused: ${what}` : `${advice}: ${what}`, {
    cause: error,
  });
}
