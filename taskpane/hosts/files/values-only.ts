/** The workbook with what its formulas came to in their place, for spreadsheets that do not know the cell functions. */
import type { CellSnapshot, WorkbookSnapshot } from "./workbook-snapshot.js";

export function valuesOnly(snapshot: WorkbookSnapshot): WorkbookSnapshot {
  return {
    ...snapshot,
    sheets: snapshot.sheets.map((sheet) => ({
      ...sheet,
      cells: sheet.cells.map(withoutFormula),
    })),
  };
}

function withoutFormula(cell: CellSnapshot): CellSnapshot {
  if (cell.formula === undefined) return cell;
  const { at, value, look, note } = cell;
  // A formula may come to an empty text; a cell may not hold one.
  const isEmpty = value === undefined || value === "";
  return {
    at,
    ...(!isEmpty && { value }),
    ...(look !== undefined && { look }),
    ...(note !== undefined && { note }),
  };
}
