/** Arithmetic as spreadsheets do it: blanks, text and errors in operands, ranges cell by cell. */
import {
  type Cell,
  type CellError,
  type CellTable,
  isCellError,
  isCellTable,
} from "../../functions/downfeed.js";

export type Value = Cell | CellTable;

/** Something that cannot be worked out here; said rather than guessed. */
export class UnreadError extends Error {
  override readonly name = "UnreadError";

  constructor(
    /** Why, to stand behind the part: `is not calculated here`. */
    readonly why: string,
    /** The piece of the formula; filled in by the innermost reader that knows it. */
    readonly part?: string,
  ) {
    super(part === undefined ? why : `${part}: ${why}`);
  }
}

export const VALUE_ERROR: CellError = { error: "#VALUE!" };
export const NUMBER_ERROR: CellError = { error: "#NUM!" };
export const DIVISION_ERROR: CellError = { error: "#DIV/0!" };
export const MISSING_ERROR: CellError = { error: "#N/A" };
export const REFERENCE_ERROR: CellError = { error: "#REF!" };

export function tableOf(value: Value): CellTable {
  return isCellTable(value) ? value : [[value]];
}

export function cellsOf(value: Value): Cell[] {
  return tableOf(value).flat();
}

/** @throws {UnreadError} for a range of several cells, which hosts treat differently here. */
export function singleCell(value: Value): Cell {
  const cells = cellsOf(value);
  if (cells.length !== 1) throw new UnreadError("is a range where one cell is expected");
  return cells[0] ?? null;
}

const PLAIN_NUMBER = /^\s*[-+]?(\d+(\.\d*)?|\.\d+)(e[-+]?\d+)?\s*$/i;

/** @throws {UnreadError} for text that some spreadsheets read as a date or an amount. */
export function numberIn(cell: Cell): number | CellError {
  if (isCellError(cell) || typeof cell === "number") return cell;
  if (cell === null) return 0;
  if (typeof cell === "boolean") return cell ? 1 : 0;
  if (PLAIN_NUMBER.test(cell)) return Number(cell);
  if (!/\d/.test(cell)) return VALUE_ERROR;
  throw new UnreadError(`calculates with the text "${cell}"`);
}

/** @throws {UnreadError} for numbers that spreadsheets write in ways of their own. */
export function textIn(cell: Cell): string | CellError {
  if (isCellError(cell) || typeof cell === "string") return cell;
  if (cell === null) return "";
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  const text = String(Number(cell.toPrecision(15)));
  if (text.includes("e")) throw new UnreadError(`joins the number ${text} to text`);
  return text;
}

export function truthIn(cell: Cell): boolean | CellError {
  if (isCellError(cell) || typeof cell === "boolean") return cell;
  if (cell === null) return false;
  if (typeof cell === "number") return cell !== 0;
  if (/^(true|false)$/i.test(cell)) return cell.toLowerCase() === "true";
  return VALUE_ERROR;
}

export function finite(value: number): Cell {
  return Number.isFinite(value) ? value : NUMBER_ERROR;
}

/** Cell by cell; a lone row, column or cell is repeated, what lies beyond the shorter one is #N/A. */
export function eachCell(values: readonly Value[], combine: (...cells: Cell[]) => Cell): Value {
  const tables = values.map(tableOf);
  if (tables.every((table) => table.length === 1 && table[0]?.length === 1))
    return combine(...tables.map((table) => table[0]?.[0] ?? null));
  const rows = Math.max(...tables.map((table) => table.length));
  const columns = Math.max(...tables.map((table) => table[0]?.length ?? 0));
  return Array.from({ length: rows }, (_, row) =>
    Array.from({ length: columns }, (_, column) =>
      combine(...tables.map((table) => repeated(table, row, column))),
    ),
  );
}

function repeated(table: CellTable, row: number, column: number): Cell {
  const line = table[table.length === 1 ? 0 : row];
  const cell = line?.[line.length === 1 ? 0 : column];
  return cell === undefined ? MISSING_ERROR : cell;
}

/** Numbers in, a number out; the first error among them stands. */
export function ofNumbers(calculate: (...numbers: number[]) => Cell): (...cells: Cell[]) => Cell {
  return (...cells) => {
    const numbers = cells.map(numberIn);
    return numbers.find(isCellError) ?? calculate(...(numbers as number[]));
  };
}

const arithmetic: Readonly<Record<string, (...cells: Cell[]) => Cell>> = {
  "+": ofNumbers((a = 0, b = 0) => finite(a + b)),
  "-": ofNumbers((a = 0, b = 0) => finite(a - b)),
  "*": ofNumbers((a = 0, b = 0) => finite(a * b)),
  "/": ofNumbers((a = 0, b = 0) => (b === 0 ? DIVISION_ERROR : finite(a / b))),
  "^": ofNumbers((a = 0, b = 0) => power(a, b)),
  "&": (a = null, b = null) => {
    const [left, right] = [textIn(a), textIn(b)];
    if (isCellError(left)) return left;
    return isCellError(right) ? right : left + right;
  },
  "=": comparison((order) => order === 0),
  "<>": comparison((order) => order !== 0),
  "<": comparison((order) => order < 0),
  ">": comparison((order) => order > 0),
  "<=": comparison((order) => order <= 0),
  ">=": comparison((order) => order >= 0),
};

export function power(base: number, exponent: number): Cell {
  if (base === 0 && exponent === 0) return NUMBER_ERROR;
  if (base === 0 && exponent < 0) return DIVISION_ERROR;
  return finite(base ** exponent);
}

/** @throws {UnreadError} for an operator that makes references. */
export function binary(operator: string, left: Value, right: Value): Value {
  const combine = arithmetic[operator];
  if (!combine) throw new UnreadError("is not calculated here");
  return eachCell([left, right], combine);
}

/** @throws {UnreadError} */
export function unary(operator: string, operand: Value): Value {
  switch (operator) {
    case "-":
      return eachCell(
        [operand],
        ofNumbers((number = 0) => 0 - number),
      );
    case "+":
      return operand;
    case "%":
      return eachCell(
        [operand],
        ofNumbers((number = 0) => number / 100),
      );
    case "@":
      return singleCell(operand);
    default:
      throw new UnreadError("is not calculated here");
  }
}

function comparison(holds: (order: number) => boolean) {
  return (a: Cell = null, b: Cell = null): Cell => {
    if (isCellError(a)) return a;
    return isCellError(b) ? b : holds(cellOrder(a, b));
  };
}

type Comparable = Exclude<Cell, CellError>;

/** Numbers come before text, text before truth values; text without case; a blank is whatever it is held against. */
export function cellOrder(a: Comparable, b: Comparable): number {
  const [left, right] = [a ?? blankLike(b), b ?? blankLike(a)];
  if (typeof left === "number" && typeof right === "number") {
    // Spreadsheets compare 15 digits.
    return Number(left.toPrecision(15)) - Number(right.toPrecision(15));
  }
  if (typeof left === "string" && typeof right === "string")
    return left.toLowerCase().localeCompare(right.toLowerCase(), "en");
  if (typeof left === typeof right) return Number(left) - Number(right);
  return rank(left) - rank(right);
}

function blankLike(other: Comparable): number | string | boolean {
  if (typeof other === "string") return "";
  return typeof other === "boolean" ? false : 0;
}

function rank(value: number | string | boolean): number {
  return { number: 0, string: 1, boolean: 2 }[typeof value as "number" | "string" | "boolean"];
}
