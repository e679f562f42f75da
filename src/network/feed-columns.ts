/**
 * A feed table as columns: one array for each figure, so that a large table is read and solved without an object for
 * each of its rows. `itemAt` makes the object where a working, a note or an error wants one.
 */
import type { InputError } from "../quantities/errors.js";
import {
  FEED_KINDS,
  type FeedItem,
  type FeedKind,
  type Isolation,
  type ReverseFlow,
} from "./feed-item.js";

type NumberField = {
  [Field in keyof FeedItem]-?: FeedItem[Field] extends number | undefined ? Field : never;
}[keyof FeedItem];

/** Figures of a row, in the order in which they are checked. */
export const FEED_FIGURES = [
  "voltage",
  "resistance",
  "ratio",
  "fixedLoss",
  "linearLoss",
  "quadraticLoss",
  "efficiency",
  "load",
  "lightLoad",
  "peakLoad",
  "inParallel",
  "lowestVoltage",
  "highestVoltage",
  "ratedCurrent",
  "tolerance",
  "tripVoltage",
  "rippleRms",
  "ripplePeak",
] as const satisfies readonly NumberField[];

export type FeedFigure = (typeof FEED_FIGURES)[number];

/** Does not compile while a figure of an item has no column. */
type Missing = Exclude<NumberField, FeedFigure>;
const everyFigure: Missing extends never ? true : Missing = true;
void everyFigure;

/** Kind of a row whose kind could not be read. */
export const NO_KIND = 255;

export interface FeedColumns {
  readonly count: number;
  readonly item: readonly string[];
  readonly fedFrom: readonly (string | undefined)[];
  /** Place in `FEED_KINDS`, or `NO_KIND`. */
  readonly kind: Uint8Array;
  /** Figures of one unit of each row, in SI; NaN where nothing was given. */
  readonly figures: Readonly<Record<FeedFigure, Float64Array>>;
  /** Behind the last row that has one there may be nothing. */
  readonly isolation: readonly (Isolation | undefined)[];
  readonly reverseFlow: readonly (ReverseFlow | undefined)[];
  /** Rows that could not be read, and why. */
  readonly refused: ReadonlyMap<number, InputError>;
  /** Figures of a row that were typed as 0, which they cannot be, and are taken as not given. */
  readonly zeros: ReadonlyMap<number, readonly FeedFigure[]>;
}

/** A row that could not be read; it keeps its place so that its tree is refused for it. */
export interface UnreadItem extends Pick<FeedItem, "item" | "fedFrom"> {
  readonly kind: FeedKind | undefined;
  readonly error: InputError;
}

export type FeedEntry = FeedItem | UnreadItem;

export function columnsOf(entries: readonly FeedEntry[]): FeedColumns {
  const count = entries.length;
  const figures = emptyFigures(count);
  const refused = new Map<number, InputError>();
  entries.forEach((entry, row) => {
    if ("error" in entry) {
      refused.set(row, entry.error);
      return;
    }
    for (const figure of FEED_FIGURES) figures[figure][row] = entry[figure] ?? Number.NaN;
  });
  return {
    count,
    item: entries.map(({ item }) => item),
    fedFrom: entries.map(({ fedFrom }) => fedFrom),
    kind: Uint8Array.from(entries, ({ kind }) =>
      kind === undefined ? NO_KIND : FEED_KINDS.indexOf(kind),
    ),
    figures,
    isolation: entries.map((entry) => ("error" in entry ? undefined : entry.isolation)),
    reverseFlow: entries.map((entry) => ("error" in entry ? undefined : entry.reverseFlow)),
    refused,
    zeros: new Map(),
  };
}

function emptyFigures(count: number): Record<FeedFigure, Float64Array> {
  return Object.fromEntries(FEED_FIGURES.map((figure) => [figure, notGiven(count)])) as Record<
    FeedFigure,
    Float64Array
  >;
}

/** A column in which nothing is given. */
export function notGiven(count: number): Float64Array {
  return new Float64Array(count).fill(Number.NaN);
}

/** Undefined of a row whose kind could not be read. */
export function kindAt({ kind }: FeedColumns, row: number): FeedKind | undefined {
  return FEED_KINDS[kind[row]!];
}

/** Undefined where nothing was given. */
export function figureAt(
  { figures }: FeedColumns,
  row: number,
  figure: FeedFigure,
): number | undefined {
  const value = figures[figure][row]!;
  return Number.isNaN(value) ? undefined : value;
}

/** A row that was read, as an object. */
export function itemAt(feed: FeedColumns, row: number): FeedItem {
  const figure = (name: FeedFigure) => figureAt(feed, row, name);
  return {
    item: feed.item[row]!,
    fedFrom: feed.fedFrom[row],
    kind: FEED_KINDS[feed.kind[row]!]!,
    voltage: figure("voltage"),
    resistance: figure("resistance"),
    ratio: figure("ratio"),
    fixedLoss: figure("fixedLoss"),
    linearLoss: figure("linearLoss"),
    quadraticLoss: figure("quadraticLoss"),
    efficiency: figure("efficiency"),
    load: figure("load"),
    lightLoad: figure("lightLoad"),
    peakLoad: figure("peakLoad"),
    inParallel: figure("inParallel") ?? 1,
    lowestVoltage: figure("lowestVoltage"),
    highestVoltage: figure("highestVoltage"),
    ratedCurrent: figure("ratedCurrent"),
    tolerance: figure("tolerance"),
    isolation: feed.isolation[row],
    reverseFlow: feed.reverseFlow[row],
    tripVoltage: figure("tripVoltage"),
    rippleRms: figure("rippleRms"),
    ripplePeak: figure("ripplePeak"),
  };
}

/** Every row as an object; for a feed in which no row is refused. */
export function itemsOf(feed: FeedColumns): readonly FeedItem[] {
  return Array.from({ length: feed.count }, (_, row) => itemAt(feed, row));
}
