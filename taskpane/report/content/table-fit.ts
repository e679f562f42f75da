/** How wide the columns of a table must be, in characters, and what of it stands side by side. */
import { type ReportCell, type ReportTable, words } from "./blocks.js";

/** Characters that a cell's borders and its padding take. */
export const BESIDE = 2;
/** Words of a cell wrap from here on. */
const WRAPS_AT = 12;
/** Long sentences get more. */
const LONG = 60;
const LONG_WRAPS_AT = 22;

export function columnsOf({ head, rows }: ReportTable): readonly number[] {
  const count = Math.max(head.length, ...rows.map((row) => row.length));
  return Array.from({ length: count }, (_, column) => column);
}

/** In characters: what each column needs so that no number and no word is broken. */
export function columnWidths(table: ReportTable): readonly number[] {
  return columnsOf(table).map((column) =>
    columnWidth(
      table.head[column] ?? "",
      table.rows.map((row) => row[column] ?? words("")),
    ),
  );
}

function columnWidth(heading: string, cells: readonly ReportCell[]): number {
  const texts = cells.filter(({ isNumber }) => !isNumber).map((cell) => cell.text);
  const longest = Math.max(0, ...texts.map(({ length }) => length));
  return Math.max(
    ...[heading, ...texts].map(longestWord),
    ...cells.map(({ text: shown, isNumber }) => (isNumber ? shown.length : 0)),
    Math.min(longest, longest > LONG ? LONG_WRAPS_AT : WRAPS_AT),
  );
}

function longestWord(content: string): number {
  return Math.max(...content.split(/ |,/).map(({ length }) => length));
}

/** Columns of each part, the first `keys` of them in all. */
export function columnParts(widths: readonly number[], room: number, keys: number): number[][] {
  const first = widths.slice(0, keys).map((_, column) => column);
  const start = first.reduce((sum, column) => sum + widths[column]! + BESIDE, 0);
  const parts: number[][] = [[...first]];
  let used = start;
  widths.slice(keys).forEach((width, index) => {
    if (used + width + BESIDE > room && parts.at(-1)!.length > keys) {
      parts.push([...first]);
      used = start;
    }
    parts.at(-1)!.push(keys + index);
    used += width + BESIDE;
  });
  return parts;
}

/** @param index Of the part, from 0. */
export function partCaption(caption: string, index: number, count: number): string {
  return count === 1 ? caption : `${caption}, part ${index + 1} of ${count}`;
}
