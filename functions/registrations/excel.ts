/** Puts every cell function where Excel calls it: values and errors of Excel in, `evaluate`, values and errors of Excel out. */
import { BLANKS_AS_ZERO } from "../arguments.js";
import { catalogue } from "../catalogue.js";
import {
  type Argument,
  type Cell,
  type CellError,
  type CellErrorCode,
  isCellError,
  isCellTable,
} from "../cells.js";
import { type Entry, isRepeating } from "../entry.js";
import { evaluate, type Outcome } from "../runner.js";

/**
 * Registers every id of the catalogue, at once: Excel's first call may follow right behind.
 * @returns whether there is a registry, that is, whether office.js has run on this page.
 */
export function registerInExcel(): boolean {
  if (typeof CustomFunctions === "undefined") return false;
  for (const entry of catalogue) {
    CustomFunctions.associate(entry.id, (...received: readonly unknown[]) =>
      result(entry, received),
    );
  }
  return true;
}

/** As Excel calls: on the desktop a blank cell comes as 0, on the web as null, and the same sheet has one answer. */
export function evaluateInExcel(id: string, args: readonly Argument[]): Outcome {
  return evaluate(id, args, BLANKS_AS_ZERO);
}

/** @throws {CustomFunctions.Error} which Excel shows in the cell. */
function result(entry: Entry, received: readonly unknown[]): unknown {
  const outcome = evaluateInExcel(entry.id, argumentsOf(entry, received));
  if (!outcome.ok) throw excelError(outcome.code, outcome.message);
  return isCellTable(outcome.value)
    ? outcome.value.map((row) => row.map(excelValue))
    : excelValue(outcome.value);
}

/** Excel adds what it knows of the call as a last argument, and hands a repeating parameter over as one list. */
function argumentsOf(entry: Entry, received: readonly unknown[]): Argument[] {
  const parameters = Object.values(entry.parameters);
  const own = received.slice(0, parameters.length);
  const last = parameters.at(-1);
  if (!isRepeating(last))
    return own.map((value, index) =>
      parameters[index]?.kind === "choice" ? word(argument(value)) : argument(value),
    );
  const repeated = own.at(-1);
  return [...own.slice(0, parameters.length - 1), ...(Array.isArray(repeated) ? repeated : [])].map(
    argument,
  );
}

/** Where only words are taken Excel makes a text of a 0 too, that of a blank cell in a formula among them. */
function word(value: Argument): Argument {
  return value === "0" ? 0 : value;
}

function argument(value: unknown): Argument {
  if (!Array.isArray(value)) return cell(value);
  return value.map((row: unknown) => (Array.isArray(row) ? row.map(cell) : [cell(row)]));
}

/** An error arrives as an object with a code, a rich value as an object with the plain one inside. */
function cell(value: unknown): Cell {
  if (typeof value !== "object" || value === null) return plain(value);
  const { code, type, basicType, basicValue } = value as Partial<Record<string, unknown>>;
  if (code !== undefined) return cellError(String(code));
  if (type === "Error" || basicType === "Error") return cellError(String(basicValue));
  return plain(basicValue);
}

function plain(value: unknown): Cell {
  const isCell =
    typeof value === "number" || typeof value === "string" || typeof value === "boolean";
  return isCell ? value : null;
}

const PASSED_ON: readonly string[] = [
  "#VALUE!",
  "#N/A",
  "#NUM!",
  "#DIV/0!",
  "#REF!",
  "#NAME?",
  "#NULL!",
  "#SPILL!",
  "#CALC!",
  "#BUSY!",
] satisfies readonly CellErrorCode[];

/** Excel has more errors than a cell function may show; the others keep their name in the message. */
function cellError(code: string): CellError {
  if (PASSED_ON.includes(code)) return { error: code as CellErrorCode };
  return { error: "#VALUE!", message: `an argument holds ${code}` };
}

function excelValue(value: Cell): unknown {
  if (isCellError(value)) return excelError(value.error, value.message);
  return value ?? "";
}

/** Looked up when it is called: the error class arrives later than the registry. */
function excelError(code: CellErrorCode, message: string | undefined): CustomFunctions.Error {
  const { ErrorCode } = CustomFunctions;
  switch (code) {
    case "#N/A":
      return new CustomFunctions.Error(ErrorCode.notAvailable, message);
    // Excel shows a message with #VALUE! and #N/A only.
    case "#NUM!":
      return new CustomFunctions.Error(ErrorCode.invalidNumber);
    case "#DIV/0!":
      return new CustomFunctions.Error(ErrorCode.divisionByZero);
    case "#NULL!":
      return new CustomFunctions.Error(ErrorCode.nullReference);
    default:
      // #REF!, #NAME? and the rest may come in but not go out.
      return new CustomFunctions.Error(
        ErrorCode.invalidValue,
        message ?? `an argument holds ${code}`,
      );
  }
}
