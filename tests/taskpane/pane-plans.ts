/** Two small plans for tests of the pane. Invented figures. */
import { CHECKS_COLUMNS, type Weight } from "../../src/judgement/check-row.js";
import type { PlanCell, SheetPlan, StyleName, WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { ACCEPTANCE_COLUMNS } from "../../taskpane/budgets/warnings/acceptances.js";

function sheet(key: string, name: string, cells: readonly PlanCell[]): SheetPlan {
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

const COLUMNS = "ABCDEFGHIJKLMN";

/** Cells of one row, from A on. */
function rowCells(row: number, values: readonly (string | number)[], style: StyleName): PlanCell[] {
  return values.flatMap((value, column) =>
    value === "" ? [] : [{ at: `${COLUMNS[column]}${row}`, value, style }],
  );
}

interface PaneCheck {
  readonly item: string;
  readonly weight: Weight;
  readonly found: number;
  readonly limit: number;
}

/** Of `CHAIN_CHECKS`, written as values, so that a test can write other ones. */
function checkRow({ item, weight, found, limit }: PaneCheck) {
  return [
    ...[item, "Band in service", "supply highest", found, "at most", limit],
    ...["V", 1 - found / limit, "fails", weight, "", "", "", "IEC 62368-1"],
  ];
}

const CHECKS_ROW = 4;
const CHECK_ROWS = 5;

function plan(
  id: string,
  title: string,
  stem: string,
  sentence: string,
  checks: readonly PaneCheck[],
): WorkbookPlan {
  return {
    id,
    title,
    stem,
    names: [
      { name: "Title", sheet: "inputs", range: "A1" },
      { name: "About", sheet: "inputs", range: "A20:C20" },
      { name: "Accepted", sheet: "inputs", range: "A30:D33" },
      { name: "Feed", sheet: "budget", range: "A2" },
      { name: "Solved", sheet: "budget", range: "A2" },
      {
        name: "Checks",
        sheet: "budget",
        range: `A${CHECKS_ROW}:N${CHECKS_ROW + CHECK_ROWS}`,
      },
    ],
    sheets: [
      sheet("inputs", "Inputs", [
        { at: "A1", value: title, style: "title" },
        { at: "A2", value: sentence, style: "subtitle" },
        { at: "A4", value: "Current", style: "label" },
        { at: "B4", value: 12.5, style: "input" },
        { at: "A5", value: "Length", style: "label" },
        { at: "B5", value: 350, style: "input" },
        ...rowCells(20, [id, "2.0.0", "0"], "text"),
        ...rowCells(30, ACCEPTANCE_COLUMNS, "tableHeading"),
      ]),
      sheet("budget", "Budget", [
        { at: "A1", value: "Drop of the run", style: "label" },
        {
          at: "B1",
          formula: '{FEED}.CONDUCTOR_DROP({inputs}!B4,{inputs}!B5,"4 mm²",40)',
          style: "result",
        },
        { at: "A2", formula: '"Item"', style: "tableHeading" },
        // As a spill, which begins with a formula.
        { at: `A${CHECKS_ROW}`, formula: '"Item"', style: "tableHeading" },
        ...rowCells(CHECKS_ROW, ["", ...CHECKS_COLUMNS.slice(1)], "tableHeading"),
        ...checks.flatMap((check, index) =>
          rowCells(CHECKS_ROW + 1 + index, checkRow(check), "input"),
        ),
      ]),
    ],
  };
}

/** They pass for two that are known, by which budgets in a workbook are found. */
export const panePlans: readonly WorkbookPlan[] = [
  plan(
    "ridge-top-observatory",
    "Lookout hut",
    "Lookout",
    "A 400 V bus feeds a hut 350 m away through one ratio stage; invented for tests.",
    [
      { item: "Drives", weight: "note", found: 52.5, limit: 50 },
      { item: "Valley bus", weight: "danger", found: 440, limit: 120 },
      { item: "Summit bus", weight: "warning", found: 56.1, limit: 30 },
    ],
  ),
  plan(
    "harbour-survey-crawler",
    "Jetty lights",
    "Jetty",
    "A 200 V bus feeds lights along a jetty; invented for tests.",
    [],
  ),
];
