/** What a cell function is, as data: one entry holds everything that any host, page, table or test needs to know of it. */
import type { CitationId } from "../src/quantities/citations.js";
import type { Note, Quantities, Steps } from "../src/quantities/steps.js";
import type { Argument, Cell, CellTable } from "./cells.js";

export type Family =
  | "conductor"
  | "supply"
  | "ratio"
  | "stage"
  | "chain"
  | "parallel"
  | "safety"
  | "protection"
  | "transient"
  | "economics"
  | "about";

interface Described {
  /** As a user reads it: `temperature`. */
  readonly name: string;
  /** Of the cell, "" for text; `1` for a plain number or fraction. */
  readonly unit: string;
  readonly meaning: string;
  readonly optional?: true;
}

interface Counted {
  /**
   * `real`: 0 is a value in every host. Otherwise it is one, or refused by the calculation, only where the host tells a
   * blank cell from 0; in another host it means "not given".
   */
  readonly zero?: "real";
  /** One SI unit is this many of the cell's: 1e6 for mm². Values reach `read` in SI. */
  readonly perUnit?: number;
  /** What to type for a 0 that is meant in a host that does not tell blanks, where it is refused: `for 0 °C type 0.001`. */
  readonly insteadOfZero?: string;
}

/** One argument of a cell function. Its key in an entry is the name of the engine's given that it fills. */
export type Parameter = Described &
  (
    | ({ readonly kind: "number" } & Counted)
    | { readonly kind: "text" }
    | { readonly kind: "choice"; readonly choices: readonly string[] }
    | ({
        readonly kind: "number or choice";
        readonly choices: readonly string[];
      } & Counted)
    | { readonly kind: "number or text" }
    /**
     * One or more cells of numbers as one list; blank cells are passed over, a 0 is kept. `paired`: each number belongs
     * to the one at its place in another list, so blanks are passed over at the end only.
     */
    | {
        readonly kind: "numbers";
        readonly repeating?: true;
        readonly paired?: true;
      }
    /** A word, or a row of numbers that stands for it. */
    | {
        readonly kind: "choice or numbers";
        readonly choices: readonly string[];
      }
    /** A range as it stands, errors in it too. */
    | { readonly kind: "cells" }
  );

export type Parameters = Readonly<Record<string, Parameter>>;

type ValueOf<P extends Parameter> = P["kind"] extends "number"
  ? number
  : P["kind"] extends "text" | "choice"
    ? string
    : P["kind"] extends "number or choice" | "number or text"
      ? number | string
      : P["kind"] extends "numbers"
        ? readonly number[]
        : P["kind"] extends "choice or numbers"
          ? string | readonly number[]
          : CellTable;

/** What `read` gets: every argument by its key, in SI, a blank optional one as undefined. */
export type ValuesOf<Ps extends Parameters> = {
  readonly [Key in keyof Ps]: Ps[Key] extends { optional: true }
    ? ValueOf<Ps[Key]> | undefined
    : ValueOf<Ps[Key]>;
};

export type AnyValues = Readonly<Record<string, unknown>>;

export interface Result {
  /** `row` is one spilled row, `table` a spill of several. */
  readonly shape: "number" | "text" | "row" | "table";
  /** Of the number, or of each column in words; "" for text. */
  readonly unit: string;
  readonly meaning: string;
}

/** One calculation's steps beside the numbers they are about. */
export interface Working {
  readonly title: string;
  readonly givens: Quantities;
  readonly steps: Steps;
  /** Every given and every result by field name. */
  readonly values: Readonly<Record<string, unknown>>;
}

export interface Example {
  readonly args: readonly Argument[];
  /** The number or text in the cell; of a spill, the whole spill. Numbers as printed here set the tolerance. */
  readonly gives: Cell | CellTable;
  readonly note?: string;
}

interface Told {
  readonly id: string;
  readonly family: Family;
  /** At most 255 characters, one line. */
  readonly purpose: string;
  /** The relation in plain symbols, for the help page: `ΔU = I · R`. */
  readonly relation: string;
  readonly result: Result;
  readonly example: Example;
  readonly citations: readonly CitationId[];
  /** Where the answer holds, what is left out and when there is none: sentences for the help page. */
  readonly validity: readonly string[];
}

export interface EntryDefinition<
  Ps extends Parameters,
  Input,
  Output,
> extends Told {
  readonly parameters: Ps;
  /** Cells in, the engine's record out. @throws InputError naming a key of `parameters`. */
  readonly read: (values: ValuesOf<Ps>) => Input;
  readonly calculate: (input: Input) => Output;
  /** The one field that the cell shows. */
  readonly pluck: (output: Output) => Cell | CellTable;
  readonly notes: (output: Output) => readonly Note[];
  readonly working: (input: Input, output: Output) => readonly Working[];
}

export interface Answer {
  readonly value: Cell | CellTable;
  readonly record: unknown;
  readonly notes: readonly Note[];
  readonly working: () => readonly Working[];
}

/** An entry with the engine's types closed over, so that entries of all kinds stand in one list. */
export interface Entry extends Told {
  readonly parameters: Parameters;
  readonly answer: (values: AnyValues) => Answer;
  /** What the cell would show of a record like the answer's. */
  readonly shownOf: (record: unknown) => Cell | CellTable;
}

export function defineEntry<const Ps extends Parameters, Input, Output>(
  definition: EntryDefinition<Ps, Input, Output>,
): Entry {
  const { read, calculate, pluck, notes, working, ...told } = definition;
  return {
    ...told,
    answer(values) {
      const input = read(values as ValuesOf<Ps>);
      const record = calculate(input);
      return {
        value: pluck(record),
        record,
        notes: notes(record),
        working: () => working(input, record),
      };
    },
    shownOf: (record) => pluck(record as Output),
  };
}

export function isZeroReal(parameter: Parameter): boolean {
  return "zero" in parameter && parameter.zero === "real";
}

export function requiredCount(parameters: Parameters): number {
  return Object.values(parameters).filter(({ optional }) => !optional).length;
}
