/** The mass or the price of a feed, added up over the rows that have one. */
import { kindAt } from "../../network/feed-columns.js";
import type { FeedKind } from "../../network/feed-item.js";
import type { DetailFigure, JudgedFeed } from "../judged-feed.js";

/** Kinds of rows that have a mass or a price; of a load nobody asks it. */
const SUMMED_KINDS = {
  mass: ["run", "series", "ratio", "regulated"],
  price: ["supply", "run", "series", "ratio", "regulated"],
} as const satisfies Partial<Record<DetailFigure, readonly FeedKind[]>>;

export type SummedField = keyof typeof SUMMED_KINDS;

/** A figure added up over all rows that have one. */
export interface SummedFigure {
  /** Of the rows whose figure is known. */
  readonly total: number;
  /** Rows of the feed that are of a kind that has one. */
  readonly rows: readonly number[];
  /** Of them, those whose figure is not entered. */
  readonly missing: readonly number[];
}

export function summedFigure({ columns, details }: JudgedFeed, field: SummedField): SummedFigure {
  const kinds: readonly (FeedKind | undefined)[] = SUMMED_KINDS[field];
  const rows = details.flatMap((_, row) => (kinds.includes(kindAt(columns, row)) ? [row] : []));
  const figureOf = (row: number) => details[row]!.figures[field];
  const missing = rows.filter((row) => figureOf(row) === undefined);
  const total = rows.reduce((sum, row) => sum + (figureOf(row) ?? 0), 0);
  return { total, rows, missing };
}
