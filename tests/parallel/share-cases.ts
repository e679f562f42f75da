import fc from "fast-check";
import type { ParallelConverters } from "../../src/parallel/parallel-share.js";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

export const loadKinds = fc.constantFrom("current", "power", "resistance");
export const reverseFlows = fc.constantFrom("blocked", "allowed");

export interface Spread {
  /** Set voltages lie between 100 V and this many times it. */
  readonly voltage: number;
  readonly least: number;
  readonly most: number;
}

/** Units of one design that differ by a few per cent, and units that have nothing in common. */
export const ALIKE: Spread = { voltage: 1.1, least: 0.005, most: 0.5 };
export const UNLIKE: Spread = { voltage: 50, least: 0.001, most: 100 };

/**
 * Units and a load that they can carry up to a part `most` of what is sure: all of them at the lowest set voltage, as one
 * voltage behind one resistance, give V/R at most into a short circuit and V²/4R at most into any load.
 */
export function shareCases(spread: Spread, most: number) {
  const unit = fc.record({
    setVoltage: between(100, 100 * spread.voltage),
    resistance: between(Math.log(spread.least), Math.log(spread.most)).map(Math.exp),
  });
  return fc
    .record({
      converters: fc.array(unit, { minLength: 1, maxLength: 8 }),
      part: between(0.001, most),
      loadKind: loadKinds,
      reverseFlow: reverseFlows,
    })
    .map(({ converters, part, loadKind, reverseFlow }): ParallelConverters => {
      const setVoltages = converters.map(({ setVoltage }) => setVoltage);
      const resistances = converters.map(({ resistance }) => resistance);
      const lowest = Math.min(...setVoltages);
      const conductance = resistances.reduce((sum, ohms) => sum + 1 / ohms, 0);
      const sure = {
        current: part * lowest * conductance,
        power: (part * lowest ** 2 * conductance) / 4,
        resistance: (1 - part) / (part * conductance),
      };
      const load = sure[loadKind];
      return { setVoltages, resistances, load, loadKind, reverseFlow };
    });
}

/** A at which currents count as equal: rounding of the short-circuit currents that they are differences of. */
export function currentTolerance({ setVoltages, resistances }: ParallelConverters): number {
  return (
    1e-12 * setVoltages.reduce((sum, volts, index) => sum + volts / (resistances[index] ?? 0), 0)
  );
}
