/**
 * What the spreadsheet still does with sheets and formulas that are gone. A formula that is taken away with its sheet
 * stays in the search for what depends on a cell, and is complained of after every edit; the entries of a sheet are
 * checked once the page is idle, and that fails where the sheet is gone by then. Both are passed over here.
 */
import type { Injector, Workbook } from "@univerjs/core";

type FormulaEngine = typeof import("@univerjs/engine-formula");
type Vendor = typeof import("../vendor/univer.js");

/** What is taken from the spreadsheet's packages; handed in, so that this file loads without them. */
export type DependencyParts = Pick<FormulaEngine, "IDependencyManagerService">;

interface Dependencies {
  searchDependency(...search: readonly unknown[]): Set<number>;
  /** By formula, the ranges that it reads; of those alone that are there. */
  readonly _allTreeMap: ReadonlyMap<number, unknown>;
}

/** To be called once the engine's services exist, which is when the first workbook is ready. */
export function passOverGoneFormulas(parts: DependencyParts, injector: Injector): void {
  const dependencies = injector.get(parts.IDependencyManagerService) as unknown as Dependencies;
  const search = dependencies.searchDependency.bind(dependencies);
  dependencies.searchDependency = (...asked) => {
    const found = search(...asked);
    for (const formula of found) if (!dependencies._allTreeMap.has(formula)) found.delete(formula);
    return found;
  };
}

/** To be called once the workbook is made. */
export function passOverGoneSheets(vendor: Vendor, injector: Injector): void {
  const entries = injector.get(vendor.SheetsDataValidationValidatorService);
  const workbooks = injector.get(vendor.IUniverInstanceService);
  const check = entries.validatorRanges.bind(entries);
  entries.validatorRanges = async (unitId, sheetId, ranges) => {
    const workbook = workbooks.getUnit<Workbook>(unitId, vendor.UniverInstanceType.UNIVER_SHEET);
    return workbook?.getSheetBySheetId(sheetId) ? check(unitId, sheetId, ranges) : [];
  };
}
