/**
 * Current that brings a conductor in still air to a temperature, and no further: the exact inverse of
 * `conductor-temperature.ts`, over the same balance.
 */
import { InputError, NoAnswerError, requireAbove } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat, Quantities, StepsWith } from "../quantities/steps.js";
import { ABSOLUTE_ZERO_C } from "../quantities/units.js";
import type { Amperes, Celsius, Kelvins, OhmsPerMetre } from "../quantities/units.js";
import type { ConductorWorking } from "./conductor.js";
import {
  type CableInAir,
  type CableSetting,
  type SurfaceCooling,
  GREATEST_TEMPERATURE_C,
  cableSetting,
  factorAt,
  surfaceAt,
} from "./heat-balance.js";
import { balanceCaveats } from "./heat-caveats.js";
import { balanceWorking, coolingSteps, hotSteps } from "./heat-balance-steps.js";

export interface LimitedCable extends CableInAir {
  /** Temperature that the conductor may reach. */
  readonly temperatureLimitC: Celsius;
}

export interface CableCurrent {
  /** W/m, of all loaded cores. */
  readonly heat: number;
  readonly temperatureFactor: number;
  readonly hotResistance: OhmsPerMetre;
  /** What one core could carry alone. */
  readonly soloCurrent: Amperes;
  /** Current of one core in the group. */
  readonly current: Amperes;
}

export interface ConductorAmpacity extends CableCurrent {
  readonly setting: CableSetting;
  readonly surface: SurfaceCooling;
  /** Rise of the conductor as found less as asked. */
  readonly residual: Kelvins;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError | NoAnswerError} for an input out of bounds, or where no current keeps the limit. */
export function conductorAmpacity(cable: LimitedCable): ConductorAmpacity {
  const { temperatureLimitC, ambientC } = cable;
  const setting = cableSetting(cable);
  requireAbove("temperatureLimitC", temperatureLimitC, ABSOLUTE_ZERO_C);
  if (temperatureLimitC > GREATEST_TEMPERATURE_C)
    throw new InputError(
      "temperatureLimitC",
      temperatureLimitC,
      `at most ${GREATEST_TEMPERATURE_C} °C`,
    );
  if (temperatureLimitC <= ambientC)
    throw new NoAnswerError(
      "temperatureLimitC",
      `no current can be carried: the limit of ${figure(temperatureLimitC)} °C is not above the air's ${figure(ambientC)} °C`,
    );
  const surface = surfaceAt(setting, temperatureLimitC);
  const { insulationResistance } = setting.surface;
  return {
    ...currentAt(setting, surface, temperatureLimitC),
    setting,
    surface,
    residual:
      surface.surfaceRise +
      insulationResistance * (surface.cooling - setting.sunHeat) -
      temperatureLimitC +
      ambientC,
    caveats: balanceCaveats(setting, surface, temperatureLimitC),
  };
}

/** The current at which the surface gives off what the cores bring in. */
export function currentAt(
  { cable, core, sunHeat }: CableSetting,
  { cooling }: SurfaceCooling,
  conductorC: Celsius,
): CableCurrent {
  const { material, loadedCores, grouping } = cable;
  const heat = cooling - sunHeat;
  const temperatureFactor = factorAt(conductorC, material.temperatureCoefficient);
  const hotResistance = core.resistancePerMetre * temperatureFactor;
  const soloCurrent = Math.sqrt(heat / (loadedCores * hotResistance));
  const current = grouping * soloCurrent;
  return { heat, temperatureFactor, hotResistance, soloCurrent, current };
}

export const limitedCableGivens = {
  temperatureLimitC: {
    label: "Temperature that the conductor may reach",
    symbol: "θ",
    unit: "°C",
  },
} satisfies Quantities;

const currentSteps: StepsWith<"current"> = {
  heat: {
    label: "Heat that all loaded cores may make",
    symbol: "Q",
    unit: "W/m",
    kind: "formula",
    formula: "cooling - sunHeat",
    cite: "definition",
  },
  ...hotSteps("temperatureLimitC"),
  soloCurrent: {
    label: "Current of one core, alone",
    symbol: "I₁",
    unit: "A",
    kind: "formula",
    formula: "sqrt(heat / (loadedCores * hotResistance))",
    cite: "ohm-joule",
  },
  current: {
    label: "Current of one core, in the group",
    symbol: "I",
    unit: "A",
    kind: "formula",
    formula: "grouping * soloCurrent",
    cite: "definition",
  },
  residual: {
    label: "Rise of the conductor as found less as asked",
    symbol: "δθ",
    unit: "K",
    kind: "formula",
    formula:
      "surfaceRise + insulationResistance * (cooling - sunHeat) - temperatureLimitC + ambientC",
    cite: "definition",
  },
};

export function ampacityWorking(
  cable: LimitedCable,
  found: ConductorAmpacity,
): ConductorWorking<"current"> {
  const shared = balanceWorking(cable, found.setting, found.surface);
  const { heat, temperatureFactor, hotResistance } = found;
  const { soloCurrent, current, residual } = found;
  return {
    givens: { ...shared.givens, ...limitedCableGivens },
    steps: {
      ...shared.steps,
      ...coolingSteps(
        "surfaceRise + insulationResistance * (cooling - sunHeat) - temperatureLimitC + ambientC",
      ),
      ...currentSteps,
    },
    values: {
      ...shared.values,
      heat,
      temperatureFactor,
      hotResistance,
      soloCurrent,
      current,
      residual,
    },
  };
}
