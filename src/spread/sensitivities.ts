/** How much an answer changes with each of its inputs, at their nominal values. */
import { type UncertainFunction, type UncertainInput, nominalValues } from "./uncertain-input.js";

/** Of the half-width: small enough for the fourth-order difference, large enough for the rounding of a solver. */
const STEP = 1 / 64;

/**
 * Central differences over one step and over two, by which the error of second order falls out (Richardson).
 * 0 for an exact input, whose change nobody asks for; NaN where the function has no answer beside the nominal value.
 */
export function centralSensitivities(
  f: UncertainFunction,
  inputs: readonly UncertainInput[],
): Float64Array {
  const values = nominalValues(inputs);
  return Float64Array.from(inputs, ({ value, halfWidth }, index) => {
    if (halfWidth === 0) return 0;
    const slopeOver = (step: number): number => {
      const above = value + step;
      const below = value - step;
      values[index] = above;
      const high = f(values);
      values[index] = below;
      const low = f(values);
      values[index] = value;
      return (high - low) / (above - below);
    };
    const step = halfWidth * STEP;
    return (4 * slopeOver(step) - slopeOver(2 * step)) / 3;
  });
}
