/** Where the Bands sheet holds what. */
import { fixedArea, fixedAt } from "../plans/sheet-builder.js";
import { SPARE_ITEMS } from "./budget-layout.js";

/** What the feed is held against, label beside value; CHAIN_BANDS reads framework and place. */
export const BANDS_ASKED_ROWS = {
  heading: 5,
  framework: 6,
  place: 7,
  band: 8,
  bandAbove: 9,
} as const;

export const BANDS_HEAD = 12;

/** As CHAIN_BANDS spills them. */
export const bandsColumns = [
  { heading: "Item" },
  { heading: "In service V", format: "0.0" },
  { heading: "After one fault V", format: "0.0" },
  { heading: "Band in service" },
  { heading: "Band after one fault" },
  { heading: "Limit V", format: "0" },
  { heading: "Margin in service", format: "0.0%" },
  { heading: "Margin after one fault", format: "0.0%" },
  { heading: "Which fault" },
  { heading: "Isolation to the supply" },
  { heading: "Note" },
] as const satisfies readonly {
  readonly heading: string;
  readonly format?: string;
}[];

export type BandsHeading = (typeof bandsColumns)[number]["heading"];

export function bandsColumnAt(heading: BandsHeading): number {
  return bandsColumns.findIndex((column) => column.heading === heading);
}

export function bandsAskedAt(line: keyof typeof BANDS_ASKED_ROWS): string {
  return fixedAt(1, BANDS_ASKED_ROWS[line]);
}

export function lastBandsRow(items: number): number {
  return BANDS_HEAD + items + SPARE_ITEMS;
}

/** The spill with its headings and the room for more items. */
export function bandsArea(items: number): string {
  const last = lastBandsRow(items);
  return fixedArea(0, BANDS_HEAD, bandsColumns.length - 1, last);
}

/** One column of the spill without its heading, from another sheet. */
export function bandsColumnArea(items: number, heading: BandsHeading): string {
  const column = bandsColumnAt(heading);
  return `{bands}!${fixedArea(column, BANDS_HEAD + 1, column, lastBandsRow(items))}`;
}
