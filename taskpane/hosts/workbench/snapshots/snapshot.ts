/** A plan as the workbench's own workbook data. */
import type { ICellData, IRange, IStyleData, IWorkbookData, IWorksheetData } from "@univerjs/core";
import {
  rangeAddress,
  rangePlace,
  cellPlace,
  fixedAddress,
  quotedSheet,
} from "../../../../src/plans/addresses.js";
import { type CellStyle, cellStyles } from "../../../../src/plans/cell-styles.js";
import { fillPlaceholders, type UsedNames } from "../../../../src/plans/placeholders.js";
import { rowHeights } from "../../../../src/plans/row-heights.js";
import type { PlanCell, SheetPlan, WorkbookPlan } from "../../../../src/plans/sheet-plan.js";
import type { LineSizes } from "./file-images.js";

/** Room below and beside a plan's cells, for spills to grow and for the user's own work. */
export const SPARE_ROWS = 60;
export const LEAST_COLUMNS = 26;

/** The plan as a workbook of its own; validations, rules, notes and pictures are put on it afterwards. */
export function workbookData(plan: WorkbookPlan, used: UsedNames): Partial<IWorkbookData> {
  return {
    id: plan.id,
    name: plan.title,
    sheetOrder: plan.sheets.map(({ key }) => key),
    sheets: Object.fromEntries(
      plan.sheets.map((sheet) => [sheet.key, { id: sheet.key, ...sheetData(sheet, used) }]),
    ),
    resources: [
      {
        name: "SHEET_DEFINED_NAME_PLUGIN",
        data: JSON.stringify(definedNames(plan, used)),
      },
    ],
  };
}

function definedNames(plan: WorkbookPlan, used: UsedNames) {
  return Object.fromEntries(
    planNames(plan, used).map(({ name, reference }) => [
      name,
      {
        id: name,
        name,
        formulaOrRefString: reference,
        localSheetId: "AllDefaultWorkbook",
      },
    ]),
  );
}

/** Each name as it is called in the workbook, and what it refers to: `'Inputs'!$B$4`. */
export function planNames(
  plan: WorkbookPlan,
  used: UsedNames,
): readonly { readonly name: string; readonly reference: string }[] {
  return plan.names.map(({ name, sheet, range }) => ({
    name: used.names[name] ?? name,
    reference: `${quotedSheet(used.sheets[sheet] ?? sheet)}!${fixedAddress(range)}`,
  }));
}

export function sheetData(sheet: SheetPlan, used: UsedNames): Partial<IWorksheetData> {
  const places = sheet.cells.map(({ at }) => cellPlace(at));
  const lastRow = Math.max(0, ...places.map(({ row }) => row));
  const lastColumn = Math.max(0, ...places.map(({ column }) => column));
  const { frozenRows, frozenColumns = 0 } = sheet;
  return {
    name: used.sheets[sheet.key] ?? sheet.name,
    rowCount: lastRow + 1 + SPARE_ROWS,
    columnCount: Math.max(LEAST_COLUMNS, lastColumn + 5),
    cellData: cellMatrix(sheet.cells, used),
    columnData: Object.fromEntries(
      sheet.columnWidths.map((width, column) => [column, { w: width }]),
    ),
    rowData: Object.fromEntries(
      [...rowHeights(sheet)].map(([row, height]) => [row, { h: height }]),
    ),
    mergeData: sheet.merges.map(rangeOf),
    freeze: {
      xSplit: frozenColumns,
      ySplit: frozenRows,
      startRow: frozenRows === 0 ? -1 : frozenRows,
      startColumn: frozenColumns === 0 ? -1 : frozenColumns,
    },
  };
}

/** Size of columns and rows that nobody has resized, in pixels. */
export const COLUMN_WIDTH = 88;
export const ROW_HEIGHT = 24;

export function lineSizes(sheet: SheetPlan): LineSizes {
  const heights = rowHeights(sheet);
  return {
    width: (column) => sheet.columnWidths[column] ?? COLUMN_WIDTH,
    height: (row) => heights.get(row) ?? ROW_HEIGHT,
  };
}

export function rangeOf(range: string): IRange {
  const { top, left, bottom, right } = rangePlace(range);
  return {
    startRow: top,
    startColumn: left,
    endRow: bottom,
    endColumn: right,
  };
}

function cellMatrix(
  cells: readonly PlanCell[],
  used: UsedNames,
): Record<number, Record<number, ICellData>> {
  const matrix: Record<number, Record<number, ICellData>> = {};
  for (const cell of cells) {
    const { row, column } = cellPlace(cell.at);
    (matrix[row] ??= {})[column] = cellData(cell, used);
  }
  return matrix;
}

/** Numbers carry their type, or the sheet takes them for text in rules. */
const TYPE_CODES = { string: 1, number: 2, boolean: 3 } as const;

function cellData({ value, formula, style, format }: PlanCell, used: UsedNames): ICellData {
  const s = styleData(cellStyles[style], format);
  if (formula !== undefined) return { f: `=${fillPlaceholders(formula, used)}`, s };
  if (value === undefined) return { s };
  const stored = typeof value === "boolean" ? Number(value) : value;
  const t = TYPE_CODES[typeof value as keyof typeof TYPE_CODES];
  return { v: stored, t, s };
}

const ALIGNMENTS = { left: 1, centre: 2, right: 3 } as const;
const MIDDLE = 2;
const WRAP = 3;
const THIN = 1;

function styleData(style: CellStyle, format: string | undefined): IStyleData {
  return {
    vt: MIDDLE,
    pd: { l: 4, r: 4 },
    ...(style.bold && { bl: 1 }),
    ...(style.italic && { it: 1 }),
    ...(style.fontSize && { fs: style.fontSize }),
    ...(style.colour && { cl: { rgb: style.colour } }),
    ...(style.fill && { bg: { rgb: style.fill } }),
    ...(style.align && { ht: ALIGNMENTS[style.align] }),
    ...(style.wrap && { tb: WRAP }),
    ...(style.border && { bd: borderData(style) }),
    ...(format && { n: { pattern: format } }),
  };
}

function borderData({ border, borderColour = "#000000" }: CellStyle) {
  const line = { s: THIN, cl: { rgb: borderColour } } as const;
  if (border === "thin") return { t: line, b: line, l: line, r: line };
  return border === "top" ? { t: line } : { b: line };
}

/** `B2:D9`; a single cell as `B2`. */
export function addressOf(range: IRange): string {
  return rangeAddress({
    top: range.startRow,
    left: range.startColumn,
    bottom: range.endRow,
    right: range.endColumn,
  });
}
