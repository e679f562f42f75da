/**
 * Resistance of a run of conductor as laid: out and back, cores in parallel, at the temperature the conductor reaches.
 *
 * Left out: joints and terminals (a `series` item of a feed), and the heating of the conductor by its own loss.
 */
import { InputError, requireAbove, requireWhole } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import { ABSOLUTE_ZERO_C } from "../quantities/units.js";
import type { Celsius, Metres, Ohms } from "../quantities/units.js";
import type { ConductorChoice } from "./conductor-build.js";
import { type Conductor, conductor } from "./conductor.js";
import { REFERENCE_TEMPERATURE_C } from "./conductor-materials.js";

export interface ConductorRun extends ConductorChoice {
  /** The route, one way. */
  readonly length: Metres;
  /** Lengths in the loop: 2 out and back, 1 where the return is counted elsewhere. */
  readonly conductors: number;
  /** Cores side by side per pole. */
  readonly parallel: number;
  /** Temperature of the conductor, not of the air. */
  readonly temperatureC: Celsius;
}

export interface ConductorLoop {
  readonly core: Conductor;
  readonly loopLength: Metres;
  readonly referenceResistance: Ohms;
  readonly temperatureFactor: number;
  readonly resistance: Ohms;
  readonly caveats: readonly Caveat[];
}

/** How far from the reference temperature the straight-line law holds. [linear-temperature] */
const LINEAR_RANGE_KELVIN = 100;

/**
 * Resistance of a run's conductors at their temperature.
 * @throws {InputError | NoAnswerError} for an input out of bounds, or a temperature at which the law gives no resistance.
 */
export function conductorLoop(run: ConductorRun): ConductorLoop {
  const { length, conductors, parallel } = run;
  requireAbove("length", length, 0);
  if (conductors !== 1 && conductors !== 2)
    throw new InputError("conductors", conductors, "1 or 2");
  requireWhole("parallel", parallel, 1);
  requireAbove("temperatureC", run.temperatureC, ABSOLUTE_ZERO_C);
  const core = conductor(run);

  const loopLength = conductors * length;
  const referenceResistance = (core.resistancePerMetre * loopLength) / parallel;
  const temperatureFactor = temperatureFactorOf(run);
  const resistance = referenceResistance * temperatureFactor;
  if (!Number.isFinite(resistance))
    throw new InputError("length", length, "short enough to have a resistance");

  const caveats = [...core.caveats, ...linearRangeCaveats(run.temperatureC)];
  return {
    core,
    loopLength,
    referenceResistance,
    temperatureFactor,
    resistance,
    caveats,
  };
}

function temperatureFactorOf({ material, temperatureC }: ConductorRun): number {
  const { temperatureCoefficient } = material;
  const factor = 1 + temperatureCoefficient * (temperatureC - REFERENCE_TEMPERATURE_C);
  if (factor > 0) return factor;
  const limit = REFERENCE_TEMPERATURE_C - 1 / temperatureCoefficient;
  const side = temperatureCoefficient > 0 ? "above" : "below";
  throw new InputError(
    "temperatureC",
    temperatureC,
    `${side} ${limit.toFixed(1)} °C, where the straight-line law gives ${material.name} no resistance`,
  );
}

export function linearRangeCaveats(temperatureC: Celsius): Caveat[] {
  const away = Math.abs(temperatureC - REFERENCE_TEMPERATURE_C);
  if (away <= LINEAR_RANGE_KELVIN) return [];
  return [
    {
      code: "outside-linear-range",
      field: "temperatureFactor",
      text: `more than ${LINEAR_RANGE_KELVIN} K from ${REFERENCE_TEMPERATURE_C} °C: the straight-line law is for less`,
      cite: "linear-temperature",
    },
  ];
}

/** Beside the givens of the core. */
export const conductorLoopGivens: QuantitiesOf<ConductorRun> = {
  length: { label: "Length of the route, one way", symbol: "L", unit: "m" },
  conductors: { label: "Lengths in the loop", symbol: "n", unit: "1" },
  parallel: { label: "Cores in parallel per pole", symbol: "m", unit: "1" },
  temperatureC: { label: "Conductor temperature", symbol: "θ", unit: "°C" },
};

/** After the steps of the core. */
export const conductorLoopSteps: StepsOf<ConductorLoop> = {
  loopLength: {
    label: "Conductor in the loop",
    symbol: "l",
    unit: "m",
    kind: "formula",
    formula: "conductors * length",
    cite: "definition",
  },
  referenceResistance: {
    label: "Resistance of the loop at 20 °C",
    symbol: "R₂₀",
    unit: "Ω",
    kind: "formula",
    formula: "resistancePerMetre * loopLength / parallel",
    cite: "resistance-law",
  },
  temperatureFactor: {
    label: "Resistance at the conductor temperature ÷ at 20 °C",
    symbol: "k",
    unit: "1",
    kind: "formula",
    formula: "1 + temperatureCoefficient * (temperatureC - 20)",
    cite: "linear-temperature",
  },
  resistance: {
    label: "Resistance of the loop at the conductor temperature",
    symbol: "R",
    unit: "Ω",
    kind: "formula",
    formula: "referenceResistance * temperatureFactor",
    cite: "linear-temperature",
  },
};
