/** What a row needs and allows, checked before anything is computed from it. */
import { InputError, requireAbove, requireWhole } from "../quantities/errors.js";
import { type FeedColumns, type FeedFigure, kindAt } from "./feed-columns.js";
import { KINDS, type RowKind } from "./row-kinds.js";

/** Throws an InputError that names a figure of the row. */
export type RowCheck = (row: number) => void;

/** Made once for a feed: which columns a kind reads is not looked up again at each of its rows. */
export function rowCheck(feed: FeedColumns): RowCheck {
  const { figures } = feed;
  const readByKind = READ.map((): readonly Read[] | undefined => undefined);
  return (row) => {
    requireRatings(figures, row);
    const place = feed.kind[row]!;
    const read = (readByKind[place] ??= READ[place]!.map(([figure, { bound, needed }]) => ({
      figure,
      bound,
      needed,
      column: figures[figure],
    })));
    for (let index = 0; index < read.length; index++) {
      const { figure, bound, needed, column } = read[index]!;
      const value = column[row]!;
      if (!Number.isNaN(value)) bound(figure, value);
      else if (needed) throw new InputError(figure, null, `given for a ${kindAt(feed, row)} row`);
    }
    KINDS[place]!.between?.(feed, row);
  };
}

/** A figure that a kind reads, with its column in a feed. */
interface Read {
  readonly figure: FeedFigure;
  readonly bound: ReadFigure["bound"];
  readonly needed: ReadFigure["needed"] | undefined;
  readonly column: Float64Array;
}

type ReadFigure = NonNullable<RowKind["figures"][FeedFigure]>;

/** By the place of the kind in `FEED_KINDS`. */
const READ = KINDS.map(({ figures }) => Object.entries(figures)) as readonly (readonly [
  FeedFigure,
  ReadFigure,
])[][];

/** Refuses ratings that no row of any kind can have. */
function requireRatings(figures: FeedColumns["figures"], row: number): void {
  requireWhole("inParallel", figures.inParallel[row]!, 1);
  const lowest = figures.lowestVoltage[row]!;
  const highest = figures.highestVoltage[row]!;
  if (!Number.isNaN(lowest)) requireAbove("lowestVoltage", lowest, 0);
  if (!Number.isNaN(highest))
    requireAbove("highestVoltage", highest, Number.isNaN(lowest) ? 0 : lowest);
  const rated = figures.ratedCurrent[row]!;
  if (!Number.isNaN(rated)) requireAbove("ratedCurrent", rated, 0);
  const trip = figures.tripVoltage[row]!;
  if (!Number.isNaN(trip)) requireAbove("tripVoltage", trip, 0);
  const tolerance = figures.tolerance[row]!;
  if (tolerance < 0 || tolerance >= 1)
    throw new InputError("tolerance", tolerance, "0 or more and below 1, a fraction");
}
