/** A case in words, in one order: `peak loads, lowest supply, hot, one Bus unit lost, Cable +2 %`. */
import type { FeedColumns } from "../network/feed-columns.js";
import { type FeedCorner, supplyText } from "../network/feed-corner.js";
import { figure } from "../quantities/figures.js";

/** Shifted items that are named before it is said how many more. */
const NAMED_SHIFTS = 6;

/**
 * @param condition `hot` or `cold`, "" where there is but one.
 * @param rows Whose tolerances have a part in it.
 */
export function caseText(
  corner: FeedCorner,
  columns: FeedColumns,
  condition = "",
  rows: Iterable<number> = corner.shifts.keys(),
): string {
  const { loads, alone, idle, lost, shifts } = corner;
  const { item, figures } = columns;
  const moved = [...rows].filter((row) => shifts[row] !== 0);
  const named = moved.slice(0, NAMED_SHIFTS).map((row) => {
    const percent = figure(figures.tolerance[row]! * 100);
    return `${item[row]} ${shifts[row]! > 0 ? "+" : "−"}${percent} %`;
  });
  const more = moved.length - named.length;
  return [
    ...(idle ? ["no load, stages off"] : [loads === "none" ? "no load" : `${loads} loads`]),
    ...(alone === undefined ? [] : [`${item[alone]} alone`]),
    supplyText(corner, columns, (supply) => `${supply} supply`),
    // Where nothing draws, nothing drops.
    ...(condition === "" || idle ? [] : [condition]),
    ...(lost === undefined ? [] : [`one ${item[lost]} unit lost`]),
    ...named,
    ...(more > 0 ? [`${more} more`] : []),
  ].join(", ");
}

/** One of the nine cases: `peak loads, lowest supply, hot`. */
export function caseOf(
  { loads, supply }: { readonly loads: string; readonly supply: string },
  condition = "",
): string {
  return [`${loads} loads`, `${supply} supply`, ...(condition === "" ? [] : [condition])].join(
    ", ",
  );
}
