/** Circuits drawn at random for the tests of transients, and a step-by-step integration that shares nothing with the engine. */
import fc from "fast-check";
import type { SteppedLoad } from "../../src/transients/load-step-sag.js";
import type { ConstantPowerBus } from "../../src/transients/stability-margin.js";

/** For ngspice: digits beyond what these tests ask for. */
export const TIGHT = ".options reltol=1e-7 abstol=1e-9 vntol=1e-9 chgtol=1e-16";

export const figure = (least: number, most: number) =>
  fc.noBias(
    fc.integer({ min: 0, max: 10_000 }).map((part) => least + ((most - least) * part) / 10_000),
  );

/** Of every damping, with and without a resistance of the capacitor, up to where that alone makes the deepest sag. */
export const steppedLoads: fc.Arbitrary<SteppedLoad> = fc
  .tuple(figure(0.1, 50), figure(-3, 0.5), figure(-6, -2), figure(-5, -2), figure(0, 3))
  .map(([currentStep, r, l, c, esr]) => {
    const inductance = 10 ** l;
    const capacitance = 10 ** c;
    const wave = Math.sqrt(inductance / capacitance);
    return {
      currentStep,
      resistance: 2 * wave * 10 ** r,
      inductance,
      capacitance,
      // A third without, the rest up to twice the wave resistance.
      capacitorResistance: esr < 1 ? 0 : wave * (esr - 1),
    };
  });

/** Loaded up to a hair of collapse, with wave resistances and capacitors of every size beside the line's resistance. */
export const loadedBuses: fc.Arbitrary<ConstantPowerBus> = fc
  .tuple(
    figure(12, 800),
    figure(0.005, 0.3),
    figure(0.01, 0.99),
    figure(-6, -4),
    figure(-1, 1),
    figure(-3, 1),
  )
  .map(([openCircuitVoltage, r, part, l, wave, esr]) => {
    const most = 1000 / r;
    const resistance = openCircuitVoltage ** 2 / (4 * most);
    const inductance = 10 ** l;
    const waveResistance = resistance * 10 ** wave;
    return {
      openCircuitVoltage,
      load: part * most,
      resistance,
      inductance,
      capacitance: inductance / waveResistance ** 2,
      // A quarter without.
      capacitorResistance: esr < -2 ? 0 : waveResistance * 10 ** esr,
    };
  });

export type Pair = readonly [number, number];

/** One step of the classical Runge-Kutta method for two quantities. */
export function rungeKutta(
  slope: (i: number, v: number) => Pair,
  [i, v]: Pair,
  step: number,
): Pair {
  const [a, p] = slope(i, v);
  const [b, q] = slope(i + (step / 2) * a, v + (step / 2) * p);
  const [c, r] = slope(i + (step / 2) * b, v + (step / 2) * q);
  const [d, s] = slope(i + step * c, v + step * r);
  return [i + (step / 6) * (a + 2 * b + 2 * c + d), v + (step / 6) * (p + 2 * q + 2 * r + s)];
}
