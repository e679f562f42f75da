import {
  conductorMass,
  conductorMassSteps,
  type WeighedRun,
  weighedRunGivens,
} from "../../src/conductors/conductor-mass.js";
import {
  conductorSizeChoice,
  type ConductorSizeChoice,
  SIZE_SERIES,
  type SizeSeries,
} from "../../src/conductors/conductor-size-choice.js";
import { FREE_AIR_C, type FreeAirCurrent } from "../../src/conductors/free-air-current.js";
import { numbersOf } from "../../src/conductors/conductor.js";
import { materialWorking } from "../../src/conductors/conductor-materials.js";
import { conductorLossGivens } from "../../src/conductors/conductor-loss.js";
import {
  economicArea,
  economicAreaSteps,
  pricedConductorGivens,
} from "../../src/conductors/economic-area.js";
import {
  faultedConductorGivens,
  withstandTime,
  withstandTimeSteps,
} from "../../src/conductors/withstand-time.js";
import type { Quantity, Step } from "../../src/quantities/steps.js";
import { defineEntry, type Working, fills } from "../entry.js";
import { materialFrom, placeParameters, runFrom, runParameters } from "../reading/conductor-run.js";
import { presentWorthParameters } from "../reading/present-worth.js";
import { sizeFrom } from "../reading/size-text.js";
import { areaWorking, lossWorking } from "./conductor.js";

const { length, size, temperatureC } = placeParameters;
const { material, build, parallel, conductors } = runParameters;

const conductorMassEntry = defineEntry({
  id: "CONDUCTOR_MASS",
  family: "conductor",
  parameters: {
    length,
    size,
    material,
    parallel,
    conductors,
    insulation: fills(weighedRunGivens.insulation, {
      name: "insulation kg/m",
      meaning: "all that is not conductor, for a metre of route; none unless told otherwise",
      kind: "number",
      optional: true,
    }),
  },
  result: { shape: "number", unit: "kg" },
  example: {
    args: [300, 1.5, undefined, undefined, undefined, 0.05],
  },
  citations: ["nbs-copper", "conductor-densities"],
  read: (values): WeighedRun => ({
    length: values.length,
    size: sizeFrom(values.size),
    material: materialFrom(values.material),
    parallel: values.parallel ?? 1,
    conductors: values.conductors ?? 2,
    insulation: values.insulation ?? 0,
  }),
  calculate: conductorMass,
  shows: "mass",
  caveats: ({ caveats }) => caveats,
  working: (run, record) => {
    const core = areaWorking(run.size, record.section);
    return [
      {
        title: "Mass of the run",
        givens: {
          ...core.givens,
          ...materialWorking(run.material, []).givens,
          ...weighedRunGivens,
        },
        steps: { ...core.steps, ...conductorMassSteps(run) },
        values: {
          ...core.values,
          ...run,
          size: core.values["size"],
          material: run.material.name,
          density: record.density,
          metalMass: record.metalMass,
          mass: record.mass,
        },
      },
    ];
  },
});

const LARGEST_DROP: Quantity = {
  label: "Largest drop allowed",
  symbol: "ΔUmax",
  unit: "V",
};

const conductorSizeEntry = defineEntry({
  id: "CONDUCTOR_SIZE",
  family: "conductor",
  parameters: {
    current: fills(conductorLossGivens.current, {
      name: "current",
      meaning: "Current of the pole, all its cores together",
      kind: "number",
    }),
    length,
    largestDrop: fills(LARGEST_DROP, {
      name: "largest drop V",
      meaning: "that the loop may drop",
      kind: "number",
    }),
    temperatureC,
    series: {
      name: "series",
      unit: "",
      meaning: "metric (default, IEC 60228) or AWG with kcmil above 4/0",
      kind: "choice",
      choices: SIZE_SERIES,
      optional: true,
    },
    material,
    build,
    parallel,
    conductors,
  },
  result: {
    shape: "row",
    unit: "size, V, W",
  },
  example: {
    args: [10, 50, 4, 70],
  },
  citations: ["iec-60228", "astm-b258", "linear-temperature", "ohm-joule", "iec-60364-5-52"],
  read: ({ current, largestDrop, series, ...values }) => ({
    // Any size: each of the series takes its place.
    ...runFrom({ ...values, size: 1 }),
    current,
    largestDrop,
    series: (series ?? "metric") as SizeSeries,
  }),
  calculate: conductorSizeChoice,
  shows: ["name", "drop", "loss"],
  caveats: ({ caveats }) => caveats,
  working: (run, choice) => {
    const loaded = lossWorking({ ...run, size: choice.size }, choice.loaded);
    return [chosenWorking(loaded, choice, run.largestDrop)];
  },
});

/** The size is no argument but what is found, so its step stands first and the printed tables are read by it. */
function chosenWorking(
  { givens, steps, values }: Working<"drop" | "loss">,
  { name, sizeNumber, freeAir }: ConductorSizeChoice,
  largestDrop: number,
): Working<"drop" | "loss"> {
  return {
    title: `Drop and loss with ${name}`,
    givens: {
      ...Object.fromEntries(Object.entries(givens).filter(([field]) => field !== "size")),
      largestDrop: LARGEST_DROP,
    },
    steps: {
      chosenSize: CHOSEN_SIZE,
      ...Object.fromEntries(
        Object.entries(steps).map(([field, step]) => [
          field,
          step.kind === "lookup" && step.key === "size" ? { ...step, key: "chosenSize" } : step,
        ]),
      ),
      drop: steps.drop,
      loss: steps.loss,
      freeAirCurrent: freeAirStep(freeAir),
    },
    values: {
      ...values,
      largestDrop,
      chosenSize: sizeNumber,
      freeAirCurrent: freeAir.current,
    },
  };
}

