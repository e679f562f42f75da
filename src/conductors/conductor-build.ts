/** How a conductor is built, and which of IEC 60228's class tables, if any, its resistance comes from. */
import { InputError } from "../quantities/errors.js";
import {
  type ClassMaterial,
  type ClassResistance,
  type ConductorClass,
  classesOf,
  classResistance,
} from "./conductor-classes.js";
import {
  type ConductorMaterial,
  conductorMaterials,
} from "./conductor-materials.js";
import type { ConductorSize } from "./conductor-section.js";

export type ConductorBuild =
  "geometric" | ConductorClass | "solid" | "stranded";

export const CONDUCTOR_BUILDS = [
  "geometric",
  "class 1",
  "class 2",
  "class 5",
  "class 5 tinned",
  "solid",
  "stranded",
] as const satisfies readonly ConductorBuild[];

export interface ConductorChoice {
  readonly size: ConductorSize;
  readonly material: ConductorMaterial;
  /** Undefined: what the size's own standard makes of it. */
  readonly build: ConductorBuild | undefined;
}

/** What the standard that a size belongs to makes of it. */
export function usualBuild(size: ConductorSize): ConductorBuild {
  switch (size.sizing) {
    case "bare metal":
      return "geometric";
    case "metric name":
      return "class 2";
    case "AWG":
      return "solid";
    case "kcmil":
      return "stranded";
  }
}

export function isClass(build: ConductorBuild): build is ConductorClass {
  return build.startsWith("class ");
}

const GEOMETRIC_BUILDS = '"geometric", "solid" or "stranded"';

/** @throws {InputError | NoAnswerError} naming `build`, or `size` where the class has no row for it. */
export function foundInTable(
  { size, material, build: asked }: ConductorChoice,
  build: ConductorClass,
): ClassResistance {
  if (size.sizing === "bare metal") {
    throw new InputError(
      "build",
      build,
      `${GEOMETRIC_BUILDS} where size is a number (for a class give the size as text, "${size.areaMm2} mm²")`,
    );
  }
  if (size.sizing !== "metric name") {
    throw new InputError(
      "build",
      build,
      `${GEOMETRIC_BUILDS} with an AWG or kcmil size (classes are of metric sizes)`,
    );
  }
  const tabled = tabledMaterial(material);
  if (tabled === undefined || !classesOf(tabled).includes(build)) {
    throw new InputError(
      "build",
      asked ?? null,
      `${allowedBuilds(tabled)} with ${material.name}${asked === undefined ? " (a metric size is class 2 unless told otherwise)" : ""}`,
    );
  }
  return classResistance(tabled, build, size.nominalMm2);
}

/** The tables hold for annealed copper and for aluminium as the standards have them, not for other figures. */
function tabledMaterial(
  material: ConductorMaterial,
): ClassMaterial | undefined {
  if (material === conductorMaterials.copper) return "copper";
  if (material === conductorMaterials.aluminium) return "aluminium";
  return undefined;
}

function allowedBuilds(tabled: ClassMaterial | undefined): string {
  const classes = tabled === undefined ? [] : classesOf(tabled);
  return [...classes.map((one) => `"${one}"`), GEOMETRIC_BUILDS].join(", ");
}
