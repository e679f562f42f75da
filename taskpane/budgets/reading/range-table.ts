/** A table in cells, read by the text of its headings, so that columns may move and more may stand between them. */
import type { Cell, CellTable } from "../../../functions/downfeed.js";
import { rangePlace, cellAddress } from "../../../src/plans/addresses.js";
import type { CellPlace, ReadRange, ReadValue } from "./found-budget.js";

/** As a function is given the range: an empty cell is a blank. */
export function calledTable({ values }: ReadRange): CellTable {
  return values.map((row) => row.map((value) => (value === "" ? null : (value as Cell))));
}

export interface RangeRow {
  /** The text of the first column. */
  readonly item: string;
  readonly has: (heading: string) => boolean;
  /** "" where the table has no such column. */
  readonly value: (heading: string) => ReadValue;
  /** The cell of that column, or the row's first cell. */
  readonly at: (heading: string) => CellPlace;
}

/** Rows without a text in their first column are room for more. */
export function rangeRows(range: ReadRange): readonly RangeRow[] {
  const [headings = [], ...rows] = range.values;
  const columns = new Map<string, number>();
  headings.forEach((heading, column) => {
    const text = plainHeading(heading);
    if (text !== "" && !columns.has(text)) columns.set(text, column);
  });
  return rows.flatMap((values, index) => {
    const item = textOf(values[0]);
    if (item === "") return [];
    const columnOf = (heading: string) => columns.get(plainHeading(heading));
    return [
      {
        item,
        has: (heading: string) => columnOf(heading) !== undefined,
        value: (heading: string) => values[columnOf(heading) ?? -1] ?? "",
        at: (heading: string) => cellAt(range, index + 1, columnOf(heading) ?? 0),
      },
    ];
  });
}

export function cellAt({ sheet, address }: ReadRange, row: number, column: number): CellPlace {
  const { top, left } = rangePlace(address);
  const place = { row: top + row, column: left + column };
  return { sheet, address: cellAddress(place) };
}

export function textOf(value: ReadValue | undefined): string {
  if (value === undefined || typeof value === "object") return "";
  return String(value).trim();
}

export function numberOf(value: ReadValue): number | undefined {
  return typeof value === "number" ? value : undefined;
}

export function errorOf(value: ReadValue | undefined): string | undefined {
  return typeof value === "object" ? value.error : undefined;
}

/** A heading without a unit in brackets at the end, extra spaces or capitals. */
function plainHeading(heading: ReadValue): string {
  return textOf(heading)
    .replace(/\s*(\([^()]*\)|\[[^[\]]*\])$/, "")
    .replace(/\s+/g, " ")
    .toLowerCase();
}

/** Items are compared as the feed table compares them. */
export function sameItem(one: string, other: string): boolean {
  return one.trim().toLowerCase() === other.trim().toLowerCase();
}
