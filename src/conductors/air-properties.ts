/**
 * Dry air at a temperature and an altitude: the gas of the standard atmosphere, at the standard pressure of that
 * altitude and at the temperature that the cable gives it.
 *
 * Viscosity and conductivity do not depend on pressure; density does, and with it kinematic viscosity and diffusivity.
 */
import { InputError } from "../quantities/errors.js";
import type { QuantitiesOf, Step, StepsOf } from "../quantities/steps.js";
import type { Kelvins, Metres, Pascals } from "../quantities/units.js";

export interface AirProperties {
  /** Pa·s */
  readonly viscosity: number;
  /** W/(m·K) */
  readonly airConductivity: number;
  /** kg/m³ */
  readonly airDensity: number;
  /** m²/s */
  readonly kinematicViscosity: number;
  /** m²/s */
  readonly diffusivity: number;
  readonly prandtl: number;
}

/** J/(kg·K). [standard-atmosphere] */
const GAS_CONSTANT = 287.053;
/** J/(kg·K) at 300 K; 0.7 % more at 400 K. [air-specific-heat] */
const SPECIFIC_HEAT = 1007;

const LOWEST: Metres = -5000;
const TROPOPAUSE: Metres = 11000;
const HIGHEST: Metres = 20000;

/** @throws {InputError} naming `altitude`. */
export function airPressure(altitude: Metres): Pascals {
  if (!(altitude >= LOWEST && altitude <= HIGHEST))
    throw new InputError("altitude", altitude, `${LOWEST} to ${HIGHEST} m`);
  return altitude <= TROPOPAUSE
    ? 101325 * (1 - (0.0065 * altitude) / 288.15) ** 5.25588
    : 22632.1 / Math.exp((altitude - TROPOPAUSE) / 6341.62);
}

export function airProperties(filmK: Kelvins, pressure: Pascals): AirProperties {
  const viscosity = (0.000001458 * filmK ** 1.5) / (filmK + 110.4);
  const airConductivity = (0.00264638 * filmK ** 1.5) / (filmK + 245.4 / 10 ** (12 / filmK));
  const airDensity = pressure / (GAS_CONSTANT * filmK);
  const kinematicViscosity = viscosity / airDensity;
  const diffusivity = airConductivity / (SPECIFIC_HEAT * airDensity);
  const prandtl = kinematicViscosity / diffusivity;
  return {
    viscosity,
    airConductivity,
    airDensity,
    kinematicViscosity,
    diffusivity,
    prandtl,
  };
}

export const altitudeGivens: QuantitiesOf<{ altitude: Metres }> = {
  altitude: { label: "Altitude above the sea", symbol: "z", unit: "m" },
};

export function pressureStep(altitude: Metres): Step {
  return {
    label: "Pressure of the air at that altitude",
    symbol: "p",
    unit: "Pa",
    shown: { unit: "kPa", perUnit: 0.001 },
    kind: "formula",
    formula:
      altitude <= TROPOPAUSE
        ? "101325 * (1 - 0.0065 * altitude / 288.15)^5.25588"
        : "22632.1 / exp((altitude - 11000) / 6341.62)",
    cite: "standard-atmosphere",
  };
}

export const airSteps: StepsOf<AirProperties> = {
  viscosity: {
    label: "Viscosity of the air",
    symbol: "μ",
    unit: "Pa·s",
    shown: { unit: "µPa·s", perUnit: 1e6 },
    kind: "formula",
    formula: "0.000001458 * filmK^1.5 / (filmK + 110.4)",
    cite: "standard-atmosphere",
  },
  airConductivity: {
    label: "Thermal conductivity of the air",
    symbol: "k",
    unit: "W/(m·K)",
    kind: "formula",
    formula: "0.00264638 * filmK^1.5 / (filmK + 245.4 / (10)^(12 / filmK))",
    cite: "standard-atmosphere",
  },
  airDensity: {
    label: "Density of the air",
    symbol: "ρₐ",
    unit: "kg/m³",
    kind: "formula",
    formula: "pressure / (287.053 * filmK)",
    cite: "standard-atmosphere",
  },
  kinematicViscosity: {
    label: "Kinematic viscosity of the air",
    symbol: "ν",
    unit: "m²/s",
    shown: { unit: "mm²/s", perUnit: 1e6 },
    kind: "formula",
    formula: "viscosity / airDensity",
    cite: "definition",
  },
  diffusivity: {
    label: "Thermal diffusivity of the air",
    symbol: "a",
    unit: "m²/s",
    shown: { unit: "mm²/s", perUnit: 1e6 },
    kind: "formula",
    formula: "airConductivity / (1007 * airDensity)",
    cite: "air-specific-heat",
  },
  prandtl: {
    label: "Prandtl number of the air",
    symbol: "Pr",
    unit: "1",
    kind: "formula",
    formula: "kinematicViscosity / diffusivity",
    cite: "definition",
  },
};
