/** What is typed into a cell, read before the spreadsheet takes it for a date, a time or a number. */
import type { CellRange, CellWrite, HostName, HostValue } from "./host.js";

export interface TypedEntry {
  readonly sheet: string;
  /** From 0. */
  readonly row: number;
  readonly column: number;
  readonly text: string;
  /** In which the cell shows its numbers, en-US; "" where it has none of its own. */
  readonly format: string;
}

export type EntryAnswer =
  /** A text stays a text, whatever it looks like. */
  | { readonly content: CellWrite }
  /** Why it cannot stand in the cell. */
  | { readonly refused: string };

/** The sheets as they are at this moment. */
export interface SheetsNow {
  names(): readonly HostName[];
  values(range: CellRange): readonly (readonly HostValue[])[];
}

/** @returns undefined for an entry that the spreadsheet reads itself. */
export type EntryReader = (entry: TypedEntry, now: SheetsNow) => EntryAnswer | undefined;
