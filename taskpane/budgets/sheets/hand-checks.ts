/** Every solved item beside what a pocket calculator makes of its own input: closed forms, native formulas. */
import type { PlanCell } from "../../../src/plans/sheet-plan.js";
import {
  fixedRange,
  fixedAt,
  formulaCell,
  headingRow,
  valueCell,
} from "../../../src/plans/sheet-builder.js";
import { FEED_KINDS } from "../../../src/network/feed-item.js";
import { EQUATION, type Equation, ROW_KINDS } from "../../../src/network/row-kinds.js";
import { type TableField, tableHeader } from "../../../src/schedules/columns.js";
import { HAND_COLUMNS, HAND_MEANINGS } from "../heading-meanings.js";
import type { Places } from "../places.js";

/** Right of the solved rows, which may grow. */
const FIRST = 13;

/** As many as a sheet recalculates in no time; a new item takes one of those that are spare. */
function rowCount({ items }: Places): number {
  return Math.min(120, Math.max(40, items + 20));
}

export function handCheckCells(places: Places): PlanCell[] {
  const { solved } = places;
  const head = solved.row;
  const rows = rowCount(places);
  const apart = (column: number) => {
    const range = fixedRange(column, head + 1, column, head + rows);
    return solved.guarded(`MAX(MAX(${range}),-MIN(${range}))`);
  };
  const line = (row: number, label: string, formula: string, format: string) => [
    valueCell(FIRST, row, label, "label"),
    formulaCell(FIRST + 3, row, formula, "result", { format }),
  ];
  const named = `COUNTIF(${solved.column("Item")},"?*")`;
  return [
    valueCell(FIRST, head - 5, "Check by hand", "heading"),
    ...line(
      head - 4,
      "Items that these rows do not reach",
      solved.guarded(`MAX(0,${named}-${rows})`),
      "0",
    ),
    ...line(head - 3, "Largest difference, V", apart(FIRST + 3), "0.0E+00"),
    ...line(head - 2, "Largest difference, W", apart(FIRST + 6), "0.0E+00"),
    valueCell(
      FIRST,
      head - 1,
      "Output: input less drop, ratio times input or set point, less R·I/n. Loss: R·I²/n; n·a + b·I + c·I²/n; P·(1/η − 1).",
      "unit",
    ),
    ...headingRow(FIRST, head, HAND_COLUMNS, HAND_MEANINGS),
    ...Array.from({ length: rows }, (_, index) => rowCells(places, index)).flat(),
  ];
}

function rowCells(places: Places, index: number): PlanCell[] {
  const { table, solved } = places;
  const row = solved.row + 1 + index;
  const own = (column: number) => fixedAt(FIRST + column, row);
  const item = own(0);
  // The error of a condition does not reach the result of an IF in every spreadsheet.
  const shown = (formula: string) => `IF(ISERROR(${item}),${item},IF(${item}="","",${formula}))`;
  const difference = (a: string, b: string) =>
    shown(`IF(AND(ISNUMBER(${a}),ISNUMBER(${b})),${a}-${b},"–")`);
  const volts = { format: "0.00" };
  const watts = { format: "0.00" };
  const rest = { format: "0.0E+00" };
  const cells: readonly (readonly [string, { format?: string }])[] = [
    [solved.guarded(`${table.cell("Item", index)}&""`), {}],
    [shown(outputByHand(places, index)), volts],
    [shown(solved.cellHere("Output V", index)), volts],
    [difference(own(1), own(2)), rest],
    [shown(lossByHand(places, index)), watts],
    [shown(solved.cellHere("Loss W", index)), watts],
    [difference(own(4), own(5)), rest],
  ];
  return cells.map(([formula, look], column) =>
    formulaCell(FIRST + column, row, formula, column === 0 ? "resultText" : "result", look),
  );
}

