/** Cell addresses as a spreadsheet writes them, and as row and column counted from 0. */
export interface CellPlace {
  readonly row: number;
  readonly column: number;
}

/** Both ends belong to it. */
export interface RangePlace {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

const CELL = /^\$?([A-Z]{1,3})\$?([1-9]\d{0,6})$/;
const MOST_ROWS = 1_048_576;
const MOST_COLUMNS = 16_384;

/** Row and column of a cell, from 0. @throws {RangeError} for anything but one cell of a sheet. */
export function cellPlace(address: string): CellPlace {
  const [, letters, digits] = CELL.exec(address) ?? [];
  const row = Number(digits) - 1;
  const column = letters === undefined ? Number.NaN : columnNumber(letters);
  if (!(row < MOST_ROWS && column < MOST_COLUMNS))
    throw new RangeError(`"${address}" is not a cell address`);
  return { row, column };
}

/** Reads a range such as `B2:D9`, or the lone cell `B2`. @throws {RangeError} */
export function rangePlace(address: string): RangePlace {
  const [first = "", last = first, ...more] = address.split(":");
  if (more.length > 0) throw new RangeError(`"${address}" is not a cell range`);
  const [from, to] = [cellPlace(first), cellPlace(last)];
  return {
    top: Math.min(from.row, to.row),
    left: Math.min(from.column, to.column),
    bottom: Math.max(from.row, to.row),
    right: Math.max(from.column, to.column),
  };
}

export function cellAddress({ row, column }: CellPlace): string {
  return `${columnLetters(column)}${row + 1}`;
}

/** A lone cell is written `B2`, not `B2:B2`. */
export function rangeAddress({ top, left, bottom, right }: RangePlace): string {
  const first = cellAddress({ row: top, column: left });
  const last = cellAddress({ row: bottom, column: right });
  return first === last ? first : `${first}:${last}`;
}

/** `B2:D9` as `$B$2:$D$9`. */
export function fixedAddress(address: string): string {
  return address.replace(/\$?([A-Z]+)\$?(\d+)/g, "$$$1$$$2");
}

export function columnLetters(column: number): string {
  const rest = Math.floor(column / 26) - 1;
  const letter = String.fromCharCode(65 + (column % 26));
  return rest < 0 ? letter : columnLetters(rest) + letter;
}

function columnNumber(letters: string): number {
  return [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
}

/** A sheet's name as a formula refers to it; always quoted, which every spreadsheet accepts. */
export function quotedSheet(name: string): string {
  return `'${name.replaceAll("'", "''")}'`;
}
