/** A budget of the headless workbench as a plain copy reads it, and a plan as cells to calculate elsewhere. */
import {
  type CopyRequest,
  plainCopy,
} from "../../functions/working/plain-copy.js";
import type { CopiedSheet } from "../../functions/working/copied-sheet.js";
import { columnLetters } from "../../src/plans/addresses.js";
import { fillPlaceholders, plainNames } from "../../src/plans/placeholders.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { formulaTrees } from "../../taskpane/formula-reading/cell-reading.js";
import type { OpenBudget } from "../budget/open-budget.js";
import type { SheetContent } from "./iron-calc.js";

export function copyRequest({ plan, workbook, rows }: OpenBudget): CopyRequest {
  const sheets = plan.sheets.map((sheet): CopiedSheet => {
    const values = rows(sheet.name);
    const formulas = values.map((row, rowIndex) =>
      row.map((_, column) =>
        workbook.formula(sheet.name, `${columnLetters(column)}${rowIndex + 1}`),
      ),
    );
    const format = new Map(sheet.cells.map((cell) => [cell.at, cell.format]));
    const formats = values.map((row, rowIndex) =>
      row.map(
        (_, column) =>
          format.get(`${columnLetters(column)}${rowIndex + 1}`) ?? "General",
      ),
    );
    return { name: sheet.name, values, formulas, formats, plan: sheet };
  });
  const names = plan.names.map(({ name, sheet, area }) => ({
    name: `${plan.stem}_${name}`,
    area: {
      sheet: plan.sheets.find(({ key }) => key === sheet)?.name ?? sheet,
      address: area,
    },
  }));
  const contents = sheets.map(({ name, values, formulas, formats }) => ({
    area: {
      sheet: name,
      address: `A1:${columnLetters((values[0]?.length ?? 1) - 1)}${values.length}`,
    },
    values,
    formulas,
    formats,
  }));
  return {
    title: plan.title,
    sheets,
    trees: formulaTrees(contents, names, "FEED"),
  };
}

export function copyOf(budget: OpenBudget) {
  return plainCopy(copyRequest(budget));
}

/** By the name of each sheet: values, and formulas with `=` as a workbook holds them that has nothing else in it. */
export function contentOf(
  plan: WorkbookPlan,
): Readonly<Record<string, SheetContent>> {
  const used = plainNames(plan, "FEED");
  return Object.fromEntries(
    plan.sheets.map(({ key, name, cells }) => [
      used.sheets[key] ?? name,
      new Map(
        cells.flatMap(({ at, value, formula }) => {
          if (formula !== undefined)
            return [[at, `=${fillPlaceholders(formula, used)}`] as const];
          return value === undefined ? [] : [[at, value] as const];
        }),
      ),
    ]),
  );
}
