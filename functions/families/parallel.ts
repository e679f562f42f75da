import type { LoadKind } from "../../src/parallel/bus-voltage.js";
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
import type { CellTable } from "../cells.js";
import { defineEntry } from "../entry.js";

const parallelShareEntry = defineEntry({
  id: "PARALLEL_SHARE",
  family: "parallel",
  purpose:
    "How units side by side on one bus share its load: current and share of each, and in the last row the bus voltage.",
  relation:
    "Σ (Vₖ − V) / Rₖ = I(V), no term below 0 where reverse flow is blocked",
  parameters: {
    setVoltages: {
      name: "set voltages",
      unit: "V",
      meaning: "voltage of each unit at no load",
      kind: "numbers",
      paired: true,
    },
    resistances: {
      name: "resistances",
      unit: "Ω",
      meaning:
        "output resistance or droop of each unit, its own lead to the bus included",
      kind: "numbers",
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
      meaning:
        "blocked (default): no unit is fed by the others, as behind an ideal diode; allowed",
      kind: "choice",
      choices: REVERSE_FLOWS,
      optional: true,
    },
  },
  result: {
    shape: "table",
    unit: "A and part of the sum of currents, then V",
    meaning: "current and share of each unit; last row bus voltage",
  },
  example: {
    args: [[[500, 500]], [[0.3, 0.1]], 250],
    gives: [
      [62.5, 0.25],
      [187.5, 0.75],
      [481.25, "bus V"],
    ],
    note: "(500 − 481.25)/0.3 = 62.5 A and (500 − 481.25)/0.1 = 187.5 A make 250 A",
  },
  citations: ["parallel-generators", "two-roots"],
  read: (values) => ({
    ...values,
    // The choices are these types' words.
    loadKind: (values.loadKind ?? "current") as LoadKind,
    reverseFlow: (values.reverseFlow ?? "blocked") as ReverseFlow,
  }),
  calculate: parallelShare,
  pluck: shareTable,
  notes: ({ notes }) => notes,
  working: (parallel, share) => [
    {
      title: "Bus voltage and currents of the units",
      givens: parallelShareGivens(parallel),
      steps: parallelShareSteps(parallel),
      values: parallelShareValues(parallel, share),
    },
  ],
});

function shareTable({ units, busVoltage }: ParallelShare): CellTable {
  return [
    ...units.map(({ current, share }) => [current, share ?? "–"]),
    [busVoltage, "bus V"],
  ];
}

export const parallelEntries = [parallelShareEntry];
