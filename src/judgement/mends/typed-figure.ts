/** A figure as people type it: in the unit of its column, of one, with its margin taken off. */
import type { FeedFigure } from "../../network/feed-columns.js";
import { figureFromSi, figureInSi, type HeaderQuantity } from "../../quantities/header-units.js";
import { ownUnitInSi, tableHeader } from "../../schedules/columns.js";
import type { DetailFigure } from "../judged-feed.js";
import type { Place } from "../place.js";

export interface TypedFigure {
  /** "" where it has none. */
  readonly unit: string;
  /** Typed as the inverse of what the feed table has. */
  readonly isInverse: boolean;
  readonly fromSi: (value: number) => number;
  readonly inSi: (typed: number) => number;
}

/** Of columns whose name holds their unit. */
const UNITS: Readonly<Partial<Record<HeaderQuantity, string>>> = {
  voltage: "V",
  current: "A",
  power: "W",
  time: "s",
};

const LOADS: ReadonlySet<string> = new Set<FeedFigure>(["load", "lightLoad", "peakLoad"]);

const LOAD_UNITS: Readonly<Record<string, string>> = { "power load": "W", "current load": "A" };

export function typedFigure(place: Place, field: FeedFigure | DetailFigure): TypedFigure {
  const column = place.column(field)!;
  const toSi = ownUnitInSi(column);
  const times = rowOverTyped(place, field);
  const isInverse = field === "ratio" && place.header(field) !== tableHeader(field);
  return {
    unit: LOADS.has(field)
      ? (LOAD_UNITS[place.kindName] ?? "")
      : column.unit || (field === "price" ? place.currency : (UNITS[column.quantity] ?? "")),
    isInverse,
    fromSi: (value) => (isInverse ? 1 / value : figureFromSi(value / times, toSi)),
    inSi: (typed) => (isInverse ? 1 / typed : figureInSi(typed, toSi) * times),
  };
}

/** What the feed table's figure is of the typed one. */
function rowOverTyped(place: Place, field: string): number {
  if (place.word("block") === undefined) return 1;
  if (LOADS.has(field))
    return (place.figure("quantity") ?? 1) * (1 + (place.figure("margin") ?? 0));
  if (field === "capacitance" && place.kind.role === "load") return place.figure("quantity") ?? 1;
  if (field !== "mass" && field !== "price") return 1;
  return place.inParallel * (place.isCable ? (place.figure("length") ?? 1) : 1);
}
