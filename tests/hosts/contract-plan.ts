/** A small plan with one of everything that a host has to write. */
import type { PlanCell, WorkbookPlan } from "../../src/plans/sheet-plan.js";

export const SUPPLY_VOLTS = 400;
export const RUN_OHMS = 2;
export const LOAD_WATTS = 1000;

const FEED: readonly (readonly (string | number)[])[] = [
  ["Item", "Fed from", "Kind", "Voltage", "Resistance", "Load"],
  ["Hut", "", "supply", SUPPLY_VOLTS, "", ""],
  ["Line", "Hut", "run", "", RUN_OHMS, ""],
  ["Mast", "Line", "constant power", "", "", LOAD_WATTS],
];

function feedCells(): readonly PlanCell[] {
  return FEED.flatMap((row, rowIndex) =>
    row.flatMap((value, column): PlanCell[] => {
      const at = `${"ABCDEF"[column]}${rowIndex + 10}`;
      return value === "" ? [] : [{ at, value, style: "input" }];
    }),
  );
}

/** Sheet by sheet: `inputs` then `budget`; the solved table spills from budget!H10 and its load is in row 13. */
export const contractPlan: WorkbookPlan = {
  id: "contract",
  title: "Contract",
  stem: "Ridge",
  names: [
    { name: "Feed", sheet: "budget", range: "A10:F13" },
    { name: "Solved", sheet: "budget", range: "H10:S13" },
    { name: "About", sheet: "inputs", range: "A1" },
  ],
  sheets: [
    {
      key: "inputs",
      name: "Inputs",
      columnWidths: [160, 90],
      frozenRows: 1,
      cells: [
        { at: "A1", value: "A contract", style: "title" },
        { at: "A2", value: "Length", style: "label" },
        {
          at: "B2",
          value: 350,
          style: "input",
          format: '0 "m"',
          note: "One way.",
        },
        { at: "B3", value: 2, style: "input" },
        { at: "B4", value: "1/8", style: "inputText" },
        { at: "B5", value: true, style: "inputText" },
        { at: "B6", style: "input" },
      ],
      merges: ["A1:B1"],
      validations: [
        {
          range: "B3",
          kind: "whole",
          least: 1,
          most: 4,
          message: "1 to 4 cores",
        },
        {
          range: "B4",
          kind: "list",
          values: ["1/8", "1/16"],
          message: "One of the list",
        },
      ],
      conditionalFormats: [{ range: "B2:B3", kind: "above", limit: 300, paint: "warning" }],
      pictures: [],
    },
    {
      key: "budget",
      name: "Budget",
      columnWidths: [120],
      frozenRows: 0,
      cells: [
        {
          at: "A1",
          formula: "{inputs}!B2*{inputs}!B3",
          style: "result",
          format: "0.0",
        },
        { at: "A2", formula: "ROWS({Feed})", style: "result" },
        { at: "A3", formula: "1/0", style: "result" },
        { at: "A4", formula: "{FEED}.ENGINE_VERSION()", style: "resultText" },
        { at: "A5", formula: "INDEX($H$10:$S$13,4,2)", style: "key" },
        { at: "A6", formula: '"{Feed} & ""{inputs}!B2"""', style: "text" },
        ...feedCells(),
        {
          at: "H10",
          formula: "{FEED}.CHAIN_SOLVE({Feed})",
          spill: [4, 12],
          style: "result",
        },
      ],
      merges: [],
      validations: [],
      conditionalFormats: [],
      pictures: [],
    },
  ],
};
