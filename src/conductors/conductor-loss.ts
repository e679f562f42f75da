/** Voltage drop and loss of a run of conductor that carries a steady direct current. */
import { InputError, requireAbove } from "../quantities/errors.js";
import type { QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Amperes, Volts, Watts } from "../quantities/units.js";
import { type ConductorLoop, type ConductorRun, conductorLoop } from "./conductor-loop.js";

export interface LoadedRun extends ConductorRun {
  /** Current of the pole: all its cores together. */
  readonly current: Amperes;
}

export interface ConductorLoss extends ConductorLoop {
  readonly drop: Volts;
  readonly loss: Watts;
}

/** @throws {InputError | NoAnswerError} as `conductorLoop`, and for a current that is not above 0. */
export function conductorLoss(run: LoadedRun): ConductorLoss {
  const { current } = run;
  requireAbove("current", current, 0);
  const loop = conductorLoop(run);
  const drop = current * loop.resistance;
  const loss = current ** 2 * loop.resistance;
  if (!Number.isFinite(loss))
    throw new InputError("current", current, "small enough to have a loss");
  return { ...loop, drop, loss };
}

/** Beside the givens of the loop. */
export const conductorLossGivens: Pick<QuantitiesOf<LoadedRun>, "current"> = {
  current: {
    label: "Current of the pole, all cores together",
    symbol: "I",
    unit: "A",
  },
};

/** After the steps of the loop. */
export const conductorLossSteps: Pick<StepsOf<ConductorLoss>, "drop" | "loss"> = {
  drop: {
    label: "Voltage drop of the loop",
    symbol: "ΔU",
    unit: "V",
    kind: "formula",
    formula: "current * resistance",
    cite: "ohm-joule",
  },
  loss: {
    label: "Power lost in the conductors",
    symbol: "P",
    unit: "W",
    kind: "formula",
    formula: "current^2 * resistance",
    cite: "ohm-joule",
  },
};
