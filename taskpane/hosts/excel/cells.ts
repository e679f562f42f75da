/** Reading and writing of cells in Excel. */
import { areaAddress, areaPlace, cellAddress } from "../../../src/plans/addresses.js";
import { plainArea } from "../areas.js";
import { type Area, type AreaContent, type CellWrite, HostError, type HostValue } from "../host.js";

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

export function areaRange(context: Excel.RequestContext, { sheet, address }: Area): Excel.Range {
  return context.workbook.worksheets.getItem(sheet).getRange(address);
}

export async function readAreas(
  context: Excel.RequestContext,
  areas: readonly Area[],
): Promise<readonly AreaContent[]> {
  const ranges = areas.map((area) => areaRange(context, area));
  for (const range of ranges) range.load("values,valueTypes,formulas,numberFormat");
  await context.sync();
  const own = await ownFormulas(context, areas, ranges.map(formulasOf));
  return ranges.map((range, index) => ({
    area: areas[index] as Area,
    values: range.values.map((row, rowIndex) =>
      row.map((value: unknown, column) => hostValue(value, range.valueTypes[rowIndex]?.[column])),
    ),
    formulas: own[index] ?? [],
    formats: range.numberFormat as string[][],
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
 * at a time, so only cells are asked whose formula stands elsewhere in the area too, and cells that are read alone.
 */
async function ownFormulas(
  context: Excel.RequestContext,
  areas: readonly Area[],
  read: readonly Formulas[],
): Promise<readonly Formulas[]> {
  const asked = new Map<string, Excel.Range>();
  const keyOf = (index: number, address: string) => `${index} ${address}`;
  areas.forEach((area, index) => {
    const formulas = read[index]?.flat() ?? [];
    for (const { address, formula } of addressed(area, read[index] ?? [])) {
      const isDoubtful =
        formula !== "" &&
        (formulas.length === 1 || formulas.indexOf(formula) !== formulas.lastIndexOf(formula));
      if (!isDoubtful) continue;
      const anchor = areaRange(context, {
        sheet: area.sheet,
        address,
      }).getSpillParentOrNullObject();
      anchor.load("address");
      asked.set(keyOf(index, address), anchor);
    }
  });
  if (asked.size === 0) return read;
  await context.sync();
  return areas.map((area, index) =>
    rows(area, (address, row, column) => {
      const anchor = asked.get(keyOf(index, address));
      const isSpilled =
        anchor?.isNullObject === false && excelArea(anchor.address).address !== address;
      return isSpilled ? "" : (read[index]?.[row]?.[column] ?? "");
    }),
  );
}

function addressed(area: Area, formulas: Formulas) {
  return rows(area, (address, row, column) => ({
    address,
    formula: formulas[row]?.[column] ?? "",
  })).flat();
}

function rows<T>(
  { address }: Area,
  read: (address: string, row: number, column: number) => T,
): T[][] {
  const { top, left, bottom, right } = areaPlace(address);
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

/** Excel's `Inputs!B2:D9` as an area; whole columns and rows by their corners. @throws {HostError} */
export function excelArea(reference: string): Area {
  const mark = reference.lastIndexOf("!");
  const sheet = reference.slice(0, mark + 1);
  const area = plainArea(sheet + withCorners(reference.slice(mark + 1)));
  if (!area) throw new HostError(`Excel named an area "${reference}"`);
  return area;
}

function withCorners(address: string): string {
  const [, firstColumn, lastColumn] = /^\$?([A-Z]+):\$?([A-Z]+)$/.exec(address) ?? [];
  if (firstColumn && lastColumn) return `${firstColumn}1:${lastColumn}${LAST_ROW + 1}`;
  const [, firstRow, lastRow] = /^\$?(\d+):\$?(\d+)$/.exec(address) ?? [];
  if (!firstRow || !lastRow) return address;
  return areaAddress({
    top: Number(firstRow) - 1,
    left: 0,
    bottom: Number(lastRow) - 1,
    right: LAST_COLUMN,
  });
}
