import { conductor } from "../../src/conductors/conductor.js";
import { STANDARD_SIZES_MM2 } from "../../src/conductors/conductor-classes.js";
import { conductorMaterials } from "../../src/conductors/conductor-materials.js";
import type { CableOption, TradeRequest } from "../../src/tradeoffs/trade-request.js";

/** Invented figures of a quay-to-crawler feed; nothing here is anyone's product. */
export const cables: readonly CableOption[] = STANDARD_SIZES_MM2.filter(
  (size) => size >= 0.5 && size <= 120,
).map((nominalMm2) => ({
  material: "copper",
  size: `${nominalMm2} mm²`,
  make: {
    build: "class 2",
    temperatureC: 70,
    ambientC: 35,
    outerDiameterMm: 6 + 2 * Math.sqrt(nominalMm2),
    insulation: "PVC",
    otherMassPerMetre: 0.05,
  },
  resistancePerMetre:
    conductor({
      size: { sizing: "metric name", nominalMm2, written: `${nominalMm2} mm²` },
      material: conductorMaterials.copper,
      build: "class 2",
    }).resistancePerMetre *
    (1 + 0.00393 * 50),
  massPerMetre: 2 * 8890e-6 * nominalMm2 + 0.05,
  pricePerMetre: 0.8 + 0.2 * nominalMm2,
  ampacity: 18 * nominalMm2 ** 0.625,
}));

export const request: TradeRequest = {
  load: {
    nominal: 1500,
    light: 120,
    peak: 2400,
    lowestVoltage: 36,
    highestVoltage: 58,
  },
  length: 300,
  supplies: [120, 240, 400, 600, 800].map((voltage) => ({
    voltage,
    lowestVoltage: 0.92 * voltage,
    highestVoltage: 1.06 * voltage,
    resistance: (0.01 * voltage ** 2) / 2400,
  })),
  cables,
  stepsDown: [1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16],
  mostStages: 2,
  converter: {
    ratedPower: 1200,
    droop: 0.015,
    noLoadLoss: 0.006,
    tolerance: 0.01,
    mass: 0.9,
    price: 140,
  },
  mostInParallel: 4,
  energy: { hoursPerYear: 4000, pricePerKwh: 0.2, presentWorthFactor: 8 },
  limits: {
    loadBand: 60,
    distributionBand: undefined,
    drop: 0.1,
    mass: 60,
    cost: 12_000,
  },
};
