import type { TouchVoltage } from "../../src/safety/touch-voltage.js";
import {
  capacitorDischarge,
  capacitorDischargeGivens,
  capacitorDischargeSteps,
} from "../../src/safety/capacitor-discharge.js";
import {
  storedEnergy,
  storedEnergyGivens,
  storedEnergySteps,
} from "../../src/safety/stored-energy.js";
/** Touch-voltage bands: a screening aid. It compares numbers with published limits and approves nothing. */
import { ISOLATIONS, type Isolation } from "../../src/network/feed-item.js";
import {
  afterFaultSteps,
  stageAfterFault,
  stageInFaultGivens,
  stageVoltageGivens,
  tripGiven,
} from "../../src/safety/after-fault.js";
import { type BandJudgement, bandJudgement } from "../../src/safety/band-judgement.js";
import { bandLimitOf, bandLimitSteps } from "../../src/safety/band-limit.js";
import { ripplePeakCite } from "../../src/safety/judgement-caveats.js";
import { checkGivens, checkSteps } from "../../src/safety/limit-check-steps.js";
import {
  bandNames,
  CONDITIONS,
  type FrameworkName,
  FRAMEWORKS,
  type TouchCondition,
  touchFrameworks,
  VOLTAGE_KINDS,
  type VoltageKind,
} from "../../src/safety/touch-bands.js";
import {
  worstVoltage,
  worstVoltageGivens,
  worstVoltageSteps,
} from "../../src/safety/worst-voltage.js";
import { defineEntry, type Parameter, type Working, fills } from "../entry.js";
import { toleranceFrom, toleranceParameter } from "../reading/tolerance.js";

const framework = {
  name: "framework",
  unit: "",
  meaning: "whose limits: the one that governs the equipment",
  kind: "choice",
  choices: FRAMEWORKS,
} as const satisfies Parameter;

const condition = {
  name: "condition",
  unit: "",
  meaning: "of skin and place; unknown counts as wet",
  kind: "choice",
  choices: CONDITIONS,
} as const satisfies Parameter;

const kind = {
  name: "kind",
  unit: "",
  meaning: "dc if not given; ac is a sine of at most 1 kHz",
  kind: "choice",
  choices: VOLTAGE_KINDS,
  optional: true,
} as const satisfies Parameter;

const safetyBand = defineEntry({
  id: "SAFETY_BAND",
  family: "safety",
  parameters: {
    voltage: fills(storedEnergyGivens.voltage, {
      name: "voltage",
      meaning: "highest; the larger of pole to pole and pole to earth",
      kind: "number",
    }),
    framework,
    condition,
    kind,
    rippleRms: fills(checkGivens.rippleRms, {
      name: "ripple V rms",
      meaning: "alternating part of dc; if not given none is counted, and the answer says so",
      kind: "number",
      optional: true,
    }),
    ripplePeak: fills(checkGivens.ripplePeak, {
      name: "ripple V peak",
      meaning: "of the alternating part; √3 × rms if not given",
      kind: "number",
      optional: true,
    }),
  },
  result: {
    shape: "text",
    unit: "",
  },
  example: {
    args: [48, "IEC 62368-1", "dry"],
  },
  citations: [
    "iec-62368-1",
    "iec-62368-1-sum",
    "iec-60364-4-41",
    "iec-61558-ripple-free",
    "ripple-peak-proportion",
    "iec-low-voltage",
    "iso-6469-3",
    "osha-50-v",
  ],
  read: ({ rippleRms, ripplePeak, ...values }) => ({
    ...values,
    // No ripple is what a dc without a ripple given has.
    rippleRms: rippleRms === 0 ? undefined : rippleRms,
    ripplePeak: !rippleRms && ripplePeak === 0 ? undefined : ripplePeak,
    framework: values.framework as FrameworkName,
    condition: values.condition as TouchCondition,
    kind: (values.kind ?? "dc") as VoltageKind,
  }),
  calculate: bandJudgement,
  shows: "text",
  caveats: ({ caveats }) => caveats,
  working: (touch, judgement) => [bandWorking(touch, judgement)],
});

