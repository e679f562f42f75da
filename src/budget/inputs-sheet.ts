/** Every assumption once: label, value, unit, and what it rests on. */
import type {
  PlanCell,
  PlanValidation,
  SheetPlan,
} from "../plans/sheet-plan.js";
import {
  area,
  bareCell,
  fixedAt,
  formulaCell,
  headingRow,
  valueCell,
  widthFor,
} from "../plans/sheet-builder.js";
import {
  type BudgetScenario,
  COMMON_KEYS,
  type InputBlock,
  type InputLine,
  type InputReach,
} from "./budget-scenario.js";
import { originOf } from "./cautions.js";
import { allowedInWords } from "./input-lines.js";

const LABEL = 0;
/** Blocks of fewer than three columns end here too, so that a value stands beside its unit. */
const LAST_VALUE = 3;
const UNIT = 4;
const BASIS = 5;
const FIRST_BLOCK_ROW = 5;

/** The last one holds the longest words that can be chosen, beside the arrow that opens their list. */
const VALUE_WIDTHS = [86, 96, 156] as const;
/** Nothing stands to the right of it, so longer text shows whole. */
const BASIS_WIDTH = 340;

interface PlacedLine {
  readonly line: InputLine;
  readonly block: InputBlock;
  readonly row: number;
}

/** @throws {RangeError} for a line that the scenario does not have. */
export function inputReach(scenario: BudgetScenario): InputReach {
  const lines = new Map(
    placedLines(scenario).map((placed) => [placed.line.key, placed]),
  );
  const has = (key: string) => lines.has(key);
  const cellOf = (key: string, column: number) => {
    const placed = lines.get(key);
    if (!placed || column >= placed.line.values.length)
      throw new RangeError(`${scenario.id} has no input ${key}, ${column}`);
    return fixedAt(firstColumn(placed.block) + column, placed.row);
  };
  return {
    has,
    given: (key, column = 0) => `{inputs}!${cellOf(key, column)}`,
    allOf(key) {
      const last = (lines.get(key)?.line.values.length ?? 1) - 1;
      return `{inputs}!${cellOf(key, 0)}:${cellOf(key, last)}`;
    },
  };
}

export function inputsSheet(scenario: BudgetScenario): SheetPlan {
  const lines = placedLines(scenario);
  const texts = (of: (line: InputLine) => string) =>
    lines.map(({ line }) => of(line));
  return {
    key: "inputs",
    name: "Inputs",
    columnWidths: [
      widthFor(
        240,
        texts(({ label }) => label),
      ),
      ...VALUE_WIDTHS,
      widthFor(
        60,
        texts(({ unit, priced }) => (priced ? `EUR ${unit}` : unit)),
      ),
      BASIS_WIDTH,
    ],
    frozenRows: 3,
    cells: [
      valueCell(LABEL, 1, `${scenario.title}: inputs`, "title"),
      valueCell(LABEL, 2, aboutData(scenario), "subtitle"),
      valueCell(LABEL, 3, whatToChange(scenario), "label"),
      ...blockRows(scenario).flatMap(({ block, row }) => headCells(block, row)),
      ...lines.flatMap((placed) =>
        lineCells(placed, currencyAt(lines), inputReach(scenario)),
      ),
    ],
    merges: [],
    validations: lines.flatMap(validationsOf),
    conditionalFormats: [],
    pictures: [],
  };
}

/** The story, and that its figures are invented where it has any. */
function aboutData(scenario: BudgetScenario): string {
  return `${scenario.story} ${originOf(scenario)}`.trim();
}

function whatToChange({ typedRows }: BudgetScenario): string {
  return typedRows === undefined
    ? "Change the framed cells with blue figures on yellow; every other number of this workbook follows from them."
    : "Enter the framed cells that stand empty, then the feed table of Budget; line 3 there says what is still missing. A day may stay empty.";
}

function blockRows(
  scenario: BudgetScenario,
): readonly { readonly block: InputBlock; readonly row: number }[] {
  let row = FIRST_BLOCK_ROW;
  return scenario.inputs.map((block) => {
    const placed = { block, row };
    row += block.lines.length + 2;
    return placed;
  });
}

function placedLines(scenario: BudgetScenario): readonly PlacedLine[] {
  return blockRows(scenario).flatMap(({ block, row }) =>
    block.lines.map((line, index) => ({ line, block, row: row + 1 + index })),
  );
}

function firstColumn({ columns }: InputBlock): number {
  return LAST_VALUE + 1 - columns.length;
}

function headCells(block: InputBlock, row: number): PlanCell[] {
  return [
    valueCell(LABEL, row, block.title, "heading"),
    ...headingRow(firstColumn(block), row, [
      ...block.columns,
      "Unit",
      "Rests on",
    ]),
  ];
}

/** On the Inputs sheet itself. */
function currencyAt(lines: readonly PlacedLine[]): string {
  const placed = lines.find(({ line }) => line.key === COMMON_KEYS.currency);
  return placed ? fixedAt(firstColumn(placed.block), placed.row) : '""';
}

function lineCells(
  { line, block, row }: PlacedLine,
  currency: string,
  reach: InputReach,
): PlanCell[] {
  const look = {
    ...(line.format !== undefined && { format: line.format }),
    ...(line.citation !== undefined && { citation: line.citation }),
  };
  return [
    valueCell(LABEL, row, line.label, "label"),
    ...(line.follows === undefined
      ? line.values.map((value, index) =>
          enteredCell(line, firstColumn(block) + index, row, value, look),
        )
      : [formulaCell(LAST_VALUE, row, line.follows(reach), "result", look)]),
    ...unitCells(line, row, currency),
    valueCell(BASIS, row, line.basis, "label"),
  ];
}

function unitCells(
  { unit, priced }: InputLine,
  row: number,
  currency: string,
): PlanCell[] {
  if (unit === "") return [];
  return [
    priced
      ? formulaCell(
          UNIT,
          row,
          `IF(${currency}="","",${currency}&" ")&"${unit}"`,
          "unit",
        )
      : valueCell(UNIT, row, unit, "unit"),
  ];
}

function enteredCell(
  line: InputLine,
  column: number,
  row: number,
  value: number | string,
  look: Pick<PlanCell, "format" | "citation">,
): PlanCell {
  const isNumber =
    value === ""
      ? line.allowed !== undefined && line.allowed.kind !== "list"
      : typeof value === "number";
  const style = isNumber ? "input" : "inputText";
  return value === ""
    ? bareCell(column, row, style, look)
    : valueCell(column, row, value, style, look);
}

function validationsOf({ line, block, row }: PlacedLine): PlanValidation[] {
  if (line.allowed === undefined) return [];
  return [
    {
      ...line.allowed,
      area: area(firstColumn(block), row, LAST_VALUE, row),
      message: `${line.label}: ${allowedInWords(line.allowed, line.unit)}`,
    },
  ];
}
