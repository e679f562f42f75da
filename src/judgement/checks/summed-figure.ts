/** The mass or the price of a feed, added up over the rows that have one. */
import { KINDS, type SummedField } from "../../network/row-kinds.js";
import type { JudgedFeed } from "../judged-feed.js";

/** A figure added up over all rows that have one. */
export interface SummedFigure {
  /** Sum over the rows whose figure is known. */
  readonly total: number;
  /** Rows of the feed that are of a kind that has one. */
  readonly rows: readonly number[];
  /** Those of `rows` whose figure is not entered. */
  readonly missing: readonly number[];
}

export function summedFigure({ columns, details }: JudgedFeed, field: SummedField): SummedFigure {
  const rows = details.flatMap((_, row) =>
    KINDS[columns.kind[row]!]?.summed.includes(field) ? [row] : [],
  );
  const figureOf = (row: number) => details[row]!.figures[field];
  const missing = rows.filter((row) => figureOf(row) === undefined);
  const total = rows.reduce((sum, row) => sum + (figureOf(row) ?? 0), 0);
  return { total, rows, missing };
}
