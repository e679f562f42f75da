/** What a conductor's metal weighs and how it warms, for the materials for which that is published. */
import type { CitationId } from "../quantities/citations.js";
import { InputError } from "../quantities/errors.js";
import type { ConductorMaterial } from "./conductor-materials.js";

export interface MaterialDensity {
  /** In kg/m³, of the whole wire. */
  readonly density: number;
  readonly cite: CitationId;
}

const DENSITIES: Readonly<Record<string, MaterialDensity>> = {
  copper: { density: 8890, cite: "nbs-copper" },
  "hard copper": { density: 8890, cite: "conductor-densities" },
  aluminium: { density: 2703, cite: "conductor-densities" },
  "copper-clad aluminium 10 %": { density: 3320, cite: "conductor-densities" },
  "copper-clad aluminium 15 %": { density: 3630, cite: "conductor-densities" },
};

/** @throws {InputError} naming `material`. */
export function materialDensity({ name }: ConductorMaterial): MaterialDensity {
  const found = DENSITIES[name];
  if (!found)
    throw new InputError(
      "material",
      name,
      `${Object.keys(DENSITIES).join(" or ")}: a resistivity tells no density (take one of these and scale by the densities)`,
    );
  return found;
}

/** Constants of heating without loss of heat, as their standard has them; they belong together. */
export interface AdiabaticConstants {
  /** In J/(K·m³). */
  readonly heatCapacity: number;
  /** In °C below zero: where resistance would vanish on a straight line. */
  readonly zeroResistanceC: number;
  /** At 20 °C, Ω·m. */
  readonly adiabaticResistivity: number;
}

/** [iec-60364-5-54] */
const ADIABATIC: Readonly<Record<string, AdiabaticConstants>> = {
  copper: {
    heatCapacity: 3.45e6,
    zeroResistanceC: 234.5,
    adiabaticResistivity: 17.241e-9,
  },
  aluminium: {
    heatCapacity: 2.5e6,
    zeroResistanceC: 228,
    adiabaticResistivity: 28.264e-9,
  },
};

/** @throws {InputError} naming `material`. */
export function adiabaticConstants({ name }: ConductorMaterial): AdiabaticConstants {
  const found = ADIABATIC[name];
  if (!found)
    throw new InputError(
      "material",
      name,
      `${Object.keys(ADIABATIC).join(" or ")}: for others there are no adiabatic constants here (take k of their own standard: t = k² · S² / I²)`,
    );
  return found;
}
