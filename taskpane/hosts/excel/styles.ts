/** How the cells of a plan look in Excel: a command for each rectangle of a style, not one for each cell. */
import {
  cellPlace,
  columnLetters,
  rangeAddress,
  rangePlace,
} from "../../../src/plans/addresses.js";
import { type CellStyle, cellStyles } from "../../../src/plans/cell-styles.js";
import { rowHeights } from "../../../src/plans/row-heights.js";
import type { PlanCell, SheetPlan } from "../../../src/plans/sheet-plan.js";
import { mergeCells } from "./merges.js";
import { setUpPages } from "./page-setup.js";
import { rectangles } from "./rectangles.js";

export const POINTS_PER_PIXEL = 72 / 96;

/** Of a row; Excel takes no more. */
const MOST_POINTS = 409;

const ALIGNMENTS = { left: "Left", centre: "Center", right: "Right" } as const;

/** Round each cell of a rectangle: its own edges, and the lines between its cells. */
const EDGES = {
  thin: ["EdgeTop", "EdgeBottom", "EdgeLeft", "EdgeRight", "InsideHorizontal", "InsideVertical"],
  top: ["EdgeTop", "InsideHorizontal"],
  bottom: ["EdgeBottom", "InsideHorizontal"],
} as const;

export function styleCells(sheet: Excel.Worksheet, cells: readonly PlanCell[]): void {
  for (const name of new Set(cells.map(({ style }) => style))) {
    const alike = cells.filter(({ style }) => style === name).map(({ at }) => cellPlace(at));
    for (const range of rectangles(alike))
      applyStyle(sheet.getRange(range).format, cellStyles[name], range);
  }
}

function applyStyle(format: Excel.RangeFormat, style: CellStyle, range: string): void {
  format.verticalAlignment = "Center";
  if (style.bold) format.font.bold = true;
  if (style.italic) format.font.italic = true;
  if (style.fontSize !== undefined) format.font.size = style.fontSize;
  if (style.colour !== undefined) format.font.color = style.colour;
  if (style.fill !== undefined) format.fill.color = style.fill;
  if (style.align) format.horizontalAlignment = ALIGNMENTS[style.align];
  if (style.wrap) format.wrapText = true;
  const { top, bottom, left, right } = rangePlace(range);
  for (const edge of style.border ? EDGES[style.border] : []) {
    // Excel refuses lines between cells where there are none.
    if (edge === "InsideHorizontal" && top === bottom) continue;
    if (edge === "InsideVertical" && left === right) continue;
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
    sheet.getRange(`${row + 1}:${row + 1}`).format.rowHeight = Math.min(
      pixels * POINTS_PER_PIXEL,
      MOST_POINTS,
    );
  if (frozenRows > 0 && frozenColumns > 0) {
    const [bottom, right] = [frozenRows - 1, frozenColumns - 1];
    const frozen = rangeAddress({ top: 0, left: 0, bottom, right });
    sheet.freezePanes.freezeAt(frozen);
  } else if (frozenRows > 0) sheet.freezePanes.freezeRows(frozenRows);
  mergeCells(sheet, merges);
  setUpPages(sheet, plan);
}
