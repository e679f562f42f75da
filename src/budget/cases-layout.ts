/** Where the Cases sheet holds what. */
import { fixedArea, fixedAt, quoted } from "../plans/sheet-builder.js";
import { type BudgetLayout, SPARE_ITEMS } from "./budget-layout.js";
import { NONE } from "../warnings/check-kinds.js";
import type { AnswerReach, CheckReach } from "./budget-scenario.js";
import { whenReady } from "./typed-feed.js";

/** The table of the nine cases. */
export const CASES_HEAD = 6;
export const CASES = 9;

export const casesColumns = [
  { key: "case", heading: "Case" },
  { key: "voltage", heading: "Supply voltage (V)", format: "0.0" },
  { key: "supply", heading: "Supply power (W)", format: "0.0" },
  { key: "loads", heading: "All loads (W)", format: "0.0" },
  { key: "loss", heading: "All losses (W)", format: "0.0" },
  { key: "efficiency", heading: "Efficiency", format: "0.0%" },
  { key: "margin", heading: "Lowest margin", format: "0.0%" },
  { key: "check", heading: "Check" },
] as const satisfies readonly {
  readonly key: string;
  readonly heading: string;
  readonly format?: string;
}[];

export type CasesColumn = (typeof casesColumns)[number]["key"];

export function casesColumnAt(key: CasesColumn): number {
  return casesColumns.findIndex((column) => column.key === key);
}

/** With the headings. */
export function casesArea(): string {
  const last = casesColumns.length - 1;
  return fixedArea(0, CASES_HEAD, last, CASES_HEAD + CASES);
}

/** One column of the nine cases without its heading. */
export function casesColumnArea(key: CasesColumn): string {
  const column = casesColumnAt(key);
  return fixedArea(column, CASES_HEAD + 1, column, CASES_HEAD + CASES);
}

/** The worst of the nine. */
export const EXTREMES_HEAD = CASES_HEAD + CASES + 3;
/** What all cases, tolerances and lost units come to, in words and numbers. */
export const SUMMARY_ROW = EXTREMES_HEAD + 9;
/** First row of the spilled worst case of every item. */
export const WORST_HEAD = SUMMARY_ROW + 14;

/** As CHAIN_WORST spills them. */
export const worstColumns = [
  { heading: "Item" },
  { heading: "Lowest input V", format: "0.00" },
  { heading: "Highest input V", format: "0.00" },
  { heading: "Highest input A", format: "0.00" },
  { heading: "Highest loss W", format: "0.0" },
  { heading: "Loading", format: "0%" },
  { heading: "Least margin", format: "0.0%" },
  { heading: "Where it happens" },
  { heading: "Note" },
] as const satisfies readonly {
  readonly heading: string;
  readonly format?: string;
}[];

export type WorstHeading = (typeof worstColumns)[number]["heading"];

/** One column of the spill without its heading, with what may still come below. */
export function worstColumnArea(
  { items }: BudgetLayout,
  heading: WorstHeading,
): string {
  const column = worstColumns.findIndex((one) => one.heading === heading);
  const last = WORST_HEAD + items.length + SPARE_ITEMS;
  return fixedArea(column, WORST_HEAD + 1, column, last);
}

/** Addresses for the checks, which rest on the worst of the cases. */
export function checkReach(
  reach: AnswerReach,
  layout: BudgetLayout,
): CheckReach {
  const column = (heading: WorstHeading) =>
    `{cases}!${worstColumnArea(layout, heading)}`;
  return {
    ...reach,
    worst: (item, heading) =>
      `INDEX(${column(heading)},MATCH(${quoted(item)},${column("Item")},0))`,
    headroom: whenReady(
      layout,
      `{cases}!${fixedAt(0, headroomRow(layout))}`,
      quoted(NONE),
    ),
  };
}

/** The row of CHAIN_HEADROOM, below all that the worst case may grow to. */
export function headroomRow({ items }: BudgetLayout): number {
  return WORST_HEAD + items.length + SPARE_ITEMS + 5;
}
