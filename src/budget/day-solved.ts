/** The solved rows of one period of a day, as CHAIN_SOLVE gives them. */
import type { PlanCell } from "../plans/sheet-plan.js";
import { bareCell, call, formulaCell } from "../plans/sheet-builder.js";
import { solvedColumns } from "./budget-columns.js";
import { type BudgetLayout, feedArea } from "./budget-layout.js";
import { dayAt, daySolvedHead } from "./day-layout.js";
import { whenReady } from "./typed-feed.js";

const NOT_SOLVED = '"not solved"';

export function daySolvedCells(
  layout: BudgetLayout,
  heatRows: number,
  period: number,
): PlanCell[] {
  const head = daySolvedHead(layout, heatRows, period);
  const { items, typed } = layout;
  const anchor = formulaCell(
    0,
    head,
    solvedRows(layout, period),
    typed ? "label" : "tableHeading",
  );
  const spill = typed
    ? ([1, 1] as const)
    : ([items.length + 1, solvedColumns.length] as const);
  return [
    formulaCell(
      0,
      head - 1,
      `"Solved rows, "&${dayAt("period", period)}`,
      "heading",
    ),
    { ...anchor, spill },
    ...solvedColumns
      .slice(1)
      .map((_, index) => bareCell(index + 1, head, "tableHeading")),
    ...items.flatMap((_, index) =>
      solvedColumns.map((column, number) => {
        const line = head + 1 + index;
        return "format" in column
          ? bareCell(number, line, "result", { format: column.format })
          : bareCell(number, line, "resultText");
      }),
    ),
  ];
}

function solvedRows(layout: BudgetLayout, period: number): string {
  const solve = call(
    "CHAIN_SOLVE",
    `{budget}!${feedArea(layout)}`,
    dayAt("loads", period),
    dayAt("supply", period),
  );
  const solved = whenReady(
    layout,
    `IFERROR(${solve},${NOT_SOLVED})`,
    NOT_SOLVED,
  );
  return `IF(${dayAt("hours", period)}=0,"not used",${solved})`;
}
