/**
 * A sheet of two results: what moves each, and how far it spreads over the tolerances. Its formulas follow the feed, so
 * that a large one is slower to edit while the sheet is there; it is no part of the budget, and is made when it is wanted.
 */
import { TORNADO_COLUMNS } from "../../../functions/families/chain-tornado.js";
import { UNCERTAINTY_COLUMNS } from "../../../functions/families/chain-spread.js";
import { FEED_QUANTITIES } from "../../../src/sensitivity/feed-quantities.js";
import { CASE_LOADS, CASE_SUPPLIES } from "../../../src/network/feed-cases.js";
import { call, fixedAt, range, valueCell } from "../../../src/plans/sheet-builder.js";
import type { PlanCell, PlanValidation, WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import type { FoundBudget, ReadRange } from "../../budgets/reading/found-budget.js";
import { enteredCell } from "../../budgets/block.js";
import { Spill } from "../../budgets/spill.js";
import { rangeText } from "../../formula-reading/argument-text.js";
import { words } from "../../words/words.js";
import { FIGURE_FORMAT, PICTURED_RESULTS, type PicturedResult } from "./spread-figures.js";

const said = words.pictures.matters;

const CASE_ROW = 5;
const ASKED_ROW = 8;
const SPREAD_ROW = 11;
/** Rows of the function below its headers: it has as many whatever varies. */
const FIGURES = 15;
const TORNADO_ROW = SPREAD_ROW + FIGURES + 3;
/** Inputs that look like a table at first; a spill may be longer. */
const INPUTS = 12;

const BETWEEN = 1;
const WIDTH = TORNADO_COLUMNS.length + BETWEEN;
const WIDTHS = [250, 96, 70, 250, 96, 96, 96, 96, 80, 420, 30];

const WORDS: readonly string[] = ["Figure", "Input", "Unit", "Note", "Slope unit"];

/** Undefined where the budget has no feed table. */
export function mattersPlan(
  { ranges }: Pick<FoundBudget, "ranges">,
  budgetTitle: string,
): WorkbookPlan | undefined {
  const { Feed: feed, Spread: spread } = ranges;
  if (!feed) return undefined;
  const halves = PICTURED_RESULTS.map((result, index) => half(result, index * WIDTH, feed, spread));
  return {
    id: "matters",
    title: `${budgetTitle}: ${said.title}`,
    stem: "Matters",
    names: [],
    sheets: [
      {
        key: "matters",
        name: said.title,
        columnWidths: PICTURED_RESULTS.flatMap(() => WIDTHS),
        frozenRows: 3,
        frozenColumns: 1,
        cells: [
          valueCell(0, 1, `${budgetTitle}: ${said.title.toLowerCase()}`, "title"),
          valueCell(0, 2, said.about, "subtitle"),
          valueCell(0, 3, said.limits, "subtitle"),
          ...asked(0, CASE_ROW, "Loads", "nominal"),
          ...asked(0, CASE_ROW + 1, "Supply", "nominal"),
          ...halves.flatMap(({ cells }) => cells),
        ],
        merges: [],
        validations: [
          listed(1, CASE_ROW, "Loads", CASE_LOADS),
          listed(1, CASE_ROW + 1, "Supply", CASE_SUPPLIES),
          ...halves.flatMap(({ validations }) => validations),
        ],
        conditionalFormats: [],
        pictures: [],
      },
    ],
  };
}

function half(
  { quantity }: PicturedResult,
  left: number,
  feed: ReadRange,
  spread: ReadRange | undefined,
): { readonly cells: readonly PlanCell[]; readonly validations: readonly PlanValidation[] } {
  const [result, item] = [fixedAt(left + 1, ASKED_ROW), fixedAt(left + 1, ASKED_ROW + 1)];
  const [loads, supply] = [fixedAt(1, CASE_ROW), fixedAt(1, CASE_ROW + 1)];
  const varied = [rangeText(feed), result, item, spread ? rangeText(spread) : ""];
  const spilled = (row: number, columns: readonly string[], count: number) =>
    new Spill("matters", row, columns.map(withFormat), count, left);
  const figures = spilled(SPREAD_ROW, UNCERTAINTY_COLUMNS, FIGURES);
  const inputs = spilled(TORNADO_ROW, TORNADO_COLUMNS, INPUTS);
  return {
    cells: [
      ...asked(left, ASKED_ROW, "Result", quantity),
      ...asked(left, ASKED_ROW + 1, "Item (empty: whole feed)", ""),
      // It never grows: the anchor, its headings and its figures.
      ...figures
        .cells(call("CHAIN_UNCERTAINTY", ...varied, "", "", loads, supply))
        .slice(0, figures.width * (FIGURES + 1)),
      ...inputs.cells(call("CHAIN_TORNADO", ...varied, loads, supply)),
    ],
    validations: [listed(left + 1, ASKED_ROW, "Result", FEED_QUANTITIES)],
  };
}

function withFormat(heading: string) {
  if (WORDS.includes(heading)) return { heading };
  return { heading, format: heading === "Share of samples" ? "0.0%" : FIGURE_FORMAT };
}

function asked(left: number, row: number, label: string, value: string): PlanCell[] {
  return [valueCell(left, row, label, "label"), enteredCell(left + 1, row, value, "inputText")];
}

function listed(
  column: number,
  row: number,
  label: string,
  values: readonly string[],
): PlanValidation {
  return {
    kind: "list",
    values,
    range: range(column, row, column, row),
    message: `${label}: one of ${values.join(", ")}`,
  };
}
