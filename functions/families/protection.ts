import {
  DISCONNECTED_CIRCUITS,
  type DisconnectedCircuit,
  disconnectedGivens,
  disconnectionTime,
  disconnectionTimeSteps,
} from "../../src/protection/disconnection-times.js";
import {
  FAULT_CASES,
  type FaultCase,
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
import { NoAnswerError } from "../../src/quantities/errors.js";
import type { Caveat } from "../../src/quantities/steps.js";
import { defineEntry, fills } from "../entry.js";
import { placeParameters, runFrom, runParameters } from "../reading/conductor-run.js";
import { loopWorking } from "./conductor.js";

const voltage = fills(faultLoopGivens.voltage, {
  name: "V",
  meaning: "of the supply",
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
  parameters: {
    voltage: {
      ...voltage,
      meaning:
        "of the supply: its lowest for the least fault current, its highest for the greatest",
    },
    supplyResistance: {
      ...supplyResistance,
      meaning:
        "internal, of the supply: its greatest for the least fault current, its least for the greatest; 0 is a stiff one",
    },
    loopResistance: fills(faultLoopGivens.loopResistance, {
      name: "loop resistance",
      meaning:
        "of both conductors up to the fault: at their hottest for the least fault current, coldest for the greatest",
      kind: "number",
      zero: "real",
    }),
    currentLimit: {
      ...currentLimit,
      meaning:
        "that the supply holds, its least; none unless told otherwise; not counted for the greatest fault current",
    },
    faultCase: {
      name: "case",
      unit: "",
      meaning:
        "least (default): does the fuse clear; greatest: what it must break and the cable withstand, no current limit counted",
      kind: "choice",
      choices: FAULT_CASES,
      optional: true,
    },
  },
  result: { shape: "number", unit: "A" },
  example: {
    args: [360, 0.3, 3.7],
  },
  citations: ["ohm-joule", "iec-60269-1-gates"],
  form: "depends on inputs",
  read: (values) => ({
    ...values,
    faultCase: values.faultCase as FaultCase | undefined,
  }),
  calculate: faultCurrent,
  shows: "current",
  caveats: ({ caveats }) => caveats,
  working: (loop, fault) => {
    const { currentLimit: limit, ...resistive } = faultLoopGivens;
    return [
      {
        title: "Fault current",
        givens:
          loop.currentLimit === undefined || loop.faultCase === "greatest"
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
  parameters: {
    loadCurrent: fills(fusedLoadGivens.loadCurrent, {
      name: "load current",
      meaning: "continuous, its greatest",
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
      meaning:
        "as made (default): R10 up to 20 A, the steps of IEC 60269-1 above; or R10, or low voltage, the steps of IEC 60269-1, alone",
      kind: "choice",
      choices: FUSE_SERIES,
      optional: true,
    },
  },
  result: { shape: "number", unit: "A" },
  example: {
    args: [4.8, 1.25],
  },
  citations: ["iso-3", "iec-60127-7", "iec-60269-1"],
  form: "depends on inputs",
  read: (values) => ({
    ...values,
    series: (values.series ?? "as made") as FuseSeries,
  }),
  calculate: fuseRating,
  shows: "rating",
  caveats: ({ caveats }) => caveats,
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
  parameters: {
    voltage: { ...voltage, meaning: "of the supply, its lowest" },
    supplyResistance: {
      ...supplyResistance,
      meaning: "internal, of the supply, its greatest; 0 is a stiff one",
    },
    currentNeeded: fills(protectedRunGivens.currentNeeded, {
      name: "current needed",
      meaning: "that clears the fuse in the time wanted, the greatest of the band of its curve",
      kind: "number",
    }),
    size,
    temperatureC: {
      ...temperatureC,
      meaning: "of the conductor at the end of the fault, its hottest",
    },
    ...runParameters,
    currentLimit: {
      ...currentLimit,
      meaning: "that the supply holds, its least; none unless told otherwise",
    },
  },
  result: { shape: "number", unit: "m" },
  example: {
    args: [360, 0.3, 60, 4, 20],
  },
  citations: ["ohm-joule", "resistance-law", "linear-temperature"],
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
  caveats: ({ caveats }) => caveats,
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

const disconnectionTimeEntry = defineEntry({
  id: "DISCONNECTION_TIME",
  family: "protection",
  parameters: {
    voltage: {
      ...voltage,
      meaning:
        "nominal, from a pole to earth; of a supply that is not earthed the voltage between its poles, its highest, is on the safe side",
    },
    circuit: {
      name: "circuit",
      unit: "",
      meaning:
        "TN or TT, final or distribution; final: socket-outlets up to 63 A or fixed equipment up to 32 A; a final circuit asks for the shorter time",
      kind: "choice",
      choices: DISCONNECTED_CIRCUITS,
    },
  },
  result: {
    shape: "number",
    unit: "s",
  },
  example: {
    args: [440, "TN final"],
  },
  citations: ["iec-60364-4-41-table-41-1"],
  form: "depends on inputs",
  read: (values) => ({
    ...values,
    circuit: values.circuit as DisconnectedCircuit,
  }),
  calculate: timeAskedFor,
  shows: "time",
  caveats: ({ caveats }) => caveats,
  working: (asked, found) => [
    {
      title: "Time to disconnection",
      givens: disconnectedGivens,
      steps: disconnectionTimeSteps,
      values: { ...asked, ...found },
    },
  ],
});

/** @throws {NoAnswerError} at a voltage for which no time is asked for. */
function timeAskedFor(asked: { readonly voltage: number; readonly circuit: DisconnectedCircuit }): {
  readonly time: number;
  readonly caveats: readonly Caveat[];
} {
  const { time, caveats } = disconnectionTime(asked.voltage, asked.circuit);
  if (time !== undefined) return { time, caveats };
  const [reason] = caveats;
  throw new NoAnswerError("voltage", reason?.text ?? "no time is asked for");
}

export const protectionEntries = [
  faultCurrentEntry,
  fuseRatingEntry,
  protectedLengthEntry,
  disconnectionTimeEntry,
];
