/** What a cell function is, as data: one entry holds everything that any host, page, table or test needs to know of it. */
import type { CitationId } from "../src/quantities/citations.js";
import type { Caveat, Quantities, Quantity, StepsWith } from "../src/quantities/steps.js";
import type { GivenSources } from "../src/quantities/given-sources.js";
import type { CellPlace } from "../src/schedules/schedule-row.js";
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
  /** Unit in the cell, "" for text; `1` for a plain number or fraction. */
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
     * to the one at its place in another list, so blanks are passed over at the end only. The numbers fill the givens
     * `each` with 1, 2 … behind it.
     */
    | {
        readonly kind: "numbers";
        readonly each: string;
        readonly repeating?: true;
        readonly paired?: true;
      }
    /** A word, or a row of numbers that stands for it and fills the givens `row`. */
    | {
        readonly kind: "choice or numbers";
        readonly choices: readonly string[];
        readonly row: readonly string[];
      }
    /** A range as it stands, errors in it too; `repeating`: one range or several, each by itself, as a list. */
    | { readonly kind: "cells"; readonly repeating?: true }
  );

/** What an argument adds to the given that it fills, whose unit it has: the one that people type. */
export function fills<const Added extends Pick<Parameter, "name" | "meaning" | "kind">>(
  { unit, shown }: Quantity,
  added: Added,
): Added & { readonly unit: string; readonly perUnit?: number } {
  return shown === undefined ? { ...added, unit } : { ...added, ...shown };
}

export type Parameters = Readonly<Record<string, Parameter>>;

/** Whether all arguments from this one on fill it. */
export function isRepeating(parameter: Parameter | undefined): boolean {
  return parameter !== undefined && "repeating" in parameter && parameter.repeating === true;
}

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
          : P extends { repeating: true }
            ? readonly CellTable[]
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
  /** Unit of the number, or of each column in words; "" for text. */
  readonly unit: string;
  /** One SI unit is this many of the cell's: 1e6 for mm². */
  readonly perUnit?: number;
}

/** One calculation's steps, those named by `Shown` among them, beside the numbers they are about. */
export interface Working<Shown extends string = never> extends GivenSources {
  readonly title: string;
  readonly givens: Quantities;
  readonly steps: StepsWith<Shown>;
  /** Every given and every result by field name. */
  readonly values: Readonly<Record<string, unknown>>;
  /** Givens that stand in cells of a repeating argument's ranges; one of the given is `perUnit` of the cell's. */
  readonly typed?: Readonly<
    Record<string, { readonly place: CellPlace; readonly perUnit: number }>
  >;
}

/** What it gives stands in `documents/examples.ts`. */
export interface Example {
  readonly args: readonly Argument[];
}

interface Told {
  readonly id: string;
  readonly family: Family;
  readonly result: Result;
  readonly example: Example;
  readonly citations: readonly CitationId[];
  /**
   * What is given chooses between the formulas of the steps. `depends on inputs`: its numbers too, so that native
   * formulas hold for those numbers only; `depends on words`: no number that a formula reads, but any other cell.
   */
  readonly form?: "depends on inputs" | "depends on words";
  /**
   * A plain copy holds the result as values: it is of so many cases that their equations would fill sheets. What its
   * columns of `verdicts` say is blank once an input is not what it was.
   */
  readonly copied?: { readonly verdicts: readonly string[] };
}

/** A given or a step of one of the call's workings. */
export interface ShownStep {
  /** Counted from 0; −1 for the last one of a function that makes the workings of one row alone. */
  readonly working: number;
  readonly step: string;
  /** The cell shows so many times the step's number; 1 where it is left out. */
  readonly factor?: number;
}

/** A cell that shows what was typed in one of a repeating argument's ranges, `factor` times its figure. */
export interface ShownTyped {
  readonly place: CellPlace;
  readonly factor: number;
}

export type ShownCell = ShownStep | ShownTyped;

/** Cells that are more than fields of the record, and where each of them comes from, where that can be said. */
export interface ShownCells<Output> {
  readonly cells: (output: Output) => Cell | CellTable;
  /** Row and column from 0. */
  readonly cellOf?: (output: Output, row: number, column: number) => ShownCell | undefined;
  /** Unit of the number in the cell, where it depends on what was asked for. */
  readonly unitOf?: (output: Output) => string;
}

type Shown<Output> = Required<Omit<ShownCells<Output>, "unitOf">>;

