/**
 * Inputs of values that a plain copy does not work out anew: each with what it was, and whether it still is. A sheet of
 * its own, one row for each cell.
 */
import { rangePlace } from "../../../src/plans/addresses.js";
import { formulaCell, valueCell } from "../../../src/plans/sheet-builder.js";
import type { PlanCell } from "../../../src/plans/sheet-plan.js";
import { type Cell, isCellError } from "../../downfeed.js";
import type { SheetRange } from "../lines/call-tree.js";
import { yesOrNo } from "../native/native-writing.js";

const FIRST_ROW = 5;
const SAME = 3;

/** Cells that stand empty may be held together: their range is then one of several cells. */
export interface HeldCell {
  readonly range: SheetRange;
  readonly value: Cell;
}

export class HeldInputs {
  private readonly rows = new Map<string, number>();
  private readonly written: PlanCell[] = [];

  constructor(
    /** The cell as a formula on this sheet names it. */
    private readonly nameOf: (range: SheetRange) => string,
    /** The same for its reader. */
    private readonly calledHere: (range: SheetRange) => string,
  ) {}

  /** Rows of the cells, in order. */
  rowsOf(cells: readonly HeldCell[]): number[] {
    const rows = cells.map((cell) => this.rowOf(cell));
    return [...new Set(rows)].sort((a, b) => a - b);
  }

  cells(): readonly PlanCell[] {
    if (this.rows.size === 0) return [];
    return [
      valueCell(0, 1, "Inputs as they were", "title"),
      valueCell(
        0,
        2,
        "Values that this copy does not work out anew hold only while these cells are what they were when the copy was made.",
        "subtitle",
      ),
      ...["Cell", "Was", "Is", "Same"].map((heading, column) =>
        valueCell(column, FIRST_ROW - 1, heading, "tableHeading"),
      ),
      ...this.written,
    ];
  }

  private rowOf({ range, value }: HeldCell): number {
    const key = `${range.sheet.toLowerCase()}!${range.address}`;
    const known = this.rows.get(key);
    if (known !== undefined) return known;
    const row = FIRST_ROW + this.rows.size;
    this.rows.set(key, row);
    const name = this.nameOf(range);
    this.written.push(
      valueCell(0, row, this.calledHere(range), "label"),
      ...wasCell(row, value),
      ...(isEmptyCell(value) ? [] : [formulaCell(2, row, name, "result")]),
      formulaCell(SAME, row, yesOrNo(sameAs(name, row, value, cellCount(range))), "resultText"),
    );
    return row;
  }
}

/** Ranges of the column that says yes or no, for the rows. */
export function sameRanges(rows: readonly number[]): string[] {
  const ranges: string[] = [];
  let first = rows[0];
  rows.forEach((row, index) => {
    if (rows[index + 1] === row + 1) return;
    ranges.push(`$D$${first}:$D$${row}`);
    first = rows[index + 1];
  });
  return ranges;
}

export function isEmptyCell(value: Cell): boolean {
  return value === null || value === "";
}

function wasCell(row: number, value: Cell): PlanCell[] {
  if (value === null || value === "") return [];
  if (isCellError(value)) return [valueCell(1, row, value.error, "resultText")];
  return [valueCell(1, row, value, "result")];
}

function cellCount({ address }: SheetRange): number {
  const { top, left, bottom, right } = rangePlace(address);
  return (bottom - top + 1) * (right - left + 1);
}

/** Numbers that are worked out anew differ in their last digits. */
function sameAs(name: string, row: number, value: Cell, count: number): string {
  const was = `B${row}`;
  if (isEmptyCell(value)) return count === 1 ? `LEN(${name})=0` : `COUNTBLANK(${name})=${count}`;
  if (isCellError(value)) return `ISERROR(${name})`;
  if (typeof value === "string") return `EXACT(${name},${was})`;
  if (typeof value === "boolean") return `${name}=${was}`;
  return `IF(ISNUMBER(${name}),ABS(${name}-${was})<=1E-9*ABS(${was}),FALSE)`;
}
