/** What is kept of a release: its budgets as workbooks, and every number of them in nine cases. */
import { budgets } from "../../src/budget/budgets.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { filledBlank } from "./filled-blank.js";
import {
  type FrozenPlan,
  frozenPlan,
  thawedPlan,
  type TypedCells,
  typedCells,
} from "./frozen-plan.js";
import {
  type CaseFigures,
  figuresInCases,
  packed,
} from "./numbers-by-label.js";
import { openBudget } from "./open-budget.js";

export interface FrozenWorkbooks {
  readonly budgets: readonly FrozenPlan[];
  /** A small feed typed into the blank budget. */
  readonly filling: TypedCells;
}

/** The blank budget is there as it is and filled; by `id`. */
export function thawedPlans({
  budgets,
  filling,
}: FrozenWorkbooks): readonly WorkbookPlan[] {
  return [
    ...budgets.map((frozen) => thawedPlan(frozen)),
    ...budgets
      .filter(({ id }) => id === BLANK)
      .map((blank) => ({ ...thawedPlan(blank, filling), id: FILLED })),
  ];
}

/** Today's plans, called as the frozen ones are. */
export function plansOfToday(): readonly WorkbookPlan[] {
  return [...budgets, { ...filledBlank(), id: FILLED }];
}

const BLANK = "blank-budget";
const FILLED = "filled-blank";

/** Run by `freeze-release.mjs` with the budgets, functions and calculation of a release. */
export async function frozenRelease(): Promise<{
  readonly workbooks: FrozenWorkbooks;
  /** By the budget's id. */
  readonly numbers: Readonly<Record<string, CaseFigures>>;
}> {
  const frozen = budgets.map(frozenPlan);
  const blank = frozen.find(({ id }) => id === BLANK);
  if (!blank) throw new Error("there is no blank budget");
  const filling = typedCells(blank, frozenPlan(filledBlank()));
  const workbooks = { budgets: frozen, filling };
  const numbers: Record<string, CaseFigures> = {};
  for (const plan of thawedPlans(workbooks)) {
    const budget = await openBudget(plan);
    numbers[plan.id] = packed(await figuresInCases(budget));
    budget.workbook.dispose();
  }
  return { workbooks, numbers };
}
