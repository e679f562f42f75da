/** Mass of a run of conductor as laid: metal of all cores, and whatever else a metre of route weighs. */
import { InputError, requireAbove, requireAtLeast, requireWhole } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsWith } from "../quantities/steps.js";
import type { Kilograms, Metres } from "../quantities/units.js";
import type { ConductorMaterial } from "./conductor-materials.js";
import {
  type ConductorSection,
  conductorSection,
  type ConductorSize,
} from "./conductor-section.js";
import { materialDensity } from "./material-properties.js";

export interface WeighedRun {
  readonly size: ConductorSize;
  readonly material: ConductorMaterial;
  /** The route, one way. */
  readonly length: Metres;
  readonly parallel: number;
  readonly conductors: number;
  /** In kg for a metre of route: all that is not conductor. */
  readonly insulation: number;
}

export interface ConductorMass {
  readonly section: ConductorSection;
  /** kg/m³ */
  readonly density: number;
  readonly metalMass: Kilograms;
  readonly mass: Kilograms;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError} */
export function conductorMass(run: WeighedRun): ConductorMass {
  const { size, material, length, parallel, conductors, insulation } = run;
  requireAbove("length", length, 0);
  requireWhole("parallel", parallel, 1);
  if (conductors !== 1 && conductors !== 2)
    throw new InputError("conductors", conductors, "1 or 2");
  requireAtLeast("insulation", insulation, 0);
  const section = conductorSection(size);
  const { density } = materialDensity(material);
  const metalMass = conductors * parallel * section.area * length * density;
  const mass = metalMass + insulation * length;
  const caveats = [...section.caveats, ...notesOn(run)];
  return { section, density, metalMass, mass, caveats };
}

function notesOn({ insulation }: WeighedRun): Caveat[] {
  const caveats: Caveat[] = [
    {
      code: "without-lay",
      field: "metalMass",
      text: "straight wires: stranding and lay add about 2 %",
      cite: "nec-table-8",
    },
  ];
  if (insulation === 0)
    caveats.push({
      code: "metal-only",
      field: "mass",
      text: "metal only: no insulation, sheath or filling given",
      cite: "definition",
    });
  return caveats;
}

export const weighedRunGivens: QuantitiesOf<WeighedRun> = {
  length: { label: "Length of the route, one way", symbol: "L", unit: "m" },
  parallel: { label: "Cores in parallel per pole", symbol: "m", unit: "1" },
  conductors: { label: "Lengths in the loop", symbol: "n", unit: "1" },
  insulation: {
    label: "All that is not conductor, a metre of route",
    symbol: "m′",
    unit: "kg/m",
  },
};

/** After the steps of the section. */
export function conductorMassSteps({ material }: WeighedRun): StepsWith<"mass"> {
  return {
    density: {
      label: `Density of ${material.name}`,
      symbol: "γ",
      unit: "kg/m³",
      kind: "lookup",
      table: "densities of conductor metals",
      key: "material",
      cite: materialDensity(material).cite,
    },
    metalMass: {
      label: "Mass of the metal",
      symbol: "Mc",
      unit: "kg",
      kind: "formula",
      formula: "conductors * parallel * area * length * density",
      cite: "definition",
    },
    mass: {
      label: "Mass of the run",
      symbol: "M",
      unit: "kg",
      kind: "formula",
      formula: "metalMass + insulation * length",
      cite: "definition",
    },
  };
}
