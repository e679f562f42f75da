/**
 * A fixed-ratio stage at one operating point: what goes in, what comes out, and what it turns into heat.
 *
 * The no-load power is taken as the same at every load, and the output resistance as all of the loss that grows with it.
 */
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Amperes, Watts } from "../quantities/units.js";
import {
  type RatioInputCurrent,
  ratioDrawGivens,
  ratioInputCurrent,
  ratioInputCurrentSteps,
} from "./ratio-input-current.js";
import {
  type RatioFeed,
  type RatioOutput,
  ratioFeedGivens,
  ratioOutput,
  ratioOutputSteps,
} from "./ratio-output.js";

export interface RatioStage extends RatioFeed {
  readonly noLoadPower: Watts;
}

export interface RatioOperation extends RatioOutput, RatioInputCurrent {
  readonly inputCurrent: Amperes;
  readonly inputPower: Watts;
  readonly outputPower: Watts;
  readonly resistiveLoss: Watts;
  readonly loss: Watts;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError | NoAnswerError} the latter where the droop leaves no output. */
export function ratioOperation(stage: RatioStage): RatioOperation {
  const { inputVoltage, outputCurrent, outputResistance, noLoadPower } = stage;
  const output = ratioOutput(stage);
  const input = ratioInputCurrent({ ...stage, noLoad: stage });

  const inputPower = inputVoltage * input.inputCurrent;
  const outputPower = output.outputVoltage * outputCurrent;
  const resistiveLoss = outputCurrent ** 2 * outputResistance;
  const loss = noLoadPower + resistiveLoss;

  const caveats = notesOn(stage);
  return {
    ...output,
    ...input,
    inputPower,
    outputPower,
    resistiveLoss,
    loss,
    caveats,
  };
}

export const ratioStageGivens: QuantitiesOf<RatioStage> = {
  ...ratioFeedGivens,
  noLoadPower: ratioDrawGivens.noLoadPower,
};

export const ratioStageSteps: StepsOf<RatioOperation> = {
  ...ratioOutputSteps,
  ...ratioInputCurrentSteps,
  inputPower: {
    label: "Input power",
    symbol: "Pin",
    unit: "W",
    kind: "formula",
    formula: "inputVoltage * inputCurrent",
    cite: "ohm-joule",
  },
  outputPower: {
    label: "Output power",
    symbol: "Pout",
    unit: "W",
    kind: "formula",
    formula: "outputVoltage * outputCurrent",
    cite: "ohm-joule",
  },
  resistiveLoss: {
    label: "Loss in the output resistance",
    symbol: "PR",
    unit: "W",
    kind: "formula",
    formula: "outputCurrent^2 * outputResistance",
    cite: "ohm-joule",
  },
  loss: {
    label: "Loss of the stage",
    symbol: "P",
    unit: "W",
    kind: "formula",
    formula: "noLoadPower + resistiveLoss",
    cite: "ratio-circuit",
  },
};

/** About the loss, where the notes of output and input are about theirs. */
function notesOn({ outputResistance, noLoadPower }: RatioStage): Caveat[] {
  const missing = [
    ...(outputResistance === 0 ? ["output resistance"] : []),
    ...(noLoadPower === 0 ? ["no-load power"] : []),
  ];
  if (missing.length === 0) return [];
  return [
    {
      code: "ideal-loss",
      field: "loss",
      text: `ideal: no ${missing.join(" and no ")} given`,
      cite: "definition",
    },
  ];
}
