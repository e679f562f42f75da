/** Reading cells of the workbench: values unformatted, spilled ones too. */
import type { ICellData, Nullable } from "@univerjs/core";
import type { FormulaDataModel } from "@univerjs/engine-formula";
import type { FWorksheet } from "@univerjs/sheets/facade";
import { rangeAddress, rangePlace, type CellPlace } from "../../../src/plans/addresses.js";
import type { CellRange, RangeContent, CellWrite, HostValue } from "../host.js";

/** A spill's values are kept beside the sheet: only its first cell is in the sheet itself. */
export function readCells(
  sheet: FWorksheet,
  spills: FormulaDataModel,
  address: string,
): RangeContent {
  const { top, left, bottom, right } = rangePlace(address);
  const unitId = sheet.getWorkbook().getUnitId();
  const spilled = spills.getArrayFormulaCellData()[unitId]?.[sheet.getSheetId()];
  const stored = sheet.getSheet().getCellMatrix();
  const styles = sheet.getWorkbook().getStyles();
  const rows = counted(top, bottom);
  const columns = counted(left, right);
  return {
    range: { sheet: sheet.getSheetName(), address },
    values: rows.map((row) =>
      columns.map((column) => {
        const own = stored.getValue(row, column);
        return hostValue(isFilled(own) ? own : spilled?.[row]?.[column]);
      }),
    ),
    formulas: sheet.getRange(address).getFormulas(),
    formats: rows.map((row) =>
      columns.map((column) => {
        const style = styles.getStyleByCell(stored.getValue(row, column));
        return style?.n?.pattern ?? "General";
      }),
    ),
  };
}

/** The range from A1 to the last row and column that hold something or are reached by a spill. */
export function usedRange(sheet: FWorksheet, spills: FormulaDataModel): CellRange {
  const unitId = sheet.getWorkbook().getUnitId();
  const spilled = spills.getArrayFormulaCellData()[unitId]?.[sheet.getSheetId()] ?? {};
  let [bottom, right] = [0, 0];
  const reach = (row: number, column: number, cell: Nullable<ICellData>) => {
    if (!isFilled(cell)) return;
    bottom = Math.max(bottom, row);
    right = Math.max(right, column);
  };
  sheet.getSheet().getCellMatrix().forValue(reach);
  for (const [row, cells] of Object.entries(spilled))
    for (const [column, cell] of Object.entries(cells ?? {}))
      reach(Number(row), Number(column), cell as Nullable<ICellData>);
  const address = rangeAddress({ top: 0, left: 0, bottom, right });
  return { sheet: sheet.getSheetName(), address };
}

/** The first cell of the range, row by row, that holds something or is reached by a spill. */
export function firstFilled(
  sheet: FWorksheet,
  spills: FormulaDataModel,
  address: string,
): CellPlace | undefined {
  const { top, left } = rangePlace(address);
  const { values, formulas } = readCells(sheet, spills, address);
  for (const [row, cells] of values.entries()) {
    const column = cells.findIndex((value, index) => value !== "" || formulas[row]?.[index] !== "");
    if (column >= 0) return { row: top + row, column: left + column };
  }
  return undefined;
}

/** A cell's whole content anew: what stood there before, of any kind, goes. */
/** A sheet here ends where somebody last needed it; what is written further out moves its end. */
export function makeRoom(sheet: FWorksheet, address: string): void {
  const { bottom, right } = rangePlace(address);
  if (bottom >= sheet.getMaxRows()) sheet.setRowCount(bottom + 1);
  if (right >= sheet.getMaxColumns()) sheet.setColumnCount(right + 1);
}

export function writtenCell(content: CellWrite): ICellData {
  const nothing = { f: null, si: null, p: null, v: null, t: null };
  if (content === "") return nothing;
  if (typeof content === "string" && content.startsWith("=")) return { ...nothing, f: content };
  if (typeof content === "boolean") return { ...nothing, v: Number(content), t: BOOLEAN };
  return { ...nothing, v: content, t: typeof content === "number" ? 2 : 1 };
}

/** Whether the cell holds anything of its own. */
export function isFilled(cell: Nullable<ICellData>): boolean {
  return (
    Boolean(cell?.f || cell?.si || cell?.p) ||
    (cell?.v !== undefined && cell.v !== null && cell.v !== "")
  );
}

const BOOLEAN = 3;
const ERROR = /^#(VALUE!|N\/A|NUM!|DIV\/0!|REF!|NAME\?|NULL!|SPILL!|CALC!|CYCLE!|ERROR!)$/;

function hostValue(cell: Nullable<ICellData>): HostValue {
  const value = cell?.v;
  if (value === undefined || value === null) return "";
  if (cell?.t === BOOLEAN) return Boolean(value);
  if (typeof value === "string" && ERROR.test(value)) return { error: value };
  return value;
}

function counted(first: number, last: number): number[] {
  return Array.from({ length: last - first + 1 }, (_, index) => first + index);
}
