/** Heat that still air takes from a long horizontal cylinder, by the correlation of Churchill and Chu. */
import type { Caveat, StepsOf } from "../quantities/steps.js";
import type { Kelvins, Metres } from "../quantities/units.js";
import type { AirProperties } from "./air-properties.js";

export interface CylinderInAir {
  readonly outerDiameter: Metres;
  /** Temperature of the surface less that of the air. */
  readonly surfaceRise: Kelvins;
  /** Thermal expansion coefficient of the air, 1/K. */
  readonly expansion: number;
  /** At the mean of surface and air. */
  readonly air: Omit<AirProperties, "viscosity" | "airDensity">;
}

export interface NaturalConvection {
  readonly rayleigh: number;
  readonly prandtlFactor: number;
  readonly nusselt: number;
  /** W/(m²·K) */
  readonly convectionCoefficient: number;
  /** W/m of cylinder. */
  readonly convection: number;
}

/** Standard gravity, m/s², exact by definition. */
const GRAVITY = 9.80665;

/** The range of the correlation. [churchill-chu] */
const LEAST_RAYLEIGH = 1e-5;
const GREATEST_RAYLEIGH = 1e12;

export function naturalConvection({
  outerDiameter,
  surfaceRise,
  expansion,
  air,
}: CylinderInAir): NaturalConvection {
  const { kinematicViscosity, diffusivity, airConductivity, prandtl } = air;
  const rayleigh =
    (GRAVITY * expansion * surfaceRise * outerDiameter ** 3) / (kinematicViscosity * diffusivity);
  const prandtlFactor = (1 + (0.559 / prandtl) ** (9 / 16)) ** (8 / 27);
  const nusselt = (0.6 + (0.387 * rayleigh ** (1 / 6)) / prandtlFactor) ** 2;
  const convectionCoefficient = (nusselt * airConductivity) / outerDiameter;
  const convection = Math.PI * outerDiameter * convectionCoefficient * surfaceRise;
  return {
    rayleigh,
    prandtlFactor,
    nusselt,
    convectionCoefficient,
    convection,
  };
}

export function convectionCaveats({ rayleigh }: NaturalConvection): Caveat[] {
  if (rayleigh >= LEAST_RAYLEIGH && rayleigh <= GREATEST_RAYLEIGH) return [];
  return [
    {
      code: "outside-correlation",
      field: "nusselt",
      text: "the correlation of the convection is for Ra from 1e-5 to 1e12",
      cite: "churchill-chu",
    },
  ];
}

export const convectionSteps: StepsOf<NaturalConvection> = {
  rayleigh: {
    label: "Rayleigh number",
    symbol: "Ra",
    unit: "1",
    kind: "formula",
    formula:
      "9.80665 * expansion * surfaceRise * outerDiameter^3 / (kinematicViscosity * diffusivity)",
    cite: "rayleigh-number",
  },
  prandtlFactor: {
    label: "Divisor of the correlation, by Prandtl number",
    symbol: "f",
    unit: "1",
    kind: "formula",
    formula: "(1 + (0.559 / prandtl)^(9 / 16))^(8 / 27)",
    cite: "churchill-chu",
  },
  nusselt: {
    label: "Nusselt number of the horizontal cylinder",
    symbol: "Nu",
    unit: "1",
    kind: "formula",
    formula: "(0.6 + 0.387 * rayleigh^(1 / 6) / prandtlFactor)^2",
    cite: "churchill-chu",
  },
  convectionCoefficient: {
    label: "Coefficient of convection",
    symbol: "h",
    unit: "W/(m²·K)",
    kind: "formula",
    formula: "nusselt * airConductivity / outerDiameter",
    cite: "rayleigh-number",
  },
  convection: {
    label: "Heat by convection",
    symbol: "q_c",
    unit: "W/m",
    kind: "formula",
    formula: "pi * outerDiameter * convectionCoefficient * surfaceRise",
    cite: "rayleigh-number",
  },
};
