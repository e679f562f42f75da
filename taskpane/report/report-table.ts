/**
 * Tables for paper: no number is broken over two lines, and what is too wide for a page stands below itself in parts,
 * each with the first column.
 */
import { text } from "../../functions/documents/markup.js";

/** A table with no more lines stands on one page. */
const SHORT = 26;

/** A caption with no more characters stands in one line, however narrow its table. */
const ONE_LINE = 95;

export interface ReportCell {
  readonly text: string;
  readonly isNumber: boolean;
}

/** Characters of a table's letters across the narrower of A4 and Letter, without margins. */
export const PORTRAIT = 110;
export const LANDSCAPE = 150;

/** Of a cell's borders and its room inside. */
const BESIDE = 2;
/** Words of a cell wrap from here on. */
const WRAPS_AT = 12;
/** Long sentences get more. */
const LONG = 60;
const LONG_WRAPS_AT = 22;

export interface ReportTable {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly ReportCell[])[];
  /** Characters across the page. */
  readonly room?: number;
  /** So many columns stand at the left of every part; one where it is left out. */
  readonly keys?: number;
}

export function words(content: string): ReportCell {
  return { text: content, isNumber: false };
}

/** Without the columns in which no row has anything. */
export function withoutEmptyColumns(table: ReportTable): ReportTable {
  const { head, rows } = table;
  const kept = head.flatMap((_, column) =>
    rows.some((row) => (row[column]?.text ?? "") !== "") ? [column] : [],
  );
  return {
    ...table,
    head: kept.map((column) => head[column]!),
    rows: rows.map((row) => kept.map((column) => row[column]!)),
  };
}

export function reportTable({
  caption,
  head,
  rows,
  room = PORTRAIT,
  keys = 1,
}: ReportTable): string {
  const columns = Math.max(head.length, ...rows.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, column) =>
    columnWidth(
      head[column] ?? "",
      rows.map((row) => row[column] ?? words("")),
    ),
  );
  const parts = columnParts(widths, room, keys);
  return parts
    .map((part, index) => {
      const of = parts.length === 1 ? "" : `, part ${index + 1} of ${parts.length}`;
      const isShort = linesOf(part, widths, room, rows) <= SHORT;
      return tablePart(`${caption}${of}`, part, head, rows, isShort);
    })
    .join("\n");
}

/** About: columns that wrap get what the others leave of the page, by what they lack. */
function linesOf(
  columns: readonly number[],
  widths: readonly number[],
  room: number,
  rows: ReportTable["rows"],
): number {
  const lengthOf = (row: readonly ReportCell[], column: number) => row[column]?.text.length ?? 0;
  const lacks = columns.map((column) => {
    const longest = Math.max(...rows.map((row) => lengthOf(row, column)));
    return Math.max(0, longest - widths[column]!);
  });
  const used = columns.reduce((sum, column) => sum + widths[column]! + BESIDE, 0);
  const lacking = lacks.reduce((sum, one) => sum + one, 0);
  const share = lacking === 0 ? 0 : Math.min(1, Math.max(0, room - used) / lacking);
  return rows.reduce((sum, row) => {
    const lines = columns.map((column, index) =>
      Math.ceil(lengthOf(row, column) / Math.max(1, widths[column]! + share * lacks[index]!)),
    );
    return sum + Math.max(1, ...lines);
  }, 0);
}

function tablePart(
  caption: string,
  columns: readonly number[],
  head: readonly string[],
  rows: ReportTable["rows"],
  isShort: boolean,
): string {
  const headRow =
    head.length === 0
      ? ""
      : `<thead><tr>${columns.map((column) => `<th scope="col">${phrase(head[column] ?? "")}</th>`).join("")}</tr></thead>`;
  const body = rows.map(
    (row) => `<tr>${columns.map((column) => cellMarkup(row[column] ?? words(""))).join("")}</tr>`,
  );
  const kindOfTitle = caption.length > ONE_LINE ? "" : ` class="line"`;
  const title = caption === "" ? "" : `<caption${kindOfTitle}>${text(caption)}</caption>`;
  const kind = isShort ? ` class="short"` : "";
  return `<table${kind}>${title}${headRow}<tbody>\n${body.join("\n")}\n</tbody></table>`;
}

function cellMarkup({ text: content, isNumber }: ReportCell): string {
  return isNumber ? `<td class="number">${text(content)}</td>` : `<td>${phrase(content)}</td>`;
}

const ISO_DATE = /\b\d{4}-\d\d-\d\d\b/g;
const BEFORE_UNIT = /(\d) (?=(?:%|°C|Ω|[kmµ]?[VAWFHJ]|[mk]?m²?|mm²|s|kg|K)(?![\p{L}\d]))/gu;

/** Words that may wrap, figures with their units; a formula may wrap behind its commas. */
export function phrase(content: string): string {
  return text(content.replaceAll(BEFORE_UNIT, "$1\u00a0"))
    .replaceAll(/,(?=\S)/g, ",<wbr>")
    .replaceAll(ISO_DATE, `<span class="whole">$&</span>`);
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

const NOTE = "Note";

/** A table whose notes stand below it, each once and with a number: many rows have the same. */
export function notedTable(table: ReportTable): string {
  const at = table.head.indexOf(NOTE);
  const notes = [...new Set(table.rows.map((row) => row[at]?.text ?? ""))].filter(Boolean);
  if (notes.length === 0) return reportTable(withoutEmptyColumns(table));
  const numbered = table.rows.map((row) =>
    row.map((cell, column) =>
      column === at && cell.text !== ""
        ? { text: String(notes.indexOf(cell.text) + 1), isNumber: true }
        : cell,
    ),
  );
  const lines = notes.map((note, index) => `<li value="${index + 1}">${phrase(note)}</li>`);
  return [
    reportTable(withoutEmptyColumns({ ...table, rows: numbered })),
    `<ol class="notes" aria-label="Notes of ${text(table.caption)}">${lines.join("")}</ol>`,
  ].join("\n");
}
