/**
 * The spreadsheet's own functions that arguments of a call are commonly written with. One that is not here, or a use
 * of one on which spreadsheets differ, is reported as unread; nothing is approximated.
 */
import { type Cell, type CellError, isCellError } from "../../functions/downfeed.js";
import {
  DIVISION_ERROR,
  MISSING_ERROR,
  REFERENCE_ERROR,
  UnreadError,
  VALUE_ERROR,
  type Value,
  cellOrder,
  cellsOf,
  eachCell,
  finite,
  numberIn,
  ofNumbers,
  power,
  singleCell,
  tableOf,
  textIn,
  truthIn,
} from "./cell-arithmetic.js";
import { criterion } from "./criteria.js";

/** An argument that is worked out only when it is asked for; nothing for one left empty. */
export type Later = (() => Value) | undefined;

type NativeFunction = (args: readonly Later[]) => Value;

export function nativeFunction(name: string): NativeFunction | undefined {
  return Object.hasOwn(functions, name) ? functions[name] : undefined;
}

function now(args: readonly Later[]): Value[] {
  return args.map((argument) => argument?.() ?? null);
}

function one(args: readonly Later[], index: number, missing: Cell): Cell {
  const argument = args[index];
  return argument ? singleCell(argument()) : missing;
}

function countOf(args: readonly Later[], least: number, most: number): void {
  if (args.length < least || args.length > most)
    throw new UnreadError(`has ${args.length} arguments`);
}

/** Ranges count their numbers only; what is written out is converted. An error ends it. */
function numbersOf(args: readonly Later[]): number[] | CellError {
  const found: number[] = [];
  for (const value of now(args)) {
    const inRange = Array.isArray(value);
    for (const cell of cellsOf(value)) {
      if (isCellError(cell)) return cell;
      if (inRange && typeof cell !== "number") continue;
      const number = numberIn(cell);
      if (isCellError(number)) return number;
      found.push(number);
    }
  }
  return found;
}

function overNumbers(calculate: (numbers: readonly number[]) => Cell): NativeFunction {
  return (args) => {
    const numbers = numbersOf(args);
    return isCellError(numbers) ? numbers : calculate(numbers);
  };
}

function byCell(
  least: number,
  most: number,
  calculate: (...numbers: number[]) => Cell,
): NativeFunction {
  return (args) => {
    countOf(args, least, most);
    return eachCell(now(args), ofNumbers(calculate));
  };
}

function whether(holds: (cell: Cell) => boolean): NativeFunction {
  return (args) => {
    countOf(args, 1, 1);
    return eachCell(now(args), (cell = null) => holds(cell));
  };
}

function everyTruth(decide: (truths: readonly boolean[]) => boolean): NativeFunction {
  return (args) => {
    const truths: boolean[] = [];
    for (const value of now(args)) {
      for (const cell of cellsOf(value)) {
        if (Array.isArray(value) && (cell === null || typeof cell === "string")) continue;
        const truth = truthIn(cell);
        if (isCellError(truth)) return truth;
        truths.push(truth);
      }
    }
    return truths.length === 0 ? VALUE_ERROR : decide(truths);
  };
}

const sum = (numbers: readonly number[]) => numbers.reduce((total, number) => total + number, 0);

/** Half away from zero, on the decimal digits as they are shown. */
function rounded(number: number, places: number, way: (shifted: number) => number): Cell {
  const digits = Math.trunc(places);
  const shift = (value: number, by: number) => {
    const [mantissa = "", exponent = "0"] = String(value).split("e");
    return Number(`${mantissa}e${Number(exponent) + by}`);
  };
  const size = Number(Math.abs(number).toPrecision(15));
  return finite(Math.sign(number) * shift(way(shift(size, digits)), -digits));
}

function choose(args: readonly Later[]): Value {
  countOf(args, 2, 3);
  const truth = truthIn(one(args, 0, null));
  if (isCellError(truth)) return truth;
  if (truth) return args[1]?.() ?? 0;
  return args.length < 3 ? false : (args[2]?.() ?? 0);
}