function bandWorking(touch: TouchVoltage, judgement: BandJudgement): Working {
  const { check } = judgement;
  const { voltage, rippleRms, ripplePeak } = checkGivens;
  const withRipple = check.rule !== "plain";
  const peakGiven = touch.ripplePeak !== undefined;
  return {
    title: `${touch.framework}, ${judgement.condition}`,
    givens: {
      voltage: voltage!,
      ...(withRipple && { rippleRms: rippleRms! }),
      ...(withRipple && peakGiven && { ripplePeak: ripplePeak! }),
    },
    steps: checkSteps(
      check,
      citeOf(touch.framework, judgement),
      peakGiven,
      ripplePeakCite(touch.framework, check, touch.condition),
    ),
    values: { ...touch, ...check },
  };
}

/** The citation of the limit that the check was against; a band without a limit shares the one below it. */
function citeOf(name: FrameworkName, judgement: BandJudgement) {
  if (judgement.check.rule === "sum") return "iec-62368-1-sum";
  const band = judgement.outcome === "determined" ? judgement.band : judgement.atLeast;
  const { bands } = touchFrameworks[name];
  const limited = band.limits ? band : bands.at(-2);
  return (limited ?? band).cite;
}

const safetyLimit = defineEntry({
  id: "SAFETY_LIMIT",
  family: "safety",
  parameters: {
    framework,
    band: {
      name: "band",
      unit: "",
      meaning: "a band of that framework",
      kind: "choice",
      choices: bandNames,
    },
    condition,
    kind,
  },
  result: { shape: "number", unit: "V" },
  example: { args: ["IEC 60364-4-41", "bare", "wet"] },
  citations: ["iec-62368-1", "iec-60364-4-41", "iec-low-voltage", "iso-6469-3", "osha-50-v"],
  read: (values) => ({
    framework: values.framework as FrameworkName,
    band: values.band,
    condition: values.condition as TouchCondition,
    kind: (values.kind ?? "dc") as VoltageKind,
  }),
  calculate: bandLimitOf,
  shows: "limit",
  caveats: ({ caveats }) => caveats,
  working: (question, record) => [
    {
      title: `${question.framework}, ${record.clause}`,
      givens: {},
      steps: bandLimitSteps(question),
      values: { ...question, ...record },
    },
  ],
});

const safetyAfterFault = defineEntry({
  id: "SAFETY_AFTER_FAULT",
  family: "safety",
  parameters: {
    inputVoltage: fills(stageVoltageGivens.inputVoltage, {
      name: "input V",
      meaning: "highest in service",
      kind: "number",
    }),
    outputVoltage: fills(stageVoltageGivens.outputVoltage, {
      name: "output V",
      meaning: "highest in service",
      kind: "number",
    }),
    isolation: {
      name: "isolation",
      unit: "",
      meaning: "between input and output; unknown counts as none",
      kind: "choice",
      choices: ISOLATIONS,
    },
    framework,
    condition,
    tripVoltage: fills(tripGiven.tripVoltage, {
      name: "trip V",
      meaning:
        "where a regulated output is stopped when its regulation is lost; of a fixed ratio its output V. Without it a step-up is not determined, and a step-down counts as rising to its input",
      kind: "number",
      optional: true,
    }),
  },
  result: {
    shape: "text",
    unit: "",
  },
  example: {
    args: [400, 48, "functional", "IEC 62368-1", "dry"],
  },
  citations: ["iec-62368-1-faults", "iec-60364-4-41-common", "touch-voltage-faults"],
  read: (values) => ({
    ...values,
    isolation: values.isolation as Isolation,
    framework: values.framework as FrameworkName,
    condition: values.condition as TouchCondition,
  }),
  calculate: stageAfterFault,
  shows: "text",
  caveats: ({ caveats }) => caveats,
  working: (stage, record) => [
    {
      title: "Output after one fault",
      givens: stageInFaultGivens(stage),
      steps: afterFaultSteps(stage),
      values: { ...stage, ...record },
    },
    bandWorking(
      {
        voltage: record.voltage,
        framework: stage.framework,
        condition: stage.condition,
        kind: "dc",
        rippleRms: undefined,
        ripplePeak: undefined,
      },
      record.judgement,
    ),
  ],
});

