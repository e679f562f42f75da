/**
 * Temperature that a conductor settles at in still air: the heat of its current and of the sun is what its surface
 * gives off.
 *
 * At a given current the cores' heat Q follows from the surface's temperature alone, since Q = n·I²·R at the conductor,
 * which is Q·T₁ hotter than the surface. Current grows with the surface's rise without end or turning back (cooling
 * grows faster than in proportion to the rise, resistance slower than the temperature above −234.5 °C), so there is one
 * balance or, above some current, none below the greatest temperature.
 */
import { NoAnswerError, requireAbove } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat, Quantities, Steps, StepsWith } from "../quantities/steps.js";
import type { Amperes, Celsius, OhmsPerMetre } from "../quantities/units.js";
import { currentAt } from "./conductor-ampacity.js";
import type { ConductorWorking } from "./conductor.js";
import {
  type CableInAir,
  type CableSetting,
  type SurfaceCooling,
  GREATEST_TEMPERATURE_C,
  cableSetting,
  factorAt,
  risingRoot,
  surfaceAt,
  surfaceCooling,
} from "./heat-balance.js";
import { balanceCaveats } from "./heat-caveats.js";
import { balanceWorking, coolingSteps, hotSteps } from "./heat-balance-steps.js";

export interface LoadedCable extends CableInAir {
  /** Current of one core. */
  readonly current: Amperes;
}

export interface ConductorTemperature {
  readonly setting: CableSetting;
  /** The current that heats alone as the given one does in the group. */
  readonly soloCurrent: Amperes;
  /** Heat per metre that resistance adds for each watt per metre through the insulation: at 1 there is no balance. */
  readonly feedback: number;
  readonly surface: SurfaceCooling;
  /** W/m, of all loaded cores. */
  readonly heat: number;
  readonly conductorTemperatureC: Celsius;
  readonly temperatureFactor: number;
  readonly hotResistance: OhmsPerMetre;
  /** W/m, given off less brought in. */
  readonly residual: number;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError | NoAnswerError} for an input out of bounds, or a current at which there is no balance. */
export function conductorTemperature(cable: LoadedCable): ConductorTemperature {
  const { current, grouping, loadedCores, material } = cable;
  requireAbove("current", current, 0);
  const setting = cableSetting(cable);
  const { core, surface, sunHeat } = setting;
  const { temperatureCoefficient } = material;

  const soloCurrent = current / grouping;
  const coldHeat = loadedCores * soloCurrent ** 2 * core.resistancePerMetre;
  const feedback = coldHeat * temperatureCoefficient * surface.insulationResistance;
  const hottest = surfaceAt(setting, GREATEST_TEMPERATURE_C);
  const greatest = currentAt(setting, hottest, GREATEST_TEMPERATURE_C);
  if (current > greatest.current) throw runaway(cable, feedback, greatest.current);

  const heatAt = ({ surfaceTemperatureC }: SurfaceCooling) =>
    (coldHeat * factorAt(surfaceTemperatureC, temperatureCoefficient)) / (1 - feedback);
  const excess = (cooled: SurfaceCooling) => cooled.cooling - sunHeat - heatAt(cooled);
  const rise = risingRoot((trial) => excess(surfaceCooling(setting, trial)), hottest.surfaceRise);

  const cooled = surfaceCooling(setting, rise);
  const heat = heatAt(cooled);
  const conductorTemperatureC = cooled.surfaceTemperatureC + heat * surface.insulationResistance;
  const temperatureFactor = factorAt(conductorTemperatureC, temperatureCoefficient);
  return {
    setting,
    soloCurrent,
    feedback,
    surface: cooled,
    heat,
    conductorTemperatureC,
    temperatureFactor,
    hotResistance: core.resistancePerMetre * temperatureFactor,
    residual: excess(cooled),
    caveats: balanceCaveats(setting, cooled, conductorTemperatureC),
  };
}

function runaway(
  { current, ambientC, grouping }: LoadedCable,
  feedback: number,
  greatest: Amperes,
): NoAnswerError {
  const grouped = grouping === 1 ? "" : ` with grouping ${figure(grouping)}`;
  const where =
    feedback < 1
      ? `below ${GREATEST_TEMPERATURE_C} °C`
      : "at any temperature, as resistance rises faster than the insulation lets heat out";
  return new NoAnswerError(
    "current",
    `thermal runaway: at ${figure(current)} A per core${grouped} in air of ${figure(ambientC)} °C heat and cooling do not balance ${where}; up to ${figure(greatest)} A, ${figure(current - greatest)} A less, they do below ${GREATEST_TEMPERATURE_C} °C`,
  );
}

export const loadedCableGivens = {
  current: { label: "Current of one core", symbol: "I", unit: "A" },
} satisfies Quantities;

const loadSteps: Steps = {
  soloCurrent: {
    label: "Current that heats as much alone",
    symbol: "I₁",
    unit: "A",
    kind: "formula",
    formula: "current / grouping",
    cite: "definition",
  },
  feedback: {
    label: "Rise of resistance by the drop in the insulation (at 1: runaway)",
    symbol: "κ",
    unit: "1",
    kind: "formula",
    formula:
      "loadedCores * soloCurrent^2 * resistancePerMetre * temperatureCoefficient * insulationResistance",
    cite: "linear-temperature",
  },
};

const foundSteps: StepsWith<"conductorTemperatureC"> = {
  heat: {
    label: "Heat of all loaded cores, at their own temperature",
    symbol: "Q",
    unit: "W/m",
    kind: "formula",
    formula:
      "loadedCores * soloCurrent^2 * resistancePerMetre * (1 + temperatureCoefficient * (surfaceTemperatureC - 20)) / (1 - feedback)",
    cite: "ohm-joule",
  },
  conductorTemperatureC: {
    label: "Temperature of the conductor",
    symbol: "θ",
    unit: "°C",
    kind: "formula",
    formula: "surfaceTemperatureC + heat * insulationResistance",
    cite: "cylinder-conduction",
  },
  ...hotSteps("conductorTemperatureC"),
  residual: {
    label: "Given off less brought in",
    symbol: "δq",
    unit: "W/m",
    kind: "formula",
    formula: "cooling - sunHeat - heat",
    cite: "definition",
  },
};

export function temperatureWorking(
  cable: LoadedCable,
  found: ConductorTemperature,
): ConductorWorking<"conductorTemperatureC"> {
  const shared = balanceWorking(cable, found.setting, found.surface);
  const { soloCurrent, feedback, heat, residual } = found;
  const { conductorTemperatureC, temperatureFactor, hotResistance } = found;
  return {
    givens: { ...loadedCableGivens, ...shared.givens },
    steps: {
      ...shared.steps,
      ...loadSteps,
      ...coolingSteps("cooling - sunHeat - heat"),
      ...foundSteps,
    },
    values: {
      ...shared.values,
      soloCurrent,
      feedback,
      heat,
      conductorTemperatureC,
      temperatureFactor,
      hotResistance,
      residual,
    },
  };
}
