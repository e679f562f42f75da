/** Where a stage is most efficient: at the current at which its fixed and its quadratic loss are equal. */
import { NoAnswerError, requireAbove, requireAtLeast } from "../quantities/errors.js";
import type { QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Amperes, Fraction, Ohms, Volts, Watts } from "../quantities/units.js";

export interface PeakingStage {
  readonly outputVoltage: Volts;
  readonly fixedLoss: Watts;
  readonly linearLoss: Volts;
  readonly quadraticLoss: Ohms;
}

export interface StagePeak {
  readonly current: Amperes;
  readonly loss: Watts;
  readonly efficiency: Fraction;
}

/** @throws {InputError}; {NoAnswerError} where the efficiency has no peak. */
export function stagePeak(stage: PeakingStage): StagePeak {
  const { outputVoltage, fixedLoss, linearLoss, quadraticLoss } = stage;
  requireAbove("outputVoltage", outputVoltage, 0);
  requireAtLeast("fixedLoss", fixedLoss, 0);
  requireAtLeast("linearLoss", linearLoss, 0);
  requireAtLeast("quadraticLoss", quadraticLoss, 0);
  requirePeak(stage);
  const current = Math.sqrt(fixedLoss / quadraticLoss);
  const loss = 2 * fixedLoss + linearLoss * current;
  const power = outputVoltage * current;
  return { current, loss, efficiency: power / (power + loss) };
}

function requirePeak({ fixedLoss, quadraticLoss }: PeakingStage): void {
  if (fixedLoss > 0 && quadraticLoss > 0) return;
  const goesOn =
    fixedLoss > 0
      ? "without quadratic loss the efficiency only rises as the current grows"
      : quadraticLoss > 0
        ? "without fixed loss the efficiency only falls as the current grows"
        : "without fixed and quadratic loss the efficiency is the same at any current";
  throw new NoAnswerError(
    quadraticLoss > 0 ? "fixedLoss" : "quadraticLoss",
    `there is no peak: ${goesOn}`,
  );
}

export const peakingStageGivens: QuantitiesOf<PeakingStage> = {
  outputVoltage: { label: "Output voltage", symbol: "Vout", unit: "V" },
  fixedLoss: { label: "Fixed loss", symbol: "a", unit: "W" },
  linearLoss: { label: "Linear loss", symbol: "b", unit: "V" },
  quadraticLoss: { label: "Quadratic loss", symbol: "c", unit: "Ω" },
};

export const stagePeakSteps: StepsOf<StagePeak> = {
  current: {
    label: "Current of greatest efficiency",
    symbol: "I",
    unit: "A",
    kind: "formula",
    formula: "sqrt(fixedLoss / quadraticLoss)",
    cite: "peak-efficiency",
  },
  loss: {
    label: "Loss there: fixed and quadratic part are equal",
    symbol: "P",
    unit: "W",
    kind: "formula",
    formula: "2 * fixedLoss + linearLoss * current",
    cite: "peak-efficiency",
  },
  efficiency: {
    label: "Greatest efficiency",
    symbol: "η",
    unit: "1",
    kind: "formula",
    formula: "outputVoltage * current / (outputVoltage * current + loss)",
    cite: "definition",
  },
};
