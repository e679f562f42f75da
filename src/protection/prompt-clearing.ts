/**
 * How much more than its rating a fuse needs to clear promptly. It carries its rating for ever and twice as much for
 * minutes, so a supply that holds the current near the rating may never blow it.
 */
import { figure } from "../quantities/figures.js";
import type { Caveat } from "../quantities/steps.js";
import type { Amperes } from "../quantities/units.js";

/** In the middle of the 4 to 6 times at which fuses of class gG take 5 s. [iec-60269-1-gates] */
export const PROMPT_MULTIPLE = 5;

/** Where a supply holds a fault's current at its limit. */
export function promptClearingCaveat(currentLimit: Amperes): Caveat {
  const rating = figure(currentLimit / PROMPT_MULTIPLE);
  return {
    code: "limit-rules",
    field: "current",
    text: `the supply's current limit rules: a fuse rated above about 1/${PROMPT_MULTIPLE} of it, ${rating} A, will not clear promptly (class gG takes 5 s at 4 to 6 times its rating, 0.1 s at 9 to 14 times; others stand twice their rating for minutes): read the curve of the fuse`,
    cite: "iec-60269-1-gates",
  };
}
