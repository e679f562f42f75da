/** A cable of a feed as its heat balance takes it. */
import type { ConductorBuild, ConductorChoice } from "../conductors/conductor-build.js";
import { conductorMaterials, materialNamed } from "../conductors/conductor-materials.js";
import type { LoadedCable } from "../conductors/conductor-temperature.js";
import type { CableInAir } from "../conductors/heat-balance.js";
import type { InsulationName } from "../conductors/insulations.js";
import { coresPerPole, type TableField } from "../schedules/columns.js";
import type { ItemDetails } from "./judged-feed.js";

const STILL_AIR = "still air";

/** Where it lies, if its heat is not reckoned there. */
export function otherSurroundings({ words }: ItemDetails): string | undefined {
  const surroundings = words.surroundings ?? STILL_AIR;
  return surroundings === STILL_AIR ? undefined : surroundings;
}

/** What a heat balance needs and is not given. */
export function missingForHeat({ size, figures, words }: ItemDetails): readonly TableField[] {
  return [
    ...(size ? [] : (["size"] as const)),
    ...(["outerDiameter", "hottestC"] as const).filter((field) => figures[field] === undefined),
    ...(words.insulation === undefined ? (["insulation"] as const) : []),
  ];
}

/** Undefined for a cable that is given by its ohms alone. */
export function conductorOf({ size, words }: ItemDetails): ConductorChoice | undefined {
  const { material, build } = words;
  return (
    size && {
      size,
      material: material === undefined ? conductorMaterials.copper : materialNamed(material),
      build: build as ConductorBuild | undefined,
    }
  );
}

/** Current-carrying cores of one cable, out and back together. */
export function coresOf({ figures }: ItemDetails): number {
  return figures.cores ?? 2;
}

/** As it lies in still air; for one of which nothing is missing. */
export function cableInAir(details: ItemDetails): CableInAir {
  const { figures, words } = details;
  return {
    ...conductorOf(details)!,
    ambientC: figures.hottestC!,
    outerDiameter: figures.outerDiameter!,
    loadedCores: coresOf(details),
    insulation: words.insulation as InsulationName,
    grouping: figures.grouping ?? 1,
    altitude: figures.altitude ?? 0,
    sun: figures.sun ?? 0,
  };
}

/**
 * One cable of those side by side, the current of all its cores in it; for one of which nothing is missing.
 * @param current Of all of them.
 */
export function loadedCable(
  details: ItemDetails,
  inParallel: number,
  current: number,
): LoadedCable {
  const ofOneCore = current / inParallel / coresPerPole(coresOf(details));
  return { ...cableInAir(details), current: ofOneCore };
}
