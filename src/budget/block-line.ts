/** One line of a block of the Budget sheet: label, value, unit. */
import type { PlanCell } from "../plans/sheet-plan.js";
import { formulaCell, valueCell } from "../plans/sheet-builder.js";

export interface BlockLine {
  readonly row: number;
  readonly label: string;
  readonly formula: string;
  /** "" beside words and per cent; a formula where the unit is an input. */
  readonly unit: string;
  readonly unitFormula?: string;
  readonly format?: string;
  readonly style: "result" | "resultText" | "key";
}

export function lineCells(
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
