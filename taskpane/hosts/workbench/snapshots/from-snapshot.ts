/** A snapshot as the workbench's own workbook data, to open a workbook with. */
import type { ICellData, IWorkbookData, IWorksheetData } from "@univerjs/core";
import { rangePlace, cellAddress, cellPlace } from "../../../../src/plans/addresses.js";
import type {
  CellSnapshot,
  SheetSnapshot,
  SnapshotValue,
  WorkbookSnapshot,
} from "../../files/workbook-snapshot.js";
import { plainRange } from "../../ranges.js";
import { storedImage } from "./file-images.js";
import { storedRule, storedValidation } from "./file-rules.js";
import { styleOf } from "../looks.js";
import { COLUMN_WIDTH, LEAST_COLUMNS, rangeOf, ROW_HEIGHT, SPARE_ROWS } from "./snapshot.js";

const UNIT = "opened";
const NOTE_SIZE = { width: 240, height: 90 };

export function dataFromSnapshot(
  snapshot: WorkbookSnapshot,
  title: string,
): Partial<IWorkbookData> {
  const sheets = snapshot.sheets.map((sheet, index) => ({
    id: `sheet-${index + 1}`,
    sheet,
  }));
  const bySheet = <T>(part: (sheet: SheetSnapshot, id: string) => T) =>
    Object.fromEntries(sheets.map(({ id, sheet }) => [id, part(sheet, id)]));
  const resource = (name: string, data: unknown) => ({
    name,
    data: JSON.stringify(data),
  });
  return {
    id: UNIT,
    name: title,
    sheetOrder: sheets.map(({ id }) => id),
    sheets: bySheet(sheetData),
    resources: [
      resource(
        "SHEET_DATA_VALIDATION_PLUGIN",
        bySheet(({ validations }, id) =>
          validations.map((validation, index) =>
            storedValidation(validation, `${id}-validation-${index}`),
          ),
        ),
      ),
      resource(
        "SHEET_CONDITIONAL_FORMATTING_PLUGIN",
        bySheet(({ rules }, id) =>
          rules.map((rule, index) => storedRule(rule, `${id}-rule-${index}`)),
        ),
      ),
      resource("SHEET_NOTE_PLUGIN", bySheet(notesData)),
      resource("SHEET_DRAWING_PLUGIN", bySheet(imagesData)),
      resource("SHEET_DEFINED_NAME_PLUGIN", namesData(snapshot, sheets)),
    ],
  };
}

function namesData(
  { names }: WorkbookSnapshot,
  sheets: readonly { readonly id: string; readonly sheet: SheetSnapshot }[],
) {
  const entries = names.map(({ name, refersTo, sheet: wanted }, index) => {
    const id = `name-${index + 1}`;
    const sheet = sheets.find((each) => each.sheet.name === wanted);
    const data = {
      id,
      name,
      formulaOrRefString: plainRange(refersTo) ? refersTo : `=${refersTo}`,
      localSheetId: sheet?.id ?? "AllDefaultWorkbook",
    };
    return [id, data] as const;
  });
  return Object.fromEntries(entries);
}

function sheetData(sheet: SheetSnapshot, id: string): Partial<IWorksheetData> {
  const places = sheet.cells.map(({ at, spill }) => rangePlace(spill ?? at));
  const last = (line: "bottom" | "right") =>
    places.reduce((most, place) => Math.max(most, place[line]), 0);
  const { rows, columns } = sheet.frozen;
  return {
    id,
    name: sheet.name,
    hidden: sheet.hidden ? 1 : 0,
    ...(sheet.tabColour && { tabColor: sheet.tabColour }),
    showGridlines: sheet.gridlinesHidden ? 0 : 1,
    rowCount: last("bottom") + 1 + SPARE_ROWS,
    columnCount: Math.max(LEAST_COLUMNS, last("right") + 5),
    cellData: cellMatrix(sheet.cells),
    columnData: linesData(sheet.columnWidths, sheet.hiddenColumns, "w"),
    rowData: linesData(sheet.rowHeights, sheet.hiddenRows, "h"),
    mergeData: sheet.merges.map(rangeOf),
    freeze: {
      xSplit: columns,
      ySplit: rows,
      startRow: rows === 0 ? -1 : rows,
      startColumn: columns === 0 ? -1 : columns,
    },
  };
}

