/** Efficiency of a stage at one output voltage and current, from its loss polynomial. */
import { requireAbove } from "../quantities/errors.js";
import type { QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Fraction, Volts, Watts } from "../quantities/units.js";
import {
  type LossyStage,
  type StageLoss,
  lossyStageGivens,
  stageLoss,
  stageLossSteps,
} from "./stage-loss.js";

export interface LoadedStage extends LossyStage {
  readonly outputVoltage: Volts;
}

export interface StageEfficiency extends StageLoss {
  readonly outputPower: Watts;
  readonly inputPower: Watts;
  readonly efficiency: Fraction;
}

/** @throws {InputError} also at no output current, where nothing is delivered that a loss could be measured against. */
export function stageEfficiency(stage: LoadedStage): StageEfficiency {
  const { outputVoltage, outputCurrent } = stage;
  requireAbove("outputVoltage", outputVoltage, 0);
  requireAbove("outputCurrent", outputCurrent, 0);
  const losses = stageLoss(stage);

  const outputPower = outputVoltage * outputCurrent;
  const inputPower = outputPower + losses.loss;
  const efficiency = outputPower / inputPower;

  return { ...losses, outputPower, inputPower, efficiency };
}

export const loadedStageGivens: QuantitiesOf<LoadedStage> = {
  outputVoltage: { label: "Output voltage", symbol: "Vout", unit: "V" },
  ...lossyStageGivens,
};

export const stageEfficiencySteps: StepsOf<StageEfficiency> = {
  ...stageLossSteps,
  outputPower: {
    label: "Output power",
    symbol: "Pout",
    unit: "W",
    kind: "formula",
    formula: "outputVoltage * outputCurrent",
    cite: "ohm-joule",
  },
  inputPower: {
    label: "Input power",
    symbol: "Pin",
    unit: "W",
    kind: "formula",
    formula: "outputPower + loss",
    cite: "definition",
  },
  efficiency: {
    label: "Efficiency",
    symbol: "η",
    unit: "1",
    kind: "formula",
    formula: "outputPower / inputPower",
    cite: "definition",
  },
};
