/** The sheets of a budget as it was inserted, by its plan's id: what a copy of it takes its look from. */
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { budgetPlan } from "../budgets/budget-plan.js";
import { MOVED_ID } from "../budgets/names.js";
import type { Day } from "../budgets/sample.js";
import { blank } from "../budgets/samples/blank.js";
import { samples } from "../budgets/samples/samples.js";

/** An id may have several looks; none where it is not known. */
export function plansOf(id: string): readonly WorkbookPlan[] {
  if (id === MOVED_ID) return [undefined, ONE_DAY].map(movedShape);
  return samples.filter((sample) => sample.id === id).map(budgetPlan);
}

const ONE_DAY: Day = {
  periods: [{ name: "", hours: 24, loads: "nominal", supply: "nominal" }],
  energyPrice: 0,
};

function movedShape(day: Day | undefined): WorkbookPlan {
  return budgetPlan({ ...blank, ...(day && { day }) });
}
