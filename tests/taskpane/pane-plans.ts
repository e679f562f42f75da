/** Two small plans for tests of the pane. Invented figures. */
import type {
  PlanCell,
  SheetPlan,
  WorkbookPlan,
} from "../../src/plans/sheet-plan.js";

function sheet(
  key: string,
  name: string,
  cells: readonly PlanCell[],
): SheetPlan {
  return {
    key,
    name,
    columnWidths: [120],
    frozenRows: 0,
    cells,
    merges: [],
    validations: [],
    conditionalFormats: [],
    pictures: [],
  };
}

function about(id: string): readonly PlanCell[] {
  return [
    { at: "A20", value: id, style: "text" },
    { at: "B20", value: "1", style: "text" },
    { at: "C20", value: "0", style: "text" },
  ];
}

function plan(
  id: string,
  title: string,
  stem: string,
  sentence: string,
  limits: readonly (readonly (string | number)[])[],
): WorkbookPlan {
  return {
    id,
    title,
    stem,
    names: [
      { name: "About", sheet: "inputs", area: "A20:C20" },
      { name: "Limits", sheet: "budget", area: "A5:D9" },
      { name: "Accepted", sheet: "inputs", area: "A30:D33" },
    ],
    sheets: [
      sheet("inputs", "Inputs", [
        { at: "A1", value: title, style: "title" },
        { at: "A2", value: sentence, style: "subtitle" },
        { at: "A4", value: "Current", style: "label" },
        { at: "B4", value: 12.5, style: "input" },
        { at: "A5", value: "Length", style: "label" },
        { at: "B5", value: 350, style: "input" },
        ...about(id),
        ...["Warning", "Accepted", "Reason", "As it was found"].map(
          (value, column): PlanCell => ({
            at: `${"ABCD"[column]}30`,
            value,
            style: "tableHeading",
          }),
        ),
      ]),
      sheet("budget", "Budget", [
        { at: "A1", value: "Drop of the run", style: "label" },
        {
          at: "B1",
          formula: '{FEED}.CONDUCTOR_DROP({inputs}!B4,{inputs}!B5,"4 mm²",40)',
          style: "result",
        },
        ...limitCells(limits),
      ]),
    ],
  };
}

function limitCells(
  limits: readonly (readonly (string | number)[])[],
): readonly PlanCell[] {
  return limits.flatMap((row, rowIndex) =>
    row.map((value, column): PlanCell => {
      const at = `${"ABCD"[column]}${rowIndex + 5}`;
      return { at, value, style: "input" };
    }),
  );
}

/** What `page-warnings.ts` makes warnings of. */
export const panePlans: readonly WorkbookPlan[] = [
  plan(
    "lookout",
    "Lookout hut",
    "Lookout",
    "A 400 V bus feeds a hut 350 m away through one ratio stage; invented for tests.",
    [
      ["note", "Drives", 52.5, 50],
      ["danger", "Valley bus", 440, 120],
      ["warning", "Summit bus", 56.1, 30],
    ],
  ),
  plan(
    "jetty",
    "Jetty lights",
    "Jetty",
    "A 200 V bus feeds lights along a jetty; invented for tests.",
    [],
  ),
];
