import { lossyStageGivens, stageLoss, stageLossSteps } from "../../src/converters/stage-loss.js";
import {
  stageDerated,
  stageDeratedSteps,
  warmStageGivens,
} from "../../src/converters/stage-derated.js";
import {
  loadedStageGivens,
  stageEfficiency,
  stageEfficiencySteps,
} from "../../src/converters/stage-efficiency.js";
import { stageFit } from "../../src/converters/stage-fit.js";
import {
  stageFitGivens,
  stageFitSteps,
  stageFitValues,
} from "../../src/converters/stage-fit-steps.js";
import { peakingStageGivens, stagePeak, stagePeakSteps } from "../../src/converters/stage-peak.js";
import { defineEntry, type Parameter, fills } from "../entry.js";

const outputVoltage = fills(loadedStageGivens.outputVoltage, {
  name: "output V",
  meaning: "output voltage of the stage",
  kind: "number",
});

/** The loss polynomial, as STAGE_FIT gives it. */
const lossParameters = {
  fixedLoss: fills(lossyStageGivens.fixedLoss, {
    name: "fixed",
    meaning: "loss that is there at any current",
    kind: "number",
    zero: "real",
  }),
  linearLoss: fills(lossyStageGivens.linearLoss, {
    name: "linear",
    meaning: "loss for each A of output current",
    kind: "number",
    zero: "real",
  }),
  quadraticLoss: fills(lossyStageGivens.quadraticLoss, {
    name: "quadratic",
    meaning: "loss for each A² of output current",
    kind: "number",
    zero: "real",
  }),
} as const satisfies Record<string, Parameter>;

const stageFitEntry = defineEntry({
  id: "STAGE_FIT",
  family: "stage",
  parameters: {
    outputVoltage,
    loads: {
      name: "loads W",
      unit: "W",
      meaning: "output power of each point, three different ones or more",
      kind: "numbers",
      each: "load",
      paired: true,
    },
    efficiencies: {
      name: "efficiencies",
      unit: "1",
      meaning: "of each point, as a fraction: 0.95",
      kind: "numbers",
      each: "efficiency",
      paired: true,
    },
  },
  result: {
    shape: "row",
    unit: "W, V, Ω, fraction",
  },
  example: {
    args: [10, [[10, 20, 30, 40]], [[10 / 11.76, 20 / 22.97, 30 / 34.78, 40 / 46.99]]],
  },
  citations: ["loss-quadratic"],
  read: (values) => values,
  calculate: stageFit,
  shows: ["fixedLoss", "linearLoss", "quadraticLoss", "worstMisfit"],
  caveats: ({ caveats }) => caveats,
  working: (stage, fit) => [
    {
      title: "Loss polynomial fitted to the points",
      givens: stageFitGivens(stage),
      steps: stageFitSteps(stage, fit),
      values: stageFitValues(stage, fit),
    },
  ],
});

const stageLossEntry = defineEntry({
  id: "STAGE_LOSS",
  family: "stage",
  parameters: {
    outputCurrent: fills(lossyStageGivens.outputCurrent, {
      name: "output current",
      meaning: "current out of the stage; 0 is no load",
      kind: "number",
      zero: "real",
    }),
    ...lossParameters,
  },
  result: { shape: "number", unit: "W" },
  example: {
    args: [20, 6, 0.1, 0.01],
  },
  citations: ["loss-quadratic"],
  read: (values) => values,
  calculate: stageLoss,
  shows: "loss",
  caveats: ({ caveats }) => caveats,
  working: (stage, losses) => [
    {
      title: "Loss of the stage",
      givens: lossyStageGivens,
      steps: stageLossSteps,
      values: { ...stage, ...losses },
    },
  ],
});

const stageEfficiencyEntry = defineEntry({
  id: "STAGE_EFFICIENCY",
  family: "stage",
  parameters: {
    outputVoltage,
    outputCurrent: fills(lossyStageGivens.outputCurrent, {
      name: "output current",
      meaning: "current out of the stage, above 0",
      kind: "number",
    }),
    ...lossParameters,
  },
  result: { shape: "number", unit: "1" },
  example: {
    args: [48, 20, 6, 0.1, 0.01],
  },
  citations: ["loss-quadratic"],
  read: (values) => values,
  calculate: stageEfficiency,
  shows: "efficiency",
  caveats: ({ caveats }) => caveats,
  working: (stage, record) => [
    {
      title: "Efficiency of the stage",
      givens: loadedStageGivens,
      steps: stageEfficiencySteps,
      values: { ...stage, ...record },
    },
  ],
});

const stagePeakEntry = defineEntry({
  id: "STAGE_PEAK",
  family: "stage",
  parameters: { outputVoltage, ...lossParameters },
  result: {
    shape: "row",
    unit: "A, fraction",
  },
  example: {
    args: [48, 20, 0.5, 0.02],
  },
  citations: ["peak-efficiency"],
  read: (values) => values,
  calculate: stagePeak,
  shows: ["current", "efficiency"],
  caveats: () => [],
  working: (stage, peak) => [
    {
      title: "Greatest efficiency of the stage",
      givens: peakingStageGivens,
      steps: stagePeakSteps,
      values: { ...stage, ...peak },
    },
  ],
});

const stageDeratedEntry = defineEntry({
  id: "STAGE_DERATED",
  family: "stage",
  parameters: {
    ratedPower: fills(warmStageGivens.ratedPower, {
      name: "rated W",
      meaning: "up to the knee",
      kind: "number",
    }),
    ambientC: fills(warmStageGivens.ambientC, {
      name: "ambient",
      meaning: "of the air or plate that the rating is for, its hottest",
      kind: "number",
      insteadOfZero: "for 0 °C type 0.001",
    }),
    kneeC: fills(warmStageGivens.kneeC, {
      name: "knee °C",
      meaning: "where the rating begins to fall",
      kind: "number",
      insteadOfZero: "for 0 °C type 0.001",
    }),
    zeroC: fills(warmStageGivens.zeroC, {
      name: "zero °C",
      meaning: "where no power is left",
      kind: "number",
      insteadOfZero: "for 0 °C type 0.001",
    }),
  },
  result: { shape: "number", unit: "W" },
  example: {
    args: [600, 70, 50, 90],
  },
  citations: [],
  read: (values) => values,
  calculate: stageDerated,
  shows: "power",
  caveats: ({ caveats }) => caveats,
  working: (stage, record) => [
    {
      title: "Power in warm surroundings",
      givens: warmStageGivens,
      steps: stageDeratedSteps,
      values: { ...stage, ...record },
    },
  ],
});

export const stageEntries = [
  stageFitEntry,
  stageLossEntry,
  stageEfficiencyEntry,
  stagePeakEntry,
  stageDeratedEntry,
];
