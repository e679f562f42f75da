import {
  holdupCapacitance,
  holdupCapacitanceSteps,
  holdupNeedGivens,
  holdupStoreGivens,
  holdupTime,
  holdupTimeSteps,
} from "../../src/transients/holdup.js";
import { loadStepSagSteps, steppedLoadGivens } from "../../src/transients/load-step-sag-steps.js";
import {
  type LoadStepSag,
  type SteppedLoad,
  loadStepSag,
} from "../../src/transients/load-step-sag.js";
import { heldPowerGivens, heldPowerSteps } from "../../src/transients/held-power-step-steps.js";
import { type HeldPowerSag, heldPowerSag } from "../../src/transients/held-power-step.js";
import {
  prechargeEnergy,
  prechargeEnergySteps,
  prechargeInTimeGivens,
  prechargeResistance,
  prechargeResistanceSteps,
  prechargeToVoltageGivens,
} from "../../src/transients/precharge.js";
import {
  constantPowerBusGivens,
  stabilityMargin,
  stabilityMarginSteps,
} from "../../src/transients/stability-margin.js";
import { defineEntry, type Parameter, fills, type Working } from "../entry.js";

const power = fills(holdupNeedGivens.power, {
  name: "power",
  meaning: "at the load, which holds it: its greatest",
  kind: "number",
});

const time = fills(holdupNeedGivens.time, {
  name: "time",
  meaning: "wanted",
  kind: "number",
});

const leastCapacitance = fills(holdupStoreGivens.capacitance, {
  name: "capacitance",
  meaning: "all of it, its least: low end of tolerance, cold, end of life",
  kind: "number",
});

const greatestCapacitance = fills(holdupStoreGivens.capacitance, {
  name: "capacitance",
  meaning: "all of it, its greatest: high end of tolerance",
  kind: "number",
});

const heldUp = {
  startVoltage: fills(holdupNeedGivens.startVoltage, {
    name: "start V",
    meaning: "of the capacitor when the supply goes, its lowest",
    kind: "number",
  }),
  endVoltage: fills(holdupNeedGivens.endVoltage, {
    name: "end V",
    meaning: "at which the load, or the stage before it, gives up: its highest",
    kind: "number",
  }),
  efficiency: fills(holdupNeedGivens.efficiency, {
    name: "efficiency",
    meaning:
      "of what lies between capacitor and load, its least; 1 if the load hangs on the capacitor",
    kind: "number",
  }),
} as const satisfies Record<string, Parameter>;

const holdupCapacitanceEntry = defineEntry({
  id: "HOLDUP_CAPACITANCE",
  family: "transient",
  parameters: { power, time, ...heldUp },
  result: { shape: "number", unit: "F" },
  example: {
    args: [1000, 0.02, 400, 300, 1],
  },
  citations: ["holdup-energy"],
  read: (values) => values,
  calculate: holdupCapacitance,
  shows: "capacitance",
  caveats: ({ caveats }) => caveats,
  working: (need, record) => [
    {
      title: "Capacitance for hold-up",
      givens: holdupNeedGivens,
      steps: holdupCapacitanceSteps,
      values: { ...need, ...record },
    },
  ],
});

const holdupTimeEntry = defineEntry({
  id: "HOLDUP_TIME",
  family: "transient",
  parameters: { power, capacitance: leastCapacitance, ...heldUp },
  result: { shape: "number", unit: "s" },
  example: {
    args: [1000, 0.00068, 400, 300, 1],
  },
  citations: ["holdup-energy"],
  read: (values) => values,
  calculate: holdupTime,
  shows: "time",
  caveats: ({ caveats }) => caveats,
  working: (store, record) => [
    {
      title: "Hold-up time",
      givens: holdupStoreGivens,
      steps: holdupTimeSteps,
      values: { ...store, ...record },
    },
  ],
});

const fractionReached = fills(prechargeInTimeGivens.fractionReached, {
  name: "fraction reached",
  meaning: "part of the supply's voltage at the end, below 1: 0.95 is common",
  kind: "number",
});

const prechargeResistanceEntry = defineEntry({
  id: "PRECHARGE_RESISTANCE",
  family: "transient",
  parameters: { capacitance: greatestCapacitance, time, fractionReached },
  result: { shape: "number", unit: "Ω" },
  example: {
    args: [0.001, 0.3, 0.95],
  },
  citations: ["capacitor-discharge"],
  read: (values) => values,
  calculate: prechargeResistance,
  shows: "resistance",
  caveats: ({ caveats }) => caveats,
  working: (precharge, record) => [
    {
      title: "Precharge resistance",
      givens: prechargeInTimeGivens,
      steps: prechargeResistanceSteps,
      values: { ...precharge, ...record },
    },
  ],
});

