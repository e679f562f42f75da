/** Budgets that the pane reads where it finds them in a workbook: those that it offers, and the candidates of trade-offs. */
import type { WorkbookPlan } from "../src/plans/sheet-plan.js";
import { candidateShapes } from "./tradeoffs/candidate-shapes.js";

export function recognisedBudgets(
  offered: readonly WorkbookPlan[],
): readonly WorkbookPlan[] {
  return [...offered, ...candidateShapes];
}
