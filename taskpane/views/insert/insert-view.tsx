/** Everything that puts something into the workbook: worked budgets and single functions. */
import { createRef } from "preact";
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { drawInto, type Tools } from "../parts/tools.js";
import { BudgetChooser, type BudgetCommands } from "./budget-chooser.js";
import { FunctionFinder } from "./function-finder.js";

export interface InsertView {
  readonly element: HTMLElement;
  refresh(): void;
  insertFirst(): void;
  /** Puts the keyboard on the search for a function. */
  focusFunctions(): void;
}

export function insertView(tools: Tools, budgets: readonly WorkbookPlan[]): InsertView {
  const place = document.createElement("div");
  const commands = createRef<BudgetCommands>();
  const search = createRef<HTMLInputElement>();
  let turn = 0;
  function refresh(): void {
    turn += 1;
    drawInto(
      place,
      tools,
      <>
        <BudgetChooser budgets={budgets} commands={commands} />
        <FunctionFinder search={search} turn={turn} />
      </>,
    );
  }
  refresh();
  return {
    element: place,
    refresh,
    insertFirst: () => commands.current?.insertFirst(),
    focusFunctions: () => search.current?.focus(),
  };
}
