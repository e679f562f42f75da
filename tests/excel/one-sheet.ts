/** A plan of one sheet, for what a test wants of a sheet. */
import type { SheetPlan, WorkbookPlan } from "../../src/plans/sheet-plan.js";

export function oneSheet(sheet: Partial<SheetPlan>): WorkbookPlan {
  return {
    id: "one",
    title: "One",
    stem: "One",
    names: [],
    sheets: [
      {
        key: "one",
        name: "One",
        columnWidths: [],
        frozenRows: 0,
        cells: [{ at: "A1", value: 1, style: "input" }],
        merges: [],
        validations: [],
        conditionalFormats: [],
        pictures: [],
        ...sheet,
      },
    ],
  };
}
