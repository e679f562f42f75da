/** Results of a feed of which pictures show what varies them, asked of the budget's own feed table by cell functions. */
import { SLOPE_ONLY } from "../../../functions/families/chain-tornado.js";
import { type Cell, type CellTable, evaluate } from "../../../functions/downfeed.js";
import type { SUMMED_QUANTITIES } from "../../../src/sensitivity/feed-quantities.js";
import { calledTable, numberOf, rangeRows } from "../../budgets/reading/range-table.js";
import type { FoundBudget, ReadRange } from "../../budgets/reading/found-budget.js";
import { MARGIN_FORMAT } from "../../budgets/formats.js";
import { words } from "../../words/words.js";
import { kilograms, percent, plainFigure, watts } from "../parts/figures.js";
import type { Picture, PictureOffer } from "../parts/picture.js";

type SummedQuantity = (typeof SUMMED_QUANTITIES)[number];

export interface PicturedResult {
  /** As the functions call it. */
  readonly quantity: "loss" | "lowest margin" | SummedQuantity;
  readonly title: string;
  readonly told: (value: number) => string;
  /** Number format as a spreadsheet writes it. */
  readonly format: string;
  /** Below it the result fails. */
  readonly limit?: number;
}

/** What every feed has. */
export const PICTURED_RESULTS: readonly PicturedResult[] = [
  { quantity: "loss", title: words.pictures.results.loss, told: watts, format: "0.0" },
  {
    quantity: "lowest margin",
    title: words.pictures.results.margin,
    told: percent,
    format: MARGIN_FORMAT,
    limit: 0,
  },
];

/** Sums, of which nothing varies but what Spread names. */
const SUMMED_RESULTS: readonly (PicturedResult & { readonly quantity: SummedQuantity })[] = [
  { quantity: "mass", title: words.pictures.results.mass, told: kilograms, format: "0.0" },
  { quantity: "price", title: words.pictures.results.price, told: plainFigure, format: "0.00" },
];

function picturedResults(spread: ReadRange | undefined): readonly PicturedResult[] {
  const named = spread ? rangeRows(spread).map((row) => String(row.value("Column"))) : [];
  const isNamed = ({ quantity }: { readonly quantity: SummedQuantity }) =>
    named.some((column) => column.trim().toLowerCase() === quantity);
  return [...PICTURED_RESULTS, ...SUMMED_RESULTS.filter(isNamed)];
}

/** Of figures of very different sizes: watts, volts and parts of a rating. In the first section a figure keeps its sign. */
export const FIGURE_FORMAT = "[<1]0.0000;[>=100]0.0;0.00";

/** The functions solve the feed at these, whatever the sheet is solved for. */
export const AT_NOMINAL = words.pictures.solvedFor("nominal", undefined);

/** Below the headers, as records by header. */
export type AnswerRows = readonly ReadonlyMap<string, Cell>[];

export interface ResultAnswer {
  readonly result: PicturedResult;
  /** Undefined where the function has no answer. */
  readonly rows: AnswerRows | undefined;
  /** Why it has none. */
  readonly refused?: string;
}

type AnsweringFunction = "CHAIN_TORNADO" | "CHAIN_UNCERTAINTY";

/** Of each result, with what the budget's Spread says; none where there is no feed table. */
export function resultAnswers(
  id: AnsweringFunction,
  { ranges }: Pick<FoundBudget, "ranges">,
): readonly ResultAnswer[] {
  const { Feed: feed, Spread: spread } = ranges;
  if (!feed) return [];
  const varied = spread ? calledTable(spread) : null;
  return picturedResults(spread).map((result): ResultAnswer => {
    const outcome = evaluate(id, [calledTable(feed), result.quantity, null, varied]);
    if (!outcome.ok) return { result, rows: undefined, refused: outcome.message };
    return { result, rows: answerRows(outcome.value as CellTable) };
  });
}

/** A picture of each result that the function answers; why there is none where it answers for none. */
export function resultPictures(
  id: AnsweringFunction,
  budget: Pick<FoundBudget, "ranges">,
  pictureOf: (rows: AnswerRows, result: PicturedResult) => Picture | undefined,
): Pick<PictureOffer, "variants" | "missing"> {
  const answers = resultAnswers(id, budget);
  const variants = answers.flatMap(({ result, rows }) => {
    const picture = rows && pictureOf(rows, result);
    return picture ? [{ name: result.title, picture }] : [];
  });
  const [why] = answers.flatMap(({ refused }) => refused ?? []);
  return { variants, ...(why !== undefined && { missing: words.pictures.missing[id](why) }) };
}

function answerRows([headers = [], ...rows]: CellTable): AnswerRows {
  return rows.map((row) => new Map(headers.map((header, at) => [String(header), row[at] ?? ""])));
}

/** Inputs of a tornado that have ends; the others have a slope only. */
export function varyingInputs(rows: AnswerRows): AnswerRows {
  return rows.filter((row) => row.get("Note") !== SLOPE_ONLY);
}

/** Undefined where there is no number. */
export function numberAt(row: ReadonlyMap<string, Cell>, header: string): number | undefined {
  const value = row.get(header);
  return typeof value === "number" || typeof value === "string" ? numberOf(value) : undefined;
}
