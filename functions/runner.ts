/** The one way from a call to its outcome. Registrations map an outcome to their host and do nothing else. */
import { InputError, NoAnswerError, shownValue } from "../src/quantities/errors.js";
import type { Caveat } from "../src/quantities/steps.js";
import { type BlankCells, BLANKS_TOLD, PassedOnError, readArguments } from "./arguments.js";
import {
  type Argument,
  type Cell,
  type CellErrorCode,
  type CellTable,
  isCellTable,
} from "./cells.js";
import { catalogue } from "./catalogue.js";
import type { AnyValues, Answer, Entry, Working } from "./entry.js";

export type Outcome = Reached | Refusal;

class Reached {
  readonly ok = true;

  constructor(
    private readonly answer: Answer,
    readonly givens: AnyValues,
  ) {}

  /** Never NaN, an infinity or nothing; a table is rectangular. */
  get value(): Cell | CellTable {
    return this.answer.value;
  }

  get record(): unknown {
    return this.answer.record;
  }

  get caveats(): readonly Caveat[] {
    return this.answer.caveats;
  }

  /** @param row Of the value, from 0, whose working alone is asked for. */
  readonly working = (row?: number): readonly Working[] => this.answer.working(row);
}

export interface Refusal {
  readonly ok: false;
  readonly code: CellErrorCode;
  /** A sentence that names the argument, its value and the bound. */
  readonly message: string;
  /** The argument's name as the user reads it, where one is to blame. */
  readonly argument: string | undefined;
}

const byId: ReadonlyMap<string, Entry> = new Map(catalogue.map((entry) => [entry.id, entry]));

/**
 * @param id The function's name without its namespace, in capitals.
 * @param blanks How the host that hands the arguments over tells blank cells.
 */
export function evaluate(
  id: string,
  args: readonly Argument[],
  blanks: BlankCells = BLANKS_TOLD,
): Outcome {
  const entry = byId.get(id);
  if (!entry)
    return {
      ok: false,
      code: "#NAME?",
      message: `there is no function ${id}`,
      argument: undefined,
    };
  try {
    const givens = readArguments(entry.parameters, args, blanks);
    const answer = entry.answer(givens);
    requireFinite(answer.value);
    return new Reached(answer, givens);
  } catch (error) {
    return refusal(entry, error);
  }
}

function refusal(entry: Entry, error: unknown): Refusal {
  if (error instanceof PassedOnError) {
    const argument = nameOf(entry, error.field);
    return {
      ok: false,
      code: error.cell.error,
      message: error.cell.message ?? `${argument} holds ${error.cell.error}`,
      argument,
    };
  }
  if (error instanceof InputError) {
    const argument = nameOf(entry, error.field);
    const value =
      typeof error.value === "number" ? error.value * perUnit(entry, error.field) : error.value;
    const message = `${argument} must be ${error.requirement}, got ${shownValue(value)}`;
    return { ok: false, code: "#VALUE!", message, argument };
  }
  if (error instanceof NoAnswerError) {
    return {
      ok: false,
      code: "#N/A",
      message: error.message,
      argument: nameOf(entry, error.field),
    };
  }
  // An internal error, not bad input: worded so that users report it.
  const text = error instanceof Error ? error.message : String(error);
  return {
    ok: false,
    code: "#VALUE!",
    message: `fault in Downfeed, please report: ${text}`,
    argument: undefined,
  };
}

function nameOf(entry: Entry, field: string): string {
  return entry.parameters[field]?.name ?? field;
}

function perUnit(entry: Entry, field: string): number {
  const parameter = entry.parameters[field];
  return parameter && "perUnit" in parameter ? (parameter.perUnit ?? 1) : 1;
}

function requireFinite(value: Cell | CellTable): void {
  if (!isCellTable(value)) return requireFiniteCell(value);
  for (const row of value) for (const cell of row) requireFiniteCell(cell);
}

function requireFiniteCell(cell: Cell): void {
  if (cell === null || (typeof cell === "number" && !Number.isFinite(cell)))
    throw new Error(`the result holds ${String(cell)}`);
}
