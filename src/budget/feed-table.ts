/** The feed table of the Budget sheet: every figure a formula on the inputs. */
import type { PlanCell } from "../plans/sheet-plan.js";
import {
  at,
  bareCell,
  formulaCell,
  headingRow,
  valueCell,
} from "../plans/sheet-builder.js";
import { ROW_KINDS } from "../network/row-kinds.js";
import { feedColumnAt, feedColumns, typedColumns } from "./budget-columns.js";
import { type BudgetLayout, rowOf } from "./budget-layout.js";
import {
  COMMON_KEYS,
  type FeedColumn,
  type FeedRowPlan,
  type InputReach,
} from "./budget-scenario.js";
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
          feedRowCells(
            layout,
            withRipple(row, layout.feedHead + 1 + index, inputs),
            layout.feedHead + 1 + index,
          ),
        )),
  ];
}

/** Ripple is entered once, as a part of the voltage; a ratio stage passes on what is at its input. */
function withRipple(
  row: FeedRowPlan,
  line: number,
  { given }: InputReach,
): FeedRowPlan {
  const { inFault } = ROW_KINDS[row.kind];
  if (inFault !== "source" && inFault !== "holds") return row;
  const own = (key: FeedColumn) => `$${at(feedColumnAt(key), line)}`;
  const volts =
    inFault === "source"
      ? `MAX(${own("voltage")},${own("highest")})`
      : own("voltage");
  const ripple = (part: string) => `IF(N(${part})=0,"",${part}*${volts})`;
  return {
    ...row,
    figures: {
      ...row.figures,
      rippleRms: ripple(given(COMMON_KEYS.rippleRms)),
      ripplePeak: ripple(given(COMMON_KEYS.ripplePeak)),
    },
  };
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
