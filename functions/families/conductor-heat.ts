import {
  ampacityWorking,
  conductorAmpacity,
  limitedCableGivens,
} from "../../src/conductors/conductor-ampacity.js";
import type { ConductorBuild } from "../../src/conductors/conductor-build.js";
import {
  conductorTemperature,
  loadedCableGivens,
  temperatureWorking,
} from "../../src/conductors/conductor-temperature.js";
import type { CableInAir } from "../../src/conductors/heat-balance.js";
import { cableGivens } from "../../src/conductors/heat-balance-steps.js";
import { INSULATION_NAMES, type InsulationName } from "../../src/conductors/insulations.js";
import { type ValuesOf, defineEntry, fills } from "../entry.js";
import { materialFrom, runParameters, sizeParameter } from "../reading/conductor-run.js";
import { sizeFrom } from "../reading/size-text.js";

/** Where the cable lies, and what it is, in both signatures in this order. */
const cableParameters = {
  ambientC: fills(cableGivens.ambientC, {
    name: "ambient",
    meaning:
      "Temperature of the air around the cable: the hottest counts, for temperature and for current",
    kind: "number",
    insteadOfZero: "for 0 °C type 0.001",
  }),
  outerDiameter: fills(cableGivens.outerDiameter, {
    name: "outer diameter mm",
    meaning: "Diameter over everything, of the surface that meets the air",
    kind: "number",
  }),
  loadedCores: fills(cableGivens.loadedCores, {
    name: "loaded cores",
    meaning:
      "Cores inside that diameter that carry the current, a whole number: 2 for out and back in one cable",
    kind: "number",
  }),
  insulation: {
    name: "insulation",
    unit: "",
    meaning: "PVC unless told otherwise; none for a bare conductor",
    kind: "choice",
    choices: INSULATION_NAMES,
    optional: true,
  },
  grouping: fills(cableGivens.grouping, {
    name: "grouping",
    meaning:
      "Grouping factor of the cables side by side, above 0 and at most 1: the smallest counts; not given: 1, alone, the best case",
    kind: "number",
    optional: true,
  }),
  altitude: fills(cableGivens.altitude, {
    name: "altitude m",
    meaning: "Above the sea, up to 20,000: the highest counts; not given: sea level, the best case",
    kind: "number",
    optional: true,
  }),
  sun: fills(cableGivens.sun, {
    name: "sun W/m²",
    meaning:
      "On the cable, about 1000 in full sun: the most counts; not given: none, the best case",
    kind: "number",
    optional: true,
  }),
  material: runParameters.material,
  build: runParameters.build,
} as const;

type CableValues = ValuesOf<typeof cableParameters & { readonly size: typeof sizeParameter }>;

/** @throws {InputError} naming the argument. */
function cableFrom(values: CableValues): CableInAir {
  return {
    size: sizeFrom(values.size),
    material: materialFrom(values.material),
    build: values.build as ConductorBuild | undefined,
    ambientC: values.ambientC,
    outerDiameter: values.outerDiameter,
    loadedCores: values.loadedCores,
    insulation: (values.insulation ?? "PVC") as InsulationName,
    grouping: values.grouping ?? 1,
    altitude: values.altitude ?? 0,
    sun: values.sun ?? 0,
  };
}

const conductorTemperatureEntry = defineEntry({
  id: "CONDUCTOR_TEMPERATURE",
  family: "conductor",
  parameters: {
    current: fills(loadedCableGivens.current, {
      name: "current",
      meaning: "Current of one core: the largest counts",
      kind: "number",
    }),
    size: sizeParameter,
    ...cableParameters,
  },
  result: { shape: "number", unit: "°C" },
  example: {
    args: [25, "4 mm²", 30, 12, 2],
  },
  citations: [
    "churchill-chu",
    "rayleigh-number",
    "grey-radiation",
    "standard-atmosphere",
    "iec-60287-resistivity",
    "linear-temperature",
    "iec-60364-5-52",
    "cda-round-bars",
    "faa-altitude",
  ],
  read: (values) => ({ ...cableFrom(values), current: values.current }),
  calculate: conductorTemperature,
  shows: "conductorTemperatureC",
  caveats: ({ caveats }) => caveats,
  working: (cable, found) => [
    {
      title: "Balance of a cable in still air",
      ...temperatureWorking(cable, found),
    },
  ],
});

const conductorAmpacityEntry = defineEntry({
  id: "CONDUCTOR_AMPACITY",
  family: "conductor",
  parameters: {
    size: sizeParameter,
    temperatureLimitC: fills(limitedCableGivens.temperatureLimitC, {
      name: "temperature limit",
      meaning:
        "Temperature that the conductor may reach: the lowest of its insulation, its terminals and what its resistance is counted at",
      kind: "number",
      insteadOfZero: "for 0 °C type 0.001",
    }),
    ...cableParameters,
  },
  result: { shape: "number", unit: "A" },
  example: {
    args: ["4 mm²", 70, 30, 12, 2],
  },
  citations: [
    "churchill-chu",
    "rayleigh-number",
    "grey-radiation",
    "standard-atmosphere",
    "iec-60287-resistivity",
    "linear-temperature",
    "iec-60364-5-52",
    "cda-round-bars",
    "faa-altitude",
  ],
  read: (values) => ({
    ...cableFrom(values),
    temperatureLimitC: values.temperatureLimitC,
  }),
  calculate: conductorAmpacity,
  shows: "current",
  caveats: ({ caveats }) => caveats,
  working: (cable, found) => [
    {
      title: "Balance of a cable in still air",
      ...ampacityWorking(cable, found),
    },
  ],
});

export const conductorHeatEntries = [conductorTemperatureEntry, conductorAmpacityEntry];
