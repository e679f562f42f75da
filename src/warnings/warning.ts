import type { Cited } from "../quantities/steps.js";

/** One thing on a budget's sheets that its reader should look at. */
export interface Warning {
  /** Stays the same from one reading to the next, so that a view can keep its place. */
  readonly id: string;
  /** `danger`: can hurt someone or does not work; `warning`: outside what was asked for; `note`: worth a look. */
  readonly severity: "danger" | "warning" | "note";
  /** The row it is about, as named in the feed table; "" for the budget as a whole. */
  readonly item: string;
  /** A sentence: what is found and what it is held against. */
  readonly text: string;
  /** The number found and its limit, where there are two numbers. */
  readonly value?: number;
  readonly limit?: number;
  readonly unit: string;
  /** What can be tried against it, where there is something. */
  readonly remedy?: string;
  readonly cite: Cited;
  /** The cell that shows it. */
  readonly at: { readonly sheet: string; readonly address: string };
}

/** What a sheet holds, as a host reads it: an error by its code, an empty cell as "". */
export type ReadValue = string | number | boolean | { readonly error: string };

export interface ReadArea {
  readonly sheet: string;
  /** A1 of the area, `B2:M30`. */
  readonly address: string;
  readonly values: readonly (readonly ReadValue[])[];
}

/**
 * A budget found in a workbook by its names: stem `Ridge`, and each area by the part of its name behind the stem
 * (`Feed`, `Solved`, `Bands`, `Checks`, `Closing`, `Limits`, `Accepted`, `About`). A missing one is a warning, not a crash.
 */
export interface FoundBudget {
  readonly stem: string;
  readonly areas: Readonly<Partial<Record<string, ReadArea>>>;
}
