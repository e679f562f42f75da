/**
 * How tall rows must be for wrapped text and large type. Spreadsheets measure that themselves at best for single cells, never for
 * merged ones, so it is reckoned here from the widths: a little generous, since no font is the same everywhere.
 */
import { cellAddress, cellPlace, rangePlace } from "./addresses.js";
import { cellStyles } from "./cell-styles.js";
import type { PlanCell, SheetPlan, StyleName } from "./sheet-plan.js";

/** In pixels at 100 %. */
const USUAL_COLUMN_WIDTH = 88;
const USUAL_FONT_POINTS = 11;
const PIXELS_PER_POINT = 4 / 3;
/** Mean width of a character over its font size, and the space that a line takes. */
const CHARACTER_WIDTH = 0.47;
const BOLD_CHARACTER_WIDTH = 0.62;
const LINE_HEIGHT = 1.25;
const PADDING = 8;

/** What spreadsheets give a row of the usual font; Excel's is lower, but grows by itself. */
const USUAL_ROW_HEIGHT = 24;

/** By row, counted from 0; rows that the usual height is enough for are left out. */
export function rowHeights(sheet: SheetPlan): ReadonlyMap<number, number> {
  const heights = new Map<number, number>();
  const merged = mergedWidths(sheet);
  for (const { at, value, shows, style } of sheet.cells) {
    const { row, column } = cellPlace(at);
    const width = merged.get(at) ?? sheet.columnWidths[column] ?? USUAL_COLUMN_WIDTH;
    const height = neededHeight(value ?? shows, width, style);
    if (height > (heights.get(row) ?? 0)) heights.set(row, height);
  }
  return heights;
}

/** Height of a row with such a cell, in pixels. @param width Width of all columns that the cell lies over. */
export function heightOf(text: string, width: number, style: StyleName): number {
  return neededHeight(text, width, style) || USUAL_ROW_HEIGHT;
}

/** 0 for a cell that the usual height is enough for. */
function neededHeight(text: PlanCell["value"], width: number, style: StyleName): number {
  const { wrap, bold, fontSize = USUAL_FONT_POINTS } = cellStyles[style];
  const fontPixels = fontSize * PIXELS_PER_POINT;
  const character = fontPixels * (bold ? BOLD_CHARACTER_WIDTH : CHARACTER_WIDTH);
  const perLine = Math.max(1, Math.floor((width - PADDING) / character));
  const lines =
    wrap && typeof text === "string"
      ? text.split("\n").reduce((sum, paragraph) => sum + lineCount(paragraph, perLine), 0)
      : 1;
  const height = Math.ceil(lines * fontPixels * LINE_HEIGHT + PADDING);
  return lines > 1 || height > 1.2 * USUAL_ROW_HEIGHT ? height : 0;
}

/** Widths of merged cells, in pixels: all columns of the merge, by the address of its first cell. */
function mergedWidths({ columnWidths, merges }: SheetPlan): ReadonlyMap<string, number> {
  return new Map(
    merges.map((range) => {
      const { top, left, right } = rangePlace(range);
      let width = 0;
      for (let column = left; column <= right; column += 1)
        width += columnWidths[column] ?? USUAL_COLUMN_WIDTH;
      return [cellAddress({ row: top, column: left }), width] as const;
    }),
  );
}

/** Broken at spaces; a word longer than a line is broken inside. */
function lineCount(paragraph: string, perLine: number): number {
  let lines = 1;
  let used = 0;
  for (const word of paragraph.split(" ")) {
    const wanted = used === 0 ? word.length : used + 1 + word.length;
    if (wanted <= perLine) {
      used = wanted;
      continue;
    }
    if (used > 0) lines += 1;
    lines += Math.ceil(word.length / perLine) - 1;
    used = word.length % perLine || Math.min(word.length, perLine);
  }
  return lines;
}
