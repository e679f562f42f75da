/** Rows of a printed sheet, one below the other, with the pages that they come to lie on. */
import { heightOf } from "../../../src/plans/row-heights.js";
import { at, bareCell, range, valueCell } from "../../../src/plans/sheet-builder.js";
import type { PlanCell, PlanPicture, StyleName } from "../../../src/plans/sheet-plan.js";

/** In pixels: a column of names, then columns of figures. Text that needs more lies over several of them. */
export const COLUMN_WIDTHS: readonly number[] = [176, ...Array.from({ length: 11 }, () => 95)];

/**
 * In per cent: so wide, the sheet fits between margins of half an inch on Letter (ANSI A, 279.4 × 215.9 mm) and on A4
 * (ISO 216, 297 × 210 mm), both across.
 */
export const SCALE = 75;

/** In pixels of the sheet at that scale: what A4, the lower of the two, leaves between margins of 18 mm for the foot. */
const PAGE_HEIGHT = 840;

const GAP = 24;
/** What rows without words have in a spreadsheet that is told nothing. */
const ROW_PIXELS = 20;

export interface PlacedCell {
  readonly column: number;
  /** Columns that it lies over. */
  readonly span: number;
  readonly value: string | number;
  /** What a number shows, for the height of its row. */
  readonly shows: string;
  readonly style: StyleName;
  readonly format?: string;
}

export class SheetPages {
  /** What must follow a heading on its page, in pixels. */
  static readonly FEW_ROWS = 110;
  static readonly PICTURE = 420;

  readonly cells: PlanCell[] = [];
  readonly merges: string[] = [];
  readonly pictures: PlanPicture[] = [];
  /** Rows that begin a page, counted from 0. */
  readonly breaks: number[] = [];
  /** The next row, counted from 1 as a spreadsheet does. */
  private next = 1;
  private used = 0;

  /** Nothing more on this page. */
  endPage(): void {
    if (this.used === 0) return;
    this.breaks.push(this.next - 1);
    this.used = 0;
  }

  /** Whether rows of so many pixels still fit; a page that is empty takes anything. */
  hasRoom(pixels: number): boolean {
    return this.used === 0 || this.used + pixels <= PAGE_HEIGHT;
  }

  /** An empty row, but not at the head of a page. */
  gap(): void {
    if (this.used === 0 || !this.hasRoom(GAP)) return;
    this.next += 1;
    this.used += GAP;
  }

  /** A text over the whole width. @param behind What must stand on the same page, in pixels. */
  line(text: string, style: StyleName, behind = 0): void {
    if (!this.hasRoom(lineHeight(text, style) + behind)) this.endPage();
    this.row([lineCell(text, style)]);
  }

  /** The caller sees to it that the page has room for it. */
  row(cells: readonly PlacedCell[]): void {
    for (const { column, span, value, style, format } of cells) {
      this.cells.push(valueCell(column, this.next, value, style, format ? { format } : {}));
      if (span === 1) continue;
      const last = column + span - 1;
      this.merges.push(range(column, this.next, last, this.next));
      // A line below a cell that lies over several columns is drawn below each of them.
      for (let covered = column + 1; covered <= last; covered += 1)
        this.cells.push(bareCell(covered, this.next, style));
    }
    this.next += 1;
    this.used += rowHeight(cells);
  }

  picture(picture: Omit<PlanPicture, "at">): void {
    const room = pictureRoom(picture);
    if (!this.hasRoom(room)) this.endPage();
    this.pictures.push({ ...picture, at: at(0, this.next) });
    this.next += room / GAP;
    this.used += room;
  }
}

function lineCell(text: string, style: StyleName): PlacedCell {
  return { column: 0, span: COLUMN_WIDTHS.length, value: text, shows: text, style };
}

export function lineHeight(text: string, style: StyleName): number {
  return rowHeight([lineCell(text, style)]);
}

/** In pixels: whole rows, more than it has itself. */
export function pictureRoom({ size }: Pick<PlanPicture, "size">): number {
  return (Math.ceil(size[1] / ROW_PIXELS) + 1) * GAP;
}

export function rowHeight(cells: readonly PlacedCell[]): number {
  return Math.max(
    GAP,
    ...cells.map(({ column, span, shows, style }) => heightOf(shows, widthOf(column, span), style)),
  );
}

export function widthOf(column: number, span: number): number {
  return COLUMN_WIDTHS.slice(column, column + span).reduce((sum, one) => sum + one, 0);
}
