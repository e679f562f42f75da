/** Everything that puts something into the workbook: worked budgets and single functions. */
import { createRef } from "preact";
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import type { CellHost } from "../../formula-reading/cell-reading.js";
import type { CellRange } from "../../hosts/host.js";
import { drawInto, type Tools } from "../parts/tools.js";
import { BudgetChooser, type BudgetCommands } from "./budget-chooser.js";
import type { Target } from "./function-form.js";
import { FunctionFinder } from "./function-finder.js";

export interface InsertView {
  readonly element: HTMLElement;
  /** Open forms follow the selected cell, and the cells that they name. */
  show(at: CellRange): void;
  insertFirst(): void;
  /** Puts the keyboard on the search for a function. */
  focusFunctions(): void;
}

export interface InsertViewOptions extends Tools {
  /** Reads what a formula would give, at each move of the selection. */
  readonly reading: CellHost;
}

export function insertView(
  options: InsertViewOptions,
  budgets: readonly WorkbookPlan[],
): InsertView {
  const place = document.createElement("div");
  const commands = createRef<BudgetCommands>();
  const search = createRef<HTMLInputElement>();
  const { reading } = options;
  const draw = (target?: Target) =>
    drawInto(
      place,
      options,
      <>
        <BudgetChooser budgets={budgets} commands={commands} />
        <FunctionFinder {...{ search, reading, target }} />
      </>,
    );
  draw();
  return {
    element: place,
    show: (at) => draw({ at }),
    insertFirst: () => commands.current?.insertFirst(),
    focusFunctions: () => search.current?.focus(),
  };
}