const CHOSEN_SIZE: Step = {
  label: "Size chosen: the smallest within the drop that carries its current in free air",
  symbol: "size",
  unit: "mm², AWG or kcmil",
  kind: "solved",
  residual: "min(0, largestDrop - drop) + min(0, freeAirCurrent - current / parallel)",
  cite: "definition",
};

/** Its working is that of the function named, which a reader can call. */
function freeAirStep({ temperatureLimitC }: FreeAirCurrent): Step {
  return {
    label: "Current of one core alone in free air",
    symbol: "I₁",
    unit: "A",
    kind: "lookup",
    table: `CONDUCTOR_AMPACITY at ${temperatureLimitC} °C, air of ${FREE_AIR_C} °C, one core, 0.8 mm of PVC`,
    key: "chosenSize",
    cite: "rayleigh-number",
  };
}

const conductorWithstandTime = defineEntry({
  id: "CONDUCTOR_WITHSTAND_TIME",
  family: "conductor",
  parameters: {
    faultCurrent: fills(faultedConductorGivens.faultCurrent, {
      name: "fault current",
      meaning: "Of one core: the greatest, and the least too where its clearing takes longer",
      kind: "number",
    }),
    size,
    startC: fills(faultedConductorGivens.startC, {
      name: "start °C",
      meaning: "Conductor temperature before the fault: its hottest in service",
      kind: "number",
      insteadOfZero: "for 0 °C type 0.001",
    }),
    endC: fills(faultedConductorGivens.endC, {
      name: "end °C",
      meaning: "That the insulation stands: PVC 160, XLPE 250; the lowest of what is near it",
      kind: "number",
      insteadOfZero: "for 0 °C type 0.001",
    }),
    material,
  },
  result: { shape: "number", unit: "s" },
  example: {
    args: [200, 1.5, 70, 160],
  },
  citations: ["iec-60364-5-54"],
  read: (values) => ({
    faultCurrent: values.faultCurrent,
    size: sizeFrom(values.size),
    startC: values.startC,
    endC: values.endC,
    material: materialFrom(values.material),
  }),
  calculate: withstandTime,
  shows: "time",
  caveats: ({ caveats }) => caveats,
  working: (fault, record) => {
    const core = areaWorking(fault.size, record.section);
    return [
      {
        title: "Time that the conductor stands the fault",
        givens: {
          ...core.givens,
          ...materialWorking(fault.material, []).givens,
          ...faultedConductorGivens,
        },
        steps: { ...core.steps, ...withstandTimeSteps },
        values: {
          ...core.values,
          faultCurrent: fault.faultCurrent,
          startC: fault.startC,
          endC: fault.endC,
          material: fault.material.name,
          ...numbersOf(record),
        },
      },
    ];
  },
});

const conductorEconomicArea = defineEntry({
  id: "CONDUCTOR_ECONOMIC_AREA",
  family: "conductor",
  parameters: {
    rmsCurrent: fills(pricedConductorGivens.rmsCurrent, {
      name: "rms current",
      meaning: "Of the pole, root mean square over the hours that count",
      kind: "number",
    }),
    hoursPerYear: fills(pricedConductorGivens.hoursPerYear, {
      name: "hours a year",
      meaning: "That the current flows",
      kind: "number",
    }),
    price: fills(pricedConductorGivens.price, {
      name: "price per kWh",
      meaning: "In the first year",
      kind: "number",
    }),
    years: presentWorthParameters.years,
    discountRate: presentWorthParameters.discountRate,
    priceSlope: fills(pricedConductorGivens.priceSlope, {
      name: "price per m per mm²",
      meaning: "By which a metre of route, the whole cable, costs more for each mm² of one core",
      kind: "number",
    }),
    temperatureC: {
      ...temperatureC,
      meaning: "Temperature of the conductor under that current: hotter asks for more metal",
    },
    material,
    conductors,
    priceRise: presentWorthParameters.priceRise,
  },
  result: {
    shape: "number",
    unit: "mm²",
    perUnit: 1e6,
  },
  example: {
    args: [1, 8760, 0.2, 10, 0, 0.2, 20],
  },
  citations: ["kelvin-law", "present-worth", "linear-temperature"],
  read: ({ material: named, ...values }) => ({
    ...values,
    material: materialFrom(named),
    conductors: values.conductors ?? 2,
    priceRise: values.priceRise ?? 0,
  }),
  calculate: economicArea,
  shows: "area",
  caveats: ({ caveats }) => caveats,
  working: (conductor, record) => {
    const figures = materialWorking(conductor.material, ["resistivity", "temperatureCoefficient"]);
    const { name, resistivity, temperatureCoefficient } = conductor.material;
    return [
      {
        title: "Economic area",
        givens: { ...figures.givens, ...pricedConductorGivens },
        steps: { ...figures.steps, ...economicAreaSteps },
        values: {
          ...conductor,
          ...record,
          material: name,
          resistivity,
          temperatureCoefficient,
        },
      },
    ];
  },
});

export const conductorChoiceEntries = [
  conductorMassEntry,
  conductorSizeEntry,
  conductorWithstandTime,
  conductorEconomicArea,
];
