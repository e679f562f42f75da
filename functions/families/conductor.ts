import {
  type ConductorLoop,
  type ConductorRun,
  conductorLoop,
  conductorLoopGivens,
  conductorLoopSteps,
} from "../../src/conductors/conductor-loop.js";
import {
  type ConductorLoss,
  type LoadedRun,
  conductorLoss,
  conductorLossGivens,
  conductorLossSteps,
} from "../../src/conductors/conductor-loss.js";
import {
  type ConductorSection,
  type ConductorSize,
  conductorSection,
  sectionGivens,
  sectionSteps,
  sizeAsGiven,
} from "../../src/conductors/conductor-section.js";
import { conductorWorking, numbersOf } from "../../src/conductors/conductor.js";
import {
  type DistributedRun,
  distributedDrop,
  distributedGivens,
  distributedSteps,
} from "../../src/conductors/distributed-load.js";
import { InputError } from "../../src/quantities/errors.js";
import { type Working, defineEntry, fills } from "../entry.js";
import {
  placeParameters,
  runFrom,
  runParameters,
  sizeParameter,
} from "../reading/conductor-run.js";
import { sizeFrom } from "../reading/size-text.js";

const conductorArea = defineEntry({
  id: "CONDUCTOR_AREA",
  family: "conductor",
  parameters: { size: sizeParameter },
  result: { shape: "number", unit: "mm²", perUnit: 1e6 },
  example: {
    args: ["4/0 AWG"],
  },
  citations: ["astm-b258", "iec-60228"],
  read: ({ size }) => sizeFrom(size),
  calculate: conductorSection,
  shows: "area",
  caveats: ({ caveats }) => caveats,
  working: (size, section) => [areaWorking(size, section)],
});

const conductorResistance = defineEntry({
  id: "CONDUCTOR_RESISTANCE",
  family: "conductor",
  parameters: { ...placeParameters, ...runParameters },
  result: { shape: "number", unit: "Ω" },
  example: {
    args: [350, "4 mm²", 40],
  },
  citations: ["iec-60228", "resistance-law", "linear-temperature"],
  read: runFrom,
  calculate: conductorLoop,
  shows: "resistance",
  caveats: ({ caveats }) => caveats,
  working: (run, loop) => [loopWorking(run, loop)],
});

const lossParameters = {
  current: fills(conductorLossGivens.current, {
    name: "current",
    meaning: "Current of the pole, all its cores together",
    kind: "number",
  }),
  ...placeParameters,
  ...runParameters,
} as const;

const conductorDrop = defineEntry({
  id: "CONDUCTOR_DROP",
  family: "conductor",
  parameters: lossParameters,
  result: { shape: "number", unit: "V" },
  example: {
    args: [10, 50, "10 mm²", 70],
  },
  citations: ["iec-60228", "linear-temperature", "ohm-joule"],
  read: (values) => ({ ...runFrom(values), current: values.current }),
  calculate: conductorLoss,
  shows: "drop",
  caveats: ({ caveats }) => caveats,
  working: (run, loss) => [lossWorking(run, loss)],
});

const conductorLossEntry = defineEntry({
  id: "CONDUCTOR_LOSS",
  family: "conductor",
  parameters: lossParameters,
  result: {
    shape: "number",
    unit: "W",
  },
  example: {
    args: [10, 50, "10 mm²", 70],
  },
  citations: ["iec-60228", "linear-temperature", "ohm-joule"],
  read: (values) => ({ ...runFrom(values), current: values.current }),
  calculate: conductorLoss,
  shows: "loss",
  caveats: ({ caveats }) => caveats,
  working: (run, loss) => [lossWorking(run, loss)],
});

