/**
 * Loss of any stage as a polynomial of its output current: what is always drawn, what grows with the current (junctions,
 * switching) and what grows with its square (resistance).
 *
 * The three figures belong to one input voltage and temperature.
 */
import { requireAtLeast } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Amperes, Ohms, Volts, Watts } from "../quantities/units.js";

export interface LossyStage {
  readonly outputCurrent: Amperes;
  readonly fixedLoss: Watts;
  /** W per A. */
  readonly linearLoss: Volts;
  /** W per A². */
  readonly quadraticLoss: Ohms;
}

export interface StageLoss {
  readonly linearPart: Watts;
  readonly quadraticPart: Watts;
  readonly loss: Watts;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError} */
export function stageLoss(stage: LossyStage): StageLoss {
  const { outputCurrent, fixedLoss, linearLoss, quadraticLoss } = stage;
  requireAtLeast("outputCurrent", outputCurrent, 0);
  requireAtLeast("fixedLoss", fixedLoss, 0);
  requireAtLeast("linearLoss", linearLoss, 0);
  requireAtLeast("quadraticLoss", quadraticLoss, 0);

  const linearPart = linearLoss * outputCurrent;
  const quadraticPart = quadraticLoss * outputCurrent ** 2;
  const loss = fixedLoss + linearPart + quadraticPart;

  return { linearPart, quadraticPart, loss, caveats: notesOn(stage) };
}

export const lossyStageGivens: QuantitiesOf<LossyStage> = {
  outputCurrent: { label: "Output current", symbol: "I", unit: "A" },
  fixedLoss: { label: "Fixed loss", symbol: "a", unit: "W" },
  linearLoss: { label: "Linear loss", symbol: "b", unit: "V" },
  quadraticLoss: { label: "Quadratic loss", symbol: "c", unit: "Ω" },
};

export const stageLossSteps: StepsOf<StageLoss> = {
  linearPart: {
    label: "Loss in proportion to the current",
    symbol: "P₁",
    unit: "W",
    kind: "formula",
    formula: "linearLoss * outputCurrent",
    cite: "loss-quadratic",
  },
  quadraticPart: {
    label: "Loss in proportion to its square",
    symbol: "P₂",
    unit: "W",
    kind: "formula",
    formula: "quadraticLoss * outputCurrent^2",
    cite: "loss-quadratic",
  },
  loss: {
    label: "Loss of the stage",
    symbol: "P",
    unit: "W",
    kind: "formula",
    formula: "fixedLoss + linearPart + quadraticPart",
    cite: "loss-quadratic",
  },
};

function notesOn({ fixedLoss, linearLoss, quadraticLoss }: LossyStage): Caveat[] {
  if (fixedLoss + linearLoss + quadraticLoss > 0) return [];
  return [
    {
      code: "ideal-loss",
      field: "loss",
      text: "ideal: no losses given",
      cite: "definition",
    },
  ];
}
