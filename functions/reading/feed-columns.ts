/** The columns of a feed table that its solution reads; the whole list is that of the schedules. */
import { FEED_FIGURES, type FeedFigure } from "../../src/network/feed-columns.js";
import { headerParts } from "../../src/quantities/header-units.js";
import {
  type Column,
  REVERSE_FLOW_COLUMN,
  TABLE_COLUMNS,
  tablePlace,
} from "../../src/schedules/columns.js";

const WORDS = ["item", "fedFrom", "kind", "isolation", "reverseFlow"] as const;

export type FeedField = (typeof WORDS)[number] | FeedFigure;

const FIELDS: readonly FeedField[] = [...WORDS, ...FEED_FIGURES];

/** Columns of a feed table by the figure that they hold; the quantity decides the units that a header may name. */
export const FEED_FIELDS = Object.fromEntries(
  FIELDS.map((field): [string, Column] => [
    field,
    field === "reverseFlow" ? REVERSE_FLOW_COLUMN : TABLE_COLUMNS[tablePlace(field)]!,
  ]),
) as Readonly<Record<FeedField, Column>>;

/** Headers by field, without their units. */
export const FEED_COLUMNS = Object.fromEntries(
  FIELDS.map((field) => [field, FEED_FIELDS[field].header]),
) as Readonly<Record<FeedField, string>>;

/** A header as it is compared: without its unit in brackets, without spaces and case. */
export function plainHeader(text: string): string {
  return headerParts(text).name.replace(/\s+/g, "").toLowerCase();
}
