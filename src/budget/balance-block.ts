/** The head of the Budget sheet: power in, power out, what is lost, whether it closes, and the limits that rows are held against. */
import type { PlanCell } from "../plans/sheet-plan.js";
import {
  area,
  call,
  firstOf,
  fixedArea,
  formulaCell,
  quoted,
  valueCell,
} from "../plans/sheet-builder.js";
import {
  BALANCE_ROW,
  balanceAt,
  balanceRows,
  type BudgetLayout,
  feedColumnArea,
  LIMIT_LABEL_COLUMN,
  LIMIT_UNIT_COLUMN,
  LIMIT_VALUE_COLUMN,
  limitAt,
  limitRows,
  solvedColumnArea,
} from "./budget-layout.js";
import { bandsCheckArea } from "./bands-layout.js";
import { resultColumnAt } from "./budget-columns.js";
import { COMMON_KEYS, type InputReach } from "./budget-scenario.js";

interface BlockLine {
  readonly row: number;
  readonly label: string;
  readonly formula: string;
  /** "" beside words and per cent; a formula where the unit is an input. */
  readonly unit: string;
  readonly unitFormula?: string;
  readonly format?: string;
  readonly style: "result" | "resultText" | "key";
}

export function balanceCells(
  layout: BudgetLayout,
  reach: InputReach,
): PlanCell[] {
  const { given } = reach;
  const lines: BlockLine[] = [
    ...powerLines(layout, given),
    ...closingLines(),
    ...rowLines(layout),
    totalLine(layout, "mass", "Mass of cables and stages", "0.0", "kg"),
    {
      ...totalLine(layout, "cost", "Cost of cables and stages", "#,##0", ""),
      unitFormula: given(COMMON_KEYS.currency),
    },
  ];
  return [
    valueCell(0, BALANCE_ROW, "Power balance", "heading"),
    valueCell(1, BALANCE_ROW, "Value", "tableHeading"),
    valueCell(2, BALANCE_ROW, "Unit", "tableHeading"),
    ...lines.flatMap((line) => lineCells(line, 0, 1, 2)),
  ];
}

function powerLines(
  layout: BudgetLayout,
  given: InputReach["given"],
): BlockLine[] {
  const solved = (heading: Parameters<typeof solvedColumnArea>[1]) =>
    solvedColumnArea(layout, heading, 0);
  const chosen = given(COMMON_KEYS.supply);
  const volts = (column: number) => given(COMMON_KEYS.supplyVoltage, column);
  const watts = { unit: "W", format: "0.0", style: "result" } as const;
  return [
    {
      row: balanceRows.supplyVoltage,
      label: "Supply voltage, open circuit",
      formula: firstOf(
        [
          [`${chosen}="lowest"`, volts(0)],
          [`${chosen}="highest"`, volts(2)],
        ],
        volts(1),
      ),
      unit: "V",
      format: "0.0",
      style: "result",
    },
    {
      row: balanceRows.supplyPower,
      label: "Supply power",
      formula: `SUMIF(${feedColumnArea(layout, "kind")},"supply",${solved("Input W")})`,
      ...watts,
      style: "key",
    },
    {
      row: balanceRows.loadPower,
      label: "All loads",
      formula: `SUMIF(${solved("Output V")},"–",${solved("Input W")})`,
      ...watts,
    },
    {
      row: balanceRows.loss,
      label: "All losses, given off as heat",
      formula: `SUM(${solved("Loss W")})`,
      ...watts,
    },
    {
      row: balanceRows.together,
      label: "Loads and losses together",
      formula: `${balanceAt("loadPower")}+${balanceAt("loss")}`,
      ...watts,
      style: "key",
    },
    {
      row: balanceRows.efficiency,
      label: "Efficiency, supply to loads",
      formula: `IF(${balanceAt("supplyPower")}>0,${balanceAt("loadPower")}/${balanceAt("supplyPower")},"–")`,
      unit: "",
      format: "0.0%",
      style: "result",
    },
  ];
}

function closingLines(): BlockLine[] {
  const [error, allowed] = [
    balanceAt("closingError"),
    balanceAt("closingAllowed"),
  ];
  const watts = { unit: "W", format: "0.0E+00", style: "result" } as const;
  return [
    {
      row: balanceRows.closingError,
      label: "Closing error",
      formula: `${balanceAt("supplyPower")}-${balanceAt("together")}`,
      ...watts,
    },
    {
      row: balanceRows.closingAllowed,
      label: "Closing error allowed",
      formula: `${balanceAt("supplyPower")}/10^9`,
      ...watts,
    },
    {
      row: balanceRows.closingCheck,
      label: "Closing check",
      formula: firstOf(
        [
          [`NOT(ISNUMBER(${error}))`, quoted("✖ not solved: see the notes")],
          [`ABS(${error})<=${allowed}`, quoted("✔ closes")],
        ],
        quoted("✖ does not close: do not use"),
      ),
      unit: "",
      style: "resultText",
    },
  ];
}

/** Of checks that are more than a note. */
const WARNING_SYMBOLS = ["▲", "✖", "◇"] as const;

