/** How a conductor is built, and which printed table, if any, its resistance comes from. */
import { InputError } from "../quantities/errors.js";
import {
  type ClassMaterial,
  type ConductorClass,
  type TabledResistance,
  classesOf,
  classResistance,
} from "./conductor-classes.js";
import { type ConductorMaterial, conductorMaterials } from "./conductor-materials.js";
import type { ConductorSize } from "./conductor-section.js";
import { requireTinnedWire } from "./tinned-wire.js";

/** Builds whose greatest resistance a table prints, size by size. */
export type TabledBuild = ConductorClass | "stranded tinned";

export type ConductorBuild = "geometric" | TabledBuild | "solid" | "stranded";

export const CONDUCTOR_BUILDS = [
  "geometric",
  "class 1",
  "class 2",
  "class 5",
  "class 5 tinned",
  "solid",
  "stranded",
  "stranded tinned",
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

export function isTabled(build: ConductorBuild): build is TabledBuild {
  return build === "stranded tinned" || build.startsWith("class ");
}

const GEOMETRIC_BUILDS = '"geometric", "solid" or "stranded"';

/**
 * Resistance of a size in the table of its build.
 * @throws {InputError | NoAnswerError} naming `build`, or `size` where the table has no row for it.
 */
export function foundInTable(choice: ConductorChoice, build: TabledBuild): TabledResistance {
  return build === "stranded tinned" ? foundForGauge(choice) : foundInClass(choice, build);
}

function foundForGauge({ size, material }: ConductorChoice): TabledResistance {
  if (size.sizing !== "AWG")
    throw new InputError(
      "build",
      "stranded tinned",
      "another where size is not AWG (the table of tin-plated wire is of AWG sizes; of a metric size take class 5 tinned)",
    );
  if (material !== conductorMaterials.copper)
    throw new InputError(
      "build",
      "stranded tinned",
      `${GEOMETRIC_BUILDS} with ${material.name} (the table is of copper wire)`,
    );
  return requireTinnedWire(size.gauge, size.written);
}

function foundInClass(
  { size, material, build: asked }: ConductorChoice,
  build: ConductorClass,
): TabledResistance {
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
      `${GEOMETRIC_BUILDS}, or of AWG "stranded tinned", with an AWG or kcmil size (classes are of metric sizes)`,
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

/** The class tables hold for annealed copper and for aluminium as the standards have them, not for other figures. */
export function tabledMaterial(material: ConductorMaterial): ClassMaterial | undefined {
  if (material === conductorMaterials.copper) return "copper";
  if (material === conductorMaterials.aluminium) return "aluminium";
  return undefined;
}

function allowedBuilds(tabled: ClassMaterial | undefined): string {
  const classes = tabled === undefined ? [] : classesOf(tabled);
  return [...classes.map((one) => `"${one}"`), GEOMETRIC_BUILDS].join(", ");
}
