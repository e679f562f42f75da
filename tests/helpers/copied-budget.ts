/** A budget of the headless workbench as a plain copy reads it, and a plan as cells to calculate elsewhere. */
import { type CopyRequest, plainCopy } from "../../functions/working/copy/plain-copy.js";
import { areaPlace, cellAddress, columnLetters } from "../../src/plans/addresses.js";
import { fillPlaceholders, plainNames } from "../../src/plans/placeholders.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { readForCopy, type ReadingHost } from "../../taskpane/workbook/budget-copying.js";
import type { Area, AreaContent } from "../../taskpane/hosts/host.js";
import type { OpenBudget } from "../budgets/open-budget.js";
import type { SheetContent } from "./iron-calc.js";

export function copyRequest(budget: OpenBudget): Promise<CopyRequest> {
  return readForCopy(budgetHost(budget), budget.found());
}

/** As the pane reads it. */
export function budgetHost(budget: OpenBudget): ReadingHost {
  const { plan, rows } = budget;
  const nameOf = (key: string) => plan.sheets.find((sheet) => sheet.key === key)?.name ?? key;
  return {
    namespace: "FEED",
    names: async () =>
      plan.names.map(({ name, sheet, area }) => ({
        name: `${plan.stem}_${name}`,
        area: { sheet: nameOf(sheet), address: area },
      })),
    used: async (sheet: string) => {
      const read = rows(sheet);
      const last = columnLetters((read[0]?.length ?? 1) - 1);
      return { sheet, address: `A1:${last}${read.length}` };
    },
    read: async (areas: readonly Area[]) => areas.map((area) => contentAt(budget, area)),
  };
}

function contentAt({ plan, workbook }: OpenBudget, area: Area): AreaContent {
  const own = plan.sheets.find(({ name }) => name === area.sheet);
  const formats = new Map(own?.cells.map(({ at, format }) => [at, format]));
  const { top, left, bottom, right } = areaPlace(area.address);
  const each = <T>(read: (address: string) => T) =>
    Array.from({ length: bottom - top + 1 }, (_, row) =>
      Array.from({ length: right - left + 1 }, (_, column) =>
        read(cellAddress({ row: top + row, column: left + column })),
      ),
    );
  return {
    area,
    values: workbook.values(area.sheet, area.address),
    formulas: each((at) => workbook.formula(area.sheet, at)),
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
