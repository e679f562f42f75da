/**
 * Which corners a worst-case search tries. Those of each row's own hold the extremes that `worst-bounds.ts` proves; the
 * others stand beside them for rows of which nothing is proven.
 */
import { NO_PARENT } from "./feed-state.js";
import type { CompiledFeed } from "./compiled-feed.js";
import type { FeedColumns } from "./feed-columns.js";
import { type LoadSet, loadOf } from "./feed-conditions.js";
import {
  type CornerSupply,
  type FeedCorner,
  isToleranced,
  type Shift,
  wayThrough,
} from "./feed-corner.js";
import { EQUATION, KINDS } from "./row-kinds.js";

/** A corner, and the rows that carry current in it, each behind the one that feeds it. */
export interface TriedCorner {
  readonly corner: FeedCorner;
  readonly order: Int32Array;
}

/** A tree with a set of loads. */
export interface LoadedTree {
  readonly order: Int32Array;
  readonly feed: CompiledFeed;
  readonly loads: LoadSet;
  readonly lost: number | undefined;
  /** By row: the end of its tolerance at which the feed draws more. */
  readonly drawsMore: Int8Array;
}

interface Place extends LoadedTree {
  readonly supply: CornerSupply;
  /** Rows that have corners of their own; every row where it is left out. */
  readonly own?: ReadonlySet<number>;
}

/** Nothing draws and nothing drops, ratios and set points at their upper end: the highest voltage of every row. */
export function idleCorner(
  order: Int32Array,
  { columns }: CompiledFeed,
  supply: CornerSupply,
): FeedCorner {
  const shifts = new Int8Array(columns.count);
  for (const row of order) if (isToleranced(columns, row)) shifts[row] = whenIdle(columns, row);
  return {
    supply,
    loads: "none",
    alone: undefined,
    idle: true,
    lost: undefined,
    shifts,
  };
}

function whenIdle({ kind }: FeedColumns, row: number): Shift {
  return KINDS[kind[row]!]!.role === "stage" ? 1 : 0;
}

/** Everything draws at its most. */
export function heaviestCorner(place: Place): FeedCorner {
  return cornerAt(place, drawnMost(place), undefined);
}

function drawnMost({ order, feed: { columns }, drawsMore }: Place): Int8Array {
  const shifts = new Int8Array(columns.count);
  for (const row of order) if (isToleranced(columns, row)) shifts[row] = drawsMore[row]!;
  return shifts;
}

/**
 * Everything draws at its most, and what stands between the supply and one row lowers its voltage: of each row its
 * lowest voltage, and the highest current and loss of a row whose current rises as its voltage falls. Not again the
 * heaviest corner.
 */
export function* lowCorners(place: Place): Generator<FeedCorner> {
  const { order, feed, own: owners } = place;
  const { columns } = feed;
  const most = drawnMost(place);
  const tried = new Set([most.join()]);
  for (const row of order) {
    if (!isToleranced(columns, row) || isLoad(columns, row)) continue;
    if (owners && !owners.has(row)) continue;
    const shifts = most.slice();
    enterWay(shifts, row, feed, lowering);
    for (const own of [-1, 1] as const) {
      shifts[row] = own;
      const key = shifts.join();
      if (tried.has(key)) continue;
      tried.add(key);
      yield cornerAt(place, shifts.slice(), undefined);
    }
  }
}

/**
 * One row draws alone, at its most and on the highest supply: the highest current and loss of a row whose current
 * rises with its voltage, as a heater's does where the other loads are off.
 */
export function* aloneCorners(place: Place): Generator<TriedCorner> {
  const { order, feed, loads, drawsMore, own: owners } = place;
  const { columns, parent } = feed;
  for (const row of rowsThatRise(order, feed, loads)) {
    if (owners && !owners.has(row)) continue;
    const way = wayThrough(row, order, parent);
    const shifts = new Int8Array(columns.count);
    for (const at of way) if (isToleranced(columns, at)) shifts[at] = drawsMore[at]!;
    enterWay(shifts, row, feed, (equation) => -lowering(equation) as Shift);
    const varies = isToleranced(columns, row) && !isLoad(columns, row);
    for (const own of varies ? ([-1, 1] as const) : [shifts[row] as Shift]) {
      shifts[row] = own;
      yield { corner: cornerAt(place, shifts.slice(), row), order: way };
    }
  }
}

