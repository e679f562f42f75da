/** What a row needs and allows, checked before anything is computed from it. */
import {
  InputError,
  requireAbove,
  requireWhole,
} from "../quantities/errors.js";
import { type FeedColumns, type FeedFigure, kindAt } from "./feed-columns.js";
import { KINDS, type RowKind } from "./row-kinds.js";

/** @throws {InputError} naming a figure of the row. */
export function requireRow(feed: FeedColumns, row: number): void {
  const { figures } = feed;
  requireWhole("inParallel", figures.inParallel[row]!, 1);
  const lowest = figures.lowestVoltage[row]!;
  const highest = figures.highestVoltage[row]!;
  if (!Number.isNaN(lowest)) requireAbove("lowestVoltage", lowest, 0);
  if (!Number.isNaN(highest))
    requireAbove("highestVoltage", highest, Number.isNaN(lowest) ? 0 : lowest);
  requireAboveZeroIfGiven(feed, row, "ratedCurrent");
  requireAboveZeroIfGiven(feed, row, "tripVoltage");
  const tolerance = figures.tolerance[row]!;
  if (tolerance < 0 || tolerance >= 1)
    throw new InputError(
      "tolerance",
      tolerance,
      "0 or more and below 1, a fraction",
    );
  const place = feed.kind[row]!;
  const read = READ[place]!;
  for (let index = 0; index < read.length; index++) {
    const [figure, { bound, needed }] = read[index]!;
    const value = figures[figure][row]!;
    if (!Number.isNaN(value)) bound(figure, value);
    else if (needed)
      throw new InputError(
        figure,
        null,
        `given for a ${kindAt(feed, row)} row`,
      );
  }
  KINDS[place]!.between?.(feed, row);
}

type ReadFigure = NonNullable<RowKind["figures"][FeedFigure]>;

/** By the place of the kind in `FEED_KINDS`; made once, since a large table has many rows. */
const READ = KINDS.map(({ figures }) =>
  Object.entries(figures),
) as readonly (readonly [FeedFigure, ReadFigure])[][];

function requireAboveZeroIfGiven(
  { figures }: FeedColumns,
  row: number,
  figure: FeedFigure,
): void {
  const value = figures[figure][row]!;
  if (!Number.isNaN(value)) requireAbove(figure, value, 0);
}
