/** The arguments that every function about a run of conductor shares, and the run they describe. */
import { CONDUCTOR_BUILDS, type ConductorBuild } from "../../src/conductors/conductor-build.js";
import { type ConductorRun, conductorLoopGivens } from "../../src/conductors/conductor-loop.js";
import {
  type ConductorMaterial,
  conductorMaterials,
  MATERIAL_NAMES,
  materialNamed,
  ownMaterial,
} from "../../src/conductors/conductor-materials.js";
import { InputError } from "../../src/quantities/errors.js";
import { fills, type ValuesOf } from "../entry.js";
import { sizeFrom } from "./size-text.js";

export const sizeParameter = {
  name: "size",
  unit: "",
  meaning:
    'Size of one conductor: a number of mm² of metal, or text like "2.5 mm²", "12 AWG", "2/0 AWG", "250 kcmil"',
  kind: "number or text",
} as const;

/** In every signature in this order, after `length`. */
export const placeParameters = {
  length: fills(conductorLoopGivens.length, {
    name: "length",
    meaning: "Length of the route, one way",
    kind: "number",
  }),
  size: sizeParameter,
  temperatureC: fills(conductorLoopGivens.temperatureC, {
    name: "temperature",
    meaning:
      "Temperature of the conductor, not of the air: the hottest for drop, loss and the least fault current; the coldest for the greatest fault current, for sharing and for stability",
    kind: "number",
    insteadOfZero: "for 0 °C type 0.001",
  }),
} as const;

/** At the end of every signature about a run. */
export const runParameters = {
  material: {
    name: "material",
    unit: "",
    meaning:
      "Annealed copper unless told otherwise; or a row of two cells: resistivity at 20 °C in Ω·m, coefficient per K",
    kind: "choice or numbers",
    choices: MATERIAL_NAMES,
    row: ["resistivity", "temperatureCoefficient"],
    optional: true,
  },
  build: {
    name: "build",
    unit: "",
    meaning:
      "Not given: geometric for a number, class 2 (IEC 60228) for a metric size, solid for AWG, stranded for kcmil. Greatest resistance: class 5 tinned for a metric size, stranded tinned for AWG",
    kind: "choice",
    choices: CONDUCTOR_BUILDS,
    optional: true,
  },
  parallel: fills(conductorLoopGivens.parallel, {
    name: "parallel",
    meaning: "Cores per pole, a whole number; 1 unless told otherwise",
    kind: "number",
    optional: true,
  }),
  conductors: fills(conductorLoopGivens.conductors, {
    name: "conductors",
    meaning:
      "Lengths in the loop: 2 out and back (taken if not given), 1 where the return is counted elsewhere",
    kind: "number",
    optional: true,
  }),
} as const;

type RunValues = ValuesOf<typeof placeParameters & typeof runParameters>;

/** A run out of a call's arguments, in SI. @throws {InputError} naming the argument. */
export function runFrom(values: RunValues): ConductorRun {
  return {
    size: sizeFrom(values.size),
    material: materialFrom(values.material),
    build: values.build as ConductorBuild | undefined,
    length: values.length,
    conductors: values.conductors ?? 2,
    parallel: values.parallel ?? 1,
    temperatureC: values.temperatureC,
  };
}

export function materialFrom(material: string | readonly number[] | undefined): ConductorMaterial {
  if (material === undefined) return conductorMaterials.copper;
  if (typeof material === "string") return materialNamed(material);
  const [resistivity, coefficient] = material;
  if (resistivity === undefined || coefficient === undefined || material.length !== 2) {
    throw new InputError(
      "material",
      `${material.length} cells`,
      "a name, or two cells: resistivity at 20 °C in Ω·m, coefficient per K",
    );
  }
  return ownMaterial(resistivity, coefficient);
}
