/** The head of the Budget sheet: power in, power out, what is lost, and whether it closes. */
import type { PlanCell } from "../plans/sheet-plan.js";
import {
  firstOf,
  fixedArea,
  fixedAt,
  quoted,
  valueCell,
} from "../plans/sheet-builder.js";
import {
  BANDS_HEAD,
  bandsColumnArea,
  type BandsHeading,
} from "./bands-layout.js";
import { type BlockLine, lineCells } from "./block-line.js";
import { resultColumnAt } from "./budget-columns.js";
import {
  BALANCE_ROW,
  balanceAt,
  balanceRows,
  type BudgetLayout,
  feedColumnArea,
  limitAt,
  notSolved,
  resultColumnArea,
  solvedColumnArea,
} from "./budget-layout.js";
import { COMMON_KEYS, type InputReach } from "./budget-scenario.js";
import { drawnArea } from "./results-table.js";
import { type SupplyChoice, supplyVoltage } from "./supply-voltage.js";
import { whenReady } from "./typed-feed.js";

export function balanceCells(
  layout: BudgetLayout,
  reach: InputReach,
): PlanCell[] {
  const { given } = reach;
  const lines: BlockLine[] = [
    ...powerLines(layout, given),
    ...closingLines(layout),
    ...rowLines(layout),
    totalLine(layout, "mass", "Mass of cables and stages", "0.0", "kg"),
    {
      ...totalLine(layout, "cost", "Cost of cables and stages", "#,##0", ""),
      unitFormula: `${given(COMMON_KEYS.currency)}&""`,
    },
  ];
  return [
    valueCell(0, BALANCE_ROW, "Power balance", "heading"),
    valueCell(1, BALANCE_ROW, "Value", "tableHeading"),
    valueCell(2, BALANCE_ROW, "Unit", "tableHeading"),
    ...lines.flatMap((line) => lineCells(guarded(layout, line), 0, 1, 2)),
  ];
}

/** Nothing is balanced while a typed feed is not complete; what is solved is said of its supply's voltage, so that stays. */
function guarded(layout: BudgetLayout, line: BlockLine): BlockLine {
  return line.row === balanceRows.supplyVoltage
    ? line
    : { ...line, formula: whenReady(layout, line.formula) };
}

function powerLines(
  layout: BudgetLayout,
  given: InputReach["given"],
): BlockLine[] {
  const solved = (heading: Parameters<typeof solvedColumnArea>[1]) =>
    solvedColumnArea(layout, heading);
  const chosen = given(COMMON_KEYS.supply);
  const volts = (which: SupplyChoice) =>
    supplyVoltage(layout, given, which, "");
  const watts = { unit: "W", format: "0.0", style: "result" } as const;
  return [
    {
      row: balanceRows.supplyVoltage,
      label: "Supply voltage, open circuit",
      formula: firstOf(
        [
          [`${chosen}="lowest"`, volts("lowest")],
          [`${chosen}="highest"`, volts("highest")],
        ],
        volts("nominal"),
      ),
      unit: "V",
      format: "0.0",
      style: "result",
    },
    {
      row: balanceRows.supplyPower,
      label: "Supply power",
      formula: suppliedPower(layout),
      ...watts,
      style: "key",
    },
    {
      row: balanceRows.loadPower,
      label: "All loads",
      formula: layout.typed
        ? `SUM(${drawnArea(layout)})`
        : `SUMIF(${solved("Output V")},"–",${solved("Input W")})`,
      ...watts,
    },
    {
      row: balanceRows.loss,
      label: "All losses, given off as heat",
      formula: layout.typed
        ? `SUM(${resultColumnArea(layout, "loss")})`
        : `SUM(${solved("Loss W")})`,
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

/** Of a typed feed from the results above it, since rows may stay empty between its items and the solved ones do not. */
function suppliedPower(layout: BudgetLayout): string {
  const kinds = feedColumnArea(layout, "kind");
  const sum = (range: string) => `SUMIF(${kinds},"supply",${range})`;
  return layout.typed
    ? `${sum(resultColumnArea(layout, "outputPower"))}+${sum(resultColumnArea(layout, "loss"))}`
    : sum(solvedColumnArea(layout, "Input W"));
}

function closingLines(layout: BudgetLayout): BlockLine[] {
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
          [
            `OR(${notSolved(layout)},NOT(ISNUMBER(${error})))`,
            quoted("✖ not solved: see the notes"),
          ],
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
  const unit = "rows";
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
      formula: bandsBeyond(items.length),
      unit,
      ...look,
    },
  ];
}

/** Items of the spill that are not within the band asked for, in service and after one fault; an error stays one. */
function bandsBeyond(items: number): string {
  const anchor = `{bands}!${fixedAt(0, BANDS_HEAD)}`;
  const column = (heading: BandsHeading) => bandsColumnArea(items, heading);
  const within = (["Band in service", "Band after one fault"] as const)
    .map((heading) => `${column(heading)},${limitAt("band")}`)
    .join(",");
  return `IF(ISERROR(${anchor}),${anchor},COUNTIF(${column("Item")},"?*")-COUNTIFS(${within}))`;
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
    formula: fixedAt(column, total),
    unit,
    format,
    style: "result",
  };
}
