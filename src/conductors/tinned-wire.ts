/**
 * Greatest resistance at 20 °C of tin-plated stranded copper wire by its gauge: aircraft wire, which has tables where
 * AWG itself fixes the diameter of a solid wire only.
 */
import { NoAnswerError } from "../quantities/errors.js";
import { METRES_PER_FOOT } from "../quantities/units.js";
import type { TabledResistance } from "./conductor-classes.js";

/** By gauge number, 1/0 being 0: Ω per 1000 ft at 20 °C. [faa-wire-table] */
const OHMS_PER_KILOFOOT: ReadonlyMap<number, number> = new Map([
  [24, 28.4],
  [22, 16.2],
  [20, 9.88],
  [18, 6.23],
  [16, 4.81],
  [14, 3.06],
  [12, 2.02],
  [10, 1.26],
  [8, 0.7],
  [6, 0.44],
  [4, 0.28],
  [2, 0.18],
  [1, 0.15],
  [0, 0.12],
  [-1, 0.09],
  [-2, 0.07],
  [-3, 0.06],
]);

export const TINNED_GAUGES: readonly number[] = [...OHMS_PER_KILOFOOT.keys()];

/** Every row is printed to 0.01 Ω per 1000 ft. */
const HALF_LAST_DIGIT = 0.005;

export interface TinnedWire extends TabledResistance {
  /** Part by which the resistance may be above the printed figure. */
  readonly rounding: number;
}

/** Undefined where the table has no row for the gauge. */
export function tinnedWire(gauge: number): TinnedWire | undefined {
  const printed = OHMS_PER_KILOFOOT.get(gauge);
  if (printed === undefined) return undefined;
  return {
    table: "FAA AC 43.13-1B Table 11-9, tin-plated copper wire",
    resistancePerMetre: printed / 1000 / METRES_PER_FOOT,
    rounding: HALF_LAST_DIGIT / printed,
    cite: "faa-wire-table",
  };
}

/** @throws {NoAnswerError} naming `size` where the table has no row for the gauge. */
export function requireTinnedWire(gauge: number, written: string): TinnedWire {
  const found = tinnedWire(gauge);
  if (!found)
    throw new NoAnswerError(
      "size",
      `size "${written}" is not in FAA AC 43.13-1B Table 11-9 (it has AWG 24 to 10 in even numbers, 8, 6, 4, 2, 1 and 1/0 to 4/0)`,
    );
  return found;
}
