/**
 * From the cores of a cable to its surface: what heat meets in the insulation, and how well the surface radiates.
 *
 * One core lies in the middle of its insulation. Several cores may lie anywhere inside the outer diameter, so their
 * heat is gathered where it makes the hottest spot of all: in one round body in the middle, with the metal area of all
 * of them, its centre hotter than its edge. No arrangement of theirs comes out hotter, as long as the surface is of one
 * temperature and what lies between them conducts as the insulation does. Air does not keep the surface at quite one
 * temperature, so this is an approximation; fillers and gaps conduct less and are not counted.
 */
import type { CitationId } from "../quantities/citations.js";
import { InputError, requireAbove, requireWhole } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Quantities, Step, Steps } from "../quantities/steps.js";
import type { Metres, SquareMetres } from "../quantities/units.js";
import type { ConductorMaterial } from "./conductor-materials.js";
import { type InsulationName, bareEmissivity, insulations } from "./insulations.js";

export interface CableCover {
  readonly insulation: InsulationName;
  readonly outerDiameter: Metres;
  /** Cores that carry the current inside the one outer diameter. */
  readonly loadedCores: number;
}

export type CableSurface =
  | {
      readonly covering: "bare";
      readonly emissivity: number;
      /** K·m/W, from the metal to the surface. */
      readonly insulationResistance: 0;
    }
  | {
      readonly covering: "insulated";
      readonly emissivity: number;
      readonly insulationConductivity: number;
      readonly metalDiameter: Metres;
      readonly insulationResistance: number;
    };

/** A conductor of a nominal size may have a little less metal than its name says, so a bare one may be this much finer. */
const BARE_LEAST = 0.95;

/** @throws {InputError} naming `loadedCores`, `outerDiameter`. */
export function cableSurface(
  { insulation, outerDiameter, loadedCores }: CableCover,
  area: SquareMetres,
  material: ConductorMaterial,
): CableSurface {
  requireWhole("loadedCores", loadedCores, 1);
  requireAbove("outerDiameter", outerDiameter, 0);
  const metalDiameter = 2 * Math.sqrt((loadedCores * area) / Math.PI);
  const filled = `the ${figure(metalDiameter * 1000)} mm that the metal alone fills`;
  if (insulation === "none") {
    if (loadedCores !== 1)
      throw new InputError("loadedCores", loadedCores, '1 where insulation is "none"');
    if (outerDiameter < BARE_LEAST * metalDiameter)
      throw new InputError("outerDiameter", outerDiameter, `about ${filled}`);
    const { value: emissivity } = bareEmissivity(material);
    return { covering: "bare", emissivity, insulationResistance: 0 };
  }
  if (!(outerDiameter > metalDiameter))
    throw new InputError("outerDiameter", outerDiameter, `above ${filled}`);
  const { conductivity, emissivity } = insulations[insulation];
  return {
    covering: "insulated",
    emissivity: emissivity.value,
    insulationConductivity: conductivity.value,
    metalDiameter,
    insulationResistance:
      (Math.log(outerDiameter / metalDiameter) + (loadedCores > 1 ? 0.5 : 0)) /
      (2 * Math.PI * conductivity.value),
  };
}

export const coverGivens = {
  outerDiameter: {
    label: "Outer diameter",
    symbol: "D",
    unit: "m",
    shown: { unit: "mm", perUnit: 1000 },
  },
  loadedCores: {
    label: "Cores inside it that carry the current",
    symbol: "n",
    unit: "1",
  },
  insulation: { label: "Insulation", symbol: "insulation", unit: "" },
} satisfies Quantities;

const RESISTANCE = {
  label: "Thermal resistance from the cores to the surface",
  symbol: "T₁",
  unit: "K·m/W",
} as const;

export function surfaceSteps(
  { insulation, loadedCores }: CableCover,
  material: ConductorMaterial,
): Steps {
  if (insulation === "none")
    return {
      emissivity: emissivityStep(
        bareEmissivity(material).cite,
        "Surfaces of bare metal",
        material.origin === "own" ? "insulation" : "material",
      ),
      insulationResistance: {
        ...RESISTANCE,
        label: "Thermal resistance from the core to the surface (bare: none)",
        kind: "formula",
        formula: "0",
        cite: "definition",
      },
    };
  const { conductivity, emissivity } = insulations[insulation];
  return {
    emissivity: emissivityStep(emissivity.cite, "Surfaces of insulations", "insulation"),
    insulationConductivity: {
      label: "Thermal conductivity of the insulation",
      symbol: "k_i",
      unit: "W/(m·K)",
      kind: "lookup",
      table: "Insulations",
      key: "insulation",
      cite: conductivity.cite,
    },
    metalDiameter: {
      label:
        loadedCores > 1
          ? "Diameter that the metal of all cores would fill"
          : "Diameter of the metal",
      symbol: "d",
      unit: "m",
      shown: { unit: "mm", perUnit: 1000 },
      kind: "formula",
      formula: "2 * sqrt(loadedCores * area / pi)",
      cite: "definition",
    },
    insulationResistance: resistanceStep(loadedCores),
  };
}

function emissivityStep(cite: CitationId, table: string, key: string): Step {
  return {
    label: "Emissivity of the surface",
    symbol: "ε",
    unit: "1",
    kind: "lookup",
    table,
    key,
    cite,
  };
}

function resistanceStep(loadedCores: number): Step {
  const several = loadedCores > 1;
  const wall = "ln(outerDiameter / metalDiameter)";
  return {
    ...RESISTANCE,
    kind: "formula",
    formula: `${several ? `(${wall} + 0.5)` : wall} / (2 * pi * insulationConductivity)`,
    cite: several ? "hottest-of-several" : "cylinder-conduction",
  };
}
