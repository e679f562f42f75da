import {
  ratioDrawGivens,
  ratioInputCurrent,
  ratioInputCurrentSteps,
} from "../../src/converters/ratio-input-current.js";
import {
  ratioFeedGivens,
  ratioOutput,
  ratioOutputSteps,
} from "../../src/converters/ratio-output.js";
import {
  ratioOperation,
  ratioStageGivens,
  ratioStageSteps,
} from "../../src/converters/ratio-stage.js";
import { InputError } from "../../src/quantities/errors.js";
import { defineEntry, fills } from "../entry.js";

const inputVoltage = fills(ratioDrawGivens.inputVoltage, {
  name: "input V",
  meaning: "voltage at the input of the stage",
  kind: "number",
});

const ratio = fills(ratioDrawGivens.ratio, {
  name: "ratio",
  meaning: "output ÷ input voltage: 1/8 steps down, 4 steps up",
  kind: "number",
});

const outputCurrent = fills(ratioDrawGivens.outputCurrent, {
  name: "output current",
  meaning: "current out of the stage; 0 is no load",
  kind: "number",
  zero: "real",
});

const outputResistance = fills(ratioFeedGivens.outputResistance, {
  name: "output resistance",
  meaning: "output resistance of the stage when hot, its greatest",
  kind: "number",
  zero: "real",
});

const noLoadPower = fills(ratioDrawGivens.noLoadPower, {
  name: "no-load W",
  meaning: "what the stage draws with nothing on its output",
  kind: "number",
});

const ratioOutputEntry = defineEntry({
  id: "RATIO_OUTPUT",
  family: "ratio",
  parameters: {
    inputVoltage,
    ratio,
    outputCurrent: { ...outputCurrent, optional: true },
    outputResistance: { ...outputResistance, optional: true },
  },
  result: { shape: "number", unit: "V" },
  example: {
    args: [384, 1 / 8, 40, 0.015],
  },
  citations: ["ratio-circuit", "ohm-joule"],
  read: (values) => ({
    ...values,
    outputCurrent: values.outputCurrent ?? 0,
    outputResistance: values.outputResistance ?? 0,
  }),
  calculate: ratioOutput,
  shows: "outputVoltage",
  caveats: ({ caveats }) => caveats,
  working: (feed, output) => [
    {
      title: "Output of the stage",
      givens: ratioFeedGivens,
      steps: ratioOutputSteps,
      values: { ...feed, ...output },
    },
  ],
});

const ratioInputCurrentEntry = defineEntry({
  id: "RATIO_INPUT_CURRENT",
  family: "ratio",
  parameters: {
    outputCurrent,
    ratio,
    inputVoltage: { ...inputVoltage, optional: true },
    noLoadPower: { ...noLoadPower, optional: true },
  },
  result: { shape: "number", unit: "A" },
  example: {
    args: [40, 1 / 8, 384, 18],
  },
  citations: ["ratio-circuit", "ohm-joule"],
  read: (values) => ({
    outputCurrent: values.outputCurrent,
    ratio: values.ratio,
    noLoad: bothOrNeither(values.inputVoltage, values.noLoadPower),
  }),
  calculate: ratioInputCurrent,
  shows: "inputCurrent",
  caveats: ({ caveats }) => caveats,
  working: ({ noLoad, ...draw }, input) => {
    const { reflectedCurrent, inputCurrent } = ratioInputCurrentSteps;
    const { outputCurrent, ratio } = ratioDrawGivens;
    return [
      {
        title: "Input current of the stage",
        givens: noLoad ? ratioDrawGivens : { outputCurrent, ratio },
        steps: noLoad
          ? ratioInputCurrentSteps
          : {
              reflectedCurrent,
              inputCurrent: { ...inputCurrent, formula: "reflectedCurrent" },
            },
        values: { ...draw, ...noLoad, ...input },
      },
    ];
  },
});

function bothOrNeither(inputVoltage: number | undefined, noLoadPower: number | undefined) {
  if (inputVoltage === undefined && noLoadPower === undefined) return undefined;
  if (inputVoltage === undefined)
    throw new InputError("inputVoltage", null, "given where no-load W is");
  if (noLoadPower === undefined)
    throw new InputError(
      "noLoadPower",
      null,
      "given and above 0 where input V is (leave both out for a stage that draws nothing at no load)",
    );
  return { inputVoltage, noLoadPower };
}

const ratioLoss = defineEntry({
  id: "RATIO_LOSS",
  family: "ratio",
  parameters: {
    inputVoltage,
    ratio,
    outputCurrent,
    outputResistance,
    noLoadPower: { ...noLoadPower, zero: "real" },
  },
  result: { shape: "number", unit: "W" },
  example: {
    args: [384, 1 / 8, 40, 0.015, 18],
  },
  citations: ["ratio-circuit", "ohm-joule"],
  read: (values) => values,
  calculate: ratioOperation,
  shows: "loss",
  caveats: ({ caveats }) => caveats,
  working: (stage, operation) => [
    {
      title: "Loss of the stage",
      givens: ratioStageGivens,
      steps: ratioStageSteps,
      values: { ...stage, ...operation },
    },
  ],
});

export const ratioEntries = [ratioOutputEntry, ratioInputCurrentEntry, ratioLoss];
