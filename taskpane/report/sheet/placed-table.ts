/** A table on the printed sheet: what is too wide stands below itself in parts, and its headings stand on every page. */
import type { StyleName } from "../../../src/plans/sheet-plan.js";
import { type ReportCell, type ReportTable, words } from "../content/blocks.js";
import { BESIDE, columnParts, columnWidths, partCaption } from "../content/table-fit.js";
import {
  COLUMN_WIDTHS,
  lineHeight,
  type PlacedCell,
  rowHeight,
  SheetPages,
  widthOf,
} from "./sheet-pages.js";

/** Width of a letter in a cell. */
const PIXELS_PER_CHARACTER = 7.2;
const PIXELS_BESIDE = 10;

/** Room to sign by hand. */
const LINES_TO_SIGN = "\n\n";

interface TablePart {
  readonly caption: string;
  readonly headings: readonly PlacedCell[];
  /** Cells of one of the table's rows. */
  readonly placed: (
    cells: readonly ReportCell[],
    style: (cell: ReportCell, index: number) => StyleName,
  ) => readonly PlacedCell[];
}

export function placeTable(pages: SheetPages, table: ReportTable): void {
  for (const part of partsOf(table)) placePart(pages, table, part);
  table.notes?.forEach((note, index) => pages.line(`${index + 1}. ${note}`, "remark"));
  pages.gap();
}

/** In pixels: what a table begins with, so that no heading above it is left behind on the page before. */
export function roomToBegin(table: ReportTable): number {
  const [first] = partsOf(table);
  return first ? captionHeight(first) + roomBelowCaption(first) : 0;
}

function captionHeight({ caption }: TablePart): number {
  return caption === "" ? 0 : lineHeight(caption, "caption");
}

function roomBelowCaption({ headings }: TablePart): number {
  return (headings.length === 0 ? 0 : rowHeight(headings)) + SheetPages.FEW_ROWS;
}

function partsOf(table: ReportTable): readonly TablePart[] {
  const needed = columnWidths(table).map(spanOf);
  const parts = tableParts(needed, table.keys ?? 1);
  return parts.map((columns, index) => {
    const placed = placedIn(columns, spans(table, columns, needed));
    const { head } = table;
    return {
      caption: partCaption(table.caption, index, parts.length),
      headings: head.length === 0 ? [] : placed(head.map(words), () => "tableHeading"),
      placed,
    };
  });
}

/** Columns of the sheet that so many characters need; any column may be the first. */
function spanOf(characters: number, column: number): number {
  const pixels = (characters + BESIDE) * PIXELS_PER_CHARACTER;
  const least = column === 0 ? 0 : 1;
  let span = 1;
  while (widthOf(least, span) < pixels && least + span < COLUMN_WIDTHS.length) span += 1;
  return span;
}

function tableParts(needed: readonly number[], keys: number): readonly (readonly number[])[] {
  // One unit of `columnParts` is a column of the sheet.
  const widths = needed.map((span) => span - BESIDE);
  return columnParts(widths, COLUMN_WIDTHS.length, keys);
}

/** What the part leaves of the width goes to the columns whose longest text lacks most. */
function spans(
  { head, rows }: ReportTable,
  columns: readonly number[],
  needed: readonly number[],
): readonly number[] {
  const given = columns.map((column) => needed[column]!);
  const longest = columns.map((column) =>
    Math.max(
      (head[column] ?? "").length,
      ...rows.map((row) => (row[column] ?? words("")).text.length),
    ),
  );
  const sum = () => given.reduce((total, one) => total + one, 0);
  while (sum() < COLUMN_WIDTHS.length) {
    const lines = given.map((span, index) => {
      const first = given.slice(0, index).reduce((total, one) => total + one, 0);
      const room = widthOf(first, span) - PIXELS_BESIDE;
      return (longest[index]! * PIXELS_PER_CHARACTER) / room;
    });
    const most = Math.max(...lines);
    if (most <= 1) break;
    given[lines.indexOf(most)]! += 1;
  }
  return given;
}

function placedIn(columns: readonly number[], given: readonly number[]): TablePart["placed"] {
  return (cells, style) => {
    let column = 0;
    return columns.map((own, index) => {
      const cell = cells[own] ?? words("");
      const span = given[index]!;
      const first = column;
      column += span;
      const { text, figure } = cell;
      return {
        column: first,
        span,
        value: figure?.value ?? text,
        shows: text,
        style: style(cell, index),
        ...(figure && { format: figure.format }),
      };
    });
  };
}

function placePart(pages: SheetPages, { rows, look }: ReportTable, part: TablePart): void {
  const { caption, headings, placed } = part;
  const begin = (text: string) => {
    if (text !== "") pages.line(text, "caption", roomBelowCaption(part));
    if (headings.length > 0) pages.row(headings);
  };
  begin(caption);
  for (const row of rows) {
    const cells = placed(signed(row, look), ({ isNumber }, index) => {
      if (look !== undefined && index === 0) return "caption";
      return isNumber ? "lineFigure" : "lineText";
    });
    if (!pages.hasRoom(rowHeight(cells))) {
      pages.endPage();
      begin(caption === "" ? "" : `${caption}, continued`);
    }
    pages.row(cells);
  }
}

function signed(row: readonly ReportCell[], look: ReportTable["look"]): readonly ReportCell[] {
  if (look !== "signatures") return row;
  return row.map((cell, index) => (index === 0 ? words(`${cell.text}${LINES_TO_SIGN}`) : cell));
}
