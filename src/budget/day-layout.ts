/** Where the Day sheet holds what. */
import { fixedArea, fixedAt } from "../plans/sheet-builder.js";
import { solvedColumnAt, type SolvedHeading } from "./budget-columns.js";
import { type BudgetLayout, SPARE_ITEMS } from "./budget-layout.js";

/** What is not used, or none, reads as –. */
const orDash = (format: string) => `${format};-${format};"–"`;

export const PERIODS = [0, 1, 2] as const;

export const DAY_HEAD = 6;
export const DAY_TOTAL = DAY_HEAD + PERIODS.length + 1;

export const dayColumns = [
  { key: "period", heading: "Period" },
  { key: "hours", heading: "Hours (h)", format: orDash("0.0") },
  { key: "loads", heading: "Loads" },
  { key: "supply", heading: "Supply" },
  { key: "loadPower", heading: "All loads (W)", format: orDash("0.0") },
  { key: "loss", heading: "All losses (W)", format: orDash("0.0") },
  {
    key: "loadEnergy",
    heading: "Energy to the loads (kWh)",
    format: orDash("0.000"),
  },
  { key: "lossEnergy", heading: "Energy lost (kWh)", format: orDash("0.000") },
] as const satisfies readonly {
  readonly key: string;
  readonly heading: string;
  readonly format?: string;
}[];

export type DayColumn = (typeof dayColumns)[number]["key"];

export function dayColumnAt(key: DayColumn): number {
  return dayColumns.findIndex((column) => column.key === key);
}

/** The cell of a period, from 0, or of the whole day. */
export function dayAt(key: DayColumn, period: number | "day"): string {
  const line = period === "day" ? DAY_TOTAL : DAY_HEAD + 1 + period;
  return fixedAt(dayColumnAt(key), line);
}

/** One column over the periods. */
export function dayColumnArea(key: DayColumn): string {
  const column = dayColumnAt(key);
  return fixedArea(column, DAY_HEAD + 1, column, DAY_HEAD + PERIODS.length);
}

/** With the headings and the whole day. */
export function dayArea(): string {
  return fixedArea(0, DAY_HEAD, dayColumns.length - 1, DAY_TOTAL);
}

export const MONEY_HEAD = DAY_TOTAL + 3;
export const HEAT_HEAD = MONEY_HEAD + 8;

export function heatTotal(rows: number): number {
  return HEAT_HEAD + rows + 1;
}

/** The row with the headings of a period's solved rows. */
export function daySolvedHead(
  { items }: BudgetLayout,
  heatRows: number,
  period: number,
): number {
  const first = heatTotal(heatRows) + 5;
  return first + period * (items.length + SPARE_ITEMS + 4);
}

/** One column of a period's spill, with what may still come below. */
export function daySolvedArea(
  layout: BudgetLayout,
  heatRows: number,
  period: number,
  heading: SolvedHeading,
): string {
  const head = daySolvedHead(layout, heatRows, period);
  const column = solvedColumnAt(heading);
  const last = head + layout.items.length + SPARE_ITEMS;
  return fixedArea(column, head + 1, column, last);
}
