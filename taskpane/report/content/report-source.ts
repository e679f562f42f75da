/** What a report is made from: a budget as it was read, with the number format of every cell. */
import type { CopiedSheet } from "../../../functions/working/copy/copied-sheet.js";
import { rangePlace } from "../../../src/plans/addresses.js";
import { documentRow } from "../../budgets/issues/issues.js";
import type { DocumentLine } from "../../budgets/places.js";
import { errorOf, textOf } from "../../budgets/reading/range-table.js";
import type { FoundBudget, ReadRange, ReadValue } from "../../budgets/reading/found-budget.js";
import { formattedNumber } from "../../words/formatted-number.js";
import { type ReportCell, words } from "./blocks.js";

export interface ReportSource {
  readonly budget: FoundBudget;
  readonly title: string;
  /** Every sheet of the budget, whole. */
  readonly sheets: readonly CopiedSheet[];
}

export function shownCell(value: ReadValue | undefined, format = ""): ReportCell {
  if (typeof value !== "number") return words(errorOf(value) ?? textOf(value));
  return { text: formattedNumber(value, format), isNumber: true, figure: { value, format } };
}

/** A range as its cells show it, with its headings; empty rows are left out. */
export function shownRange(source: ReportSource, range: ReadRange): ReportCell[][] {
  return shownRows(source, range).filter(isFilled);
}

/** A table that stands among others: what is written above it, and its rows with their headings. */
export interface ShownBlock {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly ReportCell[])[];
}

/** The tables of a range, which empty rows part; a line that stands alone is the caption of what follows. */
export function shownBlocks(source: ReportSource, range: ReadRange): readonly ShownBlock[] {
  const blocks: { caption: string; rows: ReportCell[][] }[] = [];
  let caption = "";
  let isOpen = false;
  for (const row of shownRows(source, range)) {
    const filled = row.filter(({ text }) => text !== "");
    if (filled.length === 0) isOpen = false;
    else if (!isOpen && filled.length === 1) caption = filled[0]!.text;
    else if (isOpen) blocks.at(-1)!.rows.push(row);
    else {
      blocks.push({ caption, rows: [row] });
      caption = "";
      isOpen = true;
    }
  }
  return blocks.map(({ caption: above, rows: [head = [], ...rows] }) => ({
    caption: above,
    head: head.map(({ text }) => text),
    rows,
  }));
}

function shownRows({ sheets }: ReportSource, range: ReadRange): ReportCell[][] {
  const { top, left } = rangePlace(range.address);
  const formats = sheets.find(({ name }) => name === range.sheet)?.formats;
  return range.values.map((row, down) =>
    row.map((value, right) => shownCell(value, formats?.[top + down]?.[left + right])),
  );
}

function isFilled(row: readonly ReportCell[]): boolean {
  return row.some(({ text }) => text !== "");
}

/** A line of the document as it stands on Inputs; "" where it is empty. */
export function documentLine({ budget, sheets }: ReportSource, line: DocumentLine): string {
  const document = budget.ranges["Document"];
  const row = document && documentRow(document, line);
  if (document === undefined || row === undefined) return "";
  const { top, left } = rangePlace(document.address);
  const formats = sheets.find(({ name }) => name === document.sheet)?.formats;
  return shownCell(document.values[row]?.[1], formats?.[top + row]?.[left + 1]).text;
}

/** The sheet on which the title is typed. */
export function inputsSheet({
  budget,
  sheets,
}: Pick<ReportSource, "budget" | "sheets">): CopiedSheet | undefined {
  return sheets.find(({ name }) => name === budget.ranges["Title"]?.sheet);
}
