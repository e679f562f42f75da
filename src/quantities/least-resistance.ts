/** Resistance is the greatest of an item, hot or worn; Least resistance is what it has when cold or new. */
import type { Ohms } from "./units.js";

/** Two headers may name two units: what differs by less is rounding. */
const ROUNDING = 1e-12;

/** Completes "Least resistance must be". */
export const LEAST_BOUND = "at most its Resistance, which is the greatest";

/**
 * Whether the two contradict each other. A least resistance that is not given contradicts nothing; a greatest that is not
 * given is counted as none, which is less than any least.
 */
export function isLeastAboveGreatest(least: Ohms | undefined, greatest: Ohms | undefined): boolean {
  return least !== undefined && least > (greatest ?? 0) * (1 + ROUNDING);
}
