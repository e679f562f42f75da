/** Cables in still air for the tests of temperature and ampacity. */
import fc from "fast-check";
import { conductorMaterials } from "../../src/conductors/conductor-materials.js";
import type { ConductorSize } from "../../src/conductors/conductor-section.js";
import type { CableInAir } from "../../src/conductors/heat-balance.js";
import { INSULATION_NAMES } from "../../src/conductors/insulations.js";

export const metal = (areaMm2: number): ConductorSize => ({
  sizing: "bare metal",
  areaMm2,
});

export const metric = (nominalMm2: number): ConductorSize => ({
  sizing: "metric name",
  nominalMm2,
  written: `${nominalMm2} mm²`,
});

export const cable: CableInAir = {
  size: metal(4),
  material: conductorMaterials.copper,
  build: undefined,
  ambientC: 30,
  outerDiameter: 0.012,
  loadedCores: 2,
  insulation: "PVC",
  grouping: 1,
  altitude: 0,
  sun: 0,
};

/** Evenly spread, unlike `fc.double`. */
export function spread(least: number, most: number): fc.Arbitrary<number> {
  return fc
    .noBias(fc.integer({ min: 0, max: 1_000_000 }))
    .map((drawn) => least + ((most - least) * drawn) / 1_000_000);
}

/** From thin wires to heavy cables, hot and cold, low and high, in shade and sun. */
export const cables: fc.Arbitrary<CableInAir> = fc
  .record({
    areaMm2: spread(-1, 2.7).map((power) => 10 ** power),
    wider: spread(1.05, 4),
    cores: fc.integer({ min: 1, max: 5 }),
    insulation: fc.constantFrom(...INSULATION_NAMES),
    ambientC: spread(-40, 70),
    grouping: spread(0.3, 1),
    altitude: spread(-400, 19000),
    sun: fc.oneof(fc.constant(0), spread(1, 1100)),
    material: fc.constantFrom(...Object.values(conductorMaterials)),
  })
  .map(({ areaMm2, wider, cores, ...drawn }) => {
    const loadedCores = drawn.insulation === "none" ? 1 : cores;
    const filled = 2 * Math.sqrt((loadedCores * areaMm2) / Math.PI) * 1e-3;
    return {
      ...drawn,
      size: metal(areaMm2),
      build: undefined,
      loadedCores,
      outerDiameter: filled * wider,
    };
  });
