/** Reading and writing of cells in Excel. */
import {
  type CellPlace,
  rangeAddress,
  rangePlace,
  cellAddress,
} from "../../../src/plans/addresses.js";
import { plainRange } from "../ranges.js";
import {
  type CellRange,
  type RangeContent,
  type CellWrite,
  HostError,
  type HostValue,
} from "../host.js";

/** Text that Excel would take for a number, a date, a formula or a truth value, as if it had been typed. */
const TAKEN_OTHERWISE = /\d|^[=+\-@'#]|^\s*(true|false)\s*$/i;

/** A value for a plain cell: text stays the text it is. */
export function writtenValue(value: CellWrite): CellWrite {
  return typeof value === "string" && TAKEN_OTHERWISE.test(value) ? `'${value}` : value;
}

/** A formula, or a value. */
export function writtenCell(content: CellWrite): CellWrite {
  const isFormula = typeof content === "string" && content.startsWith("=");
  return isFormula ? content : writtenValue(content);
}

/** What is put into one cell. */
export interface Written extends CellPlace {
  readonly content: CellWrite;
}

export interface WrittenBlock {
  readonly address: string;
  /** Null for a cell that Excel is to leave alone, so that spills stay free. */
  readonly rows: (CellWrite | null)[][];
}

/** The library writes more cells than this in pieces, which some builds of Excel cannot take back in one step. */
const MOST_IN_A_BLOCK = 1_500;
/** A block over so many empty rows is longer than a second block. */
const MOST_EMPTY_ROWS = 2;

/** Cells as blocks of rows, without long stretches of nothing: what is sent is mostly what is written. */
export function blocksOf(cells: readonly Written[]): readonly WrittenBlock[] {
  const bands: Written[][] = [];
  let band: Written[] = [];
  let [bottom, left, right] = [0, 0, 0];
  for (const row of inRows(cells)) {
    const { row: index } = row[0]!;
    const [first, last] = [row[0]!.column, row.at(-1)!.column];
    const width = Math.max(right, last) - Math.min(left, first) + 1;
    const isNear = band.length > 0 && index - bottom - 1 <= MOST_EMPTY_ROWS;
    const fits = isNear && width * (index - band[0]!.row + 1) <= MOST_IN_A_BLOCK;
    if (!fits) bands.push((band = []));
    [left, right] = fits ? [Math.min(left, first), Math.max(right, last)] : [first, last];
    bottom = index;
    band.push(...row);
  }
  return bands.map(blockOf);
}

/** Each row's cells from left to right. */
function inRows(cells: readonly Written[]): readonly (readonly Written[])[] {
  const rows = new Map<number, Written[]>();
  for (const cell of cells) rows.set(cell.row, [...(rows.get(cell.row) ?? []), cell]);
  return [...rows]
    .sort(([one], [other]) => one - other)
    .map(([, row]) => row.sort((one, other) => one.column - other.column));
}

function blockOf(cells: readonly Written[]): WrittenBlock {
  const [top, bottom] = [cells[0]!.row, cells.at(-1)!.row];
  const columns = cells.map(({ column }) => column);
  const [left, right] = [Math.min(...columns), Math.max(...columns)];
  const rows: (CellWrite | null)[][] = Array.from({ length: bottom - top + 1 }, () =>
    Array.from({ length: right - left + 1 }, () => null),
  );
  for (const { row, column, content } of cells) rows[row - top]![column - left] = content;
  return { address: rangeAddress({ top, left, bottom, right }), rows };
}

export function hostRange(
  context: Excel.RequestContext,
  { sheet, address }: CellRange,
): Excel.Range {
  return context.workbook.worksheets.getItem(sheet).getRange(address);
}

export async function readRanges(
  context: Excel.RequestContext,
  ranges: readonly CellRange[],
): Promise<readonly RangeContent[]> {
  const targets = ranges.map((range) => hostRange(context, range));
  for (const target of targets) target.load("values,valueTypes,formulas,numberFormat");
  await context.sync();
  const own = await ownFormulas(context, ranges, targets.map(formulasOf));
  return targets.map((target, index) => ({
    range: ranges[index] as CellRange,
    values: target.values.map((row, rowIndex) =>
      row.map((value: unknown, column) => hostValue(value, target.valueTypes[rowIndex]?.[column])),
    ),
    formulas: own[index] ?? [],
    formats: target.numberFormat as string[][],
  }));
}

type Formulas = readonly (readonly string[])[];

/** A text that begins like a formula is its own value. */
function formulasOf({ formulas, values }: Excel.Range): Formulas {
  return formulas.map((row, rowIndex) =>
    row.map((formula: unknown, column) => {
      const isFormula =
        typeof formula === "string" &&
        formula.startsWith("=") &&
        formula !== values[rowIndex]?.[column];
      return isFormula ? formula : "";
    }),
  );
}

/**
 * A spilled cell may show the formula of the cell that it spills from. It holds none of its own, and Excel tells one cell
 * at a time, so only cells are asked whose formula stands elsewhere in the range too, and cells that are read alone.
 */
async function ownFormulas(
  context: Excel.RequestContext,
  ranges: readonly CellRange[],
  read: readonly Formulas[],
): Promise<readonly Formulas[]> {
  const asked = new Map<string, Excel.Range>();
  const keyOf = (index: number, address: string) => `${index} ${address}`;
  ranges.forEach((range, index) => {
    const formulas = read[index]?.flat() ?? [];
    for (const { address, formula } of addressed(range, read[index] ?? [])) {
      const isDoubtful =
        formula !== "" &&
        (formulas.length === 1 || formulas.indexOf(formula) !== formulas.lastIndexOf(formula));
      if (!isDoubtful) continue;
      const anchor = hostRange(context, {
        sheet: range.sheet,
        address,
      }).getSpillParentOrNullObject();
      anchor.load("address");
      asked.set(keyOf(index, address), anchor);
    }
  });
  if (asked.size === 0) return read;
  await context.sync();
  return ranges.map((range, index) =>
    rows(range, (address, row, column) => {
      const anchor = asked.get(keyOf(index, address));
      const isSpilled =
        anchor?.isNullObject === false && excelRange(anchor.address).address !== address;
      return isSpilled ? "" : (read[index]?.[row]?.[column] ?? "");
    }),
  );
}

function addressed(range: CellRange, formulas: Formulas) {
  return rows(range, (address, row, column) => ({
    address,
    formula: formulas[row]?.[column] ?? "",
  })).flat();
}

function rows<T>(
  { address }: CellRange,
  read: (address: string, row: number, column: number) => T,
): T[][] {
  const { top, left, bottom, right } = rangePlace(address);
  return Array.from({ length: bottom - top + 1 }, (_, row) =>
    Array.from({ length: right - left + 1 }, (__, column) =>
      read(cellAddress({ row: top + row, column: left + column }), row, column),
    ),
  );
}

function hostValue(value: unknown, type: Excel.RangeValueType | undefined): HostValue {
  if (type === "Error") return { error: String(value) };
  return typeof value === "number" || typeof value === "boolean" ? value : String(value ?? "");
}

const LAST_ROW = 1_048_575;
const LAST_COLUMN = 16_383;

/** Excel's `Inputs!B2:D9` as a range; whole columns and rows by their corners. @throws {HostError} */
export function excelRange(reference: string): CellRange {
  const mark = reference.lastIndexOf("!");
  const sheet = reference.slice(0, mark + 1);
  const range = plainRange(sheet + withCorners(reference.slice(mark + 1)));
  if (!range) throw new HostError(`Excel named a range "${reference}"`);
  return range;
}

function withCorners(address: string): string {
  const [, firstColumn, lastColumn] = /^\$?([A-Z]+):\$?([A-Z]+)$/.exec(address) ?? [];
  if (firstColumn && lastColumn) return `${firstColumn}1:${lastColumn}${LAST_ROW + 1}`;
  const [, firstRow, lastRow] = /^\$?(\d+):\$?(\d+)$/.exec(address) ?? [];
  if (!firstRow || !lastRow) return address;
  return rangeAddress({
    top: Number(firstRow) - 1,
    left: 0,
    bottom: Number(lastRow) - 1,
    right: LAST_COLUMN,
  });
}
