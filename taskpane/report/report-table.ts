/**
 * Tables for paper: no number is broken over two lines, and what is too wide for a page stands below itself in parts,
 * each with the first column.
 */
import { text } from "../../functions/documents/markup.js";

export interface ReportCell {
  readonly text: string;
  readonly isNumber: boolean;
}

/** Characters of a table's letters across the narrower of A4 and Letter, without margins. */
export const PORTRAIT = 112;
export const LANDSCAPE = 158;

/** Of a cell's borders and its room inside. */
const BESIDE = 3;
/** Words of a cell wrap from here on. */
const WRAPS_AT = 26;
/** Long sentences get more. */
const LONG = 80;
const LONG_WRAPS_AT = 44;

export interface ReportTable {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly ReportCell[])[];
  /** Characters across the page. */
  readonly room?: number;
}

export function words(content: string): ReportCell {
  return { text: content, isNumber: false };
}

export function reportTable({ caption, head, rows, room = PORTRAIT }: ReportTable): string {
  const columns = Math.max(head.length, ...rows.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, column) =>
    columnWidth(
      head[column] ?? "",
      rows.map((row) => row[column] ?? words("")),
    ),
  );
  const parts = columnParts(widths, room);
  return parts
    .map((part, index) => {
      const of = parts.length === 1 ? "" : `, part ${index + 1} of ${parts.length}`;
      return tablePart(`${caption}${of}`, part, head, rows);
    })
    .join("\n");
}

function tablePart(
  caption: string,
  columns: readonly number[],
  head: readonly string[],
  rows: ReportTable["rows"],
): string {
  const headRow =
    head.length === 0
      ? ""
      : `<thead><tr>${columns.map((column) => `<th scope="col">${phrase(head[column] ?? "")}</th>`).join("")}</tr></thead>`;
  const body = rows.map(
    (row) => `<tr>${columns.map((column) => cellMarkup(row[column] ?? words(""))).join("")}</tr>`,
  );
  const title = caption === "" ? "" : `<caption>${text(caption)}</caption>`;
  return `<table>${title}${headRow}<tbody>\n${body.join("\n")}\n</tbody></table>`;
}

function cellMarkup({ text: content, isNumber }: ReportCell): string {
  return isNumber ? `<td class="number">${text(content)}</td>` : `<td>${phrase(content)}</td>`;
}

const BEFORE_UNIT = /(\d) (?=(?:%|°C|Ω|[kmµ]?[VAWFHJ]|[mk]?m²?|mm²|s|kg|K)(?![\p{L}\d]))/gu;

/** Words that may wrap, figures with their units; a formula may wrap behind its commas. */
export function phrase(content: string): string {
  return text(content.replaceAll(BEFORE_UNIT, "$1\u00a0")).replaceAll(/,(?=\S)/g, ",<wbr>");
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

/** Columns of each part, the first one in all of them. */
export function columnParts(widths: readonly number[], room: number): number[][] {
  const [first = 0, ...others] = widths;
  const parts: number[][] = [[0]];
  let used = first + BESIDE;
  others.forEach((width, index) => {
    if (used + width + BESIDE > room && parts.at(-1)!.length > 1) {
      parts.push([0]);
      used = first + BESIDE;
    }
    parts.at(-1)!.push(index + 1);
    used += width + BESIDE;
  });
  return parts;
}
