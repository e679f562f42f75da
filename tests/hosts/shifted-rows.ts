/** Rows inserted into a workbook in memory or removed from it: cells, formulas and names follow. */
import { rangeAddress, rangePlace, cellAddress, cellPlace } from "../../src/plans/addresses.js";
import {
  type RowShift,
  shiftedFormula,
  shiftedSpan,
} from "../../taskpane/formula-reading/shifted-formula.js";
import { plainRange } from "../../taskpane/hosts/ranges.js";
import { isFormula, type StoredCell, type StoredSheet } from "./memory-calculation.js";

export function shiftedSheets(
  sheets: ReadonlyMap<string, StoredSheet>,
  shift: RowShift,
): Map<string, Map<string, StoredCell>> {
  return new Map(
    [...sheets].map(([name, cells]) => {
      const kept = [...cells].flatMap(([address, cell]): [string, StoredCell][] => {
        const content = isFormula(cell.content)
          ? shiftedFormula(cell.content, name, shift)
          : cell.content;
        const at = name === shift.sheet ? shiftedCell(address, shift) : address;
        return at === undefined ? [] : [[at, { ...cell, content }]];
      });
      if (name === shift.sheet && shift.kind === "insert rows") kept.push(...looks(cells, shift));
      return [name, new Map(kept)];
    }),
  );
}

/** A name's range after the shift; undefined where all of it is gone. */
export function shiftedRange(address: string, shift: RowShift): string | undefined {
  const place = rangePlace(address);
  const rows = shiftedSpan(place.top, place.bottom, shift);
  return rows && rangeAddress({ ...place, ...rows });
}

/** As a spreadsheet writes a name's range: the sheet in front, `$` everywhere. */
export function shiftedReference(formula: string, shift: RowShift): string {
  const range = plainRange(formula);
  return range?.sheet === shift.sheet ? shiftedFormula(formula, shift.sheet, shift) : formula;
}

/** New rows look like the one above them. */
function looks(cells: StoredSheet, { row, count }: RowShift): [string, StoredCell][] {
  return [...cells].flatMap(([address, { format }]) => {
    const place = cellPlace(address);
    if (place.row !== row - 1 || format === undefined) return [];
    return Array.from({ length: count }, (_, index): [string, StoredCell] => [
      cellAddress({ row: row + index, column: place.column }),
      { content: "", format },
    ]);
  });
}

function shiftedCell(address: string, shift: RowShift): string | undefined {
  const { row, column } = cellPlace(address);
  const rows = shiftedSpan(row, row, shift);
  return rows && cellAddress({ row: rows.top, column });
}
