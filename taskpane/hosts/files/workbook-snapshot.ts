/** A workbook as plain data between a spreadsheet and a file: neither knows the other. Addresses are A1 without sheet. */
export interface WorkbookSnapshot {
  readonly sheets: readonly SheetSnapshot[];
  readonly names: readonly NameSnapshot[];
}

export interface NameSnapshot {
  readonly name: string;
  /** A range, `'Inputs'!$B$4`, a constant or a formula; without `=`. */
  readonly refersTo: string;
  /** The sheet that it is known on; everywhere when left out. */
  readonly sheet?: string;
}

export interface SheetSnapshot {
  readonly name: string;
  readonly hidden?: true;
  /** `#rrggbb`, as every colour here. */
  readonly tabColour?: string;
  readonly gridlinesHidden?: true;
  /** Row by row; only cells that hold or show something. */
  readonly cells: readonly CellSnapshot[];
  /** In pixels at 100 %, by column counted from 0. */
  readonly columnWidths: Readonly<Record<number, number>>;
  readonly rowHeights: Readonly<Record<number, number>>;
  readonly hiddenColumns: readonly number[];
  readonly hiddenRows: readonly number[];
  readonly frozen: { readonly rows: number; readonly columns: number };
  readonly merges: readonly string[];
  readonly validations: readonly ValidationSnapshot[];
  /** The first one leads. */
  readonly rules: readonly RuleSnapshot[];
  readonly images: readonly ImageSnapshot[];
}

export type SnapshotValue = string | number | boolean | { readonly error: string };

export interface CellSnapshot {
  readonly at: string;
  /** The cell's value; of a formula, its result. */
  readonly value?: SnapshotValue;
  /** en-US without `=`; cell functions as they are typed, `FEED.NAME(…)`. */
  readonly formula?: string;
  /** The range that the formula fills from this cell on; its other cells carry values only. */
  readonly spill?: string;
  readonly look?: CellLook;
  readonly note?: string;
}

export interface CellLook {
  readonly bold?: true;
  readonly italic?: true;
  readonly underline?: true;
  readonly strike?: true;
  readonly font?: string;
  /** In points. */
  readonly size?: number;
  readonly colour?: string;
  readonly fill?: string;
  readonly horizontal?: "left" | "center" | "right" | "justify";
  readonly vertical?: "top" | "middle" | "bottom";
  readonly wrap?: true;
  readonly borders?: Borders;
  /** Number format, en-US; left out for `General`. */
  readonly format?: string;
}

export type Borders = Readonly<Partial<Record<BorderSide, BorderSnapshot>>>;
export type BorderSide = "top" | "bottom" | "left" | "right";

export interface BorderSnapshot {
  readonly line: BorderLine;
  readonly colour: string;
}

export const BORDER_LINES = [
  "thin",
  "hair",
  "dotted",
  "dashed",
  "dashDot",
  "dashDotDot",
  "double",
  "medium",
  "mediumDashed",
  "mediumDashDot",
  "mediumDashDotDot",
  "slantDashDot",
  "thick",
] as const;
export type BorderLine = (typeof BORDER_LINES)[number];

export const COMPARISONS = [
  "between",
  "notBetween",
  "equal",
  "notEqual",
  "greaterThan",
  "lessThan",
  "greaterThanOrEqual",
  "lessThanOrEqual",
] as const;
export type Comparison = (typeof COMPARISONS)[number];

export type ValidationSnapshot = {
  readonly ranges: readonly string[];
  readonly allowsBlank: boolean;
  readonly onFault: "stop" | "warning" | "information";
  readonly message?: string;
} & (
  | { readonly kind: "list"; readonly values: readonly string[] }
  /** A list of the values in a range; `formula` is without `=`. */
  | { readonly kind: "range"; readonly formula: string }
  | { readonly kind: "custom"; readonly formula: string }
  | {
      readonly kind: "whole" | "decimal" | "date" | "textLength";
      readonly comparison: Comparison;
      readonly bounds: readonly string[];
    }
);

export type RuleSnapshot = {
  readonly ranges: readonly string[];
  readonly stops: boolean;
} & (
  | {
      readonly kind: "formula";
      readonly formula: string;
      readonly paint: RulePaint;
    }
  | {
      readonly kind: "compare";
      readonly comparison: Comparison;
      readonly bounds: readonly string[];
      readonly paint: RulePaint;
    }
  | { readonly kind: "scale"; readonly points: readonly ScalePoint[] }
  | {
      readonly kind: "bar";
      readonly least: RulePoint;
      readonly most: RulePoint;
      readonly colour: string;
    }
);

export interface RulePaint {
  readonly bold?: true;
  readonly italic?: true;
  readonly colour?: string;
  readonly fill?: string;
}

export interface RulePoint {
  readonly type: "min" | "max" | "num" | "percent" | "percentile";
  readonly value?: number;
}

export interface ScalePoint extends RulePoint {
  readonly colour: string;
}

export interface ImageSnapshot {
  readonly row: number;
  readonly column: number;
  /** From the cell's corner; in pixels, as the size. */
  readonly offsetX: number;
  readonly offsetY: number;
  readonly width: number;
  readonly height: number;
  readonly type: ImageType;
  readonly base64: string;
  /** Alternative text. */
  readonly alternative?: string;
}

export type ImageType = "png" | "jpeg" | "gif";

/** One sheet with nothing on it. */
export function emptyWorkbook(sheet: string): WorkbookSnapshot {
  return {
    names: [],
    sheets: [
      {
        name: sheet,
        cells: [],
        columnWidths: {},
        rowHeights: {},
        hiddenColumns: [],
        hiddenRows: [],
        frozen: { rows: 0, columns: 0 },
        merges: [],
        validations: [],
        rules: [],
        images: [],
      },
    ],
  };
}
