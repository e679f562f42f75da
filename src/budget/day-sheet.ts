/** A day in periods: power, energy and loss of each, what the losses cost, and where the heat is given off. */
import type { PlanCell, SheetPlan } from "../plans/sheet-plan.js";
import {
  call,
  firstOf,
  fixedAt,
  formulaCell,
  headingRow,
  quoted,
  valueCell,
  widthFor,
} from "../plans/sheet-builder.js";
import { type BudgetLayout, feedArea } from "./budget-layout.js";
import {
  COMMON_KEYS,
  DAY_KEYS,
  type FeedRowPlan,
  type InputReach,
} from "./budget-scenario.js";
import { heatCells, heatingRows } from "./day-heat.js";
import {
  DAY_HEAD,
  DAY_TOTAL,
  dayAt,
  dayColumnArea,
  type DayColumn,
  dayColumns,
  MONEY_HEAD,
  PERIODS,
} from "./day-layout.js";
import { daySolvedCells } from "./day-solved.js";
import { checkRules } from "./results-table.js";
import { SOLVED_FOR_ROW, whenReady } from "./typed-feed.js";

const CHECK_ROW = 4;
const NOT_SOLVED = '"not solved"';
/** Of a year, as all of its days are taken to be like this one. */
const DAYS = 365;

export interface DayParts {
  readonly layout: BudgetLayout;
  readonly feed: readonly FeedRowPlan[];
  readonly inputs: InputReach;
  readonly title: string;
}

export function daySheet({ layout, feed, inputs, title }: DayParts): SheetPlan {
  const heating = heatingRows(layout, feed);
  return {
    key: "day",
    name: "Day",
    columnWidths: [
      widthFor(260, layout.items),
      ...[100, 110, 110, 110, 110, 130, 130, 120, 110, 100, 300],
    ],
    frozenRows: 3,
    cells: [
      valueCell(0, 1, `${title}: a day`, "title"),
      formulaCell(0, 2, whenReady(layout, HOW, missing()), "subtitle"),
      formulaCell(0, CHECK_ROW, hoursCheck(), "label"),
      valueCell(0, DAY_HEAD - 1, "Power and energy by period", "heading"),
      ...headingRow(
        0,
        DAY_HEAD,
        dayColumns.map(({ heading }) => heading),
      ),
      ...PERIODS.flatMap((period) => periodCells(layout, inputs, period)),
      ...totalCells(),
      ...moneyCells(inputs),
      ...heatCells(layout, heating),
      ...PERIODS.flatMap((period) =>
        daySolvedCells(layout, heating.length, period),
      ),
    ],
    merges: [],
    validations: [],
    conditionalFormats: checkRules(0, CHECK_ROW, CHECK_ROW),
    pictures: [],
  };
}

const HOW = quoted(
  "Each period of Inputs solved with its own loads and supply voltage; every power is taken as constant over its period.",
);

function missing(): string {
  return `{budget}!${fixedAt(0, SOLVED_FOR_ROW)}`;
}

function hoursCheck(): string {
  const hours = dayAt("hours", "day");
  return firstOf(
    [
      [
        `${hours}=0`,
        '"◇ Enter on Inputs how many hours each period of the day lasts."',
      ],
      [`ABS(${hours}-24)<0.000001`, '"✔ The periods come to 24 h."'],
    ],
    `"✖ The periods come to "&ROUND(${hours},2)&" h, not 24: what is said of a day is of so many hours."`,
  );
}

function periodCells(
  layout: BudgetLayout,
  inputs: InputReach,
  period: number,
): PlanCell[] {
  const line = DAY_HEAD + 1 + period;
  const formulas = periodFormulas(layout, inputs, period);
  return dayColumns.map(({ key, ...column }, index) =>
    "format" in column
      ? formulaCell(index, line, formulas[key], "result", {
          format: column.format,
        })
      : formulaCell(index, line, formulas[key], "resultText"),
  );
}

