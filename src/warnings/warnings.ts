/** Everything that a budget in a workbook gives to warn of, read from its named areas. */
import { bandWarnings } from "./band-warnings.js";
import { budgetLimits } from "./budget-limits.js";
import {
  altitudeWarnings,
  closingWarnings,
  missingNames,
} from "./budget-warnings.js";
import { checkWarnings } from "./check-warnings.js";
import { errorWarnings } from "./error-warnings.js";
import { rowWarnings } from "./row-warnings.js";
import { unfinishedNote } from "./unfinished-budget.js";
import type { FoundBudget, Warning } from "./warning.js";

export function warningsOf(budget: FoundBudget): readonly Warning[] {
  const limits = budgetLimits(budget);
  const unfinished = unfinishedNote(budget);
  // What is empty fails every limit, which says nothing.
  if (unfinished) return [...missingNames(budget), unfinished];
  return [
    ...missingNames(budget),
    ...rowWarnings(budget, limits),
    ...closingWarnings(budget),
    ...bandWarnings(budget, limits),
    ...checkWarnings(budget),
    ...altitudeWarnings(limits),
    ...errorWarnings(budget),
  ];
}