/** Rows with a warning, here and on Bands; notes are not counted. */
function rowLines({ resultsHead, items }: BudgetLayout): BlockLine[] {
  const check = resultColumnAt("check");
  const here = fixedArea(
    check,
    resultsHead + 1,
    check,
    resultsHead + items.length,
  );
  const counted = (cells: string) =>
    WARNING_SYMBOLS.map((symbol) => `COUNTIF(${cells},"${symbol}*")`).join("+");
  const look = { format: "0", style: "result" } as const;
  const unit = `of ${items.length} rows`;
  return [
    {
      row: balanceRows.rowsHere,
      label: "Rows with a warning below",
      formula: counted(here),
      unit,
      ...look,
    },
    {
      row: balanceRows.rowsOnBands,
      label: "Rows with a warning on Bands",
      formula: counted(bandsCheckArea(items.length)),
      unit,
      ...look,
    },
  ];
}

function totalLine(
  { resultsHead, items }: BudgetLayout,
  key: "mass" | "cost",
  label: string,
  format: string,
  unit: string,
): BlockLine {
  const column = resultColumnAt(key);
  const total = resultsHead + items.length + 1;
  return {
    row: balanceRows[key],
    label,
    formula: fixedArea(column, total, column, total).split(":")[0] ?? "",
    unit,
    format,
    style: "result",
  };
}

/** The band that people may touch, and the one above it, by framework: the names are those of SAFETY_BAND. */
const BANDS_ASKED = [
  ["IEC 62368-1", "ES1", "ES2"],
  ["IEC 60364-4-41", "bare", "extra-low"],
  ["ISO 6469-3", "A", "A"],
] as const;
const BAND_ASKED_ELSE = "below 50 V";

export function limitCells({ given }: InputReach): PlanCell[] {
  const framework = given(COMMON_KEYS.framework);
  const band = (which: 1 | 2) =>
    firstOf(
      BANDS_ASKED.map((names) => [
        `${framework}=${quoted(names[0])}`,
        quoted(names[which]),
      ]),
      quoted(BAND_ASKED_ELSE),
    );
  const limitOf = (line: "band" | "bandAbove") =>
    `IFERROR(${call("SAFETY_LIMIT", framework, limitAt(line), limitAt("place"))},"not determined")`;
  const words = { unit: "", style: "resultText" } as const;
  const volts = { unit: "V", format: "0", style: "result" } as const;
  const metres = { unit: "m", format: "0", style: "result" } as const;
  const lines: BlockLine[] = [
    {
      row: limitRows.drop,
      label: "Largest drop of a run",
      formula: given(COMMON_KEYS.dropLimit),
      unit: "",
      format: "0.0%",
      style: "result",
    },
    {
      row: limitRows.loading,
      label: "Largest loading",
      formula: given(COMMON_KEYS.loadingLimit),
      unit: "",
      format: "0%",
      style: "result",
    },
    {
      row: limitRows.framework,
      label: "Framework",
      formula: framework,
      ...words,
    },
    {
      row: limitRows.place,
      label: "Place",
      formula: given(COMMON_KEYS.condition),
      ...words,
    },
    {
      row: limitRows.band,
      label: "Band asked for",
      formula: band(1),
      ...words,
    },
    {
      row: limitRows.bandAbove,
      label: "Band above it",
      formula: band(2),
      ...words,
    },
    {
      row: limitRows.bandLimit,
      label: "Limit of the band asked for",
      formula: limitOf("band"),
      ...volts,
    },
    {
      row: limitRows.bandAboveLimit,
      label: "Limit of the band above it",
      formula: limitOf("bandAbove"),
      ...volts,
    },
    {
      row: limitRows.closing,
      label: "Closing error allowed",
      formula: balanceAt("closingAllowed"),
      unit: "W",
      format: "0.0E+00",
      style: "result",
    },
    {
      row: limitRows.altitude,
      label: "Altitude",
      formula: given(COMMON_KEYS.altitude),
      ...metres,
    },
    {
      row: limitRows.altitudeLimit,
      label: "Clearances as printed up to",
      formula: given(COMMON_KEYS.altitudeLimit),
      ...metres,
    },
  ];
  const [label, value, unit] = [
    LIMIT_LABEL_COLUMN,
    LIMIT_VALUE_COLUMN,
    LIMIT_UNIT_COLUMN,
  ];
  return [
    valueCell(label, BALANCE_ROW, "Limit", "tableHeading"),
    valueCell(value, BALANCE_ROW, "Value", "tableHeading"),
    valueCell(unit, BALANCE_ROW, "Unit", "tableHeading"),
    ...lines.flatMap((line) => lineCells(line, label, value, unit)),
  ];
}

/** The label of a limit stands over two columns. */
export function limitMerges(): string[] {
  return [BALANCE_ROW, ...Object.values(limitRows)].map((row) =>
    area(LIMIT_LABEL_COLUMN, row, LIMIT_VALUE_COLUMN - 1, row),
  );
}

function lineCells(
  { row, label, formula, unit, unitFormula, format, style }: BlockLine,
  labelColumn: number,
  valueColumn: number,
  unitColumn: number,
): PlanCell[] {
  const units =
    unitFormula !== undefined
      ? [formulaCell(unitColumn, row, unitFormula, "unit")]
      : unit === ""
        ? []
        : [valueCell(unitColumn, row, unit, "unit")];
  return [
    valueCell(labelColumn, row, label, "label"),
    formulaCell(
      valueColumn,
      row,
      formula,
      style,
      format === undefined ? {} : { format },
    ),
    ...units,
  ];
}
