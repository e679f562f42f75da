/**
 * What one core of a size carries alone in free air before it is hotter than it may be: less than any installation asks
 * of it, so a size that does not carry its current here is none.
 *
 * Taken as the installation tables start from: air of 30 °C, a conductor that may reach 70 °C, or the temperature that
 * its resistance is counted at where that is higher; a thin insulation; no sun, no other cable beside it. [iec-60364-5-52]
 */
import type { Amperes, Celsius, Metres } from "../quantities/units.js";
import { conductorAmpacity } from "./conductor-ampacity.js";
import type { ConductorChoice } from "./conductor-build.js";
import { conductorSection } from "./conductor-section.js";
import { GREATEST_TEMPERATURE_C } from "./heat-balance.js";

export interface FreeAirCurrent {
  readonly temperatureLimitC: Celsius;
  /** Current of one core. */
  readonly current: Amperes;
}

export const FREE_AIR_C: Celsius = 30;
const USUAL_LIMIT_C: Celsius = 70;
const INSULATION_THICKNESS: Metres = 0.8e-3;

/** @throws {InputError | NoAnswerError} as `conductorAmpacity`. */
export function freeAirCurrent(choice: ConductorChoice, temperatureC: Celsius): FreeAirCurrent {
  const { area } = conductorSection(choice.size);
  const temperatureLimitC = Math.min(GREATEST_TEMPERATURE_C, Math.max(USUAL_LIMIT_C, temperatureC));
  const { current } = conductorAmpacity({
    ...choice,
    temperatureLimitC,
    ambientC: FREE_AIR_C,
    outerDiameter: 2 * (Math.sqrt(area / Math.PI) + INSULATION_THICKNESS),
    insulation: "PVC",
    loadedCores: 1,
    grouping: 1,
    altitude: 0,
    sun: 0,
  });
  return { temperatureLimitC, current };
}
