/** Cells of a plan that lie over several columns, in few requests: rows below each other that are merged alike are one. */
import { rangeAddress, type RangePlace, rangePlace } from "../../../src/plans/addresses.js";

export function mergeCells(sheet: Excel.Worksheet, merges: readonly string[]): void {
  const places = merges.map(rangePlace);
  for (const place of places.filter((one) => !isOneRow(one)))
    sheet.getRange(rangeAddress(place)).untrack().merge(false);
  for (const run of mergedRuns(places.filter(isOneRow)))
    sheet.getRange(rangeAddress(run)).untrack().merge(true);
}

function isOneRow({ top, bottom }: RangePlace): boolean {
  return top === bottom;
}

/** @param rows Each of one row. */
function mergedRuns(rows: readonly RangePlace[]): readonly RangePlace[] {
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
