/** What a budget gives to warn of: checks that do not hold, together where they say the same of several items. */
import type { CellPlace } from "../reading/found-budget.js";

/**
 * `danger`: can hurt someone or does not work; `warning`: outside what was asked for; `not determined`: a figure is
 * missing; `note`: worth a look, not counted.
 */
export const SEVERITIES = ["danger", "warning", "not determined", "note"] as const;

export type Severity = (typeof SEVERITIES)[number];

/** One item of a warning. */
export interface Finding {
  /** The warning's key and the item, joined by `|`. */
  readonly id: string;
  /** "" for the feed as a whole. */
  readonly item: string;
  /** The case in words; "" where no case counts. */
  readonly worstIn: string;
  readonly found: number | string;
  readonly limit: number | string;
  readonly unit: string;
  /** Below 0 by how much it fails, as a part of the limit. */
  readonly margin: number | undefined;
  /** What to enter, or what to try; "" where nothing is known. */
  readonly remedy: string;
  /** The cell that shows it. */
  readonly at: CellPlace;
  /** The cell to fill or change, where one is known. */
  readonly toChange: CellPlace | undefined;
}

export interface Warning {
  /** Check, verdict, cause and limit joined by `|`; of what is not determined check, verdict and column. */
  readonly id: string;
  readonly severity: Severity;
  /** The check: `Drop`. */
  readonly check: string;
  readonly asked: string;
  /** Item to blame where it is another one; "" otherwise. */
  readonly cause: string;
  /** Header of the figure to enter or change; "" where none is known. */
  readonly column: string;
  /** "" where none is given. */
  readonly citation: string;
  readonly findings: readonly Finding[];
}

/** Notes are worth a look; they are not counted. */
export function counts({ severity }: Warning): boolean {
  return severity !== "note";
}
