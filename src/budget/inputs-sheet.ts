/** Every assumption once: label, value, unit, and what it rests on. */
import type {
  PlanCell,
  PlanValidation,
  SheetPlan,
} from "../plans/sheet-plan.js";
import {
  area,
  fixedAt,
  headingRow,
  valueCell,
  widthFor,
} from "../plans/sheet-builder.js";
import type {
  BudgetScenario,
  InputBlock,
  InputLine,
  InputReach,
} from "./budget-scenario.js";
import { originOf } from "./cautions.js";

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
  const cellOf = (key: string, column: number) => {
    const placed = lines.get(key);
    if (!placed || column >= placed.line.values.length)
      throw new RangeError(`${scenario.id} has no input ${key}, ${column}`);
    return fixedAt(firstColumn(placed.block) + column, placed.row);
  };
  return {
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
        texts(({ unit }) => unit),
      ),
      BASIS_WIDTH,
    ],
    frozenRows: 3,
    cells: [
      valueCell(LABEL, 1, `${scenario.title}: inputs`, "title"),
      valueCell(
        LABEL,
        2,
        `${scenario.story} ${originOf(scenario)}`,
        "subtitle",
      ),
      valueCell(
        LABEL,
        3,
        "Change the framed cells with blue figures on yellow; every other number of this workbook follows from them.",
        "label",
      ),
      ...blockRows(scenario).flatMap(({ block, row }) => headCells(block, row)),
      ...lines.flatMap(lineCells),
    ],
    merges: [],
    validations: lines.flatMap(validationsOf),
    conditionalFormats: [],
    pictures: [],
  };
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

function lineCells({ line, block, row }: PlacedLine): PlanCell[] {
  const look = {
    ...(line.format !== undefined && { format: line.format }),
    ...(line.citation !== undefined && { citation: line.citation }),
  };
  return [
    valueCell(LABEL, row, line.label, "label"),
    ...line.values.map((value, index) =>
      typeof value === "number"
        ? valueCell(firstColumn(block) + index, row, value, "input", look)
        : valueCell(firstColumn(block) + index, row, value, "inputText", look),
    ),
    valueCell(UNIT, row, line.unit, "unit"),
    valueCell(BASIS, row, line.basis, "label"),
  ].filter(({ value }) => value !== "");
}

function validationsOf({ line, block, row }: PlacedLine): PlanValidation[] {
  if (line.allowed === undefined) return [];
  return [
    {
      ...line.allowed,
      area: area(firstColumn(block), row, LAST_VALUE, row),
      message: `${line.label}: ${allowedInWords(line)}`,
    },
  ];
}

function allowedInWords({ allowed, unit }: InputLine): string {
  if (allowed === undefined) return "";
  if (allowed.kind === "list") return `one of ${allowed.values.join(", ")}`;
  const number = allowed.kind === "whole" ? "a whole number" : "a number";
  return `${number} from ${allowed.least} to ${allowed.most} ${unit}`.trim();
}
