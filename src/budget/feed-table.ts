/** The feed table of the Budget sheet: every figure a formula on the inputs. */
import type { PlanCell } from "../plans/sheet-plan.js";
import {
  at,
  bareCell,
  formulaCell,
  headingRow,
  valueCell,
} from "../plans/sheet-builder.js";
import { feedColumns, typedColumns } from "./budget-columns.js";
import { type BudgetLayout, rowOf } from "./budget-layout.js";
import type { FeedRowPlan, InputReach } from "./budget-scenario.js";
import { typedRowCells } from "./typed-table.js";

export function feedTableCells(
  layout: BudgetLayout,
  feed: readonly FeedRowPlan[],
  inputs: InputReach,
): PlanCell[] {
  const columns = layout.typed ? typedColumns : feedColumns;
  return [
    valueCell(0, layout.feedHead - 1, "Feed table", "heading"),
    ...headingRow(
      0,
      layout.feedHead,
      columns.map(({ heading }) => heading),
    ),
    ...(layout.typed
      ? layout.items.flatMap((_, index) => typedRowCells(layout, inputs, index))
      : feed.flatMap((row, index) =>
          feedRowCells(layout, row, layout.feedHead + 1 + index),
        )),
  ];
}

function feedRowCells(
  layout: BudgetLayout,
  { item, fedFrom, kind, figures }: FeedRowPlan,
  line: number,
): PlanCell[] {
  return feedColumns.map(({ key, format }, column) => {
    switch (key) {
      case "item":
        return valueCell(column, line, item, "label");
      case "kind":
        return valueCell(column, line, kind, "label");
      case "fedFrom":
        // The name's own cell, so that a renamed item keeps what hangs on it.
        return fedFrom === undefined
          ? bareCell(column, line, "resultText")
          : formulaCell(
              column,
              line,
              `$${at(0, rowOf(layout.feedHead, layout, fedFrom))}`,
              "resultText",
            );
      default: {
        const formula = figures[key];
        const style = format === undefined ? "resultText" : "result";
        const look = format === undefined ? {} : { format };
        return formula === undefined
          ? bareCell(column, line, style)
          : formulaCell(column, line, formula, style, look);
      }
    }
  });
}
