/** Everything that puts something into the workbook: worked budgets and single functions. */
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import type { Host } from "../../hosts/host.js";
import { budgetChooser } from "./budget-chooser.js";
import { element } from "../parts/element.js";
import { functionFinder } from "./function-finder.js";

export interface InsertView {
  readonly element: HTMLElement;
  refresh(): void;
  insertFirst(): void;
  /** Puts the keyboard on the search for a function. */
  focusFunctions(): void;
}

export function insertView(
  host: Host,
  budgets: readonly WorkbookPlan[],
  failed: (error: unknown) => void,
): InsertView {
  const finder = functionFinder(host, failed);
  const chooser = budgetChooser(host, budgets, failed);
  return {
    element: element("div", {}, chooser.element, finder.element),
    refresh: finder.refresh,
    insertFirst: chooser.insertFirst,
    focusFunctions: () => finder.element.querySelector<HTMLElement>("input")?.focus(),
  };
}
