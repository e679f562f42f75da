/** From what a host hands over to what an entry reads: blanks, kinds, choices and units, once for every function and host. */
import { InputError } from "../src/quantities/errors.js";
import {
  type Argument,
  type Cell,
  type CellError,
  isBlank,
  isCellError,
  isCellTable,
} from "./cells.js";
import {
  type AnyValues,
  isRepeating,
  isZeroReal,
  type Parameter,
  type Parameters,
} from "./entry.js";

/** A cell error in an argument. It is returned as it is. */
export class PassedOnError extends Error {
  override readonly name = "PassedOnError";

  constructor(
    readonly field: string,
    readonly cell: CellError,
  ) {
    super(cell.message ?? `holds ${cell.error}`);
  }
}

/** How a host hands over a blank cell. */
export interface BlankCells {
  /** Whether it comes as nothing or as text of no length, so that a 0 is a 0; otherwise it may come as 0. */
  readonly told: boolean;
}

export const BLANKS_TOLD: BlankCells = { told: true };
export const BLANKS_AS_ZERO: BlankCells = { told: false };

/** @throws {InputError | PassedOnError} naming the parameter's key. */
export function readArguments(
  parameters: Parameters,
  args: readonly Argument[],
  blanks: BlankCells,
): AnyValues {
  const entries = Object.entries(parameters);
  const gathered = gatherRepeating(parameters, args);
  if (gathered.length > entries.length)
    throw new InputError("arguments", args.length, `${entries.length} at most`);
  // One blank among others may be a 0; a call with nothing in it is not one of zeros.
  const nothing = args.every(isBlank);
  const told = nothing ? BLANKS_TOLD : blanks;
  return Object.fromEntries(
    entries.map(([key, parameter], index) => [
      key,
      parameter.kind === "cells" && isRepeating(parameter)
        ? readBlocks(key, parameter, args.slice(index), told)
        : readArgument(key, parameter, gathered[index], told),
    ]),
  );
}

/** All arguments from a repeating last one on, as one range; of ranges the first, since each is read by itself. */
function gatherRepeating(parameters: Parameters, args: readonly Argument[]): readonly Argument[] {
  const kinds = Object.values(parameters);
  const last = kinds.at(-1);
  if (!isRepeating(last)) return args;
  const alone = kinds.length - 1;
  return last?.kind === "cells"
    ? args.slice(0, kinds.length)
    : [...args.slice(0, alone), [args.slice(alone).flatMap(cellsOf)]];
}

/** Several ranges, each as it stands; a lone cell is a range of one. Arguments left out in between are passed over. */
function readBlocks(
  key: string,
  parameter: Parameter,
  args: readonly Argument[],
  blanks: BlankCells,
): unknown {
  const given = args.filter((argument) => !isBlank(argument));
  if (given.length === 0) return notGiven(key, parameter);
  return given.map((argument) => {
    if (isCellTable(argument)) return argument;
    if (argument === 0 && !blanks.told) return zeroOrBlank(key, parameter);
    if (isCellError(argument)) throw new PassedOnError(key, argument);
    return [[argument ?? null]];
  });
}

function readArgument(
  key: string,
  parameter: Parameter,
  argument: Argument,
  blanks: BlankCells,
): unknown {
  switch (parameter.kind) {
    case "cells":
      return readCells(key, parameter, argument, blanks);
    case "numbers":
      return readNumbers(key, parameter, argument, blanks);
    case "choice or numbers":
      return isCellTable(argument) && cellsOf(argument).length > 1
        ? cellsOf(argument).map((cell) => requireNumber(key, cell))
        : readScalar(key, parameter, oneCell(key, argument), blanks);
    default:
      return readScalar(key, parameter, oneCell(key, argument), blanks);
  }
}

function readScalar(key: string, parameter: Parameter, cell: Cell, { told }: BlankCells): unknown {
  const zeroIsReal = isZeroReal(parameter);
  if (isBlank(cell))
    return !told && zeroIsReal && !parameter.optional ? 0 : notGiven(key, parameter);
  if (cell === 0 && !told && !zeroIsReal) return zeroOrBlank(key, parameter);
  switch (parameter.kind) {
    case "number":
      return requireNumber(key, cell) / (parameter.perUnit ?? 1);
    case "number or choice":
      if (typeof cell === "string") return requireChoice(key, parameter.choices, cell);
      return requireNumber(key, cell) / (parameter.perUnit ?? 1);
    case "number or text":
      return typeof cell === "string" ? cell.trim() : requireNumber(key, cell);
    case "choice":
      return requireChoice(key, parameter.choices, wordText(cell));
    default:
      return readWord(key, parameter, cell);
  }
}

