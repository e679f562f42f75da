/** What is kept of a release: its budgets as workbooks. */
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { type FrozenPlan, thawedPlan, type TypedCells } from "./frozen-plan.js";

export interface FrozenWorkbooks {
  readonly budgets: readonly FrozenPlan[];
  /** A small feed typed into the blank budget. */
  readonly filling: TypedCells;
}

/** The blank budget is there as it is and filled; by `id`. */
export function thawedPlans({ budgets, filling }: FrozenWorkbooks): readonly WorkbookPlan[] {
  return [
    ...budgets.map((frozen) => thawedPlan(frozen)),
    ...budgets
      .filter(({ id }) => id === BLANK)
      .map((blank) => ({ ...thawedPlan(blank, filling), id: FILLED })),
  ];
}

const BLANK = "blank-budget";
const FILLED = "filled-blank";