function insteadOf(caught: (error: CellError) => boolean): NativeFunction {
  return (args) => {
    countOf(args, 2, 2);
    const value = args[0]?.() ?? null;
    const errors = cellsOf(value).some((cell) => isCellError(cell) && caught(cell));
    if (!errors) return value;
    return eachCell([value, args[1]?.() ?? 0], (cell = null, other = null) =>
      isCellError(cell) && caught(cell) ? other : cell,
    );
  };
}

function index(args: readonly Later[]): Value {
  countOf(args, 2, 3);
  const table = tableOf(args[0]?.() ?? null);
  const first = numberIn(one(args, 1, null));
  const second = numberIn(one(args, 2, null));
  if (isCellError(first)) return first;
  if (isCellError(second)) return second;
  // A single number counts along a lone row.
  const alongRow = table.length === 1 && args.length === 2;
  const row = Math.trunc(alongRow ? 1 : first);
  const column = Math.trunc(alongRow ? first : second);
  const wide = table[0]?.length ?? 0;
  if (row < 0 || column < 0) return VALUE_ERROR;
  if (row > table.length || column > wide) return REFERENCE_ERROR;
  const rows = row === 0 ? table : table.slice(row - 1, row);
  const wholeRow = args.length === 2 && column === 0 && row > 0 && wide > 1;
  if (wholeRow) throw new UnreadError("gives a whole row");
  return column === 0 ? rows : rows.map((cells) => cells.slice(column - 1, column));
}

function equal(wanted: Cell, cell: Cell): boolean {
  if (isCellError(wanted) || isCellError(cell)) return false;
  if (typeof wanted === "string" && /[*?~]/.test(wanted))
    throw new UnreadError("looks up with wildcards");
  return typeof wanted === typeof cell && cellOrder(wanted, cell) === 0;
}

function match(args: readonly Later[]): Value {
  countOf(args, 2, 3);
  const wanted = one(args, 0, null);
  if (isCellError(wanted)) return wanted;
  if (args.length < 3 || numberIn(one(args, 2, 0)) !== 0)
    throw new UnreadError("looks up in sorted order");
  const cells = cellsOf(args[1]?.() ?? null);
  const found = cells.findIndex((cell) => equal(wanted, cell));
  return found < 0 ? MISSING_ERROR : found + 1;
}

function columnLookup(args: readonly Later[]): Value {
  countOf(args, 3, 4);
  const wanted = one(args, 0, null);
  if (isCellError(wanted)) return wanted;
  if (args.length < 4 || truthIn(one(args, 3, false)) !== false)
    throw new UnreadError("looks up in sorted order");
  const column = numberIn(one(args, 2, null));
  if (isCellError(column)) return column;
  const row = tableOf(args[1]?.() ?? null).find(([first = null]) => equal(wanted, first));
  if (!row) return MISSING_ERROR;
  return row[Math.trunc(column) - 1] ?? REFERENCE_ERROR;
}

function lookup(args: readonly Later[]): Value {
  countOf(args, 3, 4);
  const wanted = one(args, 0, null);
  if (isCellError(wanted)) return wanted;
  const found = cellsOf(args[1]?.() ?? null).findIndex((cell) => equal(wanted, cell));
  if (found < 0) return args[3]?.() ?? MISSING_ERROR;
  const results = tableOf(args[2]?.() ?? null);
  if (results.length > 1 && (results[0]?.length ?? 0) > 1)
    throw new UnreadError("gives a whole row");
  return results.flat()[found] ?? VALUE_ERROR;
}

function sumOfProducts(args: readonly Later[]): Value {
  const tables = now(args);
  const sizes = tables.map((table) => cellsOf(table).length);
  if (sizes.some((size) => size !== sizes[0])) return VALUE_ERROR;
  const products = eachCell(tables, (...cells) => {
    const error = cells.find(isCellError);
    if (error) return error;
    return cells.reduce<number>(
      (product, cell) => product * (typeof cell === "number" ? cell : 0),
      1,
    );
  });
  return overNumbers((numbers) => finite(sum(numbers)))([() => products]);
}

