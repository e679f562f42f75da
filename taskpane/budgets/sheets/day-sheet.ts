/** A day in periods: each solved with its own loads and supply voltage, and what its losses come to. */
import type {
  PlanCell,
  PlanValidation,
  SheetPlan,
} from "../../../src/plans/sheet-plan.js";
import {
  area,
  bareCell,
  call,
  fixedArea,
  fixedAt,
  formulaCell,
  headingRow,
  quoted,
  valueCell,
} from "../../../src/plans/sheet-builder.js";
import { SOLVED_COLUMNS } from "../../../functions/families/chain.js";
import { tableHeader } from "../../../src/schedules/columns.js";
import { enteredCell } from "../block.js";
import { headingFormat } from "../formats.js";
import type { Places } from "../places.js";
import type { Day, DayPeriod } from "../sample.js";
import { SPARE_ROWS } from "../spill.js";
import { sheetPlan } from "./sheet.js";

/** Of a year, as all of its days are taken to be like this one. */
const DAYS = 365;

const INPUT_LINES = [
  ["name", "Called", "", "inputText"],
  ["hours", "Hours", "h", "input"],
  ["loads", "Loads in that time", "", "inputText"],
  ["supply", "Supply voltage in that time", "", "inputText"],
] as const satisfies readonly (readonly [
  keyof DayPeriod,
  string,
  string,
  "input" | "inputText",
])[];

interface DayInputs {
  readonly cells: readonly PlanCell[];
  readonly validations: readonly PlanValidation[];
}

/** On Inputs; nothing for a budget without a day. */
export function dayInputs({
  sample: { day },
  dayRow: head,
}: Places): DayInputs {
  if (!day) return { cells: [], validations: [] };
  const count = day.periods.length;
  const price = head + INPUT_LINES.length + 1;
  return {
    cells: [
      ...headingRow(0, head, [
        "A day",
        ...day.periods.map((_, index) => `Period ${index + 1}`),
      ]),
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
        area: area(
          1,
          head + INPUT_LINES.length,
          count,
          head + INPUT_LINES.length,
        ),
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
  const last = HEAD + periods.length;
  const solvedHead = last + 9;
  return sheetPlan(places, {
    key: "day",
    name: "Day",
    subtitle:
      "Each period solved by CHAIN_SOLVE, its power taken as constant over its hours.",
    columnWidths: [290, ...Array.from({ length: 45 }, () => 110)],
    cells: [
      ...headingRow(0, HEAD, HEADINGS),
      ...periods.flatMap((_, index) => periodCells(places, index, solvedHead)),
      ...totalCells(places, periods.length),
      ...periods.flatMap((_, index) => solvedCells(places, index, solvedHead)),
    ],
  });
}

function given({ dayRow }: Places, key: keyof DayPeriod, period: number) {
  const line = INPUT_LINES.findIndex(([one]) => one === key);
  return `{inputs}!${fixedAt(1 + period, dayRow + 1 + line)}`;
}

/** Side by side: a spill may grow downward. */
function solvedColumn(period: number, heading: string): number {
  const at = SOLVED_COLUMNS.findIndex((one) => one === heading);
  return period * (SOLVED_COLUMNS.length + 1) + at;
}

function periodCells(
  places: Places,
  period: number,
  solvedHead: number,
): PlanCell[] {
  const row = HEAD + 1 + period;
  const anchor = fixedAt(solvedColumn(period, "Item"), solvedHead);
  const column = (heading: string) => {
    const at = solvedColumn(period, heading);
    const end = solvedHead + places.items + SPARE_ROWS;
    return fixedArea(at, solvedHead + 1, at, end);
  };
  const guarded = (formula: string) =>
    `IF(ISERROR(${anchor}),${anchor},${formula})`;
  const kinds = places.table.column(tableHeader("kind"));
  const energy = (of: number) => `${fixedAt(of, row)}*${fixedAt(1, row)}/1000`;
  const formulas = [
    [given(places, "name", period), undefined],
    [`N(${given(places, "hours", period)})`, "0.0"],
    [guarded(`SUMIF(${kinds},"*load",${column("Input W")})`), "0.0"],
    [guarded(`SUM(${column("Loss W")})`), "0.0"],
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
  const all = (column: number) =>
    fixedArea(column, HEAD + 1, column, HEAD + count);
  const [hours, loadEnergy, lossEnergy] = [1, 4, 5].map((column) =>
    fixedAt(column, row),
  ) as [string, string, string];
  const total = (column: number, formula: string, format: string) =>
    formulaCell(column, row, formula, "total", { format });
  const mean = (energy: string) => `IF(${hours}>0,${energy}*1000/${hours},"–")`;
  const price = `{inputs}!${fixedAt(1, places.dayRow + INPUT_LINES.length + 1)}`;
  const year = fixedAt(1, row + 3);
  const lines = [
    [
      "Efficiency over the day, supply to loads",
      `IF(${loadEnergy}+${lossEnergy}>0,${loadEnergy}/(${loadEnergy}+${lossEnergy}),"–")`,
      "0.0%",
      quoted(""),
    ],
    [
      `Energy lost in a year of ${DAYS} such days`,
      `${lossEnergy}*${DAYS}`,
      "#,##0",
      quoted("kWh"),
    ],
    [
      "Cost of it in a year, at the price of energy on Inputs",
      `${year}*N(${price})`,
      "#,##0",
      `${places.requirement("Currency")}&""`,
    ],
  ] as const;
  return [
    valueCell(0, row, "The day; its mean powers", "total"),
    total(1, `SUM(${all(1)})`, "0.0"),
    total(2, mean(loadEnergy), "0.0"),
    total(3, mean(lossEnergy), "0.0"),
    total(4, `SUM(${all(4)})`, "0.000"),
    total(
      5,
      `IF(${hours}>0,${call("ENERGY_LOSS", all(3), all(1))},0)`,
      "0.000",
    ),
    ...lines.flatMap(([label, formula, format, unit], index) => [
      valueCell(0, row + 2 + index, label, "label"),
      formulaCell(1, row + 2 + index, formula, "result", { format }),
      formulaCell(2, row + 2 + index, unit, "unit"),
    ]),
  ];
}

function solvedCells(places: Places, period: number, head: number): PlanCell[] {
  const first = solvedColumn(period, "Item");
  const solve = call(
    "CHAIN_SOLVE",
    places.table.area,
    given(places, "loads", period),
    given(places, "supply", period),
  );
  return [
    formulaCell(first, head - 1, given(places, "name", period), "heading"),
    {
      ...formulaCell(first, head, solve, "tableHeading"),
      spill: [places.items + 1, SOLVED_COLUMNS.length] as const,
    },
    ...SOLVED_COLUMNS.slice(1).map((_, index) =>
      bareCell(first + 1 + index, head, "tableHeading"),
    ),
    ...Array.from({ length: places.items }, (_, index) =>
      SOLVED_COLUMNS.map((heading, column) => {
        const format = headingFormat(heading);
        const row = head + 1 + index;
        return format === undefined
          ? bareCell(first + column, row, "resultText")
          : bareCell(first + column, row, "result", { format });
      }),
    ).flat(),
    bareCell(first, head + places.items + SPARE_ROWS, "resultText"),
  ];
}
