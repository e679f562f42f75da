/** Every number of a budget by what its reader calls it: sheet, section, row and column, wherever they stand. */
import { cellPlace } from "../../src/plans/addresses.js";
import type { SheetPlan, StyleName } from "../../src/plans/sheet-plan.js";
import type { HostValue } from "../../taskpane/hosts/host.js";
import type { OpenBudget } from "./open-budget.js";

/** A number, or the code of an error. */
export type Figure = number | string;

/** By `Sheet › Section › Row › Column`; of the same words the second is told by ` (2)`. */
export type Figures = Readonly<Record<string, Figure>>;

/** One figure where all nine cases agree, else one for each. */
export type CaseFigures = Readonly<Record<string, Figure | readonly Figure[]>>;

export interface Case {
  readonly loads: string;
  readonly supply: string;
}

export const CASES: readonly Case[] = ["light", "nominal", "peak"].flatMap((loads) =>
  ["lowest", "nominal", "highest"].map((supply) => ({ loads, supply })),
);

/** The figures in each case, by what Inputs offers to be chosen; one after the other, changing no choice needlessly. */
export async function figuresInCases(
  budget: OpenBudget,
  cases: readonly Case[] = CASES,
): Promise<readonly Figures[]> {
  const solved: Figures[] = [];
  for (const { loads, supply } of cases) {
    await choose(budget, "Loads", loads);
    await choose(budget, "Supply voltage", supply);
    solved.push(figuresOf(budget));
  }
  return solved;
}

async function choose(budget: OpenBudget, label: string, choice: string) {
  if (budget.read(label) !== choice) await budget.enter(label, choice);
}

export function packed(cases: readonly Figures[]): CaseFigures {
  const keys = new Set(cases.flatMap((figures) => Object.keys(figures)));
  return Object.fromEntries(
    [...keys].map((key) => {
      const found = cases.map((figures) => figures[key] ?? "none");
      const alike = found.every((figure) => figure === found[0]);
      return [key, alike ? found[0]! : found];
    }),
  );
}

export function figuresOf({ plan, rows }: Pick<OpenBudget, "plan" | "rows">): Figures {
  const figures = new Map<string, Figure>();
  for (const sheet of plan.sheets) {
    const styles = stylesOf(sheet);
    const cells = rows(sheet.name);
    cells.forEach((row, at) =>
      row.forEach((value, column) => {
        const figure = figureOf(value);
        if (figure === undefined) return;
        const words = [
          sheet.name,
          above("heading", cells, styles, at, 0),
          rowLabel(row, styles[at] ?? [], column),
          above("tableHeading", cells, styles, at, column),
        ];
        const key = words.filter((word) => word !== "").join(" › ");
        let count = 1;
        const counted = () => (count === 1 ? key : `${key} (${count})`);
        while (figures.has(counted())) count += 1;
        figures.set(counted(), figure);
      }),
    );
  }
  return Object.fromEntries(figures);
}

function figureOf(value: HostValue): Figure | undefined {
  if (typeof value === "number") return value;
  return typeof value === "object" ? value.error : undefined;
}

/** By row and column from 0. */
type Styles = readonly (readonly StyleName[])[];

function stylesOf({ cells }: SheetPlan): Styles {
  const styles: StyleName[][] = [];
  for (const { at, style } of cells) {
    const { row, column } = cellPlace(at);
    (styles[row] ??= [])[column] = style;
  }
  return styles;
}

/** The next text of this style in the column, from the row upward. */
function above(
  style: StyleName,
  cells: readonly (readonly HostValue[])[],
  styles: Styles,
  from: number,
  column: number,
): string {
  for (let row = from; row >= 0; row--) {
    const value = cells[row]?.[column];
    if (styles[row]?.[column] === style && typeof value === "string" && value) return value;
  }
  return "";
}

/** The labels before the cell, back to a number that belongs to a block beside it; else what the row begins with. */
function rowLabel(row: readonly HostValue[], styles: readonly StyleName[], column: number): string {
  const labels: string[] = [];
  for (let before = column - 1; before >= 0; before--) {
    const value = row[before];
    if (styles[before] === "label" && typeof value === "string" && value) labels.unshift(value);
    else if (typeof value === "number" && labels.length > 0) break;
  }
  if (labels.length > 0) return labels.join(" · ");
  return typeof row[0] === "string" && column > 0 ? row[0] : "";
}
