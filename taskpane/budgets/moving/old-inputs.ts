/** The sheet Inputs of a budget of 0.2: labels with up to three values, a unit and what they rest on, in groups. */
import { textOf } from "../reading/range-table.js";
import type { ReadValue } from "../reading/found-budget.js";

/** A sheet as it stands, from A1 on. */
export interface OldSheet {
  readonly name: string;
  readonly values: readonly (readonly ReadValue[])[];
  readonly formulas: readonly (readonly string[])[];
}

export interface OldInput {
  readonly label: string;
  /** Heading of its group. */
  readonly group: string;
  readonly unit: string;
  /** What it rests on. */
  readonly basis: string;
  /** Its values by their cells, without the empty ones. */
  readonly values: ReadonlyMap<string, ReadValue>;
}

/** Columns of values, the last one first: a single value stands there. */
const VALUES = [3, 2, 1] as const;
const UNIT = 4;
const BASIS = 5;

export class OldInputs {
  readonly rows: readonly OldInput[];
  private readonly taken = new Set<string>();
  private readonly reference: RegExp;

  constructor({ name, values }: OldSheet) {
    let group = "";
    this.rows = values.flatMap((cells, row) => {
      const label = textOf(cells[0]);
      if (textOf(cells[BASIS]) === "Rests on") group = label;
      else if (group !== "" && label !== "")
        return [{ label, group, ...filled(cells, row), ...told(cells) }];
      return [];
    });
    const quoted = name.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    this.reference = new RegExp(`'?${quoted}'?!\\$?([A-Z]+)\\$?(\\d+)`, "gi");
  }

  static isInputs({ values }: OldSheet): boolean {
    return values.some(([label]) => textOf(label) === "What is asked for");
  }

  /** Cells of this sheet that a formula names. */
  cellsIn(formula: string): string[] {
    return [...formula.matchAll(this.reference)].map(([, column, row]) => `${column!}${row!}`);
  }

  /** The input that a cell is a value of. */
  inputAt(cell: string): OldInput | undefined {
    return this.rows.find(({ values }) => values.has(cell));
  }

  /** A cell that is carried. */
  take(cell: string): ReadValue | undefined {
    this.taken.add(cell);
    return this.inputAt(cell)?.values.get(cell);
  }

  /** The first value beside a label, carried; undefined where there is none. */
  takeFirst(
    label: RegExp,
  ): { readonly value: number | string; readonly basis: string } | undefined {
    const input = this.rows.find((one) => label.test(one.label) && one.values.size > 0);
    const [cell] = input?.values.keys() ?? [];
    const value = cell && this.take(cell);
    if (typeof value !== "number" && (typeof value !== "string" || value === "")) return undefined;
    return { value, basis: input!.basis };
  }

  /** Values that nothing took, in words; the case that is solved is chosen again in no time. */
  left(): string[] {
    const rows = this.rows.filter(({ group }) => group !== "What is solved");
    return rows.flatMap(({ label, group, unit, values }) =>
      [...values]
        .filter(([cell]) => !this.taken.has(cell))
        .map(
          ([cell, value]) => `${group}, ${label}: ${textOf(value)} ${unit}`.trim() + ` (${cell})`,
        ),
    );
  }
}

function filled(cells: readonly ReadValue[], row: number) {
  return {
    values: new Map(
      VALUES.flatMap((column) => {
        const value = cells[column] ?? "";
        return textOf(value) === ""
          ? []
          : [[`${String.fromCharCode(65 + column)}${row + 1}`, value] as const];
      }),
    ),
  };
}

function told(cells: readonly ReadValue[]) {
  return { unit: textOf(cells[UNIT]), basis: textOf(cells[BASIS]) };
}
