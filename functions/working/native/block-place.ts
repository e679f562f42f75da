/** Where a call is laid out, and how its block finds what it rests on. */
import type { CallPart, SheetRange } from "../lines/call-tree.js";
import type { Surroundings } from "./native-writing.js";

export interface BlockPlace extends Surroundings {
  /** Column from 0, row from 1. */
  readonly left: number;
  readonly top: number;
  /** One cell of an inner call's result. */
  readonly resultCell: (call: CallPart, row: number, column: number) => string;
  /** Where a solved number of a spilled result stands already; the block then holds no result of its own. */
  readonly solvedAt?: (line: string) => SheetRange | undefined;
  /** The result, or what of it solved numbers enter, as the values that it had, each held against the line that gives it. */
  readonly resultAsItWas?: "all" | "solved";
  /** The one row of a spilled result, from 0, that is laid out below the headings. */
  readonly only?: number | undefined;
  /** The cell that says `no` once the formulas of the block are no longer those that the inputs call for. */
  readonly holdsAt?: string;
}
