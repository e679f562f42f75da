/**
 * What a workbook is to hold, as plain data: built once, written by whichever host runs.
 *
 * Formulas are en-US A1 without `=`. Another sheet of the plan is written `{key}!B4`, a name of the plan `{Feed}`, the
 * namespace of the cell functions `{FEED}.NAME(`; the host fills in what the sheet, the name and the namespace are
 * really called, so that a second insertion needs no second plan.
 */
import type { CitationId } from "../quantities/citations.js";

export interface WorkbookPlan {
  readonly id: string;
  readonly title: string;
  /** Stem of the names that an insertion writes, `Ridge` in `Ridge_Feed`. */
  readonly stem: string;
  readonly sheets: readonly SheetPlan[];
  readonly names: readonly PlanName[];
}

/** A plain range with a name; `name` is the part behind the stem, `Feed` in `Ridge_Feed`. */
export interface PlanName {
  readonly name: string;
  /** Key of the sheet. */
  readonly sheet: string;
  readonly range: string;
}

export interface SheetPlan {
  readonly key: string;
  readonly name: string;
  /** In pixels at 100 %, from column A on. */
  readonly columnWidths: readonly number[];
  readonly frozenRows: number;
  /** Columns that stay in sight too, beside the frozen rows; none where it is left out. */
  readonly frozenColumns?: number;
  readonly cells: readonly PlanCell[];
  readonly merges: readonly string[];
  readonly validations: readonly PlanValidation[];
  readonly conditionalFormats: readonly PlanRule[];
  readonly pictures: readonly PlanPicture[];
  readonly charts?: readonly PlanChart[];
  /** For a sheet that is made to be printed; others are fitted to the width of a page. */
  readonly print?: PlanPrint;
}

/** How a sheet is printed on A4 or Letter, landscape. */
export interface PlanPrint {
  /** In per cent of the size on the screen. */
  readonly scale: number;
  /** Rows that begin a page, counted from 0. */
  readonly breaks: readonly number[];
  /** At the head of every page, on the left; the page number stands on the right. */
  readonly head: string;
  /** At the foot of every page; the page number stands behind the text on the right. */
  readonly foot: { readonly left: string; readonly right: string };
}

export interface PlanCell {
  readonly at: string;
  readonly value?: string | number | boolean;
  readonly formula?: string;
  /** Text that a formula will show here, for the height of the row. */
  readonly shows?: string;
  /** How far the formula's result reaches at first; cells below stay free for more. */
  readonly spill?: readonly [rows: number, columns: number];
  readonly style: StyleName;
  /** Number format, en-US, as a spreadsheet writes it: `0.00 "V"`. */
  readonly format?: string;
  readonly note?: string;
  readonly citation?: CitationId;
}

/**
 * What a cell is to its reader; how that looks is decided once, in `cell-styles.ts`.
 * `input` may be changed; `result` is computed; `key` is a result that a reader looks for first; `closing` ends a table
 * that rows are inserted into; `unused` stays empty; `lineText` and `lineFigure` stand on a line of a printed table.
 */
export type StyleName =
  | "title"
  | "subtitle"
  | "heading"
  | "tableHeading"
  | "label"
  | "text"
  | "unit"
  | "input"
  | "inputText"
  | "result"
  | "resultText"
  | "key"
  | "total"
  | "caution"
  | "remark"
  | "caption"
  | "lineText"
  | "lineFigure"
  | "closing"
  | "unused";

export type PlanValidation = {
  readonly range: string;
  /** Shown when something else is typed. */
  readonly message: string;
} & (
  | { readonly kind: "list"; readonly values: readonly string[] }
  /** What stands in a range, `{table}!$A$5:$A$90`, is offered; what does not is marked at most, never refused. */
  | { readonly kind: "offer"; readonly source: string }
  /** A number or one of the words; the workbench reads what is typed before its spreadsheet does, and needs no rule. */
  | { readonly kind: "figure"; readonly words: readonly string[] }
  | { readonly kind: "number"; readonly least: number; readonly most: number }
  | { readonly kind: "whole"; readonly least: number; readonly most: number }
);

/**
 * Paints each cell of `range` by what stands in it: a number above or below a limit, or a text. The workbench calculates
 * that for every cell at every edit: a column is painted, no whole table.
 */
export type PlanRule = {
  readonly range: string;
  readonly paint: "warning" | "danger" | "good" | "unused";
} & (
  | { readonly kind: "above" | "below"; readonly limit: number }
  | { readonly kind: "text"; readonly text: string }
  /** Native, relative to the top left cell of `range`; true paints. Never a cell function. */
  | { readonly kind: "formula"; readonly formula: string }
);

export interface PlanPicture {
  readonly at: string;
  /** Width and height in pixels. */
  readonly size: readonly [width: number, height: number];
  readonly svg: string;
  readonly alternative: string;
}

/** Drawn by the spreadsheet from the sheet's own cells where it has such charts; elsewhere it is the picture. */
export interface PlanChart extends PlanPicture {
  readonly kind: "line" | "column" | "scatter";
  readonly title: string;
  /** Headings, then rows: what each is or where it lies along the axis, then a value for each series. */
  readonly range: string;
  readonly categoryTitle: string;
  readonly valueTitle: string;
  /** Equal factors are equal distances on the axis of values. */
  readonly logarithmic?: true;
  /** In pixels; `size` is the picture's. */
  readonly chartSize: readonly [width: number, height: number];
  /** How each series is drawn. */
  readonly series: readonly ("line" | "points" | "bars")[];
}