const prechargeEnergyEntry = defineEntry({
  id: "PRECHARGE_ENERGY",
  family: "transient",
  parameters: {
    capacitance: greatestCapacitance,
    voltage: fills(prechargeToVoltageGivens.voltage, {
      name: "V",
      meaning: "of the supply, its highest",
      kind: "number",
    }),
    fractionReached,
  },
  result: { shape: "number", unit: "J" },
  example: {
    args: [0.001, 400, 0.95],
  },
  citations: ["capacitor-energy"],
  read: (values) => values,
  calculate: prechargeEnergy,
  shows: "energy",
  caveats: ({ caveats }) => caveats,
  working: (precharge, record) => [
    {
      title: "Energy of the precharge",
      givens: prechargeToVoltageGivens,
      steps: prechargeEnergySteps,
      values: { ...precharge, ...record },
    },
  ],
});

const capacitorResistance = {
  name: "capacitor series resistance",
  unit: "Ω",
  kind: "number",
  optional: true,
} as const;

const lineParameters = {
  inductance: fills(steppedLoadGivens.inductance, {
    name: "inductance",
    meaning: "of the loop, its greatest",
    kind: "number",
  }),
  capacitance: fills(holdupStoreGivens.capacitance, {
    name: "capacitance",
    meaning: "at the load, its least: low end of tolerance, cold, end of life",
    kind: "number",
  }),
} as const satisfies Record<string, Parameter>;

const loadStepSagEntry = defineEntry({
  id: "LOAD_STEP_SAG",
  family: "transient",
  parameters: {
    currentStep: fills(steppedLoadGivens.currentStep, {
      name: "current step",
      meaning: "by which the load's current rises at once, its greatest",
      kind: "number",
    }),
    resistance: fills(steppedLoadGivens.resistance, {
      name: "resistance",
      meaning:
        "of the supply and the loop; try both ends: the greatest, hot, sags most at rest, the least, cold, rings most",
      kind: "number",
    }),
    ...lineParameters,
    capacitorResistance: {
      ...capacitorResistance,
      meaning:
        "none unless told otherwise; try both ends: the greatest, cold, sags most at the step, the least rings most",
    },
    busVoltage: {
      name: "bus V",
      unit: "V",
      meaning:
        "before the step, its lowest, for a load that holds its power, current step × bus V; blank: one that holds its current",
      kind: "number",
      optional: true,
    },
  },
  result: {
    shape: "number",
    unit: "V",
  },
  example: {
    args: [10, 1, 0.0001, 0.0001],
  },
  citations: ["series-rlc", "two-roots", "maximum-power"],
  form: "depends on inputs",
  read: (values): StepCall => ({
    ...values,
    capacitorResistance: values.capacitorResistance ?? 0,
  }),
  calculate: (load: StepCall): StepSag =>
    load.busVoltage === undefined
      ? loadStepSag(load)
      : heldPowerSag({ ...load, busVoltage: load.busVoltage }),
  shows: "sag",
  caveats: ({ caveats }: StepSag) => caveats,
  working: sagWorking,
});

type StepCall = SteppedLoad & { readonly busVoltage: number | undefined };
type StepSag = LoadStepSag | HeldPowerSag;

function sagWorking(load: StepCall, record: StepSag): Working<"sag">[] {
  const values = { ...load, ...record };
  return [
    "power" in record
      ? {
          title: "Sag after a step of a load that holds its power",
          givens: heldPowerGivens(record),
          steps: heldPowerSteps(record),
          values,
        }
      : {
          title: "Sag after a step of load",
          givens: steppedLoadGivens,
          steps: loadStepSagSteps(record),
          values,
        },
  ];
}

const stabilityMarginEntry = defineEntry({
  id: "STABILITY_MARGIN",
  family: "transient",
  parameters: {
    openCircuitVoltage: fills(constantPowerBusGivens.openCircuitVoltage, {
      name: "open-circuit V",
      meaning: "of the supply, its lowest",
      kind: "number",
    }),
    load: fills(constantPowerBusGivens.load, {
      name: "load W",
      meaning: "that the load holds, its greatest",
      kind: "number",
    }),
    resistance: fills(steppedLoadGivens.resistance, {
      name: "resistance",
      meaning:
        "of the supply and the loop; try both ends, the lesser margin counts: the least, cold, where damping limits, the greatest, hot, where collapse does",
      kind: "number",
    }),
    ...lineParameters,
    capacitorResistance: {
      ...capacitorResistance,
      meaning: "its least, warm, where damping limits; none unless told otherwise",
    },
  },
  result: { shape: "number", unit: "1" },
  example: {
    args: [28, 400, 0.05, 0.00001, 0.00022],
  },
  citations: ["constant-power-stability", "negative-impedance", "two-roots"],
  form: "depends on inputs",
  read: (values) => ({
    ...values,
    capacitorResistance: values.capacitorResistance ?? 0,
  }),
  calculate: stabilityMargin,
  shows: "margin",
  caveats: ({ caveats }) => caveats,
  working: (bus, record) => [
    {
      title: "Stability with a load of constant power",
      givens: constantPowerBusGivens,
      steps: stabilityMarginSteps(record),
      values: { ...bus, ...record },
    },
  ],
});

export const transientEntries = [
  holdupCapacitanceEntry,
  holdupTimeEntry,
  prechargeResistanceEntry,
  prechargeEnergyEntry,
  loadStepSagEntry,
  stabilityMarginEntry,
];
