/** What each item gives off as heat over the day: its loss in every period, the mean of it, and the highest. */
import { ROW_KINDS } from "../network/row-kinds.js";
import type { PlanCell } from "../plans/sheet-plan.js";
import {
  at,
  fixedArea,
  fixedAt,
  formulaCell,
  headingRow,
  valueCell,
} from "../plans/sheet-builder.js";
import { feedColumnAt } from "./budget-columns.js";
import type { BudgetLayout } from "./budget-layout.js";
import type { FeedRowPlan } from "./budget-scenario.js";
import {
  dayAt,
  dayColumnArea,
  daySolvedArea,
  HEAT_HEAD,
  heatTotal,
  PERIODS,
} from "./day-layout.js";
import { inShownRow, isReady } from "./typed-feed.js";

const NOT_SOLVED = '"not solved"';

/** Item, kind, one column for each period, then these. */
const FIRST_PERIOD = 2;
const MEAN = FIRST_PERIOD + PERIODS.length;
const HIGHEST = MEAN + 1;
const WHEN = MEAN + 2;
const HEAT = MEAN + 3;
const LAST = HEAT;

const WATTS = { format: "0.00" };
const WATT_HOURS = { format: "0.0" };

/** Rows of the feed, from 0, that turn power into heat: all but the loads, and every row that is still to be typed. */
export function heatingRows(
  { items, typed }: BudgetLayout,
  feed: readonly FeedRowPlan[],
): readonly number[] {
  if (typed) return items.map((_, index) => index);
  return feed.flatMap(({ kind }, index) =>
    ROW_KINDS[kind].role === "load" ? [] : [index],
  );
}

export function heatCells(
  layout: BudgetLayout,
  heating: readonly number[],
): PlanCell[] {
  return [
    valueCell(0, HEAT_HEAD - 1, "Where the heat is given off", "heading"),
    ...headingRow(0, HEAT_HEAD, ["Item", "Kind"]),
    ...PERIODS.map((period) =>
      formulaCell(
        FIRST_PERIOD + period,
        HEAT_HEAD,
        `${dayAt("period", period)}&" (W)"`,
        "tableHeading",
      ),
    ),
    ...headingRow(MEAN, HEAT_HEAD, [
      "Mean of the day (W)",
      "Highest (W)",
      "In the period",
      "Heat in the day (Wh)",
    ]),
    ...heating.flatMap((row, index) =>
      rowCells(layout, heating.length, row, HEAT_HEAD + 1 + index),
    ),
    ...totalCells(heating.length),
  ];
}

function rowCells(
  layout: BudgetLayout,
  heatRows: number,
  feedRow: number,
  line: number,
): PlanCell[] {
  const feedLine = layout.feedHead + 1 + feedRow;
  const entered = (key: "item" | "kind") =>
    `{budget}!$${at(feedColumnAt(key), feedLine)}`;
  const own = (column: number) => `$${at(column, line)}`;
  const item = own(0);
  const losses = `${own(FIRST_PERIOD)}:${own(MEAN - 1)}`;
  const shown = (
    column: number,
    formula: string,
    look: { readonly format: string },
  ) =>
    formulaCell(
      column,
      line,
      inShownRow(layout, item, formula),
      "result",
      look,
    );
  const lossIn = (period: number) =>
    `IF(${dayAt("hours", period)}=0,0,IF(ISNUMBER(${dayAt("loss", period)}),IFERROR(INDEX(${daySolvedArea(layout, heatRows, period, "Loss W")},MATCH(${item},${daySolvedArea(layout, heatRows, period, "Item")},0))+0,${NOT_SOLVED}),${NOT_SOLVED}))`;
  const heat = PERIODS.map(
    (period) => `${own(FIRST_PERIOD + period)}*${dayAt("hours", period)}`,
  ).join("+");
  const all = (formula: string) =>
    `IF(COUNT(${losses})=${PERIODS.length},${formula},${NOT_SOLVED})`;
  return [
    formulaCell(
      0,
      line,
      heatingItem(layout, entered("item"), entered("kind")),
      "resultText",
    ),
    formulaCell(
      1,
      line,
      inShownRow(layout, item, entered("kind")),
      "resultText",
    ),
    ...PERIODS.map((period) =>
      shown(FIRST_PERIOD + period, lossIn(period), WATTS),
    ),
    shown(
      MEAN,
      `IF(AND(ISNUMBER(${own(HEAT)}),${dayAt("hours", "day")}>0),${own(HEAT)}/${dayAt("hours", "day")},"–")`,
      WATTS,
    ),
    shown(HIGHEST, all(`MAX(${losses})`), WATTS),
    formulaCell(
      WHEN,
      line,
      inShownRow(
        layout,
        item,
        `IF(N(${own(HIGHEST)})>0,INDEX(${dayColumnArea("period")},MATCH(${own(HIGHEST)},${losses},0)),"–")`,
      ),
      "resultText",
    ),
    shown(HEAT, all(heat), WATT_HOURS),
  ];
}

function heatingItem(
  { typed }: BudgetLayout,
  item: string,
  kind: string,
): string {
  if (!typed) return item;
  return `IF(AND(${isReady()},${item}<>"",NOT(ISNUMBER(SEARCH("load",${kind})))),${item},"")`;
}

/** With the energy of the periods beside it, which it must come to. */
function totalCells(rows: number): PlanCell[] {
  const line = heatTotal(rows);
  const sum = (column: number) =>
    `IF(COUNT(${fixedArea(column, HEAT_HEAD + 1, column, line - 1)})>0,SUM(${fixedArea(column, HEAT_HEAD + 1, column, line - 1)}),"–")`;
  const total = (column: number, look: { readonly format: string }) =>
    formulaCell(column, line, sum(column), "total", look);
  const lost = dayAt("lossEnergy", "day");
  const here = fixedAt(HEAT, line);
  return [
    valueCell(0, line, "Total", "total"),
    { at: at(1, line), style: "total" },
    ...PERIODS.map((period) => total(FIRST_PERIOD + period, WATTS)),
    total(MEAN, WATTS),
    { at: at(HIGHEST, line), style: "total" },
    { at: at(WHEN, line), style: "total" },
    total(HEAT, WATT_HOURS),
    valueCell(0, line + 1, "Energy lost by period, for comparison", "label"),
    formulaCell(
      LAST,
      line + 1,
      `IF(ISNUMBER(${lost}),${lost}*1000,"–")`,
      "result",
      WATT_HOURS,
    ),
    formulaCell(
      0,
      line + 2,
      `IF(NOT(ISNUMBER(${lost})),"◇ not compared: no day is solved",IF(ABS(${here}-${lost}*1000)<=0.000001*MAX(1,${here}),"✔ the heat of all items is the energy lost","✖ the heat of all items is not the energy lost: an item is missing above"))`,
      "label",
    ),
  ];
}
