/** The operating points of a budget's sheet of cases, and the row of a table that has the most of something. */
import { type RangeRow, rangeRows, numberOf, textOf } from "./range-table.js";
import type { ReadRange } from "./found-budget.js";

/** The nine operating points; what else stands below them is another table. */
export function caseRows(cases: ReadRange): readonly RangeRow[] {
  const end = cases.values.findIndex((row) => textOf(row[0]) === "");
  return rangeRows({ ...cases, values: end < 0 ? cases.values : cases.values.slice(0, end) });
}

/** The row with the greatest figure, or with the least where `sign` is −1. */
export function greatest(
  rows: readonly RangeRow[],
  column: string,
  sign: 1 | -1 = 1,
): RangeRow | undefined {
  const ranked = rows.flatMap((row) => {
    const value = numberOf(row.value(column));
    return value === undefined ? [] : [{ row, value: sign * value }];
  });
  return ranked.sort((one, other) => other.value - one.value)[0]?.row;
}
