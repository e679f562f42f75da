/** The cases that a worst-case search goes through: supply, loads, corners of the tolerances, one unit lost. */
import { figure } from "../quantities/figures.js";
import type { FeedItem } from "./feed-item.js";

export const CORNER_SUPPLIES = ["lowest", "nominal", "highest"] as const;
export const CORNER_LOADS = ["none", "light", "peak"] as const;

/** Where in its tolerance an item stands: at its lower end, as given, at its upper end. */
export type Shift = -1 | 0 | 1;

/** Up to this many toleranced items every corner is tried. */
export const MOST_FOR_EVERY_CORNER = 10;

export interface FeedCorner {
  readonly supply: (typeof CORNER_SUPPLIES)[number];
  readonly loads: (typeof CORNER_LOADS)[number];
  /** The item of which one in parallel is lost. */
  readonly lost: FeedItem | undefined;
  readonly shifts: ReadonlyMap<FeedItem, Shift>;
}

/** Has a tolerance that moves it. */
export function isToleranced({ tolerance }: FeedItem): boolean {
  return tolerance !== undefined && tolerance > 0;
}

/** Kinds whose figures have a tolerance; a supply has its window instead. */
export function canVary({ kind }: FeedItem): boolean {
  return kind !== "supply";
}

/** The item with its ratio, set point, resistance and drop, or load at an end of its tolerance. */
export function shiftedItem(item: FeedItem, shift: Shift): FeedItem {
  const factor = 1 + shift * (item.tolerance ?? 0);
  const moved = (value: number | undefined) =>
    value === undefined ? undefined : value * factor;
  switch (item.kind) {
    case "supply":
      return item;
    case "run":
      return { ...item, resistance: moved(item.resistance) };
    case "series":
      return {
        ...item,
        voltage: moved(item.voltage),
        resistance: moved(item.resistance),
      };
    case "ratio":
      return { ...item, ratio: moved(item.ratio) };
    case "regulated":
      return { ...item, voltage: moved(item.voltage) };
    default:
      return {
        ...item,
        load: moved(item.load),
        lightLoad: moved(item.lightLoad),
        peakLoad: moved(item.peakLoad),
      };
  }
}

export function withOneLost(item: FeedItem): FeedItem {
  return { ...item, inParallel: item.inParallel - 1 };
}

/** The item as it stands in the corner. */
export function itemInCorner(
  item: FeedItem,
  { lost, shifts }: FeedCorner,
): FeedItem {
  const kept = item === lost ? withOneLost(item) : item;
  return shiftedItem(kept, shifts.get(item) ?? 0);
}

/** How many corners are tried for the toleranced items. */
export type Breadth =
  "every corner" | "each alone and all together" | "all together";

/** Corners as one row of shifts each, in the order of the toleranced items. */
export function toleranceCorners(
  toleranced: readonly FeedItem[],
  breadth: Breadth,
): readonly (readonly Shift[])[] {
  const count = toleranced.length;
  if (count === 0) return [[]];
  if (breadth === "every corner")
    return Array.from({ length: 2 ** count }, (_, corner) =>
      toleranced.map((_, bit): Shift => ((corner >> bit) & 1 ? 1 : -1)),
    );
  // Together they go all one way, or each the way that lowers the voltages at the loads, and the opposite.
  const lowering = toleranced.map(({ kind }): Shift =>
    kind === "ratio" || kind === "regulated" || kind === "resistance load"
      ? -1
      : 1,
  );
  const together: readonly (readonly Shift[])[] = [
    toleranced.map(() => 1),
    toleranced.map(() => -1),
    lowering,
    lowering.map((shift): Shift => (shift === 1 ? -1 : 1)),
  ];
  if (breadth === "all together") return together;
  const alone = toleranced.flatMap((_, index) =>
    ([1, -1] as const).map((shift) =>
      toleranced.map((_, other): Shift => (other === index ? shift : 0)),
    ),
  );
  return [...together, ...alone];
}

/** Items that a text about a corner names before it says how many more. */
const NAMED_SHIFTS = 6;

/** In words: `supply lowest, loads peak, Cable +2 %, one of Converter lost`. */
export function cornerText({
  supply,
  loads,
  lost,
  shifts,
}: FeedCorner): string {
  const moved = [...shifts].filter(([, shift]) => shift !== 0);
  const named = moved
    .slice(0, NAMED_SHIFTS)
    .map(([{ item, tolerance }, shift]) => {
      const percent = figure((tolerance ?? 0) * 100);
      return `${item} ${shift > 0 ? "+" : "−"}${percent} %`;
    });
  const more = moved.length - named.length;
  return [
    `supply ${supply}`,
    loads === "none" ? "no load" : `loads ${loads}`,
    ...named,
    ...(more > 0 ? [`${more} more`] : []),
    ...(lost ? [`one of ${lost.item} lost`] : []),
  ].join(", ");
}