const safetyWorstVoltage = defineEntry({
  id: "SAFETY_WORST_VOLTAGE",
  family: "safety",
  parameters: {
    supplyHighest: fills(worstVoltageGivens.supplyHighest, {
      name: "supply highest V",
      meaning: "no load, with float charge and regeneration",
      kind: "number",
    }),
    ratio: fills(worstVoltageGivens.ratio, {
      name: "ratio",
      meaning: "output ÷ input; of a path the product of its stages",
      kind: "number",
    }),
    tolerance: {
      ...toleranceParameter,
      meaning:
        'fraction of the ratio, its greatest, or "exact"; of a path the product of (1 + t), less 1',
    },
  },
  result: { shape: "number", unit: "V" },
  example: { args: [440, 0.125, 0.02] },
  citations: ["ratio-circuit"],
  read: ({ supplyHighest, ratio, tolerance }) => ({
    supplyHighest,
    ratio,
    tolerance: toleranceFrom(tolerance),
  }),
  calculate: worstVoltage,
  shows: "voltage",
  caveats: () => [],
  working: (path, record) => [
    {
      title: "Highest voltage",
      givens: worstVoltageGivens,
      steps: worstVoltageSteps,
      values: { ...path, ...record },
    },
  ],
});

const capacitance = fills(capacitorDischargeGivens.capacitance, {
  name: "capacitance",
  meaning: "all of it on the node, at the top of its tolerance",
  kind: "number",
});

const safetyDischargeTime = defineEntry({
  id: "SAFETY_DISCHARGE_TIME",
  family: "safety",
  parameters: {
    capacitance,
    startVoltage: fills(capacitorDischargeGivens.startVoltage, {
      name: "start V",
      meaning: "the highest voltage it can be charged to",
      kind: "number",
    }),
    endVoltage: fills(capacitorDischargeGivens.endVoltage, {
      name: "end V",
      meaning: "the voltage wanted: 60 V is common",
      kind: "number",
    }),
    resistance: fills(capacitorDischargeGivens.resistance, {
      name: "resistance",
      meaning: "of the discharge resistor, at the top of its tolerance",
      kind: "number",
    }),
  },
  result: { shape: "number", unit: "s" },
  example: {
    args: [0.001, 400, 60, 2635.6],
  },
  citations: ["capacitor-discharge", "iec-60204-1-discharge"],
  read: (values) => values,
  calculate: capacitorDischarge,
  shows: "time",
  caveats: ({ caveats }) => caveats,
  working: (capacitor, record) => [
    {
      title: "Discharge of the capacitance",
      givens: capacitorDischargeGivens,
      steps: capacitorDischargeSteps,
      values: { ...capacitor, ...record },
    },
  ],
});

const safetyStoredEnergy = defineEntry({
  id: "SAFETY_STORED_ENERGY",
  family: "safety",
  parameters: {
    capacitance,
    voltage: fills(storedEnergyGivens.voltage, {
      name: "V",
      meaning: "the highest voltage it can be charged to",
      kind: "number",
    }),
  },
  result: { shape: "number", unit: "J" },
  example: { args: [0.001, 400] },
  citations: [
    "capacitor-energy",
    "iso-6469-4-energy",
    "doe-hdbk-1092-98",
    "nfpa-70e-360",
    "doe-capacitors",
    "iec-60950-1-energy",
  ],
  read: (values) => values,
  calculate: storedEnergy,
  shows: "energy",
  caveats: ({ caveats }) => caveats,
  working: (capacitor, record) => [
    {
      title: "Energy of the capacitance",
      givens: storedEnergyGivens,
      steps: storedEnergySteps,
      values: { ...capacitor, ...record },
    },
  ],
});

export const safetyEntries = [
  safetyBand,
  safetyLimit,
  safetyAfterFault,
  safetyWorstVoltage,
  safetyDischargeTime,
  safetyStoredEnergy,
];