/** Takes ranges of one size, each with its criterion: whether each place meets all of them. */
export function countedPlaces(pairs: readonly Value[]): readonly boolean[] {
  if (pairs.length < 2 || pairs.length % 2 > 0)
    throw new UnreadError(`has ${pairs.length} arguments`);
  const tests = pairs.flatMap((range, at) =>
    at % 2 > 0
      ? []
      : [{ cells: cellsOf(range), counts: criterion(singleCell(pairs[at + 1] ?? null)) }],
  );
  const size = tests[0]?.cells.length ?? 0;
  if (tests.some(({ cells }) => cells.length !== size))
    throw new UnreadError("counts over ranges of different sizes");
  return Array.from({ length: size }, (_, at) =>
    tests.every(({ cells, counts }) => counts(cells[at] ?? null)),
  );
}

function countIf(args: readonly Later[]): Value {
  return countedPlaces(now(args)).filter(Boolean).length;
}

function sumIf(args: readonly Later[]): Value {
  countOf(args, 2, 3);
  const [range = null, wanted = null, summed = range] = now(args);
  const cells = cellsOf(summed);
  const places = countedPlaces([range, wanted]);
  if (cells.length !== places.length)
    throw new UnreadError("sums a range of another size than the one it looks through");
  return overNumbers((numbers) => finite(sum(numbers)))([
    () => [cells.filter((_, at) => places[at])],
  ]);
}

function texts(args: readonly Later[]): Value {
  let joined = "";
  for (const cell of now(args).flatMap(cellsOf)) {
    const text = textIn(cell);
    if (isCellError(text)) return text;
    joined += text;
  }
  return joined;
}

function ofText(change: (text: string) => Cell): NativeFunction {
  return (args) => {
    countOf(args, 1, 1);
    return eachCell(now(args), (cell = null) => {
      const text = textIn(cell);
      return isCellError(text) ? text : change(text);
    });
  };
}

function cut(take: (text: string, ...numbers: number[]) => string): NativeFunction {
  return (args) => {
    countOf(args, 1, 3);
    const text = textIn(one(args, 0, null));
    const numbers = args.slice(1).map((_, at) => numberIn(one(args, at + 1, null)));
    const error = [text, ...numbers].find(isCellError);
    if (error) return error;
    return take(text as string, ...(numbers as number[]));
  };
}