function linesData<Size extends "w" | "h">(
  sizes: Readonly<Record<number, number>>,
  hidden: readonly number[],
  size: Size,
) {
  const data: Record<number, { hd?: 1; ia?: 0 } & { [key in Size]?: number }> = {};
  for (const [line, length] of Object.entries(sizes))
    data[Number(line)] = {
      [size]: length,
      ...(size === "h" && { ia: 0 }),
    } as never;
  for (const line of hidden) data[line] = { ...data[line], hd: 1 } as never;
  return data;
}

function cellMatrix(cells: readonly CellSnapshot[]): Record<number, Record<number, ICellData>> {
  const matrix: Record<number, Record<number, ICellData>> = {};
  const spilled = spilledPlaces(cells);
  for (const cell of cells) {
    const { row, column } = cellPlace(cell.at);
    const data = cellData(cell, spilled.has(cell.at));
    if (Object.keys(data).length > 0) (matrix[row] ??= {})[column] = data;
  }
  return matrix;
}

/** Cells that a formula elsewhere fills: what they hold would stand in its way. */
function spilledPlaces(cells: readonly CellSnapshot[]): ReadonlySet<string> {
  const places = new Set<string>();
  for (const { at, spill } of cells) {
    if (spill === undefined) continue;
    const { top, left, bottom, right } = rangePlace(spill);
    for (let row = top; row <= bottom; row += 1)
      for (let column = left; column <= right; column += 1)
        places.add(cellAddress({ row, column }));
    places.delete(at);
  }
  return places;
}

function cellData({ value, formula, look }: CellSnapshot, isSpilled: boolean): ICellData {
  return {
    ...(formula !== undefined && { f: `=${formula}` }),
    ...(formula === undefined && value !== undefined && !isSpilled && valueData(value)),
    ...(look && { s: styleOf(look) }),
  };
}

const TEXT = 1;
const NUMBER = 2;
const BOOLEAN = 3;
/** Stays text when the cell is typed into again. */
const TEXT_FOR_EVER = 4;

function valueData(value: SnapshotValue): ICellData {
  switch (typeof value) {
    case "number":
      return { v: value, t: NUMBER };
    case "boolean":
      return { v: Number(value), t: BOOLEAN };
    case "string":
      return { v: value, t: isTakenForOther(value) ? TEXT_FOR_EVER : TEXT };
    default:
      return { v: value.error, t: TEXT };
  }
}

/** Text that would be a formula or a number if it were typed. */
function isTakenForOther(text: string): boolean {
  return /^[\s']*[=+\-@]/.test(text) || (text.trim() !== "" && Number.isFinite(Number(text)));
}

function notesData({ cells }: SheetSnapshot, id: string) {
  const notes: Record<number, Record<number, unknown>> = {};
  for (const { at, note } of cells) {
    if (note === undefined) continue;
    const { row, column } = cellPlace(at);
    (notes[row] ??= {})[column] = {
      id: `${id}-note-${at}`,
      row,
      col: column,
      note,
      show: false,
      ...NOTE_SIZE,
    };
  }
  return notes;
}

function imagesData(sheet: SheetSnapshot, subUnitId: string) {
  const { columnWidths, rowHeights, images } = sheet;
  const [columns, rows] = [new Set(sheet.hiddenColumns), new Set(sheet.hiddenRows)];
  const sizes = {
    width: (column: number) => (columns.has(column) ? 0 : (columnWidths[column] ?? COLUMN_WIDTH)),
    height: (row: number) => (rows.has(row) ? 0 : (rowHeights[row] ?? ROW_HEIGHT)),
  };
  const stored = images.map((image, index) => {
    const drawingId = `${subUnitId}-picture-${index + 1}`;
    return storedImage(image, { drawingId, unitId: UNIT, subUnitId }, sizes);
  });
  return {
    data: Object.fromEntries(stored.map((each) => [each.drawingId, each])),
    order: stored.map(({ drawingId }) => drawingId),
  };
}
