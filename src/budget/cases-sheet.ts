/** Every operating point that the budget has in one table, the worst of them, and the worst case of every item. */
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
import type { InputReach } from "./budget-scenario.js";
import {
  CASES_HEAD,
  casesColumnArea,
  casesColumnAt,
  type CasesColumn,
  casesColumns,
  EXTREMES_HEAD,
  SUMMARY_ROW,
} from "./cases-layout.js";
import { headroomCells, summaryCells, worstCells } from "./cases-worst.js";
import { checkRules } from "./results-table.js";
import {
  NOT_GIVEN,
  SUPPLY_CHOICES,
  type SupplyChoice,
  supplyVoltage,
} from "./supply-voltage.js";
import { SOLVED_FOR_ROW, whenReady } from "./typed-feed.js";

const LOAD_CHOICES = ["light", "nominal", "peak"] as const;
const NOT_SOLVED = "not solved";
const NO_WINDOW = "no window";

export function casesSheet(
  layout: BudgetLayout,
  inputs: InputReach,
  title: string,
): SheetPlan {
  const rows = CASE_CHOICES.length;
  const check = casesColumnAt("check");
  return {
    key: "cases",
    name: "Cases",
    columnWidths: [
      widthFor(260, layout.items),
      ...[110, 110, 110, 110, 100, 100],
      ...[420, 420],
    ],
    frozenRows: 3,
    cells: [
      valueCell(0, 1, `${title}: cases`, "title"),
      formulaCell(0, 2, whenReady(layout, HOW, missing()), "subtitle"),
      valueCell(
        0,
        3,
        "Lowest margin: the least distance of any input voltage to an end of its window, as a share of that end; below 0 it is outside.",
        "label",
      ),
      valueCell(0, CASES_HEAD - 1, "All nine operating points", "heading"),
      ...headingRow(
        0,
        CASES_HEAD,
        casesColumns.map(({ heading }) => heading),
      ),
      ...CASE_CHOICES.flatMap((choice, index) =>
        caseCells(layout, inputs, choice, CASES_HEAD + 1 + index),
      ),
      ...extremeCells(layout),
      ...summaryCells(layout, inputs),
      ...worstCells(layout, inputs),
      ...headroomCells(layout),
    ],
    merges: [],
    validations: [],
    conditionalFormats: [
      ...checkRules(check, CASES_HEAD + 1, CASES_HEAD + rows),
      ...checkRules(0, SUMMARY_ROW + 1, SUMMARY_ROW + 3),
    ],
    pictures: [],
  };
}

const HOW = quoted(
  "Every load and supply voltage that Inputs offers, solved by CHAIN_TOTAL, whatever is chosen there for Budget; ratios and set points nominal.",
);

function missing(): string {
  return `{budget}!${fixedAt(0, SOLVED_FOR_ROW)}`;
}

interface CaseChoice {
  readonly supply: SupplyChoice;
  readonly loads: (typeof LOAD_CHOICES)[number];
}

const CASE_CHOICES: readonly CaseChoice[] = SUPPLY_CHOICES.flatMap((supply) =>
  LOAD_CHOICES.map((loads) => ({ supply, loads })),
);

function caseCells(
  layout: BudgetLayout,
  inputs: InputReach,
  choice: CaseChoice,
  line: number,
): PlanCell[] {
  const { supply, loads } = choice;
  const formulas = caseFormulas(layout, inputs, choice, line);
  return casesColumns.map(({ key, ...column }, index) => {
    if (key === "case")
      return valueCell(
        index,
        line,
        `supply ${supply}, loads ${loads}`,
        "label",
      );
    const formula = whenReady(layout, formulas[key]);
    return "format" in column
      ? formulaCell(index, line, formula, "result", { format: column.format })
      : formulaCell(index, line, formula, "resultText");
  });
}

function caseFormulas(
  layout: BudgetLayout,
  { given }: InputReach,
  { supply, loads }: CaseChoice,
  line: number,
): Readonly<Record<Exclude<CasesColumn, "case">, string>> {
  const own = (key: CasesColumn) => fixedAt(casesColumnAt(key), line);
  const total = (quantity: string, otherwise: string) =>
    `IFERROR(${call("CHAIN_TOTAL", `{budget}!${feedArea(layout)}`, quoted(quantity), quoted(loads), quoted(supply))},${quoted(otherwise)})`;
  const solved = (formula: string) =>
    `IF(ISNUMBER(${own("supply")}),${formula},${quoted(NOT_SOLVED)})`;
  const [power, load, margin] = [own("supply"), own("loads"), own("margin")];
  return {
    voltage: supplyVoltage(layout, given, supply, "{budget}!"),
    supply: total("supply power", NOT_SOLVED),
    loads: total("load power", NOT_SOLVED),
    loss: total("loss", NOT_SOLVED),
    efficiency: solved(`IF(${power}>0,${load}/${power},"–")`),
    margin: solved(total("lowest margin", NO_WINDOW)),
    check: firstOf(
      [
        [
          `${own("voltage")}=${quoted(NOT_GIVEN)}`,
          quoted(`◇ the supply's ${supply} voltage is not given`),
        ],
        [
          `NOT(ISNUMBER(${power}))`,
          '"✖ no operating point: the voltage collapses, or a row is refused (see Budget)"',
        ],
        [
          `NOT(ISNUMBER(${margin}))`,
          '"● solved; no row has a window to be held against"',
        ],
        [`${margin}<0`, '"▲ solved, but an input is outside its window"'],
      ],
      '"✔ every input within its window"',
    ),
  };
}

/** Of each column the worst, and the case that it stands in. */
function extremeCells(layout: BudgetLayout): PlanCell[] {
  const lines = [
    ["Highest supply power", "supply", "MAX", "W", "0.0"],
    ["Highest load power", "loads", "MAX", "W", "0.0"],
    ["Highest loss", "loss", "MAX", "W", "0.0"],
    ["Lowest efficiency", "efficiency", "MIN", "", "0.0%"],
    ["Lowest margin to a window", "margin", "MIN", "", "0.0%"],
  ] as const;
  const first = EXTREMES_HEAD + 1;
  const unsolved = first + lines.length;
  return [
    valueCell(0, EXTREMES_HEAD - 1, "The worst of the nine", "heading"),
    ...headingRow(0, EXTREMES_HEAD, ["Figure", "Worst", "Unit", "In the case"]),
    ...lines.flatMap(([label, key, extreme, unit, format], index) => {
      const [line, range] = [first + index, casesColumnArea(key)];
      const worst = fixedAt(1, line);
      return [
        valueCell(0, line, label, "label"),
        formulaCell(
          1,
          line,
          whenReady(
            layout,
            `IF(COUNT(${range})>0,${extreme}(${range}),"none solved")`,
          ),
          "result",
          { format },
        ),
        ...(unit === "" ? [] : [valueCell(2, line, unit, "unit")]),
        formulaCell(
          3,
          line,
          whenReady(
            layout,
            `IF(ISNUMBER(${worst}),INDEX(${casesColumnArea("case")},MATCH(${worst},${range},0)),"–")`,
          ),
          "resultText",
        ),
      ];
    }),
    valueCell(0, unsolved, "Cases without an operating point", "label"),
    formulaCell(
      1,
      unsolved,
      whenReady(
        layout,
        `COUNTIF(${casesColumnArea("supply")},${quoted(NOT_SOLVED)})`,
      ),
      "result",
      { format: "0" },
    ),
    valueCell(2, unsolved, "of 9", "unit"),
  ];
}
