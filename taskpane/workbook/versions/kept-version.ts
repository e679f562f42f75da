/** A version of a feed that is kept: the budget once more on new sheets, as it stands, under a title of its own. */
import { wholeCopy } from "../../../functions/working/whole-copy.js";
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { words } from "../../words/words.js";
import { readForCopy, type ReadingHost } from "../budget-copying.js";
import { planIdOf, titleOf } from "../found-budgets.js";

const said = words.handOver.versions;

/** @throws {Error} with a sentence for the user, where there is no title or another budget has it. */
export async function versionPlan(
  host: ReadingHost,
  budget: FoundBudget,
  title: string,
  budgets: readonly FoundBudget[],
): Promise<WorkbookPlan> {
  const wanted = title.trim();
  if (wanted === "") throw new Error(said.titleNeeded);
  if (isTaken(wanted, budgets)) throw new Error(said.titleTaken(wanted));
  const names = Object.entries(budget.ranges).flatMap(([name, range]) =>
    range ? [[name, range] as const] : [],
  );
  return wholeCopy(await readForCopy(host, budget), {
    id: planIdOf(budget),
    title: wanted,
    stem: budget.stem,
    names: Object.fromEntries(names),
  });
}

/** The first number that no version of the budget has. */
export function proposedTitle(budget: FoundBudget, budgets: readonly FoundBudget[]): string {
  const first = said.unnumbered(titleOf(budget));
  let number = 2;
  while (isTaken(said.version(first, number), budgets)) number += 1;
  return said.version(first, number);
}

function isTaken(title: string, budgets: readonly FoundBudget[]): boolean {
  return budgets.some((one) => titleOf(one).toLowerCase() === title.toLowerCase());
}
