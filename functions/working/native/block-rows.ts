/** Rows of cells written one below the other, in the columns of a call's block. */
import { at } from "../../../src/plans/sheet-builder.js";
import type { PlanCell, StyleName } from "../../../src/plans/sheet-plan.js";
import type { CitationId } from "../../../src/quantities/citations.js";
import { type Cell, isCellError } from "../../downfeed.js";
import { notTooLong, yesOrNo } from "./native-writing.js";

/** Columns of a block, from its left one on. */
export const BLOCK_COLUMNS = [
  "Quantity",
  "Symbol",
  "Comes from",
  "Value",
  "Unit",
  "Shown",
  "in",
  "Check",
  "Holds",
  "Source",
] as const;

/** With the column that says of each row of a result whether it is solved. */
export const BLOCK_WIDTHS = [330, 80, 260, 130, 60, 110, 60, 240, 60, 320, 130] as const;

export const COLUMN = {
  label: 0,
  symbol: 1,
  from: 2,
  value: 3,
  unit: 4,
  shown: 5,
  shownUnit: 6,
  check: 7,
  holds: 8,
  source: 9,
  /** A result of several cells stands beside the lines. */
  table: BLOCK_COLUMNS.length + 1,
} as const;

/** A cell that says yes or no, and the line that it is about. */
export interface LineCheck {
  readonly line: string;
  readonly at: string;
}

export class BlockRows {
  readonly cells: PlanCell[] = [];
  readonly checks: LineCheck[] = [];

  constructor(
    /** Column from 0. */
    readonly left: number,
    /** The row that is written, from 1. */
    public row: number,
  ) {}

  here(column: number): string {
    return at(this.left + column, this.row);
  }

  text(column: number, value: string, style: StyleName, citation?: CitationId): void {
    if (value === "") return;
    const cited = citation === undefined ? {} : { citation };
    this.cells.push({ at: this.here(column), value, style, ...cited });
  }

  constant(column: number, value: number | string): void {
    this.cells.push({ at: this.here(column), value, style: styleOf(value) });
  }

  /** @throws {TooLongError} */
  formula(column: number, formula: string, style: StyleName): void {
    const written = notTooLong(formula);
    this.cells.push({ at: this.here(column), formula: written, style });
  }

  check(line: string, condition: string): void {
    this.formula(COLUMN.holds, yesOrNo(condition), "resultText");
    this.checks.push({ line, at: this.here(COLUMN.holds) });
  }

  /** Anywhere beside the rows. */
  checkAt(address: string, line: string, condition: string): void {
    const formula = yesOrNo(condition);
    this.cells.push({ at: address, formula, style: "resultText" });
    this.checks.push({ line, at: address });
  }
}

export function styleOf(value: number | string): StyleName {
  return typeof value === "string" ? "resultText" : "result";
}

/** A value as it was; an error of any kind becomes the one that a formula can make everywhere. */
export function constantCell(address: string, cell: Cell): PlanCell {
  if (isCellError(cell)) return { at: address, formula: "NA()", style: "result" };
  if (cell === null || cell === "") return { at: address, style: "resultText" };
  return {
    at: address,
    value: cell,
    style: typeof cell === "number" ? "result" : "resultText",
  };
}
