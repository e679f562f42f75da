/** How the cells of a plan look in Excel: one request for all cells of a style, not one for each cell. */
import {
  rangeAddress,
  type CellPlace,
  cellAddress,
  cellPlace,
  columnLetters,
} from "../../../src/plans/addresses.js";
import { type CellStyle, cellStyles } from "../../../src/plans/cell-styles.js";
import { rowHeights } from "../../../src/plans/row-heights.js";
import type { PlanCell, SheetPlan, StyleName } from "../../../src/plans/sheet-plan.js";
import { mergeCells } from "./merges.js";
import { setUpPages } from "./page-setup.js";

/** Excel takes some 8000 characters for a list of ranges. */
const MOST_AREAS = 200;

export const POINTS_PER_PIXEL = 72 / 96;

const ALIGNMENTS = { left: "Left", centre: "Center", right: "Right" } as const;

const EDGES = {
  thin: ["EdgeTop", "EdgeBottom", "EdgeLeft", "EdgeRight"],
  top: ["EdgeTop"],
  bottom: ["EdgeBottom"],
} as const;

export function styleCells(sheet: Excel.Worksheet, cells: readonly PlanCell[]): void {
  const names = new Set(cells.map(({ style }) => style));
  for (const name of names) styleAlike(sheet, cells, name);
}

function styleAlike(sheet: Excel.Worksheet, cells: readonly PlanCell[], name: StyleName): void {
  const style = cellStyles[name];
  const alike = cells.filter((cell) => cell.style === name).map(({ at }) => cellPlace(at));
  // A border goes round a range, so cells with one on every side are ranges of their own.
  const ranges = style.border === "thin" ? alike.map(cellAddress) : rowRuns(alike);
  for (let start = 0; start < ranges.length; start += MOST_AREAS)
    applyStyle(sheet.getRanges(ranges.slice(start, start + MOST_AREAS).join(",")).format, style);
}

/** Cells side by side as one range. */
export function rowRuns(places: readonly CellPlace[]): readonly string[] {
  const ordered = [...places].sort(
    (one, other) => one.row - other.row || one.column - other.column,
  );
  const runs: { row: number; first: number; last: number }[] = [];
  for (const { row, column } of ordered) {
    const run = runs.at(-1);
    if (run && run.row === row && run.last + 1 === column) run.last = column;
    else runs.push({ row, first: column, last: column });
  }
  return runs.map(({ row, first, last }) =>
    rangeAddress({ top: row, bottom: row, left: first, right: last }),
  );
}

function applyStyle(format: Excel.RangeFormat, style: CellStyle): void {
  format.verticalAlignment = "Center";
  if (style.bold) format.font.bold = true;
  if (style.italic) format.font.italic = true;
  if (style.fontSize !== undefined) format.font.size = style.fontSize;
  if (style.colour !== undefined) format.font.color = style.colour;
  if (style.fill !== undefined) format.fill.color = style.fill;
  if (style.align) format.horizontalAlignment = ALIGNMENTS[style.align];
  if (style.wrap) format.wrapText = true;
  for (const edge of style.border ? EDGES[style.border] : []) {
    const line = format.borders.getItem(edge);
    line.style = "Continuous";
    line.weight = "Thin";
    line.color = style.borderColour ?? "#000000";
  }
}

export function layOut(sheet: Excel.Worksheet, plan: SheetPlan): void {
  const { columnWidths, frozenRows, frozenColumns = 0, merges } = plan;
  columnWidths.forEach((pixels, index) => {
    const column = columnLetters(index);
    sheet.getRange(`${column}:${column}`).format.columnWidth = pixels * POINTS_PER_PIXEL;
  });
  for (const [row, pixels] of rowHeights(plan))
    sheet.getRange(`${row + 1}:${row + 1}`).format.rowHeight = pixels * POINTS_PER_PIXEL;
  if (frozenRows > 0 && frozenColumns > 0) {
    const [bottom, right] = [frozenRows - 1, frozenColumns - 1];
    const frozen = rangeAddress({ top: 0, left: 0, bottom, right });
    sheet.freezePanes.freezeAt(frozen);
  } else if (frozenRows > 0) sheet.freezePanes.freezeRows(frozenRows);
  mergeCells(sheet, merges);
  setUpPages(sheet, plan);
}
