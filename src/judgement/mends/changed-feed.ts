/** A feed with one figure of a row, or of rows that have it from the same cell, changed. */
import { conductorAmpacity } from "../../conductors/conductor-ampacity.js";
import { conductor } from "../../conductors/conductor.js";
import type { ConductorSize } from "../../conductors/conductor-section.js";
import { insulations } from "../../conductors/insulations.js";
import { type FeedFigure, FEED_FIGURES } from "../../network/feed-columns.js";
import type { Isolation } from "../../network/feed-item.js";
import type { DetailFigure, DetailWord, ItemDetails, JudgedFeed } from "../judged-feed.js";
import { cableInAir } from "../loaded-cable.js";
import type { Place } from "../place.js";

export type ChangedValue =
  | { readonly field: FeedFigure | DetailFigure; readonly to: number }
  | { readonly field: "size"; readonly to: ConductorSize }
  | { readonly field: "access"; readonly to: string }
  | { readonly field: "isolation"; readonly to: Isolation };

/** Figures of which no voltage or current of the feed depends, but those of a supply's window. */
const MOVES_NOTHING: ReadonlySet<string> = new Set<FeedFigure>([
  "lowestVoltage",
  "highestVoltage",
  "ratedCurrent",
  "tripVoltage",
  "rippleRms",
  "ripplePeak",
]);

const ENGINE_FIGURES: ReadonlySet<string> = new Set(FEED_FIGURES);

/** Whether the feed has to be solved anew. */
export function movesFeed(place: Place, field: string): boolean {
  if (field === "size") return true;
  if (!ENGINE_FIGURES.has(field)) return false;
  const isWindow = field === "lowestVoltage" || field === "highestVoltage";
  return !MOVES_NOTHING.has(field) || (isWindow && place.kind.role === "supply");
}

export function changedFeed(
  place: Place,
  rows: readonly number[],
  change: ChangedValue,
): JudgedFeed {
  const { feed } = place.tree;
  const { field, to } = change;
  if (isPlain(field)) return withFigure(feed, rows, field, to as number);
  return rows.reduce((changed, row) => withValue(changed, place.at(row), change), feed);
}

/** A figure of the engine that changes nothing but itself. */
function isPlain(field: string): field is FeedFigure {
  return field !== "inParallel" && ENGINE_FIGURES.has(field);
}

function withValue(feed: JudgedFeed, place: Place, change: ChangedValue): JudgedFeed {
  const { row } = place;
  switch (change.field) {
    case "size":
      return resized(feed, place, change.to);
    case "access":
      return withDetails(feed, row, {}, { access: change.to });
    case "isolation": {
      const isolation = withAt(feed.columns.isolation, row, change.to);
      return { ...feed, columns: { ...feed.columns, isolation } };
    }
    case "inParallel": {
      // Mass and price stand in the table for all of a row.
      const times = change.to / place.inParallel;
      const { mass, price } = feed.details[row]!.figures;
      const all = withFigure(feed, [row], "inParallel", change.to);
      return withDetails(all, row, {
        ...(mass !== undefined && { mass: mass * times }),
        ...(price !== undefined && { price: price * times }),
      });
    }
    default:
      return withDetails(feed, row, { [change.field]: change.to });
  }
}

/** Its ohms go with those of a metre; its outer diameter, its mass and a typed rating stay until they are typed. */
function resized(given: JudgedFeed, place: Place, size: ConductorSize): JudgedFeed {
  const { row, conductor: choice } = place;
  const feed = place.isRatedByHeat
    ? withFigure(given, [row], "ratedCurrent", ratingByHeat(place, size))
    : given;
  const part =
    conductor({ ...choice, size }).resistancePerMetre / conductor(choice).resistancePerMetre;
  const { leastResistance } = feed.details[row]!.figures;
  const ohms = withFigure(feed, [row], "resistance", feed.columns.figures.resistance[row]! * part);
  const least = leastResistance !== undefined && { leastResistance: leastResistance * part };
  const { details } = withDetails(ohms, row, { ...least });
  return { ...ohms, details: withAt(details, row, { ...details[row]!, size }) };
}

/** Of one cable, at the temperature that `CHAIN_TABLE` rates it at. @throws {InputError | NoAnswerError} */
function ratingByHeat(place: Place, size: ConductorSize): number {
  const inAir = cableInAir(place.details);
  const limit = inAir.insulation === "none" ? Infinity : insulations[inAir.insulation].usualLimitC;
  const temperatureLimitC = Math.min(place.need("conductorC"), limit);
  return conductorAmpacity({ ...inAir, size, temperatureLimitC }).current * place.coresPerPole;
}

function withFigure(
  feed: JudgedFeed,
  rows: readonly number[],
  field: FeedFigure,
  value: number,
): JudgedFeed {
  const { columns } = feed;
  const values = columns.figures[field].slice();
  for (const row of rows) values[row] = value;
  return { ...feed, columns: { ...columns, figures: { ...columns.figures, [field]: values } } };
}

function withDetails(
  feed: JudgedFeed,
  row: number,
  figures: ItemDetails["figures"],
  words: Partial<Record<DetailWord, string>> = {},
): JudgedFeed {
  const own = feed.details[row]!;
  const changed = {
    ...own,
    figures: { ...own.figures, ...figures },
    words: { ...own.words, ...words },
  };
  return { ...feed, details: withAt(feed.details, row, changed) };
}

function withAt<T>(list: readonly T[], at: number, value: T): readonly T[] {
  const changed = list.slice();
  changed[at] = value;
  return changed;
}
