/** The cases that a worst-case search goes through: supply, loads, ends of the tolerances, one unit lost. */
import { NO_PARENT } from "./feed-state.js";
import { figure } from "../quantities/figures.js";
import type { CompiledFeed } from "./compiled-feed.js";
import type { FeedColumns } from "./feed-columns.js";
import { type LoadSet, loadOf, supplyWindow } from "./feed-conditions.js";
import { enterRow } from "./feed-numbers.js";
import { EQUATION, KINDS } from "./row-kinds.js";

export const CORNER_SUPPLIES = ["lowest", "nominal", "highest"] as const;
export type CornerSupply = (typeof CORNER_SUPPLIES)[number];

/** Where in its tolerance a row stands: at its lower end, as given, at its upper end. */
export type Shift = -1 | 0 | 1;

export interface FeedCorner {
  readonly supply: CornerSupply;
  readonly loads: LoadSet;
  /** The row that alone draws, with all that it feeds: every other load is off, and so is every stage that feeds nothing then. */
  readonly alone: number | undefined;
  /** Stages are off, so that nothing draws and nothing drops. */
  readonly idle: boolean;
  /** The row of which one unit in parallel is lost. */
  readonly lost: number | undefined;
  /** The supply that alone stands where `supply` says, with all others at the other end of their windows. */
  readonly apart?: number;
  /** A `Shift` for each row. */
  readonly shifts: Int8Array;
}

/** Has a tolerance that moves it; a supply's widens its window instead. */
export function isToleranced({ figures, kind }: FeedColumns, row: number): boolean {
  return figures.tolerance[row]! > 0 && KINDS[kind[row]!]!.toleranced.length > 0;
}

/** Open-circuit voltage of a supply; NaN where its window does not give it. */
export function supplyAt(feed: FeedColumns, row: number, supply: CornerSupply): number {
  return supply === "nominal" ? feed.figures.voltage[row]! : supplyWindow(feed, row)[supply];
}

const OPPOSITE = { lowest: "highest", nominal: "nominal", highest: "lowest" } as const;

/** Supplies in words: `supply lowest`, `North highest, other supplies lowest`. */
export function supplyText(
  { supply, apart }: Pick<FeedCorner, "supply" | "apart">,
  { item }: Pick<FeedColumns, "item">,
  text: (supply: CornerSupply) => string,
): string {
  return apart === undefined
    ? text(supply)
    : `${item[apart]} ${supply}, other supplies ${OPPOSITE[supply]}`;
}

/** Enters some rows as they stand in the corner. `order` holds a row behind the one that feeds it. */
export function enterCorner(
  { columns, numbers }: CompiledFeed,
  order: Int32Array,
  { supply, loads, idle, lost, apart, shifts }: FeedCorner,
): void {
  const { figures } = columns;
  for (const row of order) {
    const shift = shifts[row]!;
    const voltage =
      KINDS[columns.kind[row]!]!.equation === EQUATION.supply
        ? supplyAt(columns, row, apart === undefined || apart === row ? supply : OPPOSITE[supply])
        : figures.voltage[row] || 0;
    enterRow(
      numbers,
      columns,
      row,
      voltage,
      idle ? 0 : loadOf(columns, row, loads),
      shift === 0 ? 1 : 1 + shift * figures.tolerance[row]!,
      figures.inParallel[row]! - (row === lost ? 1 : 0),
    );
    if (idle) numbers.fixedLoss[row] = 0;
  }
}

/** The row, all that feeds it and all that it feeds, in the tree's order: what carries current where it alone draws. */
export function wayThrough(row: number, order: Int32Array, parent: Int32Array): Int32Array {
  const above = new Uint8Array(parent.length);
  for (let at = row; at !== NO_PARENT; at = parent[at]!) above[at] = 1;
  const within = new Uint8Array(parent.length);
  within[row] = 1;
  return order.filter((at) => {
    if (above[at]) return true;
    // Undefined of a row that nothing feeds.
    if (!within[parent[at]!]) return false;
    within[at] = 1;
    return true;
  });
}

/** Items that a text about a corner names before it says how many more. */
const NAMED_SHIFTS = 6;

/** In words: `supply lowest, loads peak, Cable +2 %, one of Converter lost`. */
export function cornerText(corner: FeedCorner, columns: FeedColumns): string {
  const { loads, alone, idle, lost, shifts } = corner;
  const { item, figures } = columns;
  const moved = [...shifts.keys()].filter((row) => shifts[row] !== 0);
  const named = moved.slice(0, NAMED_SHIFTS).map((row) => {
    const percent = figure(figures.tolerance[row]! * 100);
    return `${item[row]} ${shifts[row]! > 0 ? "+" : "−"}${percent} %`;
  });
  const more = moved.length - named.length;
  return [
    supplyText(corner, columns, (supply) => `supply ${supply}`),
    loadsText(loads, idle),
    ...(alone === undefined ? [] : [`${item[alone]} alone`]),
    ...named,
    ...(more > 0 ? [`${more} more`] : []),
    ...(lost === undefined ? [] : [`one of ${item[lost]} lost`]),
  ].join(", ");
}

function loadsText(loads: LoadSet, idle: boolean): string {
  if (idle) return "no load, stages off";
  return loads === "none" ? "no load" : `loads ${loads}`;
}
