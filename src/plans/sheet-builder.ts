/** Small pieces that plans are put together from. */
import { rangeAddress, cellAddress } from "./addresses.js";
import type { CitationId } from "../quantities/citations.js";
import type { PlanCell, StyleName } from "./sheet-plan.js";

/** A call of a cell function by its id; the host fills in the namespace. Arguments are parts of a formula. */
export function call(id: string, ...args: readonly string[]): string {
  return `{FEED}.${id}(${args.join(",")})`;
}

/** Text as it stands in a formula. */
export function quoted(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}

/** `if` first, second and so on hold, their values; otherwise the last. */
export function firstOf(
  cases: readonly (readonly [condition: string, value: string])[],
  otherwise: string,
): string {
  return cases.reduceRight(
    (rest, [condition, value]) => `IF(${condition},${value},${rest})`,
    otherwise,
  );
}

/** A cell of a sheet by numbers: column from 0, row as a spreadsheet counts it, from 1. */
export function at(column: number, row: number): string {
  return cellAddress({ row: row - 1, column });
}

/** `$B$4`: stays when the formula is copied. */
export function fixedAt(column: number, row: number): string {
  return at(column, row).replace(/([A-Z]+)(\d+)/, "$$$1$$$2");
}

export function range(left: number, top: number, right: number, bottom: number): string {
  return rangeAddress({ left, top: top - 1, right, bottom: bottom - 1 });
}

export function fixedRange(left: number, top: number, right: number, bottom: number): string {
  return `${fixedAt(left, top)}:${fixedAt(right, bottom)}`;
}

interface Look {
  readonly format?: string;
  readonly note?: string;
  readonly citation?: CitationId;
}

export function valueCell(
  column: number,
  row: number,
  value: string | number | boolean,
  style: StyleName,
  look: Look = {},
): PlanCell {
  return { at: at(column, row), value, style, ...look };
}

export function formulaCell(
  column: number,
  row: number,
  formula: string,
  style: StyleName,
  look: Look = {},
): PlanCell {
  return { at: at(column, row), formula, style, ...look };
}

/** A cell that only looks like the others of its table, or waits for a spill. */
export function bareCell(column: number, row: number, style: StyleName, look: Look = {}): PlanCell {
  return { at: at(column, row), style, ...look };
}

/** One cell after the other from a column on; with `meanings` a note on each. */
export function headingRow<Heading extends string>(
  column: number,
  row: number,
  headings: readonly Heading[],
  meanings?: Readonly<Record<Heading, string>>,
): PlanCell[] {
  return headings.map((heading, index) =>
    valueCell(
      column + index,
      row,
      heading,
      "tableHeading",
      meanings && { note: meanings[heading] },
    ),
  );
}

const PIXELS_PER_CHARACTER = 7.2;
const PIXELS_BESIDE = 18;

/** Wide enough for the longest of the texts in a table's own letters. */
export function widthFor(least: number, texts: readonly string[]): number {
  const longest = Math.max(0, ...texts.map((text) => text.length));
  return Math.max(least, Math.ceil(longest * PIXELS_PER_CHARACTER) + PIXELS_BESIDE);
}
