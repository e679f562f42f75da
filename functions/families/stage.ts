import {
  lossyStageGivens,
  stageLoss,
  stageLossSteps,
} from "../../src/converters/stage-loss.js";
import { defineEntry } from "../entry.js";

const stageLossEntry = defineEntry({
  id: "STAGE_LOSS",
  family: "stage",
  purpose:
    "Loss of a converter stage as a polynomial of its output current: fixed, linear and quadratic part.",
  relation: "P = a + b · I + c · I²",
  parameters: {
    outputCurrent: {
      name: "output current",
      unit: "A",
      meaning: "current out of the stage; 0 is no load",
      kind: "number",
      zero: "real",
    },
    fixedLoss: {
      name: "fixed",
      unit: "W",
      meaning: "loss that is there at any current",
      kind: "number",
      zero: "real",
    },
    linearLoss: {
      name: "linear",
      unit: "V",
      meaning: "loss for each A of output current",
      kind: "number",
      zero: "real",
    },
    quadraticLoss: {
      name: "quadratic",
      unit: "Ω",
      meaning: "loss for each A² of output current",
      kind: "number",
      zero: "real",
    },
  },
  result: { shape: "number", unit: "W", meaning: "loss of the stage" },
  example: {
    args: [20, 6, 0.1, 0.01],
    gives: 12,
    note: "6 + 0.1 · 20 + 0.01 · 20² = 6 + 2 + 4",
  },
  citations: ["loss-quadratic"],
  read: (values) => values,
  calculate: stageLoss,
  pluck: ({ loss }) => loss,
  notes: ({ notes }) => notes,
  working: (stage, losses) => [
    {
      title: "Loss of the stage",
      givens: lossyStageGivens,
      steps: stageLossSteps,
      values: { ...stage, ...losses },
    },
  ],
});

export const stageEntries = [stageLossEntry];
