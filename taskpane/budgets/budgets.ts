/** Budgets that a user may begin with, as plans. */
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { budgetPlan } from "./budget-plan.js";
import { samples } from "./samples/samples.js";

export const budgets: readonly WorkbookPlan[] = samples.map(budgetPlan);
