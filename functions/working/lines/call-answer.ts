/** What each call of a formula gives, with its arguments by parameter and every cell of them by where it comes from. */
import { rangePlace, cellAddress } from "../../../src/plans/addresses.js";
import type { CellPlace } from "../../../src/schedules/schedule-row.js";
import {
  type Argument,
  type Cell,
  type Entry,
  type Outcome,
  type Parameter,
  catalogue,
  evaluate,
  isBlank,
  isCellTable,
  isRepeating,
} from "../../downfeed.js";
import type { Working } from "../../downfeed.js";
import {
  type CallPart,
  type CellValue,
  type FormulaPart,
  type FormulaTree,
  type SheetRange,
  callsIn,
} from "./call-tree.js";

/** Where the value of one cell of an argument stands. */
export type Origin =
  | { readonly kind: "cell"; readonly range: SheetRange }
  | { readonly kind: "part"; readonly part: FormulaPart }
  /** One cell of several that an expression or a call gives; row and column from 0. */
  | {
      readonly kind: "within";
      readonly part: FormulaPart;
      readonly row: number;
      readonly column: number;
    };

export interface ArgumentCell {
  readonly value: Cell;
  readonly origin: Origin;
}

export interface UsedArgument {
  readonly key: string;
  readonly parameter: Parameter;
  /** None where nothing was given for it. */
  readonly cells: readonly ArgumentCell[];
  /** Columns of the range that was given. */
  readonly width: number;
  /** The cells and ranges of the workbook that were given. */
  readonly ranges: readonly SheetRange[];
}

export interface CallAnswer {
  readonly call: CallPart;
  readonly depth: number;
  readonly entry: Entry | undefined;
  /** As they reached the function. */
  readonly args: readonly Argument[];
  readonly outcome: Outcome;
  readonly used: readonly UsedArgument[];
  readonly workings: readonly Working[];
  /** The one row of the spilled result, from 0, that workings were asked for; undefined where for all. */
  readonly row: number | undefined;
}

export type Answers = ReadonlyMap<CallPart, CallAnswer>;

/**
 * By call, inner ones first.
 * @param row Of the spilled result, from 0, whose working is asked for: a function with many rows makes that one alone.
 */
export function answersOf(tree: FormulaTree, row?: number): Answers {
  const answers = new Map<CallPart, CallAnswer>();
  for (const { call, depth } of callsIn(tree.whole))
    answers.set(call, answerOf(call, depth, answers, depth === 0 ? row : undefined));
  return answers;
}

function answerOf(
  call: CallPart,
  depth: number,
  inner: Answers,
  row: number | undefined,
): CallAnswer {
  const entry = catalogue.find(({ id }) => id === call.id);
  const unread = call.args.find((part) => part && valueOf(part, inner) === undefined);
  const args = call.args.map((part): Argument => part && valueOf(part, inner));
  const outcome: Outcome = unread
    ? {
        ok: false,
        code: "#VALUE!",
        message: `${unread.text} is not worked out here`,
        argument: undefined,
      }
    : evaluate(call.id, args);
  return {
    call,
    depth,
    entry,
    args,
    outcome,
    used: entry ? usedArguments(entry, call, inner) : [],
    workings: outcome.ok ? outcome.working(row) : [],
    row,
  };
}

/** Undefined where it could not be worked out. */
function valueOf(part: FormulaPart, answers: Answers): CellValue | undefined {
  if (part.kind !== "call") return part.value;
  const outcome = answers.get(part)?.outcome;
  if (!outcome) return undefined;
  if (outcome.ok) return outcome.value;
  return { error: outcome.code, message: outcome.message };
}

function usedArguments(
  { parameters }: Entry,
  { args }: CallPart,
  answers: Answers,
): UsedArgument[] {
  const entries = Object.entries(parameters);
  return entries.flatMap(([key, parameter], index): UsedArgument[] => {
    const repeating = isRepeating(parameter);
    if (repeating && parameter.kind === "cells")
      return usedRanges(key, parameter, args.slice(index), answers);
    const parts = repeating ? args.slice(index) : [args[index]];
    const cells = parts.flatMap((part) => (part ? cellsOf(part, valueOf(part, answers)) : []));
    const given = parts[0] && valueOf(parts[0], answers);
    const width = isCellTable(given) ? (given[0]?.length ?? 1) : 1;
    const ranges = parts.flatMap(rangeOf);
    return [{ key, parameter, cells, width, ranges }];
  });
}

/** One for each range that was given, as the function counts them: blank arguments are passed over. */
function usedRanges(
  key: string,
  parameter: Parameter,
  parts: CallPart["args"],
  answers: Answers,
): UsedArgument[] {
  return parts.flatMap((part): UsedArgument[] => {
    const given = part && valueOf(part, answers);
    if (!part || isBlank(given)) return [];
    const width = isCellTable(given) ? (given[0]?.length ?? 1) : 1;
    const cells = cellsOf(part, given);
    return [{ key, parameter, cells, width, ranges: rangeOf(part) }];
  });
}

function rangeOf(part: FormulaPart | undefined): SheetRange[] {
  return part?.kind === "reference" && part.range ? [part.range] : [];
}

/** The cell of a repeating argument's range. */
export function cellAtPlace(
  { used }: CallAnswer,
  { block, row, column }: CellPlace,
): ArgumentCell | undefined {
  const given = used.filter(
    ({ parameter }) => parameter.kind === "cells" && isRepeating(parameter),
  )[block];
  return given?.cells[row * given.width + column];
}

function cellsOf(part: FormulaPart, value: CellValue | undefined): ArgumentCell[] {
  if (value === undefined) return [];
  const rows = isCellTable(value) ? value : [[value]];
  const alone = rows.length === 1 && rows[0]?.length === 1;
  const range = part.kind === "reference" ? part.range : undefined;
  const within = range && cellsWithin(range);
  return rows.flatMap((row, rowIndex) =>
    row.map((cell, column): ArgumentCell => {
      if (within) return { value: cell, origin: { kind: "cell", range: within(rowIndex, column) } };
      if (alone || part.kind === "literal") return { value: cell, origin: { kind: "part", part } };
      return { value: cell, origin: { kind: "within", part, row: rowIndex, column } };
    }),
  );
}

/** A cell of a range by its row and column, counted from 0. */
export function cellWithin(range: SheetRange, row: number, column: number): SheetRange {
  return cellsWithin(range)(row, column);
}

/** As `cellWithin`, for many cells of one range. */
function cellsWithin({ sheet, address }: SheetRange) {
  const { top, left } = rangePlace(address);
  return (row: number, column: number): SheetRange => ({
    sheet,
    address: cellAddress({ row: top + row, column: left + column }),
  });
}
