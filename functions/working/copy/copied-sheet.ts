/** A sheet as it was read from a workbook, and how its copy looks. */
import { cellAddress, cellPlace } from "../../../src/plans/addresses.js";
import type { SheetPlan, StyleName } from "../../../src/plans/sheet-plan.js";

export type ReadValue = string | number | boolean | { readonly error: string };

/** Every table from A1 on, all of one shape. */
export interface CopiedSheet {
  readonly name: string;
  /** Unformatted; an empty cell is "". */
  readonly values: readonly (readonly ReadValue[])[];
  /** en-US with `=`; "" where the cell holds none, spilled cells too. */
  readonly formulas: readonly (readonly string[])[];
  readonly formats: readonly (readonly string[])[];
  /** What the sheet was written from, for its look; left out where the sheet is not like it any more. */
  readonly plan?: SheetPlan;
}

export interface CopiedCell {
  readonly address: string;
  readonly row: number;
  readonly column: number;
  readonly value: ReadValue;
  readonly formula: string;
  readonly format: string;
}

export function cellsOfSheet({ values, formulas, formats }: CopiedSheet): CopiedCell[] {
  return values.flatMap((cells, row) =>
    cells.map((value, column) => ({
      address: cellAddress({ row, column }),
      row,
      column,
      value,
      formula: formulas[row]?.[column] ?? "",
      format: formats[row]?.[column] ?? "General",
    })),
  );
}

const CHANGED: ReadonlySet<StyleName> = new Set(["input", "inputText", "title"]);

/** Whether the texts of the plan still stand where they did. A title may be another: it names what the figures are about. */
export function looksLike(plan: SheetPlan, values: CopiedSheet["values"]): boolean {
  const texts = plan.cells.filter(
    ({ value, style }) => typeof value === "string" && !CHANGED.has(style),
  );
  return texts.every(({ at, value }) => {
    const { row, column } = cellPlace(at);
    return values[row]?.[column] === value;
  });
}

export type SheetLook = Pick<
  SheetPlan,
  "columnWidths" | "frozenRows" | "merges" | "validations" | "conditionalFormats"
>;

const PLAIN_LOOK: SheetLook = {
  columnWidths: [],
  frozenRows: 0,
  merges: [],
  validations: [],
  conditionalFormats: [],
};

export function lookOf({ plan }: CopiedSheet): SheetLook {
  if (!plan) return PLAIN_LOOK;
  const { columnWidths, frozenRows, merges } = plan;
  const { validations, conditionalFormats } = plan;
  return { columnWidths, frozenRows, merges, validations, conditionalFormats };
}

/** By address: the style that the plan gives, cells that only look like something too. */
export function stylesOf({ plan }: CopiedSheet): ReadonlyMap<string, StyleName> {
  return new Map(plan?.cells.map(({ at, style }) => [at, style]));
}

/** Where no plan says it: what is typed in may be changed, what is calculated is a result. */
export function usualStyle({ formula, value }: CopiedCell): StyleName {
  if (formula !== "") return typeof value === "number" ? "result" : "resultText";
  return typeof value === "number" ? "input" : "label";
}

/** A key for each sheet of the copy: the plan's where there is one, so that its rules still find their sheets. */
export function copyKeys(sheets: readonly CopiedSheet[]): readonly string[] {
  return sheets.map(({ plan }, index) => plan?.key ?? `sheet${index + 1}`);
}

const MOST_CHARACTERS = 31;

/** The longest name that spreadsheets take is kept to. */
export function copyName(name: string, suffix: string): string {
  return name.slice(0, MOST_CHARACTERS - suffix.length) + suffix;
}