type CellField<Output> = {
  [Field in keyof Output]-?: Output[Field] extends number | string ? Field : never;
}[keyof Output] &
  string;

type NumberField<Output, Field> = Field extends keyof Output & string
  ? Output[Field] extends number
    ? Field
    : never
  : never;

/** What the cells show of the record. */
type Shows<Output, Field> =
  | {
      /** A field, or the fields of a row in their order. A number among them is the step of that name. */
      readonly shows: Field | readonly Field[];
      readonly cells?: never;
      readonly cellOf?: never;
      readonly unitOf?: never;
    }
  | (ShownCells<Output> & { readonly shows?: never });

interface Calculation<
  Ps extends Parameters,
  Input,
  Output,
  Field extends CellField<Output>,
> extends Told {
  readonly parameters: Ps;
  /** Cells in, the engine's record out. @throws InputError naming a key of `parameters`. */
  readonly read: (values: ValuesOf<Ps>) => Input;
  readonly calculate: (input: Input) => Output;
  readonly caveats: (output: Output) => readonly Caveat[];
  /** @param row Of the result, from 0: an entry of many rows whose workings are long gives that of this row alone. */
  readonly working: (
    input: Input,
    output: Output,
    row?: number,
  ) => readonly Working<NumberField<Output, Field>>[];
}

export type EntryDefinition<
  Ps extends Parameters,
  Input,
  Output,
  Field extends CellField<Output>,
> = Calculation<Ps, Input, Output, Field> & Shows<Output, Field>;

export interface Answer {
  readonly value: Cell | CellTable;
  readonly record: unknown;
  readonly caveats: readonly Caveat[];
  /** @param row Of the value, from 0. */
  readonly working: (row?: number) => readonly Working[];
}

/** An entry with its type parameters erased, so that all entries fit in one array. */
export interface Entry extends Told {
  readonly parameters: Parameters;
  readonly answer: (values: AnyValues) => Answer;
  /** The step whose number a cell of the result shows, or the cell that it repeats; row and column from 0. */
  readonly cellOf: (record: unknown, row: number, column: number) => ShownCell | undefined;
  readonly unitOf: (record: unknown) => string;
}

export function defineEntry<
  const Ps extends Parameters,
  Input,
  Output,
  const Field extends CellField<Output> = never,
>(definition: EntryDefinition<Ps, Input, Output, Field>): Entry {
  const { read, calculate, caveats, working, shows, cells, cellOf, unitOf, ...told } = definition;
  const shown: Shown<Output> =
    cells === undefined
      ? shownFields<Output, Field>(shows, told.result)
      : { cells, cellOf: cellOf ?? (() => undefined) };
  return {
    ...told,
    answer(values) {
      const input = read(values as ValuesOf<Ps>);
      const record = calculate(input);
      return new LazyAnswer(
        shown.cells(record),
        record,
        () => caveats(record),
        (row) => working(input, record, row),
      );
    },
    cellOf: (record, row, column) => shown.cellOf(record as Output, row, column),
    unitOf: (record) => unitOf?.(record as Output) ?? told.result.unit,
  };
}

/**
 * Notes are made when they are read: of a large table there are many, and a cell shows none of them. A class, because
 * each object literal with a getter is of a shape of its own, which keeps what it holds until all memory is swept.
 */
class LazyAnswer implements Answer {
  constructor(
    readonly value: Answer["value"],
    readonly record: unknown,
    private readonly findCaveats: () => readonly Caveat[],
    readonly working: Answer["working"],
  ) {}

  get caveats(): readonly Caveat[] {
    return this.findCaveats();
  }
}

function shownFields<Output, Field extends CellField<Output>>(
  shows: Field | readonly Field[],
  { perUnit = 1 }: Result,
): Shown<Output> {
  const fields: readonly Field[] = typeof shows === "string" ? [shows] : shows;
  const cellIn = (record: Output, field: Field): Cell => {
    const value = record[field] as number | string;
    return typeof value === "number" ? value * perUnit : value;
  };
  return {
    cells: (record) =>
      typeof shows === "string"
        ? cellIn(record, shows)
        : [fields.map((field) => cellIn(record, field))],
    cellOf: (_, row, column) => ({ working: row, step: fields[column] ?? "" }),
  };
}

export function isZeroReal(parameter: Parameter): boolean {
  return "zero" in parameter && parameter.zero === "real";
}

export function requiredCount(parameters: Parameters): number {
  return Object.values(parameters).filter(({ optional }) => !optional).length;
}
