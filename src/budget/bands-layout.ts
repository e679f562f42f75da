/** Where the Bands sheet holds what. */
import { fixedArea } from "../plans/sheet-builder.js";

export const BANDS_HEAD = 5;

export const bandsColumns = [
  { key: "item", heading: "Item" },
  { key: "check", heading: "Check" },
  { key: "inService", heading: "In service (V)", format: "0.0" },
  { key: "afterFault", heading: "After one fault (V)", format: "0.0" },
  { key: "limit", heading: "Limit (V)", format: "0" },
  { key: "margin", heading: "Margin in service (V)", format: "0.0" },
  { key: "marginAfterFault", heading: "Margin after fault (V)", format: "0.0" },
  { key: "isolation", heading: "Isolation to the supply" },
  { key: "band", heading: "Band in service" },
  { key: "bandAfterFault", heading: "Band after one fault" },
  { key: "fedByRow", heading: "Fed by row", format: "0" },
] as const satisfies readonly {
  readonly key: string;
  readonly heading: string;
  readonly format?: string;
}[];

export type BandsColumn = (typeof bandsColumns)[number]["key"];

export function bandsColumnAt(key: BandsColumn): number {
  return bandsColumns.findIndex((column) => column.key === key);
}

/** With the headings. */
export function bandsArea(items: number): string {
  return fixedArea(0, BANDS_HEAD, bandsColumns.length - 1, BANDS_HEAD + items);
}

/** The words of each row, from another sheet. */
export function bandsCheckArea(items: number): string {
  const column = bandsColumnAt("check");
  return `{bands}!${fixedArea(column, BANDS_HEAD + 1, column, BANDS_HEAD + items)}`;
}
