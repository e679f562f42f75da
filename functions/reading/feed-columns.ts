import type { FeedItem } from "../../src/network/feed-item.js";
import {
  type HeaderQuantity,
  headerParts,
} from "../../src/quantities/header-units.js";

interface FeedColumn {
  readonly header: string;
  /** Decides the units that its header may name. */
  readonly quantity: HeaderQuantity;
}

/** Columns of a feed table by the figure that they hold. */
export const FEED_FIELDS = {
  item: { header: "Item", quantity: "words" },
  fedFrom: { header: "Fed from", quantity: "words" },
  kind: { header: "Kind", quantity: "words" },
  voltage: { header: "Voltage", quantity: "voltage" },
  resistance: { header: "Resistance", quantity: "resistance" },
  ratio: { header: "Ratio", quantity: "number" },
  fixedLoss: { header: "Fixed loss", quantity: "power" },
  linearLoss: { header: "Linear loss", quantity: "loss for each ampere" },
  quadraticLoss: {
    header: "Quadratic loss",
    quantity: "loss for each square ampere",
  },
  efficiency: { header: "Efficiency", quantity: "fraction" },
  load: { header: "Load", quantity: "load" },
  lightLoad: { header: "Light load", quantity: "load" },
  peakLoad: { header: "Peak load", quantity: "load" },
  inParallel: { header: "In parallel", quantity: "number" },
  lowestVoltage: { header: "Lowest V", quantity: "voltage" },
  highestVoltage: { header: "Highest V", quantity: "voltage" },
  ratedCurrent: { header: "Rated A", quantity: "current" },
  tolerance: { header: "Tolerance", quantity: "fraction" },
  isolation: { header: "Isolation", quantity: "words" },
  tripVoltage: { header: "Trip V", quantity: "voltage" },
  rippleRms: { header: "Ripple V rms", quantity: "voltage" },
  ripplePeak: { header: "Ripple V peak", quantity: "voltage" },
} as const satisfies Readonly<Record<keyof FeedItem, FeedColumn>>;

export type FeedField = keyof typeof FEED_FIELDS;

/** Headers by field. */
export const FEED_COLUMNS = Object.fromEntries(
  Object.entries(FEED_FIELDS).map(([field, { header }]) => [field, header]),
) as { readonly [Field in FeedField]: (typeof FEED_FIELDS)[Field]["header"] };

/** A header as it is compared: without its unit in brackets, without spaces and case. */
export function plainHeader(text: string): string {
  return headerParts(text).name.replace(/\s+/g, "").toLowerCase();
}
