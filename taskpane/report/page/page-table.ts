/**
 * Tables for paper: no number is broken over two lines, and what is too wide for a page stands below itself in parts,
 * each with the first column.
 */
import { text } from "../../../functions/documents/markup.js";
import { type ReportCell, type ReportTable, words } from "../content/blocks.js";
import { BESIDE, columnParts, columnsOf, columnWidths, partCaption } from "../content/table-fit.js";

/** A table with no more lines stands on one page. */
const SHORT = 26;

/** A caption with no more characters stands in one line, however narrow its table. */
const ONE_LINE = 95;

/** Characters of a table's letters across the narrower of A4 and Letter, without margins. */
export const PORTRAIT = 110;
export const LANDSCAPE = 150;

/** @param room Characters across the page. */
export function tableMarkup(table: ReportTable, room: number): string {
  const { caption, notes = [] } = table;
  if (table.look !== undefined) return tablePart(table, caption, columnsOf(table), false);
  const widths = columnWidths(table);
  const parts = columnParts(widths, room, table.keys ?? 1);
  const lines = notes.map((note, index) => `<li value="${index + 1}">${phrase(note)}</li>`);
  return [
    ...parts.map((part, index) => {
      const isShort = linesOf(part, widths, room, table.rows) <= SHORT;
      return tablePart(table, partCaption(caption, index, parts.length), part, isShort);
    }),
    ...(lines.length === 0
      ? []
      : [`<ol class="notes" aria-label="Notes of ${text(caption)}">${lines.join("")}</ol>`]),
  ].join("\n");
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

const LOOKS = { facts: "facts", signatures: "facts sign" } as const;

function tablePart(
  { head, rows, look }: ReportTable,
  caption: string,
  columns: readonly number[],
  isShort: boolean,
): string {
  const headRow =
    head.length === 0
      ? ""
      : `<thead><tr>${columns.map((column) => headCell(head[column] ?? "")).join("")}</tr></thead>`;
  const body = rows.map((row) => {
    const cells = columns.map((column) => row[column] ?? words(""));
    const [first = words(""), ...others] = cells;
    if (look === undefined) return `<tr>${cells.map(cellMarkup).join("")}</tr>`;
    const beside = others.map((cell) => `<td>${text(cell.text)}</td>`);
    return `<tr><th scope="row">${text(first.text)}</th>${beside.join("")}</tr>`;
  });
  const kindOfTitle = caption.length > ONE_LINE ? "" : ` class="line"`;
  const title = caption === "" ? "" : `<caption${kindOfTitle}>${text(caption)}</caption>`;
  const kind = look ? LOOKS[look] : isShort ? "short" : "";
  const marked = kind === "" ? "" : ` class="${kind}"`;
  return `<table${marked}>${title}${headRow}<tbody>\n${body.join("\n")}\n</tbody></table>`;
}

function headCell(content: string): string {
  return content === "" ? "<td></td>" : `<th scope="col">${phrase(content)}</th>`;
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
