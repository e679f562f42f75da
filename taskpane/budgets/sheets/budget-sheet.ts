/** The budget at the loads and the supply voltage that Inputs chooses: its balance, and every item solved. */
import type { PlanCell, SheetPlan } from "../../../src/plans/sheet-plan.js";
import {
  range,
  call,
  fixedAt,
  formulaCell,
  headingRow,
  valueCell,
} from "../../../src/plans/sheet-builder.js";
import { tableHeader } from "../../../src/schedules/columns.js";
import type { Places } from "../places.js";
import { handCheckCells } from "./hand-checks.js";
import { sheetPlan } from "./sheet.js";

const HEAD = 5;

interface Line {
  readonly label: string;
  readonly formula: string;
  /** A formula behind `=`. */
  readonly unit: string;
  readonly format?: string;
  readonly isKey?: true;
}

export function budgetSheet(places: Places): SheetPlan {
  const { solved, table } = places;
  const solve = call("CHAIN_SOLVE", table.range, places.loads, places.supply);
  const lines = [...verdictLines(places), ...balanceLines(places)];
  return sheetPlan(places, {
    key: "budget",
    name: "Budget",
    subtitle: "At the loads and the supply voltage that Inputs chooses. Checks judges every case.",
    columnWidths: [
      ...[290, 110, 100, 100, 100, 100, 100, 90, 100, 110, 90, 420],
      ...[30, 190, 110, 110, 110, 110, 110, 110],
    ],
    cells: [
      formulaCell(0, 3, solvedFor(places), "label"),
      ...headingRow(0, HEAD - 1, ["Figure", "Value", "Unit"]),
      ...lines.flatMap((line, index) => lineCells(line, HEAD + index)),
      valueCell(0, solved.row - 1, "Every item solved", "heading"),
      ...solved.cells(solve),
      ...handCheckCells(places),
    ],
    conditionalFormats: [{ range: `B${HEAD}`, kind: "above", limit: 0, paint: "warning" }],
  });
}

/** Headings, then a line for each figure of the whole feed. */
export function balanceRange(places: Places): string {
  const count = verdictLines(places).length + balanceLines(places).length;
  return range(0, HEAD - 1, 2, HEAD + count - 1);
}

/** Items that wait for a figure are in no sum. */
function solvedFor({ solved, loads, supply }: Places): string {
  const waiting = `COUNTIF(${solved.column("Input V")},"–")`;
  const without = `IF(${waiting}=0,"","; items that wait for a figure, in no sum: "&${waiting})`;
  return solved.guarded(
    `"Loads "&${loads}&", supply "&${supply}&", margin of the loads counted"&${without}`,
  );
}

/** What CHAIN_CHECKS says of all cases together. */
function verdictLines({ checks }: Places): Line[] {
  const counted = (verdict: string) =>
    checks.guarded(`COUNTIF(${checks.column("Verdict")},"${verdict}")`);
  return [
    {
      label: "Checks that fail in some case",
      formula: counted("fails"),
      unit: "rows of Checks",
      format: "0",
      isKey: true,
    },
    {
      label: "Checks not determined",
      formula: counted("not determined"),
      unit: "rows of Checks",
      format: "0",
    },
  ];
}

function balanceLines(places: Places): Line[] {
  const { table, solved } = places;
  const kinds = table.column(tableHeader("kind"));
  const watts = { unit: "W", format: "0.0" } as const;
  const volts = solved.column("Input V");
  // An error among them is no number, and is to be seen.
  const currency = places.requirement("Currency");
  const ofSolved = (sum: string) =>
    solved.guarded(`IF(COUNTIF(${volts},"–")*(COUNT(${volts})=0),"–",${sum})`);
  const sumOf = (kind: string) => ofSolved(`SUMIF(${kinds},"${kind}",${solved.column("Input W")})`);
  const at = (index: number) => fixedAt(1, HEAD + BALANCE_FROM + index);
  const [supply, loads, losses, together] = [at(1), at(2), at(3), at(4)];
  const total = (label: string, field: "mass" | "price", unit: string) => {
    const column = table.column(tableHeader(field));
    return {
      label,
      formula: table.guarded(`IF(COUNT(${column})=0,"–",SUM(${column}))`),
      unit: `=${table.guarded(`${unit}&"of "&COUNT(${column})&IF(COUNT(${column})=1," item"," items")`)}`,
      format: field === "mass" ? "0.0" : "#,##0",
    };
  };
  return [
    {
      label: "Supply voltage, open circuit",
      formula: solved.guarded(`INDEX(${solved.column("Input V")},MATCH("supply",${kinds},0))`),
      unit: "V",
      format: "0.0",
    },
    { label: "Supply power", formula: sumOf("supply"), ...watts, isKey: true },
    { label: "All loads", formula: sumOf("*load"), ...watts },
    {
      label: "All losses, given off as heat",
      formula: ofSolved(`SUM(${solved.column("Loss W")})`),
      ...watts,
    },
    {
      label: "Loads and losses together",
      formula: ifNumber(loads, `${loads}+${losses}`),
      ...watts,
    },
    {
      label: "Efficiency, supply to loads",
      formula: ifNumber(supply, `IF(${supply}>0,${loads}/${supply},"–")`),
      unit: "",
      format: "0.0%",
    },
    {
      label: "Closing error",
      formula: ifNumber(together, `${supply}-${together}`),
      unit: "W",
      format: "0.0E+00",
    },
    total("Mass", "mass", '"kg, "'),
    total("Price", "price", `IF(${currency}="","",${currency}&", ")`),
  ];
}

/** What stands there instead of a number goes on. */
function ifNumber(at: string, formula: string): string {
  return `IF(ISNUMBER(${at}),${formula},${at})`;
}

/** Lines above the balance. */
const BALANCE_FROM = 2;

function lineCells({ label, formula, unit, format, isKey }: Line, row: number): PlanCell[] {
  return [
    valueCell(0, row, label, "label"),
    formulaCell(1, row, formula, isKey ? "key" : "result", format === undefined ? {} : { format }),
    unit.startsWith("=")
      ? formulaCell(2, row, unit.slice(1), "unit")
      : valueCell(2, row, unit, "unit"),
  ];
}
