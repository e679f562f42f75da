import type { LoadKind } from "../../src/parallel/bus-voltage.js";
import { likeConvertersGivens } from "../../src/parallel/like-converters.js";
import {
  parallelShareGivens,
  parallelShareSteps,
  parallelShareValues,
} from "../../src/parallel/parallel-share-steps.js";
import {
  LOAD_KINDS,
  type ParallelShare,
  REVERSE_FLOWS,
  type ReverseFlow,
  parallelShare,
} from "../../src/parallel/parallel-share.js";
import {
  parallelConverters,
  parallelConvertersSteps,
} from "../../src/parallel/parallel-converters.js";
import { parallelWorst, parallelWorstSteps } from "../../src/parallel/parallel-worst.js";
import type { Quantities } from "../../src/quantities/steps.js";
import type { CellTable } from "../cells.js";
import { defineEntry, type Parameter, type ShownStep, fills } from "../entry.js";

const parallelShareEntry = defineEntry({
  id: "PARALLEL_SHARE",
  family: "parallel",
  parameters: {
    setVoltages: {
      name: "set voltages",
      unit: "V",
      meaning: "voltage of each unit at no load",
      kind: "numbers",
      each: "setVoltage",
      paired: true,
    },
    resistances: {
      name: "resistances",
      unit: "Ω",
      meaning:
        "output resistance or droop of each unit, its own lead to the bus included: coldest, the least, shares worst; hottest sags most",
      kind: "numbers",
      each: "resistance",
      paired: true,
    },
    load: {
      name: "load",
      unit: "A, W or Ω by the load kind",
      meaning: "load on the bus; 0 A or 0 W is no load",
      kind: "number",
      zero: "real",
    },
    loadKind: {
      name: "load kind",
      unit: "",
      meaning: "current (default), power or resistance",
      kind: "choice",
      choices: LOAD_KINDS,
      optional: true,
    },
    reverseFlow: {
      name: "reverse flow",
      unit: "",
      meaning: "blocked (default): no unit is fed by the others, as behind an ideal diode; allowed",
      kind: "choice",
      choices: REVERSE_FLOWS,
      optional: true,
    },
  },
  result: {
    shape: "table",
    unit: "A and part of the sum of currents, then V",
  },
  example: {
    args: [[[500, 500]], [[0.3, 0.1]], 250],
  },
  citations: ["parallel-generators", "two-roots"],
  read: (values) => ({
    ...values,
    // The choices are these types' words.
    loadKind: (values.loadKind ?? "current") as LoadKind,
    reverseFlow: (values.reverseFlow ?? "blocked") as ReverseFlow,
  }),
  calculate: parallelShare,
  cells: shareTable,
  cellOf: shareStep,
  caveats: ({ caveats }) => caveats,
  working: (parallel, share) => [
    {
      title: "Bus voltage and currents of the units",
      givens: parallelShareGivens(parallel),
      steps: parallelShareSteps(parallel),
      values: parallelShareValues(parallel, share),
    },
  ],
});

function shareTable({ converters, busVoltage }: ParallelShare): CellTable {
  return [
    ...converters.map(({ current, share }) => [current, share ?? "–"]),
    [busVoltage, "bus V"],
  ];
}

function shareStep({ converters }: ParallelShare, row: number, column: number): ShownStep {
  if (row === converters.length) return { working: 0, step: "busVoltage" };
  const step = column === 0 ? "current" : "share";
  return { working: 0, step: `${step}${row + 1}` };
}

const likeConvertersParameters = {
  setVoltage: fills(likeConvertersGivens.setVoltage, {
    name: "set V",
    meaning: "voltage of one unit at no load, its highest",
    kind: "number",
  }),
  mismatch: fills(likeConvertersGivens.mismatch, {
    name: "mismatch",
    meaning: "± part of set V between units, its greatest; 0 is none",
    kind: "number",
    zero: "real",
  }),
  outputResistance: fills(likeConvertersGivens.outputResistance, {
    name: "output resistance",
    meaning:
      "of one unit, droop and its own lead to the bus included, at its coldest: the least shares worst",
    kind: "number",
  }),
  resistanceMismatch: fills(likeConvertersGivens.resistanceMismatch, {
    name: "resistance mismatch",
    meaning: "± part of output resistance between units, its greatest; 0 is none",
    kind: "number",
    zero: "real",
  }),
} as const satisfies Record<string, Parameter>;

const loadCurrent = fills(likeConvertersGivens.load, {
  name: "load A",
  meaning: "current of the load, its greatest",
  kind: "number",
});

/** Beside those of like units. */
const countGivens = {
  rating: { label: "Rating of one unit", symbol: "Ir", unit: "A" },
  spareConverters: { label: "Spare units", symbol: "s", unit: "1" },
  converters: { label: "Units in parallel", symbol: "n", unit: "1" },
} satisfies Quantities;

const parallelConvertersEntry = defineEntry({
  id: "PARALLEL_UNITS",
  family: "parallel",
  parameters: {
    load: loadCurrent,
    rating: fills(countGivens.rating, {
      name: "unit rating A",
      meaning: "continuous, of one unit, its least: at its hottest",
      kind: "number",
    }),
    ...likeConvertersParameters,
    spareConverters: fills(countGivens.spareConverters, {
      name: "spare units",
      meaning: "units that may be lost; none unless told otherwise",
      kind: "number",
      optional: true,
    }),
  },
  result: { shape: "number", unit: "1" },
  example: {
    args: [200, 70, 54, 0.001, 0.01, 0, 1],
  },
  citations: ["parallel-generators"],
  read: (values) => ({ ...values, spareConverters: values.spareConverters ?? 0 }),
  calculate: parallelConverters,
  shows: "converters",
  caveats: ({ caveats }) => caveats,
  working: (rated, count) => [
    {
      title: "Units needed",
      givens: {
        ...likeConvertersGivens,
        rating: countGivens.rating,
        spareConverters: countGivens.spareConverters,
      },
      steps: parallelConvertersSteps(rated),
      values: { ...rated, ...count },
    },
  ],
});

const parallelWorstEntry = defineEntry({
  id: "PARALLEL_WORST",
  family: "parallel",
  parameters: {
    load: loadCurrent,
    converters: fills(countGivens.converters, {
      name: "units",
      meaning: "whole number, the fewest that are on",
      kind: "number",
    }),
    ...likeConvertersParameters,
    reverseFlow: {
      name: "reverse flow",
      unit: "",
      meaning: "blocked (default), or allowed",
      kind: "choice",
      choices: REVERSE_FLOWS,
      optional: true,
    },
  },
  result: { shape: "number", unit: "A" },
  example: {
    args: [200, 4, 54, 0.001, 0.01, 0],
  },
  citations: ["parallel-generators"],
  read: (values) => ({
    ...values,
    reverseFlow: (values.reverseFlow ?? "blocked") as ReverseFlow,
  }),
  calculate: parallelWorst,
  shows: "worstCurrent",
  caveats: ({ caveats }) => caveats,
  working: (parallel, worst) => [
    {
      title: "Worst-placed unit",
      givens: {
        ...likeConvertersGivens,
        converters: countGivens.converters,
      },
      steps: parallelWorstSteps(parallel),
      values: { ...parallel, ...worst },
    },
  ],
});

export const parallelEntries = [parallelShareEntry, parallelConvertersEntry, parallelWorstEntry];
