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
import { setUpPages } from "./page-setup.js";
import { mergedRows, rectangles } from "./rectangles.js";

export const POINTS_PER_PIXEL = 72 / 96;

/** Greatest height of a row that Excel takes. */
const MOST_POINTS = 409;

const ALIGNMENTS = { left: "Left", centre: "Center", right: "Right" } as const;

/** Round each cell of a rectangle: its own edges, and the lines between its cells. */
const EDGES = {
  thin: ["EdgeTop", "EdgeBottom", "EdgeLeft", "EdgeRight", "InsideHorizontal", "InsideVertical"],
  top: ["EdgeTop", "InsideHorizontal"],
  bottom: ["EdgeBottom", "InsideHorizontal"],
} as const;

/** What most cells share is given to all of them at once, and what a style has beyond that to its own. */
export function styleCells(sheet: Excel.Worksheet, cells: readonly PlanCell[]): void {
  if (cells.length === 0) return;
  const { format } = part(sheet, around(cells));
  format.verticalAlignment = "Center";
  format.font.color = SHARED_COLOUR;
  for (const name of new Set(cells.map(({ style }) => style))) {
    const style = cellStyles[name];
    if (isShared(style)) continue;
    const alike = cells.filter((cell) => cell.style === name).map(({ at }) => cellPlace(at));
    for (const range of rectangles(alike)) applyStyle(part(sheet, range).format, style, range);
  }
}

const SHARED_COLOUR = cellStyles.label.colour ?? "";

function isShared({ colour, ...rest }: CellStyle): boolean {
  return colour === SHARED_COLOUR && Object.keys(rest).length === 0;
}

/** The range from A1 to the last cell that is written or that a formula spills over. */
function around(cells: readonly PlanCell[]): string {
  const ends = cells.map(({ at, spill: [rows, columns] = [1, 1] }) => {
    const { row, column } = cellPlace(at);
    return { bottom: row + rows - 1, right: column + columns - 1 };
  });
  return rangeAddress({
    top: 0,
    left: 0,
    bottom: Math.max(...ends.map(({ bottom }) => bottom)),
    right: Math.max(...ends.map(({ right }) => right)),
  });
}

function applyStyle(format: Excel.RangeFormat, style: CellStyle, range: string): void {
  const { bold, italic, fontSize, colour, fill, align, wrap, border, borderColour } = style;
  if (bold) format.font.bold = true;
  if (italic) format.font.italic = true;
  if (fontSize !== undefined) format.font.size = fontSize;
  if (colour !== undefined && colour !== SHARED_COLOUR) format.font.color = colour;
  if (fill !== undefined) format.fill.color = fill;
  if (align) format.horizontalAlignment = ALIGNMENTS[align];
  if (wrap) format.wrapText = true;
  const { top, bottom, left, right } = rangePlace(range);
  for (const edge of border ? EDGES[border] : []) {
    // Excel refuses lines between cells where there are none.
    if (edge === "InsideHorizontal" && top === bottom) continue;
    if (edge === "InsideVertical" && left === right) continue;
    const line = format.borders.getItem(edge);
    line.style = "Continuous";
    line.color = borderColour ?? "#000000";
  }
}

export function layOut(sheet: Excel.Worksheet, plan: SheetPlan): void {
  const { columnWidths, frozenRows, frozenColumns = 0, merges } = plan;
  for (const { first, last, size } of alikeInARow([...columnWidths.entries()]))
    part(sheet, `${columnLetters(first)}:${columnLetters(last)}`).format.columnWidth =
      size * POINTS_PER_PIXEL;
  for (const { first, last, size } of alikeInARow([...rowHeights(plan)].sort(([a], [b]) => a - b)))
    part(sheet, `${first + 1}:${last + 1}`).format.rowHeight = Math.min(
      size * POINTS_PER_PIXEL,
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

interface Alike {
  readonly first: number;
  readonly last: number;
  readonly size: number;
}

/** Columns or rows of one size beside one another, in their order. */
function alikeInARow(sizes: readonly (readonly [index: number, size: number])[]): readonly Alike[] {
  const runs: Alike[] = [];
  for (const [index, size] of sizes) {
    const run = runs.at(-1);
    if (run && run.last === index - 1 && run.size === size)
      runs[runs.length - 1] = { ...run, last: index };
    else runs.push({ first: index, last: index, size });
  }
  return runs;
}

/** A range that is used at once and not held on to, which saves a good part of a request. */
export function part(sheet: Excel.Worksheet, address: string): Excel.Range {
  return sheet.getRange(address).untrack();
}

/** Rows below one another that are merged alike are one action. */
function mergeCells(sheet: Excel.Worksheet, merges: readonly string[]): void {
  const places = merges.map(rangePlace);
  for (const place of places.filter(({ top, bottom }) => top !== bottom))
    part(sheet, rangeAddress(place)).merge(false);
  for (const run of mergedRows(places.filter(({ top, bottom }) => top === bottom)))
    part(sheet, rangeAddress(run)).merge(true);
}
