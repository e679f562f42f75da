/**
 * Loss of a stage fitted to a datasheet's points of load and efficiency: fixed, linear and quadratic part, none negative,
 * with the least sum of squared differences of loss.
 */
import { InputError, requireAbove, requireFraction } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat } from "../quantities/steps.js";
import type { Amperes, Fraction, Ohms, Volts, Watts } from "../quantities/units.js";
import { leastSquaresNonNegative } from "./non-negative-least-squares.js";

export interface MeasuredStage {
  readonly outputVoltage: Volts;
  readonly loads: readonly Watts[];
  /** One for each load, at its place. */
  readonly efficiencies: readonly Fraction[];
}

export interface FittedPoint {
  readonly current: Amperes;
  /** Measured. */
  readonly loss: Watts;
  /** Fitted efficiency less measured, without sign. */
  readonly misfit: Fraction;
}

export interface StageFit {
  readonly fixedLoss: Watts;
  readonly linearLoss: Volts;
  readonly quadraticLoss: Ohms;
  readonly worstMisfit: Fraction;
  readonly points: readonly FittedPoint[];
  readonly caveats: readonly Caveat[];
}

/** Three coefficients need three loads. */
const LEAST_LOADS = 3;

/** @throws {InputError} */
export function stageFit(stage: MeasuredStage): StageFit {
  requireMeasured(stage);
  const { outputVoltage, loads, efficiencies } = stage;
  const currents = loads.map((load) => load / outputVoltage);
  const losses = loads.map((load, at) => load * (1 / efficiencies[at]! - 1));
  // Columns of like size: a current of 100 A would else count 10 000 times in its square.
  const greatest = Math.max(...currents);
  const columns = [0, 1, 2].map((power) =>
    currents.map((current) => (current / greatest) ** power),
  );
  const [a = 0, b = 0, c = 0] = leastSquaresNonNegative(columns, losses);
  const fixedLoss = a;
  const linearLoss = b / greatest;
  const quadraticLoss = c / greatest ** 2;
  const points = currents.map((current, at): FittedPoint => {
    // Added up one by one, as the step does: of an exact fit's misfit rounding is all there is.
    const efficiency =
      loads[at]! / (loads[at]! + fixedLoss + linearLoss * current + quadraticLoss * current ** 2);
    return {
      current,
      loss: losses[at]!,
      misfit: Math.abs(efficiency - efficiencies[at]!),
    };
  });
  const worstMisfit = Math.max(...points.map(({ misfit }) => misfit));
  const caveats = notesOn({ fixedLoss, worstMisfit }, currents, losses);
  return { fixedLoss, linearLoss, quadraticLoss, worstMisfit, points, caveats };
}

function requireMeasured({ outputVoltage, loads, efficiencies }: MeasuredStage): void {
  requireAbove("outputVoltage", outputVoltage, 0);
  if (efficiencies.length !== loads.length)
    throw new InputError(
      "efficiencies",
      `${efficiencies.length} cells`,
      `as many as the loads, ${loads.length}`,
    );
  for (const load of loads) requireAbove("loads", load, 0);
  for (const efficiency of efficiencies) {
    if (efficiency > 1 && efficiency <= 100)
      throw new InputError("efficiencies", efficiency, "above 0 and at most 1: type 0.95, not 95");
    requireFraction("efficiencies", efficiency);
  }
  if (new Set(loads).size < LEAST_LOADS)
    throw new InputError(
      "loads",
      `${new Set(loads).size} different loads`,
      `${LEAST_LOADS} different loads or more, for three coefficients`,
    );
}

/** Beyond half a point the points hardly belong to one curve. */
const GREAT_MISFIT = 0.005;

/** Part of the greatest loss that rounding may leave of none. */
const NO_LOSS = 1e-9;

function notesOn(
  { fixedLoss, worstMisfit }: Pick<StageFit, "fixedLoss" | "worstMisfit">,
  currents: readonly Amperes[],
  losses: readonly Watts[],
): Caveat[] {
  const [least, most] = [Math.min(...currents), Math.max(...currents)];
  const caveats: Caveat[] = [
    {
      code: "fitted-range",
      field: "fixedLoss",
      text: `fitted from ${figure(least)} to ${figure(most)} A, at the input voltage and temperature of the points`,
      cite: "loss-quadratic",
    },
  ];
  if (losses.every((loss) => loss === 0))
    caveats.push({
      code: "ideal-loss",
      field: "fixedLoss",
      text: "ideal: no point has any loss",
      cite: "definition",
    });
  else if (fixedLoss <= NO_LOSS * Math.max(...losses))
    caveats.push({
      code: "no-fixed-loss",
      field: "fixedLoss",
      text: "no no-load loss found: a feed with this stage draws nothing at no load; add points of light load, or enter the no-load loss of the datasheet",
      cite: "loss-quadratic",
    });
  if (worstMisfit > GREAT_MISFIT)
    caveats.push({
      code: "great-misfit",
      field: "worstMisfit",
      text: `one point lies ${figure(worstMisfit)} of efficiency off the curve: are all points of one input voltage?`,
      cite: "common-practice",
    });
  return caveats;
}
