/** Ranges as spreadsheets write them, with the sheet in front, and cells of the shape of a range. */
import { cellAddress, rangePlace } from "../../src/plans/addresses.js";
import {
  type CellRange,
  type CellWrite,
  type FormulaCell,
  HostError,
  type RangeContent,
  type SheetEdit,
} from "./host.js";

const PLAIN_AREA = /^=?(?:'((?:[^']|'')+)'|([^'!()[\],]+))!(\$?[A-Z]+\$?\d+(?::\$?[A-Z]+\$?\d+)?)$/;

/** The range that `'My sheet'!$A$1:$B$2` refers to; nothing for a constant or a formula. */
export function plainRange(reference: string): CellRange | undefined {
  const [, quoted, bare, address] = PLAIN_AREA.exec(reference) ?? [];
  const sheet = quoted?.replaceAll("''", "'") ?? bare;
  if (sheet === undefined || address === undefined) return undefined;
  return { sheet, address: address.replaceAll("$", "") };
}

/** The cell at the top left. */
export function firstCell({ sheet, address }: CellRange): CellRange {
  const { top, left } = rangePlace(address);
  return { sheet, address: cellAddress({ row: top, column: left }) };
}

/** @throws {HostError} */
export function requireShape(range: CellRange, cells: readonly (readonly CellWrite[])[]): void {
  const { top, left, bottom, right } = rangePlace(range.address);
  const fits =
    cells.length === bottom - top + 1 && cells.every((row) => row.length === right - left + 1);
  if (!fits)
    throw new HostError(
      `the cells to write do not have the shape of ${range.sheet}!${range.address}`,
    );
}

export function sheetOf(edit: SheetEdit): string {
  return edit.kind === "write" ? edit.range.sheet : edit.sheet;
}

/** The cells of what was read that hold a formula. */
export function formulasIn({ range, values, formulas }: RangeContent): readonly FormulaCell[] {
  const { top, left } = rangePlace(range.address);
  return formulas.flatMap((cells, row) =>
    cells.flatMap((formula, column) => {
      if (formula === "") return [];
      const address = cellAddress({ row: top + row, column: left + column });
      return { at: { sheet: range.sheet, address }, formula, value: values[row]?.[column] ?? "" };
    }),
  );
}
