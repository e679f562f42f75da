/** What a sample is asked beside its budget: small tables of formulas, each with how it is found. */
import type { PlanCell, SheetPlan } from "../../../src/plans/sheet-plan.js";
import {
  range,
  bareCell,
  fixedRange,
  formulaCell,
  headingRow,
  valueCell,
} from "../../../src/plans/sheet-builder.js";
import { TABLE_COLUMNS, headerText } from "../../../src/schedules/columns.js";
import type { Places } from "../places.js";
import type { AnswerReach, AnswerTable, ColumnRange } from "../sample.js";
import { sheetPlan } from "./sheet.js";

const FIRST_ROW = 4;
/** Title, how it is found and headings; then what stands empty before the next table. */
const HEAD_ROWS = 3;
const BETWEEN = 2;

/** Tables below each other; what spills stands last. */
export function answersSheet(places: Places, tables: readonly AnswerTable[]): SheetPlan {
  const cells: PlanCell[] = [];
  let row = FIRST_ROW;
  let above: ColumnRange = () => {
    throw new RangeError("the first table has none above it");
  };
  for (const table of tables) {
    cells.push(
      valueCell(0, row, table.title, "heading"),
      valueCell(0, row + 1, table.how, "label"),
      ...headingRow(0, row + 2, table.headings),
      ...(table.spill
        ? spillCells(places, table, row + 3, above)
        : tableCells(places, table, row + 3)),
    );
    if (!table.spill) above = columnRanges(row + 3, table.rows.length);
    row += (table.spill ? table.spill.rows : table.rows.length) + 5;
  }
  return sheetPlan(places, {
    key: "answers",
    name: "Answers",
    subtitle:
      "Each answer rests on the schedules and on the solved feed of Budget; choose the case that is solved on Inputs.",
    columnWidths: [290, 130, 130, 130, 130, 130, 130, 300],
    cells,
  });
}

/** With its head, and what stands empty below it. */
function rowsOf({ spill, rows }: AnswerTable): number {
  return HEAD_ROWS + (spill ? spill.rows : rows.length) + BETWEEN;
}

/** All of its tables. */
export function answersRange(tables: readonly AnswerTable[]): string {
  const rows = tables.reduce((sum, table) => sum + rowsOf(table), 0);
  const columns = Math.max(...tables.map(({ headings }) => headings.length));
  return range(0, FIRST_ROW, columns - 1, FIRST_ROW + rows - BETWEEN - 1);
}

/** Ranges of values, which stand beside their labels. */
function columnRanges(top: number, rows: number): ColumnRange {
  return (column) => fixedRange(column + 1, top, column + 1, top + rows - 1);
}

/** Looks items up by the cell that names them, so that a renamed item is still found. */
export function answerReach(places: Places): AnswerReach {
  const { solved, table } = places;
  const cellOf = (item: string, column: string, items: string) =>
    `INDEX(${column},MATCH(${nameOf(places, item)},${items},0))`;
  return {
    table: table.range,
    solved: (item, heading) => cellOf(item, solved.column(heading), solved.column("Item")),
    entered(item, header) {
      const column = TABLE_COLUMNS.find((one) => one.header === header);
      if (!column) throw new RangeError(`the table has no column ${header}`);
      return cellOf(item, table.column(headerText(column)), table.column("Item"));
    },
    typed: (block, item, header) => places.block(block).cell(item, header),
    figure: (label) => places.figure(label),
  };
}

function nameOf(places: Places, item: string): string {
  const block = places.blockOf(item);
  return block.cell(item, block.name);
}

type Spilled = Extract<AnswerTable, { readonly spill: object }>;

function spillCells(
  places: Places,
  { spill: { formula, rows, format }, headings }: Spilled,
  top: number,
  above: ColumnRange,
): PlanCell[] {
  const called = guarded(places, typeof formula === "string" ? formula : formula(above));
  return Array.from({ length: rows * headings.length }, (_, index) => {
    const row = top + Math.floor(index / headings.length);
    const column = index % headings.length;
    return index === 0
      ? {
          ...formulaCell(column, row, called, "resultText", { format }),
          spill: [rows, headings.length] as const,
        }
      : bareCell(column, row, "resultText", { format });
  });
}

function tableCells(
  places: Places,
  { rows }: Extract<AnswerTable, { readonly rows: object }>,
  top: number,
): PlanCell[] {
  const columnRange = columnRanges(top, rows.length);
  return rows.flatMap(({ label, values }, index) => [
    valueCell(0, top + index, label, "label"),
    ...values.map((value, column) =>
      typeof value === "string"
        ? valueCell(column + 1, top + index, value, "unit")
        : formulaCell(
            column + 1,
            top + index,
            guarded(
              places,
              typeof value.formula === "string" ? value.formula : value.formula(columnRange),
            ),
            "result",
            { format: value.format },
          ),
    ),
  ]);
}

/** What is looked up in a spill waits for it, and is its error where it has one. */
function guarded({ solved }: Places, formula: string): string {
  return /\{(budget|table)\}!/.test(formula) ? solved.guarded(formula) : formula;
}
