/** What a report says, before it is set on paper: the page for browsers and the sheet for a spreadsheet show the same. */
import type { Picture } from "../../pictures/parts/picture.js";

export interface Report {
  readonly title: string;
  /** What stands at the foot of every page: which document this is. */
  readonly foot: string;
  readonly fingerprint: string;
  readonly sections: readonly ReportSection[];
}

export interface ReportSection {
  /** The cover is a page of its own; a section that lies across a page has wide tables. */
  readonly kind: "cover" | "upright" | "across";
  readonly blocks: readonly ReportBlock[];
}

export type ReportBlock =
  | { readonly kind: "title" | "heading" | "subheading" | "paragraph"; readonly text: string }
  | { readonly kind: "list"; readonly items: readonly string[] }
  | ({ readonly kind: "table" } & ReportTable)
  | {
      readonly kind: "picture";
      readonly id: string;
      readonly picture: Picture;
      /** Its heading; the single-line diagram stands below that of its section. */
      readonly title?: string;
      readonly caption?: string;
    };

export interface ReportTable {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly ReportCell[])[];
  /** So many columns stand at the left of every part where a table is too wide; one where it is left out. */
  readonly keys?: number;
  /** The first column names the row, as on a cover; signatures are given room to sign. */
  readonly look?: "facts" | "signatures";
  /** Texts of the column of notes, each once: below the table, by their numbers. */
  readonly notes?: readonly string[];
}

export interface ReportCell {
  readonly text: string;
  readonly isNumber: boolean;
  /** What `text` shows, where it shows that and no more. */
  readonly figure?: { readonly value: number; readonly format: string };
}

export function words(content: string): ReportCell {
  return { text: content, isNumber: false };
}

/** A number with its unit, or what is more than one figure. */
export function numberText(content: string): ReportCell {
  return { text: content, isNumber: true };
}

export function heading(text: string): ReportBlock {
  return { kind: "heading", text };
}

export function paragraph(text: string): ReportBlock {
  return { kind: "paragraph", text };
}

export function list(items: readonly string[]): readonly ReportBlock[] {
  return items.length === 0 ? [] : [{ kind: "list", items }];
}

export function table(content: ReportTable): ReportBlock {
  return { kind: "table", ...content };
}

/** The table without the columns in which no row has anything. */
export function withoutEmptyColumns(content: ReportTable): ReportTable {
  const { head, rows } = content;
  const kept = head.flatMap((_, column) =>
    rows.some((row) => (row[column]?.text ?? "") !== "") ? [column] : [],
  );
  return {
    ...content,
    head: kept.map((column) => head[column]!),
    rows: rows.map((row) => kept.map((column) => row[column]!)),
  };
}

const NOTE = "Note";

/** A table whose notes stand below it, each once and with a number: many rows have the same. */
export function notedTable(content: ReportTable): ReportBlock {
  const at = content.head.indexOf(NOTE);
  const notes = [...new Set(content.rows.map((row) => row[at]?.text ?? ""))].filter(Boolean);
  if (notes.length === 0) return table(withoutEmptyColumns(content));
  const numbered = content.rows.map((row) =>
    row.map((cell, column) =>
      column === at && cell.text !== "" ? numberText(String(notes.indexOf(cell.text) + 1)) : cell,
    ),
  );
  return table({ ...withoutEmptyColumns({ ...content, rows: numbered }), notes });
}