function cornerAt(
  { loads, lost, supply }: Place,
  shifts: Int8Array,
  alone: number | undefined,
): FeedCorner {
  return { supply, loads, alone, idle: false, lost, shifts };
}

function isLoad({ kind }: FeedColumns, row: number): boolean {
  return KINDS[kind[row]!]!.role === "load";
}

/** Shifts of the rows between the supply and a row, without it. */
function enterWay(
  shifts: Int8Array,
  row: number,
  { columns, parent }: CompiledFeed,
  shiftOf: (equation: number) => Shift,
): void {
  for (let at = parent[row]!; at !== NO_PARENT; at = parent[at]!)
    if (isToleranced(columns, at)) shifts[at] = shiftOf(KINDS[columns.kind[at]!]!.equation);
}

/** The end of a tolerance that lowers the voltage of all that a row feeds. */
function lowering(equation: number): Shift {
  return equation === EQUATION.line ? 1 : -1;
}

/** Rows that feed a resistance, not through a regulated stage, so that their current may rise with their voltage. */
function rowsThatRise(
  order: Int32Array,
  { columns, parent }: CompiledFeed,
  loads: LoadSet,
): Int32Array {
  const rises = new Uint8Array(columns.count);
  for (let index = order.length - 1; index >= 0; index--) {
    const row = order[index]!;
    const { equation } = KINDS[columns.kind[row]!]!;
    if (equation === EQUATION.conductance) rises[row] = loadOf(columns, row, loads) > 0 ? 1 : 0;
    const feeding = parent[row]!;
    // A regulated stage's own output current may rise; what it draws does not.
    if (feeding !== NO_PARENT && rises[row] === 1 && equation !== EQUATION.regulated)
      rises[feeding] = 1;
  }
  return order.filter((row) => rises[row] === 1);
}

/** Up to this many toleranced rows every corner is tried beside each row's own. */
export const MOST_FOR_EVERY_CORNER = 6;

/** Up to this many where currents have more than one way, as far as the number of cases allows it. */
const MOST_FOR_EVERY_MESH_CORNER = 10;

/** Corners of a mesh that are tried however many rows it has. */
const FEW_MESH_CORNERS = 64;

/**
 * Corners of a mesh: every one where tolerances are few; otherwise all one way, and each one against all others, as far as
 * `most` allows. The current of a branch does not move at all where every resistance scales, and most where they part.
 */
export function meshShifts(
  order: Int32Array,
  { columns }: CompiledFeed,
  most: number,
): readonly Int8Array[] {
  const toleranced = [...order].filter((row) => isToleranced(columns, row));
  const corner = (shiftOf: (at: number) => number) => {
    const shifts = new Int8Array(columns.count);
    toleranced.forEach((row, at) => (shifts[row] = shiftOf(at)));
    return shifts;
  };
  const corners = 2 ** toleranced.length;
  const allowed = Math.max(most, FEW_MESH_CORNERS);
  if (toleranced.length <= MOST_FOR_EVERY_MESH_CORNER && corners <= allowed)
    return Array.from({ length: corners }, (_, bits) =>
      corner((at) => ((bits >> at) & 1 ? 1 : -1)),
    );
  return ([1, -1] as const).flatMap((all) => [
    corner(() => all),
    ...(2 * toleranced.length <= allowed
      ? toleranced.map((_, one) => corner((at) => (at === one ? -all : all)))
      : []),
  ]);
}

/** Every corner of the tolerances, or all of them one way, the other way, and each the way that draws more or less. */
export function togetherShifts(
  order: Int32Array,
  { columns }: CompiledFeed,
  drawsMore: Int8Array,
  every: boolean,
): readonly Int8Array[] {
  const toleranced = [...order].filter((row) => isToleranced(columns, row));
  const corner = (shiftOf: (row: number, at: number) => number) => {
    const shifts = new Int8Array(columns.count);
    toleranced.forEach((row, at) => (shifts[row] = shiftOf(row, at)));
    return shifts;
  };
  if (toleranced.length === 0) return [corner(() => 0)];
  if (every)
    return Array.from({ length: 2 ** toleranced.length }, (_, bits) =>
      corner((_, at) => ((bits >> at) & 1 ? 1 : -1)),
    );
  return [
    corner(() => 1),
    corner(() => -1),
    corner((row) => drawsMore[row]!),
    corner((row) => -drawsMore[row]!),
  ];
}
