import type { FeedItem } from "../../src/network/feed-item.js";

/** Columns of a feed table by the figure that they hold; headers are compared without case and unit. */
export const FEED_COLUMNS = {
  item: "Item",
  fedFrom: "Fed from",
  kind: "Kind",
  voltage: "Voltage",
  resistance: "Resistance",
  ratio: "Ratio",
  fixedLoss: "Fixed loss",
  linearLoss: "Linear loss",
  quadraticLoss: "Quadratic loss",
  efficiency: "Efficiency",
  load: "Load",
  lightLoad: "Light load",
  peakLoad: "Peak load",
  inParallel: "In parallel",
  lowestVoltage: "Lowest V",
  highestVoltage: "Highest V",
  ratedCurrent: "Rated A",
  tolerance: "Tolerance",
  isolation: "Isolation",
  tripVoltage: "Trip V",
} as const satisfies Readonly<Record<keyof FeedItem, string>>;

export type FeedField = keyof typeof FEED_COLUMNS;

/** A header as it is compared: a trailing unit in brackets dropped, single spaces, without case. */
export function plainHeader(text: string): string {
  return text
    .replace(/\s*(\([^()]*\)|\[[^[\]]*\])\s*$/, "")
    .trim()
    .replace(/\s+/g, " ")
    .toLowerCase();
}
