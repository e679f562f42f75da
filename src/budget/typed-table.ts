/** A feed table to be typed: empty framed cells, what may stand in them, and the loads with their margin. */
import { FEED_KINDS, ISOLATIONS } from "../network/feed-item.js";
import {
  area,
  at,
  bareCell,
  firstOf,
  formulaCell,
} from "../plans/sheet-builder.js";
import type { PlanCell, PlanValidation } from "../plans/sheet-plan.js";
import {
  feedColumnAt,
  type TypedColumn,
  typedColumnAt,
  typedColumns,
} from "./budget-columns.js";
import type { BudgetLayout } from "./budget-layout.js";
import {
  type Allowed,
  COMMON_KEYS,
  type InputReach,
} from "./budget-scenario.js";
import { allowedInWords } from "./input-lines.js";

/** Empty framed cells, and beside them what the solver reads of the loads. */
export function typedRowCells(
  { feedHead }: BudgetLayout,
  { given }: InputReach,
  index: number,
): PlanCell[] {
  const line = feedHead + 1 + index;
  const margin = given(COMMON_KEYS.margin);
  return typedColumns.map(({ format, before }, column) => {
    const look = format === undefined ? {} : { format };
    if (before !== undefined) {
      const formula = withMargin(line, before, margin);
      return formulaCell(column, line, formula, "result", look);
    }
    const style = format === undefined ? "inputText" : "input";
    return bareCell(column, line, style, look);
  });
}

/** More load: more watts or amperes, fewer ohms. */
function withMargin(line: number, before: TypedColumn, margin: string): string {
  const load = `$${at(typedColumnAt(before), line)}`;
  const kind = `$${at(feedColumnAt("kind"), line)}`;
  return firstOf(
    [
      [`N(${load})=0`, '""'],
      [`${kind}="resistance load"`, `${load}/(1+${margin})`],
    ],
    `${load}*(1+${margin})`,
  );
}

export function typedValidations({
  feedHead,
  items,
}: BudgetLayout): PlanValidation[] {
  return typedColumns.flatMap((column, at): PlanValidation[] => {
    const allowed = allowedIn(column);
    if (allowed === undefined) return [];
    const cells = area(at, feedHead + 1, at, feedHead + items.length);
    const message = `${column.heading}: ${allowedInWords(allowed)}`;
    return [{ ...allowed, area: cells, message }];
  });
}

function allowedIn({
  key,
  format,
  before,
}: (typeof typedColumns)[number]): Allowed | undefined {
  if (key === "kind") return { kind: "list", values: FEED_KINDS };
  if (key === "isolation") return { kind: "list", values: ISOLATIONS };
  if (key === "inParallel") return { kind: "whole", least: 1, most: 1000 };
  // A tolerance may also be the word "exact".
  const anything = key === "tolerance" || format === undefined;
  return anything || before !== undefined
    ? undefined
    : { kind: "number", least: 0, most: 1e6 };
}
