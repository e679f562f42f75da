/** The worst that one row of a feed sees. */
import type { Caveat } from "../quantities/steps.js";
import type { Amperes, Fraction, Volts, Watts } from "../quantities/units.js";
import type { FeedCorner } from "./feed-corner.js";

/** What is looked for in every case, as the greatest value of it. */
export const EXTREMES = [
  "lowestVoltage",
  "highestVoltage",
  "highestCurrent",
  "highestLoss",
  "highestFlow",
  "highestPower",
  "highestDrop",
  "highestLevelDrop",
] as const;

/**
 * Voltage and current at the input; `flow` is the current that a rating is about; `power` what a supply gives at its
 * open-circuit voltage, a stage gives, another row takes in; `drop` from the input to the output of a line; `level drop`
 * from the supply's open-circuit voltage, or the output of the stage that feeds the row, to what the row hands on.
 */
export type Extreme = (typeof EXTREMES)[number];

export interface MetExtreme {
  readonly value: number;
  readonly at: FeedCorner;
}

export interface WorstRow {
  /** Place of the row in the feed table, from 0. */
  readonly row: number;
  readonly lowestInputVoltage: Volts;
  /** Without any drop, all stages off. */
  readonly highestInputVoltage: Volts;
  readonly highestInputCurrent: Amperes;
  readonly highestLoss: Watts;
  /** Not there where no rating is given. */
  readonly highestLoading: number | undefined;
  /** Least of (V − lowest)/lowest and (highest − V)/highest; not there for a supply or without a window. */
  readonly leastMargin: Fraction | undefined;
  /** Every extreme with the case in which it is met. */
  readonly extremes: Readonly<Record<Extreme, MetExtreme>>;
  /** Where the least margin is met; without a window, where the input voltage is lowest. */
  readonly at: FeedCorner;
  /** No case within the tolerances, loads and supply window is worse. */
  readonly proven: boolean;
  readonly caveats: readonly Caveat[];
}
