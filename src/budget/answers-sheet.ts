/** What a scenario is asked beside its budget: small tables of native formulas and function calls, each with how it is found. */
import { cellPlace } from "../plans/addresses.js";
import type { PlanCell, SheetPlan } from "../plans/sheet-plan.js";
import {
  area,
  bareCell,
  fixedArea,
  formulaCell,
  headingRow,
  valueCell,
} from "../plans/sheet-builder.js";
import type { AnswerTable, BudgetScenario } from "./budget-scenario.js";

const FIRST_ROW = 5;
/** Room below a spilled table for items that are added later. */
const SPARE_ROWS = 20;

export function answersSheet(
  { title }: Pick<BudgetScenario, "title">,
  tables: readonly AnswerTable[],
): SheetPlan {
  const cells: PlanCell[] = [
    valueCell(0, 1, `${title}: answers`, "title"),
    valueCell(
      0,
      2,
      "Each answer rests on Inputs and on the solved feed of Budget; choose the case that is solved on Inputs.",
      "subtitle",
    ),
  ];
  let row = FIRST_ROW;
  for (const table of tables) {
    cells.push(
      valueCell(0, row, table.title, "heading"),
      valueCell(0, row + 1, table.how, "label"),
    );
    row += 2;
    if (table.kind === "spill") {
      if (table.headings) {
        cells.push(...headingRow(0, row, table.headings));
        row += 1;
      }
      cells.push(...spillCells(table, row));
      row += table.rows + SPARE_ROWS + 2;
    } else {
      cells.push(...tableCells(table, row));
      row += table.rows.length + 3;
    }
  }
  return {
    key: "answers",
    name: "Answers",
    columnWidths: [260, 130, 130, 130, 130, 130, 130, 300, 300],
    frozenRows: 0,
    cells,
    merges: [],
    validations: [],
    conditionalFormats: [],
    pictures: [],
  };
}

/** The anchor, and the cells that wait for what it spills. */
function spillCells(
  { formula, rows, columns }: AnswerTable & { readonly kind: "spill" },
  top: number,
): PlanCell[] {
  const format = "0.000";
  return Array.from({ length: rows * columns }, (_, index) => {
    const [row, column] = [top + Math.floor(index / columns), index % columns];
    return index === 0
      ? {
          ...formulaCell(column, row, formula, "resultText", { format }),
          spill: [rows, columns] as const,
        }
      : bareCell(column, row, "resultText", { format });
  });
}

function tableCells(
  { headings, rows }: AnswerTable & { readonly kind: "table" },
  top: number,
): PlanCell[] {
  const [first, last] = [top + 1, top + rows.length];
  const columnArea = (column: number) =>
    fixedArea(column + 1, first, column + 1, last);
  return [
    ...headingRow(0, top, headings),
    ...rows.flatMap(({ label, values }, index) => {
      const row = top + 1 + index;
      return [
        valueCell(0, row, label, "label"),
        ...values.map((value, column) =>
          "text" in value
            ? valueCell(column + 1, row, value.text, "unit")
            : formulaCell(
                column + 1,
                row,
                typeof value.formula === "string"
                  ? value.formula
                  : value.formula(columnArea),
                "result",
                { format: value.format },
              ),
        ),
      ];
    }),
  ];
}

/** All of the sheet, by which a copy finds it. */
export function answersArea({ cells }: SheetPlan): string {
  const places = cells.map(({ at }) => cellPlace(at));
  const last = Math.max(...places.map(({ row }) => row));
  return area(0, 1, 8, last + 1);
}
