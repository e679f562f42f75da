import {
  faultCurrent,
  faultCurrentSteps,
  faultLoopGivens,
} from "../../src/protection/fault-current.js";
import {
  FUSE_SERIES,
  fusedLoadGivens,
  fuseRating,
  fuseRatingSteps,
  type FuseSeries,
} from "../../src/protection/fuse-rating.js";
import {
  protectedLength,
  oneMetreStep,
  protectedLengthSteps,
  protectedRunGivens,
} from "../../src/protection/protected-length.js";
import { defineEntry, fills } from "../entry.js";
import {
  placeParameters,
  runFrom,
  runParameters,
} from "../reading/conductor-run.js";
import { loopWorking } from "./conductor.js";

const voltage = fills(faultLoopGivens.voltage, {
  name: "V",
  meaning: "of the supply; its lowest, for the smallest fault current",
  kind: "number",
});

const supplyResistance = fills(faultLoopGivens.supplyResistance, {
  name: "supply resistance",
  meaning: "internal, of the supply; 0 is a stiff one",
  kind: "number",
  zero: "real",
});

const currentLimit = fills(faultLoopGivens.currentLimit, {
  name: "current limit",
  meaning: "that the supply holds; none unless told otherwise",
  kind: "number",
  optional: true,
});

const faultCurrentEntry = defineEntry({
  id: "FAULT_CURRENT",
  family: "protection",
  purpose:
    "Steady current of a short circuit: the voltage over all resistance up to the fault, or the supply's current limit if that is smaller.",
  relation: "Ik = min(U / (Rs + Rl), Im)",
  parameters: {
    voltage,
    supplyResistance,
    loopResistance: fills(faultLoopGivens.loopResistance, {
      name: "loop resistance",
      meaning: "of both conductors up to the fault, at their hottest",
      kind: "number",
      zero: "real",
    }),
    currentLimit,
  },
  result: { shape: "number", unit: "A", meaning: "fault current" },
  example: {
    args: [360, 0.3, 3.7],
    gives: 90,
    note: "360 V over 0.3 + 3.7 Ω",
  },
  citations: ["ohm-joule"],
  validity: [
    "Steady: capacitors discharge into the fault before it, and inductance slows it.",
  ],
  read: (values) => values,
  calculate: faultCurrent,
  shows: "current",
  notes: ({ notes }) => notes,
  working: (loop, fault) => {
    const { currentLimit: limit, ...resistive } = faultLoopGivens;
    return [
      {
        title: "Fault current",
        givens:
          loop.currentLimit === undefined
            ? resistive
            : { ...resistive, currentLimit: limit },
        steps: faultCurrentSteps(loop),
        values: { ...loop, ...fault },
      },
    ];
  },
});

const fuseRatingEntry = defineEntry({
  id: "FUSE_RATING",
  family: "protection",
  purpose:
    "The next standard fuse rating at or above the load current times a factor. Its dc voltage rating must cover the supply's highest voltage.",
  relation: "In ≥ k · I",
  parameters: {
    loadCurrent: fills(fusedLoadGivens.loadCurrent, {
      name: "load current",
      meaning: "continuous, at its highest",
      kind: "number",
    }),
    factor: fills(fusedLoadGivens.factor, {
      name: "factor",
      meaning: "on the load current, 1 or more: 1.25 is common practice",
      kind: "number",
    }),
    series: {
      name: "series",
      unit: "",
      meaning: "R10 (default) or low voltage, the steps of IEC 60269-1",
      kind: "choice",
      choices: FUSE_SERIES,
      optional: true,
    },
  },
  result: { shape: "number", unit: "A", meaning: "fuse rating" },
  example: {
    args: [4.8, 1.25],
    gives: 6.3,
    note: "4.8 · 1.25 = 6 A; the next of 5, 6.3, 8",
  },
  citations: ["iso-3", "iec-60127-7", "iec-60269-1"],
  validity: [
    "A rating, not a selection: dc voltage rating, breaking capacity, time curve and ambient remain to be checked.",
    "#N/A above the series.",
  ],
  form: "depends on inputs",
  read: (values) => ({
    ...values,
    series: (values.series ?? "R10") as FuseSeries,
  }),
  calculate: fuseRating,
  shows: "rating",
  notes: ({ notes }) => notes,
  working: (load, fuse) => [
    {
      title: "Fuse rating",
      givens: fusedLoadGivens,
      steps: fuseRatingSteps(load),
      values: { ...load, ...fuse },
    },
  ],
});

const { size, temperatureC } = placeParameters;

const protectedLengthEntry = defineEntry({
  id: "PROTECTED_LENGTH",
  family: "protection",
  purpose:
    "Length of run, one way, at which a short circuit at its far end still draws the current that clears the fuse in the time wanted.",
  relation: "L = (U / Ia − Rs) / R′",
  parameters: {
    voltage,
    supplyResistance,
    currentNeeded: fills(protectedRunGivens.currentNeeded, {
      name: "current needed",
      meaning: "that clears the fuse in the time wanted, from its curve",
      kind: "number",
    }),
    size,
    temperatureC,
    ...runParameters,
    currentLimit,
  },
  result: { shape: "number", unit: "m", meaning: "length protected, one way" },
  example: {
    args: [360, 0.3, 60, 4, 20],
    gives: 661.2,
    note: "360/60 − 0.3 = 5.7 Ω; over 2 · 17.241e-9/4e-6 = 0.0086205 Ω for a metre of route",
  },
  citations: ["ohm-joule", "resistance-law", "linear-temperature"],
  validity: [
    "A bolted short circuit at the far end; an arc draws less. #N/A where no length is protected.",
  ],
  read: ({
    voltage: supplied,
    supplyResistance: internal,
    currentNeeded,
    currentLimit: limit,
    ...run
  }) => ({
    ...runFrom({ ...run, length: 1 }),
    voltage: supplied,
    supplyResistance: internal,
    currentNeeded,
    currentLimit: limit,
  }),
  calculate: protectedLength,
  shows: "protectedLength",
  notes: ({ notes }) => notes,
  working: (run, record) => {
    const metre = loopWorking({ ...run, length: 1 }, record.metre);
    const givens = Object.fromEntries(
      Object.entries(metre.givens).filter(([field]) => field !== "length"),
    );
    return [
      {
        title: "Length protected",
        givens: { ...givens, ...protectedRunGivens },
        steps: { ...oneMetreStep, ...metre.steps, ...protectedLengthSteps },
        values: {
          ...metre.values,
          voltage: run.voltage,
          supplyResistance: run.supplyResistance,
          currentNeeded: run.currentNeeded,
          resistanceOfOneMetre: record.resistanceOfOneMetre,
          resistanceLeft: record.resistanceLeft,
          protectedLength: record.protectedLength,
        },
      },
    ];
  },
});

export const protectionEntries = [
  faultCurrentEntry,
  fuseRatingEntry,
  protectedLengthEntry,
];
