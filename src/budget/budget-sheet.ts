/** Balance, results, feed table, hand check and the solved rows, on one sheet with one CHAIN_SOLVE. */
import type { PlanCell, SheetPlan } from "../plans/sheet-plan.js";
import {
  at,
  bareCell,
  call,
  fixedAt,
  formulaCell,
  headingRow,
  valueCell,
  widthFor,
} from "../plans/sheet-builder.js";
import { balanceCells } from "./balance-block.js";
import {
  feedColumns,
  resultColumnAt,
  resultColumns,
  solvedColumns,
  typedColumns,
} from "./budget-columns.js";
import {
  balanceAt,
  balanceRows,
  type BudgetLayout,
  feedArea,
} from "./budget-layout.js";
import {
  type BudgetScenario,
  COMMON_KEYS,
  type FeedRowPlan,
  type HandCheck,
  type InputReach,
} from "./budget-scenario.js";
import { originOf } from "./cautions.js";
import { feedTableCells } from "./feed-table.js";
import { limitCells, limitMerges } from "./limits-block.js";
import { checkRules, resultsMerges, resultsTable } from "./results-table.js";
import {
  SOLVED_FOR,
  SOLVED_FOR_ROW,
  whatIsMissing,
  whenReady,
} from "./typed-feed.js";
import { typedValidations } from "./typed-table.js";

export interface BudgetParts {
  readonly scenario: BudgetScenario;
  readonly layout: BudgetLayout;
  readonly feed: readonly FeedRowPlan[];
  readonly handChecks: readonly HandCheck[];
  readonly inputs: InputReach;
}

export function budgetSheet(parts: BudgetParts): SheetPlan {
  const { scenario, layout, feed, handChecks, inputs } = parts;
  const check = resultColumnAt("check");
  const { resultsHead } = layout;
  return {
    key: "budget",
    name: "Budget",
    columnWidths: columnWidths(parts),
    frozenRows: 3,
    cells: [
      valueCell(0, 1, `${scenario.title}: budget`, "title"),
      valueCell(
        0,
        2,
        `${originOf(scenario)} A screening aid: local code, the authority and the product standard prevail (see Notes).`.trim(),
        "subtitle",
      ),
      formulaCell(0, SOLVED_FOR_ROW, lineBelowTitle(layout, inputs), "label"),
      ...balanceCells(layout, inputs),
      ...limitCells(inputs),
      ...resultsTable(layout, feed, inputs.given(COMMON_KEYS.currency)),
      ...feedTableCells(layout, feed, inputs),
      ...handCheckCells(layout, handChecks),
      ...solvedCells(layout, inputs),
    ],
    merges: [...limitMerges(), ...resultsMerges(layout)],
    validations: layout.typed ? typedValidations(layout) : [],
    conditionalFormats: [
      ...checkRules(check, resultsHead + 1, resultsHead + layout.items.length),
      ...checkRules(1, balanceRows.closingCheck, balanceRows.closingCheck),
    ],
    pictures: [],
  };
}

/** Item, the two columns of words, then numbers as wide as their widest heading. */
function columnWidths({ layout, handChecks }: BudgetParts): number[] {
  const names = [...layout.items, ...handChecks.map(({ label }) => label)];
  const columns = layout.typed ? typedColumns : feedColumns;
  const headings = (column: number) => [
    columns[column]?.heading ?? "",
    resultColumns.find((result) => result.column === column)?.heading ?? "",
    solvedColumns[column]?.heading ?? "",
  ];
  return columns.map((_, column) => {
    if (column === 0) return widthFor(240, names);
    if (column === 1) return widthFor(130, layout.items);
    if (column === 2) return 140;
    return widthFor(100, headings(column));
  });
}

function lineBelowTitle(layout: BudgetLayout, inputs: InputReach): string {
  const words = solvedFor(inputs);
  return layout.typed ? whatIsMissing(layout, inputs, words) : words;
}

function solvedFor({ given }: InputReach): string {
  const margin = `ROUND(100*${given(COMMON_KEYS.margin)},1)&" %"`;
  return `"${SOLVED_FOR}"&${given(COMMON_KEYS.loads)}&" loads with "&${margin}&" margin for growth and ageing, supply at its "&${given(COMMON_KEYS.supply)}&" voltage, "&ROUND(${balanceAt("supplyVoltage")},1)&" V. Both are chosen on Inputs."`;
}

function handCheckCells(
  { handHead }: BudgetLayout,
  checks: readonly HandCheck[],
): PlanCell[] {
  if (checks.length === 0) return [];
  return [
    valueCell(0, handHead - 1, "Check by hand", "heading"),
    ...headingRow(0, handHead, [
      "Figure",
      "By hand",
      "Solved",
      "Difference",
      "Unit",
      "How",
    ]),
    ...checks.flatMap((check, index) => {
      const line = handHead + 1 + index;
      const { label, how, byHand, solved, unit, format } = check;
      return [
        valueCell(0, line, label, "label"),
        formulaCell(1, line, byHand, "result", { format }),
        formulaCell(2, line, solved, "result", { format }),
        formulaCell(3, line, `${at(1, line)}-${at(2, line)}`, "result", {
          format: "0.0000",
        }),
        valueCell(4, line, unit, "unit"),
        valueCell(5, line, how, "label"),
      ];
    }),
  ];
}

/** The one call that solves the feed. Cells below stay free for more items. */
function solvedCells(layout: BudgetLayout, { given }: InputReach): PlanCell[] {
  const { solvedHead, items } = layout;
  const [loads, supply] = [given(COMMON_KEYS.loads), given(COMMON_KEYS.supply)];
  const solve = call("CHAIN_SOLVE", feedArea(layout), loads, supply);
  const anchor = formulaCell(
    0,
    solvedHead,
    whenReady(layout, solve, fixedAt(0, SOLVED_FOR_ROW)),
    layout.typed ? "label" : "tableHeading",
  );
  const spill = layout.typed
    ? ([1, 1] as const)
    : ([items.length + 1, solvedColumns.length] as const);
  return [
    valueCell(
      0,
      solvedHead - 1,
      "Solved rows, as CHAIN_SOLVE gives them",
      "heading",
    ),
    { ...anchor, spill },
    ...solvedColumns
      .slice(1)
      .map((_, index) => bareCell(index + 1, solvedHead, "tableHeading")),
    ...items.flatMap((_, index) =>
      solvedColumns.map((column, number) => {
        const line = solvedHead + 1 + index;
        return "format" in column
          ? bareCell(number, line, "result", { format: column.format })
          : bareCell(number, line, "resultText");
      }),
    ),
  ];
}
