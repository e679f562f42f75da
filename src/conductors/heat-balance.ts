/**
 * A cable in still air, one metre of it: what its surface gives off when it is so much warmer than the air.
 *
 * Conductor temperature and current both follow from the rise of the surface in closed form, so that rise is the one
 * unknown of both functions. Left out: wind, neighbours (grouping), the heat that flows along the conductor, and heat
 * in the insulation itself.
 */
import {
  InputError,
  NoAnswerError,
  requireAbove,
  requireAtLeast,
  requireFraction,
} from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import { ABSOLUTE_ZERO_C } from "../quantities/units.js";
import type { Celsius, Kelvins, Metres, Pascals } from "../quantities/units.js";
import { type AirProperties, airPressure, airProperties } from "./air-properties.js";
import { type CableCover, type CableSurface, cableSurface } from "./cable-surface.js";
import type { ConductorChoice } from "./conductor-build.js";
import { type Conductor, conductor } from "./conductor.js";
import { REFERENCE_TEMPERATURE_C } from "./conductor-materials.js";
import { type NaturalConvection, naturalConvection } from "./natural-convection.js";

export interface CableInAir extends ConductorChoice, CableCover {
  readonly ambientC: Celsius;
  /** Part of the current that is left where other cables lie beside; 1 is alone. */
  readonly grouping: number;
  readonly altitude: Metres;
  /** W/m² */
  readonly sun: number;
}

/** What does not depend on the temperature of the cable. */
export interface CableSetting {
  readonly cable: CableInAir;
  readonly core: Conductor;
  readonly surface: CableSurface;
  readonly pressure: Pascals;
  readonly ambientK: Kelvins;
  /** W/m */
  readonly sunHeat: number;
}

export interface SurfaceCooling {
  readonly surfaceRise: Kelvins;
  readonly surfaceTemperatureC: Celsius;
  readonly surfaceK: Kelvins;
  readonly filmK: Kelvins;
  readonly expansion: number;
  readonly air: AirProperties;
  readonly convecting: NaturalConvection;
  /** W/m */
  readonly radiation: number;
  /** W/m, by convection and radiation. */
  readonly cooling: number;
}

/** Below the 660 °C at which aluminium melts, far above any insulation: a balance beyond it is none. */
export const GREATEST_TEMPERATURE_C: Celsius = 600;

/** W/(m²·K⁴) [grey-radiation] */
const STEFAN_BOLTZMANN = 5.670374419e-8;
/** Part of the sun that a dark, weathered surface takes in. [common-practice] */
const SUN_ABSORBED = 0.9;

/**
 * What of a cable and its surroundings does not change with its current.
 * @throws {InputError | NoAnswerError} naming what cannot be.
 */
export function cableSetting(cable: CableInAir): CableSetting {
  const { ambientC, outerDiameter, grouping, altitude, sun } = cable;
  requireAmbient(cable);
  requireFraction("grouping", grouping);
  requireAtLeast("sun", sun, 0);
  const core = conductor(cable);
  return {
    cable,
    core,
    surface: cableSurface(cable, core.section.area, cable.material),
    pressure: airPressure(altitude),
    ambientK: ambientC - ABSOLUTE_ZERO_C,
    sunHeat: SUN_ABSORBED * outerDiameter * sun,
  };
}

function requireAmbient({ ambientC, material }: CableInAir): void {
  requireAbove("ambientC", ambientC, ABSOLUTE_ZERO_C);
  if (!(ambientC < GREATEST_TEMPERATURE_C))
    throw new InputError("ambientC", ambientC, `below ${GREATEST_TEMPERATURE_C} °C`);
  const { name, temperatureCoefficient } = material;
  if (!(factorAt(ambientC, temperatureCoefficient) > 0))
    throw new InputError(
      "ambientC",
      ambientC,
      `where the straight-line law leaves ${name} a resistance`,
    );
  if (!(factorAt(GREATEST_TEMPERATURE_C, temperatureCoefficient) > 0))
    throw new InputError(
      "material",
      temperatureCoefficient,
      `of a coefficient that leaves it a resistance up to ${GREATEST_TEMPERATURE_C} °C`,
    );
}

/** Resistance at a temperature ÷ at 20 °C. */
export function factorAt(temperatureC: Celsius, coefficient: number): number {
  return 1 + coefficient * (temperatureC - REFERENCE_TEMPERATURE_C);
}

export function surfaceCooling(
  { cable, surface, pressure, ambientK }: CableSetting,
  surfaceRise: Kelvins,
): SurfaceCooling {
  const { outerDiameter, ambientC } = cable;
  const surfaceK = ambientK + surfaceRise;
  const filmK = ambientK + surfaceRise / 2;
  const expansion = 1 / filmK;
  const air = airProperties(filmK, pressure);
  const convecting = naturalConvection({
    outerDiameter,
    surfaceRise,
    expansion,
    air,
  });
  // Factored, so that a small rise is not lost in the difference of two fourth powers.
  const radiation =
    Math.PI *
    outerDiameter *
    surface.emissivity *
    STEFAN_BOLTZMANN *
    (surfaceK ** 2 + ambientK ** 2) *
    (surfaceK + ambientK) *
    surfaceRise;
  return {
    surfaceRise,
    surfaceTemperatureC: ambientC + surfaceRise,
    surfaceK,
    filmK,
    expansion,
    air,
    convecting,
    radiation,
    cooling: convecting.convection + radiation,
  };
}

/**
 * The surface of a cable whose conductor is at a temperature.
 * @throws {NoAnswerError} naming `sun` where it alone keeps the cable above that.
 */
export function surfaceAt(setting: CableSetting, conductorC: Celsius): SurfaceCooling {
  const { cable, surface, sunHeat } = setting;
  const span = conductorC - cable.ambientC;
  const excess = (rise: Kelvins) =>
    rise + surface.insulationResistance * (surfaceCooling(setting, rise).cooling - sunHeat) - span;
  requireShade(setting, conductorC, surfaceCooling(setting, span));
  const found = surfaceCooling(setting, risingRoot(excess, span));
  requireShade(setting, conductorC, found);
  return found;
}

function requireShade(
  { cable, sunHeat }: CableSetting,
  conductorC: Celsius,
  { cooling, surfaceTemperatureC }: SurfaceCooling,
): void {
  if (cooling > sunHeat) return;
  throw new NoAnswerError(
    "sun",
    `no current keeps the conductor at ${figure(conductorC)} °C: the sun alone brings ${figure(sunHeat)} W/m, and a surface at ${figure(surfaceTemperatureC)} °C gives off ${figure(cooling)} W/m in air of ${figure(cable.ambientC)} °C`,
  );
}

/** Halvings after which a number has no digits left, with room for a root that is a small part of the range. */
const MOST_HALVINGS = 300;

/** Where a function that is below 0 at 0 and not below 0 at `high` crosses 0, to the last digit. */
export function risingRoot(of: (x: number) => number, high: number): number {
  let below = 0;
  let above = high;
  for (let halving = 0; halving < MOST_HALVINGS; halving++) {
    const middle = (below + above) / 2;
    if (middle === below || middle === above) break;
    if (of(middle) < 0) below = middle;
    else above = middle;
  }
  return above;
}
