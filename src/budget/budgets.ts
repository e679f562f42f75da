import type { WorkbookPlan } from "../plans/sheet-plan.js";
import { budgetPlan } from "./budget-sheets.js";
import { blankBudget } from "./blank-budget.js";
import { harbourCrawler } from "./harbour-crawler.js";
import { riverFerry } from "./river-ferry.js";
import { ridgeTopObservatory } from "./ridge-top-observatory.js";

/** Every worked budget and the blank one, in the order in which the pane offers them. */
export const budgets: readonly WorkbookPlan[] = [
  budgetPlan(ridgeTopObservatory),
  budgetPlan(harbourCrawler),
  budgetPlan(riverFerry),
  budgetPlan(blankBudget),
];
