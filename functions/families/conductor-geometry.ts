import { busbarArea, busbarAreaSteps, flatBarGivens } from "../../src/conductors/busbar-area.js";
import {
  conductorPairGivens,
  pairCapacitance,
  pairCapacitanceSteps,
  pairInductance,
  pairInductanceSteps,
} from "../../src/conductors/conductor-pair.js";
import {
  TRACE_LAYERS,
  traceCurrent,
  traceCurrentSteps,
  traceGivens,
  type TraceLayer,
} from "../../src/conductors/trace-current.js";
import type { Quantity } from "../../src/quantities/steps.js";
import { defineEntry, type Parameter, fills } from "../entry.js";
import { placeParameters } from "../reading/conductor-run.js";

const pairParameters = {
  length: placeParameters.length,
  diameter: fills(conductorPairGivens.diameter, {
    name: "conductor diameter mm",
    meaning: "Of the metal of one conductor",
    kind: "number",
  }),
  spacing: fills(conductorPairGivens.spacing, {
    name: "spacing mm",
    meaning:
      "Centre to centre; the widest gives the most inductance and the least capacitance, the closest the other way round",
    kind: "number",
  }),
} as const satisfies Record<string, Parameter>;

const conductorInductance = defineEntry({
  id: "CONDUCTOR_INDUCTANCE",
  family: "conductor",
  parameters: pairParameters,
  result: { shape: "number", unit: "H" },
  example: {
    args: [1000, 12, 2000],
  },
  citations: ["two-wire-line"],
  read: (values) => values,
  calculate: pairInductance,
  shows: "inductance",
  caveats: ({ caveats }) => caveats,
  working: (pair, record) => [
    {
      title: "Inductance of the pair",
      givens: conductorPairGivens,
      steps: pairInductanceSteps,
      values: { ...pair, ...record },
    },
  ],
});

const RELATIVE_PERMITTIVITY: Quantity = {
  label: "Relative permittivity",
  symbol: "εr",
  unit: "1",
};

const conductorCapacitance = defineEntry({
  id: "CONDUCTOR_CAPACITANCE",
  family: "conductor",
  parameters: {
    ...pairParameters,
    relativePermittivity: fills(RELATIVE_PERMITTIVITY, {
      name: "relative permittivity",
      meaning: "Of what is around them; 1, air, unless told otherwise",
      kind: "number",
      optional: true,
    }),
  },
  result: { shape: "number", unit: "F" },
  example: {
    args: [200, 5, 50],
  },
  citations: ["two-wire-exact"],
  read: (values) => ({
    ...values,
    relativePermittivity: values.relativePermittivity ?? 1,
  }),
  calculate: pairCapacitance,
  shows: "capacitance",
  caveats: ({ caveats }) => caveats,
  working: (pair, record) => [
    {
      title: "Capacitance of the pair",
      givens: {
        ...conductorPairGivens,
        relativePermittivity: RELATIVE_PERMITTIVITY,
      },
      steps: pairCapacitanceSteps,
      values: { ...pair, ...record },
    },
  ],
});

const conductorBusbarArea = defineEntry({
  id: "CONDUCTOR_BUSBAR_AREA",
  family: "conductor",
  parameters: {
    width: fills(flatBarGivens.width, {
      name: "width mm",
      meaning: "Of the bar",
      kind: "number",
    }),
    thickness: fills(flatBarGivens.thickness, {
      name: "thickness mm",
      meaning: "Of the bar",
      kind: "number",
    }),
  },
  result: { shape: "number", unit: "mm²", perUnit: 1e6 },
  example: { args: [100, 6.3] },
  citations: [],
  read: (values) => values,
  calculate: busbarArea,
  shows: "area",
  caveats: () => [],
  working: (bar, record) => [
    {
      title: "Metal area of the bar",
      givens: flatBarGivens,
      steps: busbarAreaSteps,
      values: { ...bar, ...record },
    },
  ],
});

const conductorTraceCurrent = defineEntry({
  id: "CONDUCTOR_TRACE_CURRENT",
  family: "conductor",
  parameters: {
    width: fills(flatBarGivens.width, {
      name: "width mm",
      meaning: "Of the trace",
      kind: "number",
    }),
    thickness: fills(traceGivens.thickness, {
      name: "thickness µm",
      meaning: "Of its copper: 35 is 1 oz per square foot",
      kind: "number",
    }),
    temperatureRise: fills(traceGivens.temperatureRise, {
      name: "temperature rise",
      meaning: "Of the trace above the board around it",
      kind: "number",
    }),
    layer: {
      name: "layer",
      unit: "",
      meaning: "outer or inner",
      kind: "choice",
      choices: TRACE_LAYERS,
    },
  },
  result: { shape: "number", unit: "A" },
  example: {
    args: [0.3, 35, 10, "outer"],
  },
  citations: ["ipc-2221", "ipc-2152"],
  read: (values) => ({ ...values, layer: values.layer as TraceLayer }),
  calculate: traceCurrent,
  shows: "current",
  caveats: ({ caveats }) => caveats,
  working: (trace, record) => [
    {
      title: "Current of the trace",
      givens: traceGivens,
      steps: traceCurrentSteps,
      values: { ...trace, ...record },
    },
  ],
});

export const conductorGeometryEntries = [
  conductorInductance,
  conductorCapacitance,
  conductorBusbarArea,
  conductorTraceCurrent,
];