interface Parts {
  /** The cell with the word. */
  readonly kind: string;
  readonly figure: (field: TableField) => string;
  readonly count: string;
  readonly input: string;
  readonly output: string;
  readonly current: string;
}

/** Parts of a row's closed forms: figures of one item as numbers, 0 where the table has none. */
function partsOf({ table, solved }: Places, index: number): Parts {
  const cell = (field: TableField) => table.cell(tableHeader(field), index);
  const figure = (field: TableField) => `N(${cell(field)})`;
  return {
    kind: cell("kind"),
    figure,
    count: `MAX(1,${figure("inParallel")})`,
    input: solved.cellHere("Input V", index),
    output: solved.cellHere("Output V", index),
    current: solved.cellHere("Output A", index),
  };
}

interface ByHand {
  /** Output voltage before the row's resistance drops any. */
  readonly held: (parts: Parts) => string;
  /** For each square ampere. */
  readonly quadratic: (parts: Parts) => string;
  /** Beside the losses of a stage. */
  readonly drop: (parts: Parts) => string;
}

const PASSES: ByHand = {
  held: ({ input }) => input,
  // Of a ratio stage it holds its resistance, and is that where none is given.
  quadratic: ({ figure }) => `MAX(${figure("quadraticLoss")},${figure("resistance")})`,
  drop: () => "0",
};

/** By the equation of a kind. */
const BY_HAND: Readonly<Record<Equation, ByHand>> = {
  [EQUATION.supply]: PASSES,
  [EQUATION.line]: {
    ...PASSES,
    // A drop that does not change with current is none where no current flows.
    held: ({ input, current, figure }) => `${input}-IF(${current}>0,${figure("voltage")},0)`,
    drop: ({ current, figure }) => `${figure("voltage")}*${current}`,
  },
  [EQUATION.ratio]: { ...PASSES, held: ({ input, figure }) => `${figure("ratio")}*${input}` },
  [EQUATION.regulated]: {
    ...PASSES,
    held: ({ figure }) => figure("voltage"),
    // Its droop loses nothing.
    quadratic: ({ figure }) => figure("quadraticLoss"),
  },
  [EQUATION.power]: PASSES,
  [EQUATION.current]: PASSES,
  [EQUATION.conductance]: PASSES,
};

/** The form of the row's own kind: kinds whose form is another than `PASSES` has are asked for by name. */
function byKind(parts: Parts, form: keyof ByHand): string {
  const usual = PASSES[form](parts);
  const kinds = new Map<string, string[]>();
  for (const kind of FEED_KINDS) {
    const { equation, fedBy } = ROW_KINDS[kind];
    // A bus and a tie have no forward drop.
    const own = fedBy === "one" ? BY_HAND[equation][form](parts) : usual;
    if (own !== usual) kinds.set(own, [...(kinds.get(own) ?? []), `${parts.kind}="${kind}"`]);
  }
  return [...kinds].reduce(
    (others, [own, tests]) =>
      `IF(${tests.length > 1 ? `OR(${tests.join(",")})` : tests[0]!},${own},${others})`,
    usual,
  );
}

function outputByHand(places: Places, index: number): string {
  const parts = partsOf(places, index);
  const { figure, count, current } = parts;
  const drop = `${current}*${figure("resistance")}/${count}`;
  return `IF(ISNUMBER(${current}),${byKind(parts, "held")}-${drop},"–")`;
}

function lossByHand(places: Places, index: number): string {
  const parts = partsOf(places, index);
  const { figure, count, output, current } = parts;
  const efficiency = figure("efficiency");
  const losses = `${count}*${figure("fixedLoss")}+${figure("linearLoss")}*${current}+${byKind(parts, "quadratic")}*${current}^2/${count}`;
  const byEfficiency = `${output}*${current}*(1/${efficiency}-1)`;
  return `IF(ISNUMBER(${current}),IF(${efficiency}>0,${byEfficiency},${losses})+${byKind(parts, "drop")},"–")`;
}