const distributedDropEntry = defineEntry({
  id: "CONDUCTOR_DROP_DISTRIBUTED",
  family: "conductor",
  parameters: {
    currentPerMetre: fills(distributedGivens.currentPerMetre, {
      name: "current per metre",
      meaning: "Drawn from each metre of the route",
      kind: "number",
    }),
    ...placeParameters,
    nearVoltage: fills(distributedGivens.nearVoltage, {
      name: "near voltage",
      meaning: "Of the near end, for a run that is fed from both ends",
      kind: "number",
      optional: true,
    }),
    farVoltage: fills(distributedGivens.farVoltage, {
      name: "far voltage",
      meaning: "Of the far end, for a run that is fed from both ends",
      kind: "number",
      optional: true,
    }),
    place: fills(distributedGivens.place, {
      name: "at",
      meaning: "Distance from the near end; where the voltage is lowest unless told otherwise",
      kind: "number",
      optional: true,
    }),
    ...runParameters,
  },
  result: { shape: "number", unit: "V" },
  example: {
    args: [0.1, 200, "10 mm²", 70],
  },
  citations: ["spread-load", "iec-60228", "linear-temperature", "ohm-joule"],
  read: ({ currentPerMetre, nearVoltage, farVoltage, place, ...run }): DistributedRun => ({
    ...runFrom(run),
    currentPerMetre,
    ends: endsFrom(nearVoltage, farVoltage),
    place,
  }),
  calculate: distributedDrop,
  shows: "drop",
  caveats: ({ caveats }) => caveats,
  working: (run, drop) => {
    const { givens, steps, values } = loopWorking(run, drop.loop);
    const { currentPerMetre, nearVoltage, farVoltage, place } = distributedGivens;
    return [
      {
        title: "Drop of a run loaded along its length",
        givens: {
          ...givens,
          currentPerMetre,
          ...(run.ends && { nearVoltage, farVoltage }),
          ...(run.place !== undefined && { place }),
        },
        steps: { ...steps, ...distributedSteps(run) },
        values: {
          ...values,
          ...run.ends,
          ...numbersOf(drop),
          currentPerMetre: run.currentPerMetre,
        },
      },
    ];
  },
});

/** Both ends or neither. @throws {InputError} naming the one that is missing. */
function endsFrom(nearVoltage: number | undefined, farVoltage: number | undefined) {
  if (nearVoltage === undefined && farVoltage === undefined) return undefined;
  if (nearVoltage === undefined)
    throw new InputError("nearVoltage", null, "given where the far end's voltage is");
  if (farVoltage === undefined)
    throw new InputError("farVoltage", null, "given where the near end's voltage is");
  return { nearVoltage, farVoltage };
}

/** Steps of one core's area, for whatever goes on from it. */
export function areaWorking(size: ConductorSize, section: ConductorSection): Working<"area"> {
  return {
    title: "Metal area of one conductor",
    givens: sectionGivens(section),
    steps: sectionSteps[section.sizing],
    values: { size: sizeAsGiven(size), ...numbersOf(section) },
  };
}

/** Steps of a run's resistance, for whatever goes on from it. */
export function loopWorking(run: ConductorRun, loop: ConductorLoop): Working<"resistance"> {
  const core = conductorWorking(loop.core);
  return {
    title: "Resistance of the run",
    givens: { ...core.givens, ...conductorLoopGivens },
    steps: { ...core.steps, ...conductorLoopSteps },
    values: { ...core.values, ...numbersOf(run), ...numbersOf(loop) },
  };
}

/** Steps of a loaded run, for whatever goes on from it. */
export function lossWorking(run: LoadedRun, loss: ConductorLoss): Working<"drop" | "loss"> {
  const { givens, steps, values } = loopWorking(run, loss);
  return {
    title: "Drop and loss of the run",
    givens: { ...givens, ...conductorLossGivens },
    steps: { ...steps, ...conductorLossSteps },
    values,
  };
}

export const conductorEntries = [
  conductorArea,
  conductorResistance,
  conductorDrop,
  distributedDropEntry,
  conductorLossEntry,
];
