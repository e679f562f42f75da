/** Results of a feed of which pictures show what varies them, asked of the budget's own feed table by cell functions. */
import { type Cell, evaluate, isCellTable } from "../../../functions/downfeed.js";
import { calledTable, numberOf } from "../../budgets/reading/range-table.js";
import type { ReadRange } from "../../budgets/reading/found-budget.js";
import { words } from "../../words/words.js";
import { percent, watts } from "../parts/figures.js";

export interface PicturedResult {
  /** As the functions call it. */
  readonly quantity: "loss" | "lowest margin";
  readonly title: string;
  readonly told: (value: number) => string;
  /** Number format as a spreadsheet writes it. */
  readonly format: string;
  /** Below it the result fails. */
  readonly limit?: number;
}

export const PICTURED_RESULTS: readonly PicturedResult[] = [
  { quantity: "loss", title: words.pictures.results.loss, told: watts, format: "0.0" },
  {
    quantity: "lowest margin",
    title: words.pictures.results.margin,
    told: percent,
    format: "0.0%",
    limit: 0,
  },
];

/** The functions solve the feed at these, whatever the sheet is solved for. */
export const AT_NOMINAL = words.pictures.solvedFor("nominal", undefined);

/** Rows below the headers, as records by header; undefined where the function has no answer. */
export function answeredRows(
  id: "CHAIN_TORNADO" | "CHAIN_UNCERTAINTY",
  feed: ReadRange,
  quantity: string,
): readonly ReadonlyMap<string, Cell>[] | undefined {
  const outcome = evaluate(id, [calledTable(feed), quantity]);
  if (!outcome.ok || !isCellTable(outcome.value)) return undefined;
  const [headers = [], ...rows] = outcome.value;
  return rows.map((row) => new Map(headers.map((header, at) => [String(header), row[at] ?? ""])));
}

/** Undefined where there is no number. */
export function numberAt(row: ReadonlyMap<string, Cell>, header: string): number | undefined {
  const value = row.get(header);
  return typeof value === "number" || typeof value === "string" ? numberOf(value) : undefined;
}
