/** A budget with a feed table and a requirement that are typed, so that a workbook in memory calculates it at once. Invented figures. */
import type { PlanCell, SheetPlan, WorkbookPlan } from "../../../src/plans/sheet-plan.js";

const COLUMNS = "ABCDEFGH";

function rows(top: number, table: readonly (readonly (string | number)[])[]): PlanCell[] {
  return table.flatMap((cells, row) =>
    cells.flatMap((value, column): PlanCell[] =>
      value === "" ? [] : [{ at: `${COLUMNS[column]}${top + row}`, value, style: "input" }],
    ),
  );
}

/** 400 V over a cable to a load of 10 A; the cell of its resistance is Feed!E5. */
export function smallBudget(title: string, ohms: number, sheet = "Feed"): WorkbookPlan {
  const inputs: SheetPlan = {
    key: "inputs",
    name: "Inputs",
    columnWidths: [200, 120],
    frozenRows: 0,
    cells: [
      ...rows(1, [
        ["Title", title],
        ["About", "blank-budget", "2.0.0"],
      ]),
      ...rows(4, [
        ["Asked for", "Value"],
        ["Margin to each window", "not asked"],
      ]),
    ],
    merges: [],
    validations: [],
    conditionalFormats: [],
    pictures: [],
  };
  return {
    id: "blank-budget",
    title,
    stem: "Quay",
    sheets: [
      inputs,
      {
        ...inputs,
        key: "feed",
        name: sheet,
        cells: rows(3, [
          [
            ...["Item", "Fed from", "Kind", "Voltage (V)", "Resistance (Ω)"],
            ...["Load", "Lowest V", "Highest V"],
          ],
          ["Bus", "", "supply", 400, "", "", 380, 420],
          ["Cable", "Bus", "run", "", ohms],
          ["Camp", "Cable", "current load", "", "", 10, 365, 450],
        ]),
      },
    ],
    names: [
      { name: "Title", sheet: "inputs", range: "B1" },
      { name: "About", sheet: "inputs", range: "B2:C2" },
      { name: "Asked", sheet: "inputs", range: "A4:B6" },
      // With room for more, as a budget's own.
      { name: "Feed", sheet: "feed", range: "A3:H20" },
    ],
  };
}
