/** A budget of the headless workbench as a plain copy reads it, and a plan as cells to calculate elsewhere. */
import { type CopyRequest, plainCopy } from "../../functions/working/copy/plain-copy.js";
import { rangePlace, cellAddress } from "../../src/plans/addresses.js";
import { fillPlaceholders, plainNames } from "../../src/plans/placeholders.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { readForCopy, type ReadingHost } from "../../taskpane/workbook/budget-copying.js";
import type { CellRange, RangeContent } from "../../taskpane/hosts/host.js";
import type { OpenBudget } from "../budgets/open-budget.js";
import type { SheetContent } from "./iron-calc.js";

export function copyRequest(budget: OpenBudget): Promise<CopyRequest> {
  return readForCopy(budgetHost(budget), budget.found());
}

/** As the pane reads it. */
export function budgetHost(budget: OpenBudget): ReadingHost {
  const { workbook } = budget;
  return {
    namespace: "FEED",
    names: async () => workbook.names(),
    used: async (sheet: string) => workbook.used(sheet),
    read: async (ranges: readonly CellRange[]) => ranges.map((range) => contentAt(budget, range)),
  };
}

function contentAt({ plan, workbook }: OpenBudget, range: CellRange): RangeContent {
  const own = plan.sheets.find(({ name }) => name === range.sheet);
  const formats = new Map(own?.cells.map(({ at, format }) => [at, format]));
  const { top, left, bottom, right } = rangePlace(range.address);
  const each = <T>(read: (address: string) => T) =>
    Array.from({ length: bottom - top + 1 }, (_, row) =>
      Array.from({ length: right - left + 1 }, (_, column) =>
        read(cellAddress({ row: top + row, column: left + column })),
      ),
    );
  return {
    range,
    values: workbook.values(range.sheet, range.address),
    formulas: each((at) => workbook.formula(range.sheet, at)),
    formats: each((at) => formats.get(at) ?? "General"),
  };
}

export async function copyOf(budget: OpenBudget) {
  return plainCopy(await copyRequest(budget));
}

/** By the name of each sheet: values, and formulas with `=` as a workbook holds them that has nothing else in it. */
export function contentOf(plan: WorkbookPlan): Readonly<Record<string, SheetContent>> {
  const used = plainNames(plan, "FEED");
  return Object.fromEntries(
    plan.sheets.map(({ key, name, cells }) => [
      used.sheets[key] ?? name,
      new Map(
        cells.flatMap(({ at, value, formula }) => {
          if (formula !== undefined) return [[at, `=${fillPlaceholders(formula, used)}`] as const];
          return value === undefined ? [] : [[at, value] as const];
        }),
      ),
    ]),
  );
}
