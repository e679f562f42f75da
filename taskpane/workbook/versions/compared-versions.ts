/** Two budgets of a workbook compared as CHAIN_COMPARE does it, on what their sheets hold. */
import { type Cell, evaluate, isCellTable } from "../../../functions/downfeed.js";
import { COMPARE_COLUMNS } from "../../../functions/families/chain-compare.js";
import type { FoundBudget, ReadRange } from "../../budgets/reading/found-budget.js";
import { calledTable } from "../../budgets/reading/range-table.js";

/** A budget with all that a comparison reads of it. */
export interface Version {
  readonly budget: FoundBudget;
  readonly feed: ReadRange;
  readonly asked: ReadRange;
}

/** Those that have kept their names. */
export function versionsOf(budgets: readonly FoundBudget[]): readonly Version[] {
  return budgets.flatMap((budget) => {
    const { Feed: feed, Asked: asked } = budget.ranges;
    return feed && asked ? [{ budget, feed, asked }] : [];
  });
}

export type ComparedRow = Readonly<Record<(typeof COMPARE_COLUMNS)[number], Cell>>;

/** Undefined where the function refuses one of them. */
export function comparedRows(a: Version, b: Version): readonly ComparedRow[] | undefined {
  const ranges = [a.feed, b.feed, a.asked, b.asked];
  const outcome = evaluate("CHAIN_COMPARE", ranges.map(calledTable));
  if (!outcome.ok || !isCellTable(outcome.value)) return undefined;
  const [, ...rows] = outcome.value;
  return rows.map(
    (row) =>
      Object.fromEntries(
        COMPARE_COLUMNS.map((heading, column) => [heading, row[column] ?? ""]),
      ) as ComparedRow,
  );
}