/** A period of no hours is not solved, and counts for nothing. */
function periodFormulas(
  layout: BudgetLayout,
  { given }: InputReach,
  period: number,
): Readonly<Record<DayColumn, string>> {
  const [hours, loads, supply] = (["hours", "loads", "supply"] as const).map(
    (key) => dayAt(key, period),
  );
  const total = (quantity: string) => {
    const solved = `IFERROR(${call("CHAIN_TOTAL", `{budget}!${feedArea(layout)}`, quoted(quantity), loads ?? "", supply ?? "")},${NOT_SOLVED})`;
    return `IF(${hours}=0,0,${whenReady(layout, solved, NOT_SOLVED)})`;
  };
  const energy = (key: "loadPower" | "loss") =>
    `IF(ISNUMBER(${dayAt(key, period)}),${dayAt(key, period)}*${hours}/1000,${NOT_SOLVED})`;
  const called = given(DAY_KEYS.period, period);
  return {
    period: `IF(${called}="","period ${period + 1}",${called})`,
    hours: `N(${given(DAY_KEYS.hours, period)})`,
    loads: orNominal(given(DAY_KEYS.loads, period)),
    supply: orNominal(given(DAY_KEYS.supply, period)),
    loadPower: total("load power"),
    loss: total("loss"),
    loadEnergy: energy("loadPower"),
    lossEnergy: energy("loss"),
  };
}

function orNominal(input: string): string {
  return `IF(${input}="","nominal",${input})`;
}

/** Sums, and mean powers. */
function totalCells(): PlanCell[] {
  const all = (key: DayColumn, formula: string) =>
    `IF(COUNT(${dayColumnArea(key)})=${PERIODS.length},${formula},${NOT_SOLVED})`;
  const hours = dayAt("hours", "day");
  const mean = (energy: "loadEnergy" | "lossEnergy") =>
    `IF(AND(ISNUMBER(${dayAt(energy, "day")}),${hours}>0),${dayAt(energy, "day")}*1000/${hours},"–")`;
  const formulas: Partial<Record<DayColumn, string>> = {
    hours: `SUM(${dayColumnArea("hours")})`,
    loadPower: mean("loadEnergy"),
    loss: mean("lossEnergy"),
    loadEnergy: all("loadEnergy", `SUM(${dayColumnArea("loadEnergy")})`),
    // ENERGY_LOSS refuses a day of no hours.
    lossEnergy: `IF(${hours}=0,"–",IFERROR(${call("ENERGY_LOSS", dayColumnArea("loss"), dayColumnArea("hours"))},${NOT_SOLVED}))`,
  };
  return dayColumns.map(({ key, ...column }, index) => {
    const formula = formulas[key];
    if (key === "period")
      return valueCell(index, DAY_TOTAL, "The day; its mean powers", "total");
    if (formula === undefined)
      return {
        at: fixedAt(index, DAY_TOTAL).replaceAll("$", ""),
        style: "total",
      };
    const look = "format" in column ? { format: column.format } : {};
    return formulaCell(index, DAY_TOTAL, formula, "total", look);
  });
}

function moneyCells({ given }: InputReach): PlanCell[] {
  const [loads, lost] = [
    dayAt("loadEnergy", "day"),
    dayAt("lossEnergy", "day"),
  ];
  const year = fixedAt(1, MONEY_HEAD + 2);
  const [price, currency] = [
    given(DAY_KEYS.price),
    given(COMMON_KEYS.currency),
  ];
  const lines = [
    {
      label: "Efficiency over the day, supply to loads",
      formula: `IF(AND(ISNUMBER(${loads}),ISNUMBER(${lost})),IF(${loads}+${lost}>0,${loads}/(${loads}+${lost}),"–"),"–")`,
      format: "0.0%",
      unit: undefined,
    },
    {
      label: `Energy lost in a year of ${DAYS} such days`,
      formula: `IF(ISNUMBER(${lost}),${lost}*${DAYS},"–")`,
      format: "#,##0",
      unit: quoted("kWh"),
    },
    {
      label: "Cost of it in a year, at the price of energy on Inputs",
      formula: `IF(AND(ISNUMBER(${year}),ISNUMBER(${price})),${year}*${price},"–")`,
      format: "#,##0",
      unit: `IF(${currency}="","in the currency of the price",${currency})`,
    },
  ];
  return [
    valueCell(0, MONEY_HEAD - 1, "What the losses come to", "heading"),
    ...headingRow(0, MONEY_HEAD, ["Figure", "Value", "Unit"]),
    ...lines.flatMap(({ label, formula, format, unit }, index) => {
      const line = MONEY_HEAD + 1 + index;
      return [
        valueCell(0, line, label, "label"),
        formulaCell(1, line, formula, "result", { format }),
        ...(unit === undefined ? [] : [formulaCell(2, line, unit, "unit")]),
      ];
    }),
  ];
}
