/** A day in periods: each solved with its own loads and supply voltage, and what its losses come to. */
import type { PlanCell, PlanValidation, SheetPlan } from "../../../src/plans/sheet-plan.js";
import {
  range,
  call,
  fixedRange,
  fixedAt,
  formulaCell,
  headingRow,
  quoted,
  valueCell,
} from "../../../src/plans/sheet-builder.js";
import { tableHeader } from "../../../src/schedules/columns.js";
import { enteredCell } from "../block.js";
import type { Places } from "../places.js";
import type { Day, DayPeriod } from "../sample.js";
import { sheetPlan } from "./sheet.js";

/** Days of a year; all are taken to be like this one. */
const DAYS = 365;

const INPUT_LINES = [
  ["name", "Called", "", "inputText"],
  ["hours", "Hours", "h", "input"],
  ["loads", "Loads in that time", "", "inputText"],
  ["supply", "Supply voltage in that time", "", "inputText"],
] as const satisfies readonly (readonly [keyof DayPeriod, string, string, "input" | "inputText"])[];

interface DayInputs {
  readonly cells: readonly PlanCell[];
  readonly validations: readonly PlanValidation[];
}

/** On Inputs; nothing for a budget without a day. */
export function dayInputs({ sample: { day }, dayRow: head }: Places): DayInputs {
  if (!day) return { cells: [], validations: [] };
  const count = day.periods.length;
  const price = head + INPUT_LINES.length + 1;
  return {
    cells: [
      ...headingRow(0, head, ["A day", ...day.periods.map((_, index) => `Period ${index + 1}`)]),
      ...INPUT_LINES.flatMap(([key, label, unit, style], index) => [
        valueCell(0, head + 1 + index, label, "label"),
        ...day.periods.map((period, column) =>
          enteredCell(1 + column, head + 1 + index, period[key], style),
        ),
        valueCell(1 + count, head + 1 + index, unit, "unit"),
      ]),
      valueCell(0, price, "Price of energy", "label"),
      enteredCell(1, price, day.energyPrice, "input", { format: "0.00" }),
      valueCell(2, price, "per kWh", "unit"),
    ],
    validations: [
      {
        kind: "list",
        values: ["lowest", "nominal", "highest"],
        range: range(1, head + INPUT_LINES.length, count, head + INPUT_LINES.length),
        message: "Supply voltage: one of lowest, nominal, highest",
      },
    ],
  };
}

const HEADINGS = [
  "Period",
  "Hours (h)",
  "All loads (W)",
  "All losses (W)",
  "Energy to the loads (kWh)",
  "Energy lost (kWh)",
] as const;
const HEAD = 5;

export function daySheet(places: Places, { periods }: Day): SheetPlan {
  return sheetPlan(places, {
    key: "day",
    name: "Day",
    subtitle: "Each period solved by CHAIN_SOLVE, its power taken as constant over its hours.",
    columnWidths: [290, ...Array.from({ length: 45 }, () => 110)],
    cells: [
      valueCell(0, HEAD - 1, "Power and energy by period", "heading"),
      ...headingRow(0, HEAD, HEADINGS),
      ...periods.flatMap((_, index) => periodCells(places, index)),
      ...totalCells(places, periods.length),
      ...periods.flatMap((_, index) => solvedCells(places, index)),
    ],
  });
}

/** Without the solved rows of each period: where those are an error, so are its figures. */
export function dayRange({ periods: [first] }: Places): string {
  return range(0, HEAD, HEADINGS.length - 1, first!.row - 2);
}

function given({ dayRow }: Places, key: keyof DayPeriod, period: number) {
  const line = INPUT_LINES.findIndex(([one]) => one === key);
  return `{inputs}!${fixedAt(1 + period, dayRow + 1 + line)}`;
}

/** A period without hours has no energy, and then the day has none; what is not known is not 0. */
const UNKNOWN = quoted("–");