/** Excel makes a text of whatever stands where only words are taken; the same refusal everywhere. */
function wordText(cell: Cell): string {
  return typeof cell === "string" ? cell : String(cell as number | boolean).toUpperCase();
}

function readWord(key: string, parameter: Parameter, cell: Cell): string {
  if (typeof cell !== "string") throw new InputError(key, cell as number | boolean, "text");
  if (parameter.kind === "text" || !("choices" in parameter)) return cell.trim();
  return requireChoice(key, parameter.choices, cell);
}

function notGiven(key: string, parameter: Parameter): undefined {
  if (parameter.optional) return undefined;
  throw new InputError(key, null, "given");
}

/** A 0 of a host that hands blank cells over as 0, where 0 is no value or one that is not to be guessed. */
function zeroOrBlank(key: string, parameter: Parameter): undefined {
  const instead = "insteadOfZero" in parameter ? parameter.insteadOfZero : undefined;
  if (parameter.optional && instead === undefined) return undefined;
  const what = instead === undefined ? "" : `; ${instead}`;
  throw new InputError(key, 0, `given (the spreadsheet may pass a blank cell as 0${what})`);
}

function readCells(
  key: string,
  parameter: Parameter,
  argument: Argument,
  { told }: BlankCells,
): unknown {
  if (isCellTable(argument)) return argument;
  if (isBlank(argument)) return notGiven(key, parameter);
  if (argument === 0 && !told) return zeroOrBlank(key, parameter);
  if (isCellError(argument)) throw new PassedOnError(key, argument);
  throw new InputError(key, argument as number | string | boolean, "a range of cells");
}

function readNumbers(
  key: string,
  parameter: Parameter,
  argument: Argument,
  blanks: BlankCells,
): unknown {
  const paired = parameter.kind === "numbers" && parameter.paired === true;
  const cells = paired
    ? withoutBlankEnd(cellsOf(argument), blanks)
    : cellsOf(argument).filter((cell) => isCellError(cell) || !isBlank(cell));
  if (cells.length === 0) return notGiven(key, parameter);
  return cells.map((cell, index) => {
    if (paired && isBlank(cell)) throw new InputError(key, null, `given at place ${index + 1}`);
    return requireNumber(key, cell);
  });
}

function withoutBlankEnd(cells: readonly Cell[], { told }: BlankCells): readonly Cell[] {
  const filled = cells.map((cell) => !isBlank(cell) && (told || cell !== 0));
  return cells.slice(0, filled.lastIndexOf(true) + 1);
}

function cellsOf(argument: Argument): Cell[] {
  return isCellTable(argument) ? argument.flat() : [argument ?? null];
}

/** A lone cell reference may arrive as a range of one cell. */
function oneCell(key: string, argument: Argument): Cell {
  if (!isCellTable(argument)) {
    if (isCellError(argument)) throw new PassedOnError(key, argument);
    return argument ?? null;
  }
  const columns = argument[0]?.length ?? 0;
  if (argument.length !== 1 || columns !== 1) {
    throw new InputError(key, `${argument.length} rows × ${columns} columns`, "one cell");
  }
  return oneCell(key, argument[0]?.[0]);
}

function requireNumber(key: string, cell: Cell): number {
  if (isCellError(cell)) throw new PassedOnError(key, cell);
  return requireUsable(key, cell);
}

/** Sizes between which no product or quotient of a function's few arguments leaves the range of a number. */
const SMALLEST = 1e-30;
const LARGEST = 1e30;

/** A number other than 0 that can be calculated with. */
export function isUsable(value: number): boolean {
  const size = Math.abs(value);
  return size >= SMALLEST && size <= LARGEST;
}

/** @throws {InputError} for anything but a number that can be calculated with. */
export function requireUsable(key: string, cell: number | string | boolean | null): number {
  if (typeof cell !== "number") throw new InputError(key, cell, "a number");
  if (!Number.isFinite(cell)) throw new InputError(key, cell, "a finite number");
  const size = Math.abs(cell);
  if (size > LARGEST || (size < SMALLEST && size > 0)) {
    throw new InputError(key, cell, `0 or between ${SMALLEST} and ${LARGEST} in size`);
  }
  return cell;
}

/** The choice as the catalogue spells it: case, spacing and American spelling do not matter. */
export function requireChoice(key: string, choices: readonly string[], text: string): string {
  const wanted = plainWord(text);
  const found = choices.find((choice) => plainWord(choice) === wanted);
  if (found === undefined)
    throw new InputError(key, text, choices.map((choice) => `"${choice}"`).join(" or "));
  return found;
}

/** Text as it is compared: without case and extra spaces, one space before a per cent sign, in British spelling. */
export function plainWord(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/\s+/g, " ")
    .replace(/ ?%/g, " %")
    .replace(/aluminum/g, "aluminium");
}
