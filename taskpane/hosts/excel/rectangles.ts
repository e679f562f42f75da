/** Cells as few rectangles. A list of several ranges in one address is parted by commas in one Excel and by semicolons in another. */
import { type CellPlace, rangeAddress, type RangePlace } from "../../../src/plans/addresses.js";

/** Cells side by side as one range, and such ranges of equal width below one another as one. */
export function rectangles(places: readonly CellPlace[]): readonly string[] {
  const open = new Map<string, RangePlace>();
  const all: RangePlace[] = [];
  for (const run of rowRuns(places)) {
    const key = `${run.left} ${run.right}`;
    const above = open.get(key);
    if (above?.bottom === run.top - 1) {
      const taller = { ...above, bottom: run.bottom };
      all[all.indexOf(above)] = taller;
      open.set(key, taller);
    } else {
      all.push(run);
      open.set(key, run);
    }
  }
  return all.map(rangeAddress);
}

function rowRuns(places: readonly CellPlace[]): readonly RangePlace[] {
  const ordered = [...places].sort(
    (one, other) => one.row - other.row || one.column - other.column,
  );
  const runs: RangePlace[] = [];
  for (const { row, column } of ordered) {
    const run = runs.at(-1);
    if (run?.top === row && run.right + 1 === column)
      runs[runs.length - 1] = { ...run, right: column };
    else runs.push({ top: row, bottom: row, left: column, right: column });
  }
  return runs;
}

/** Rows below one another that reach over the same columns as one. @param rows Each of one row. */
export function mergedRows(rows: readonly RangePlace[]): readonly RangePlace[] {
  const ordered = [...rows].sort(
    (one, other) => one.left - other.left || one.right - other.right || one.top - other.top,
  );
  const runs: RangePlace[] = [];
  for (const row of ordered) {
    const run = runs.at(-1);
    const follows = run?.left === row.left && run.right === row.right && run.bottom + 1 === row.top;
    if (run && follows) runs[runs.length - 1] = { ...run, bottom: row.bottom };
    else runs.push(row);
  }
  return runs;
}
