/** A feed in memory as the cells of a feed table, every figure in SI. */
import type { Cell, CellTable } from "../../functions/cells.js";
import { FEED_COLUMNS, type FeedField } from "../../functions/reading/feed-columns.js";
import type { FeedItem } from "../../src/network/feed-item.js";

const FIELDS = Object.keys(FEED_COLUMNS) as FeedField[];

export function feedTableOf(items: readonly FeedItem[]): CellTable {
  return [
    FIELDS.map((field): Cell => FEED_COLUMNS[field]),
    ...items.map((item) => FIELDS.map((field): Cell => item[field] ?? "")),
  ];
}