function periodCells(places: Places, period: number): PlanCell[] {
  const row = HEAD + 1 + period;
  const solved = places.periods[period]!;
  const kinds = places.table.column(tableHeader("kind"));
  const loads = `SUMIF(${kinds},"*load",${solved.column("Input W")})`;
  const hours = fixedAt(1, row);
  const energy = (of: number) =>
    `IF(${hours}=${UNKNOWN},${UNKNOWN},${fixedAt(of, row)}*${hours}/1000)`;
  const typedHours = given(places, "hours", period);
  const formulas = [
    [given(places, "name", period), undefined],
    [`IF(${typedHours}="",${UNKNOWN},N(${typedHours}))`, "0.0"],
    [solved.guarded(loads), "0.0"],
    [solved.guarded(`SUM(${solved.column("Loss W")})`), "0.0"],
    [energy(2), "0.000"],
    [energy(3), "0.000"],
  ] as const;
  return formulas.map(([formula, format], index) =>
    formulaCell(
      index,
      row,
      formula,
      format === undefined ? "resultText" : "result",
      format === undefined ? {} : { format },
    ),
  );
}

/** Energies of the day, mean powers, and what the losses cost. */
function totalCells(places: Places, count: number): PlanCell[] {
  const row = HEAD + count + 1;
  const all = (column: number) => fixedRange(column, HEAD + 1, column, HEAD + count);
  const [hours, loadEnergy, lossEnergy] = [1, 4, 5].map((column) => fixedAt(column, row)) as [
    string,
    string,
    string,
  ];
  const total = (column: number, formula: string, format: string) =>
    formulaCell(column, row, formula, "total", { format });
  const unless = (isUnknown: string, formula: string) => `IF(${isUnknown},${UNKNOWN},${formula})`;
  const above0 = (sum: string, formula: string) => `IF(${sum}>0,${formula},${UNKNOWN})`;
  const ofAll = (formula: string) => unless(`COUNTIF(${all(1)},${UNKNOWN})>0`, formula);
  const mean = (energy: string) => above0(`N(${hours})`, `${energy}*1000/${hours}`);
  const price = `{inputs}!${fixedAt(1, places.dayRow + INPUT_LINES.length + 1)}`;
  const head = row + 3;
  const year = fixedAt(1, head + 2);
  const lines = [
    [
      "Efficiency over the day, supply to loads",
      above0(`N(${loadEnergy})+N(${lossEnergy})`, `${loadEnergy}/(${loadEnergy}+${lossEnergy})`),
      "0.0%",
      quoted(""),
    ],
    [
      `Energy lost in a year of ${DAYS} such days`,
      unless(`${lossEnergy}=${UNKNOWN}`, `${lossEnergy}*${DAYS}`),
      "#,##0",
      quoted("kWh"),
    ],
    [
      "Cost of it in a year, at the price of energy on Inputs",
      unless(`OR(${year}=${UNKNOWN},${price}="")`, `${year}*N(${price})`),
      "#,##0",
      `${places.requirement("Currency")}&""`,
    ],
  ] as const;
  return [
    valueCell(0, row, "The day; its mean powers", "total"),
    total(1, ofAll(`SUM(${all(1)})`), "0.0"),
    total(2, mean(loadEnergy), "0.0"),
    total(3, mean(lossEnergy), "0.0"),
    total(4, ofAll(`SUM(${all(4)})`), "0.000"),
    total(5, ofAll(`IF(${hours}>0,${call("ENERGY_LOSS", all(3), all(1))},0)`), "0.000"),
    valueCell(0, head - 1, "What the losses come to", "heading"),
    ...headingRow(0, head, ["Figure", "Value", "Unit"]),
    ...lines.flatMap(([label, formula, format, unit], index) => [
      valueCell(0, head + 1 + index, label, "label"),
      formulaCell(1, head + 1 + index, formula, "result", { format }),
      formulaCell(2, head + 1 + index, unit, "unit"),
    ]),
  ];
}

function solvedCells(places: Places, period: number): PlanCell[] {
  const solved = places.periods[period]!;
  const solve = call(
    "CHAIN_SOLVE",
    places.table.range,
    given(places, "loads", period),
    given(places, "supply", period),
  );
  const name = given(places, "name", period);
  return [formulaCell(solved.left, solved.row - 1, name, "heading"), ...solved.cells(solve)];
}