const functions: Readonly<Record<string, NativeFunction>> = {
  IF: choose,
  IFERROR: insteadOf(() => true),
  IFNA: insteadOf(({ error }) => error === "#N/A"),
  AND: everyTruth((truths) => truths.every(Boolean)),
  OR: everyTruth((truths) => truths.some(Boolean)),
  NOT: (args) => {
    countOf(args, 1, 1);
    return eachCell(now(args), (cell = null) => {
      const truth = truthIn(cell);
      return isCellError(truth) ? truth : !truth;
    });
  },
  TRUE: () => true,
  FALSE: () => false,
  NA: () => MISSING_ERROR,
  CHOOSE: (args) => {
    const number = numberIn(one(args, 0, null));
    if (isCellError(number)) return number;
    const at = Math.trunc(number);
    return at < 1 || at >= args.length ? VALUE_ERROR : (args[at]?.() ?? 0);
  },
  N: (args) => {
    countOf(args, 1, 1);
    const cell = one(args, 0, null);
    if (isCellError(cell) || typeof cell === "number") return cell;
    return cell === true ? 1 : 0;
  },
  ISNUMBER: whether((cell) => typeof cell === "number"),
  ISTEXT: whether((cell) => typeof cell === "string"),
  ISBLANK: whether((cell) => cell === null),
  ISERROR: whether((cell) => isCellError(cell)),
  ISERR: whether((cell) => isCellError(cell) && cell.error !== "#N/A"),
  ISNA: whether((cell) => isCellError(cell) && cell.error === "#N/A"),

  SUM: overNumbers((numbers) => finite(sum(numbers))),
  SUMSQ: overNumbers((numbers) => finite(sum(numbers.map((number) => number ** 2)))),
  PRODUCT: overNumbers((numbers) =>
    finite(numbers.length === 0 ? 0 : numbers.reduce((a, b) => a * b, 1)),
  ),
  MIN: overNumbers((numbers) => (numbers.length ? Math.min(...numbers) : 0)),
  MAX: overNumbers((numbers) => (numbers.length ? Math.max(...numbers) : 0)),
  AVERAGE: overNumbers((numbers) =>
    numbers.length ? finite(sum(numbers) / numbers.length) : DIVISION_ERROR,
  ),
  COUNT: (args) =>
    now(args)
      .flatMap(cellsOf)
      .filter((cell) => typeof cell === "number").length,
  COUNTA: (args) =>
    now(args)
      .flatMap(cellsOf)
      .filter((cell) => cell !== null).length,
  SUMPRODUCT: sumOfProducts,
  COUNTIF: (args) => {
    countOf(args, 2, 2);
    return countIf(args);
  },
  COUNTIFS: countIf,
  SUMIF: sumIf,

  ABS: byCell(1, 1, (x = 0) => Math.abs(x)),
  SIGN: byCell(1, 1, (x = 0) => Math.sign(x)),
  SQRT: byCell(1, 1, (x = 0) => finite(Math.sqrt(x))),
  EXP: byCell(1, 1, (x = 0) => finite(Math.exp(x))),
  LN: byCell(1, 1, (x = 0) => finite(Math.log(x))),
  LOG10: byCell(1, 1, (x = 0) => finite(Math.log10(x))),
  LOG: byCell(1, 2, (x = 0, base = 10) =>
    base === 1 ? DIVISION_ERROR : finite(Math.log(x) / Math.log(base)),
  ),
  POWER: byCell(2, 2, (x = 0, exponent = 0) => power(x, exponent)),
  MOD: byCell(2, 2, (x = 0, by = 0) =>
    by === 0 ? DIVISION_ERROR : finite(x - by * Math.floor(x / by)),
  ),
  INT: byCell(1, 1, (x = 0) => Math.floor(x)),
  TRUNC: byCell(1, 2, (x = 0, places = 0) => rounded(x, places, Math.floor)),
  ROUND: byCell(2, 2, (x = 0, places = 0) => rounded(x, places, Math.round)),
  ROUNDUP: byCell(2, 2, (x = 0, places = 0) => rounded(x, places, Math.ceil)),
  ROUNDDOWN: byCell(2, 2, (x = 0, places = 0) => rounded(x, places, Math.floor)),
  PI: () => Math.PI,
  SIN: byCell(1, 1, (x = 0) => Math.sin(x)),
  COS: byCell(1, 1, (x = 0) => Math.cos(x)),
  TAN: byCell(1, 1, (x = 0) => Math.tan(x)),
  ACOSH: byCell(1, 1, (x = 0) => finite(Math.acosh(x))),
  RADIANS: byCell(1, 1, (x = 0) => (x * Math.PI) / 180),
  DEGREES: byCell(1, 1, (x = 0) => (x * 180) / Math.PI),

  INDEX: index,
  MATCH: match,
  VLOOKUP: columnLookup,
  XLOOKUP: lookup,
  ROWS: (args) => tableOf(args[0]?.() ?? null).length,
  COLUMNS: (args) => tableOf(args[0]?.() ?? null)[0]?.length ?? 0,
  TRANSPOSE: (args) => {
    const table = tableOf(args[0]?.() ?? null);
    return (table[0] ?? []).map((_, column) => table.map((row) => row[column] ?? null));
  },

  CONCAT: texts,
  CONCATENATE: texts,
  TRIM: ofText((text) => text.trim().replace(/ +/g, " ")),
  UPPER: ofText((text) => text.toUpperCase()),
  LOWER: ofText((text) => text.toLowerCase()),
  LEN: ofText((text) => text.length),
  VALUE: ofText((text) => numberIn(text)),
  LEFT: cut((text, count = 1) => text.slice(0, count)),
  RIGHT: cut((text, count = 1) => (count > 0 ? text.slice(-count) : "")),
  MID: cut((text, start = 1, count = 0) => text.slice(start - 1, start - 1 + count)),
};
