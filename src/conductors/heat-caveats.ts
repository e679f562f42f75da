/** What the reader of a balance should doubt: outside the range of a source, or resting on an assumption. */
import type { Caveat } from "../quantities/steps.js";
import { figure } from "../quantities/figures.js";
import type { Celsius, Metres, SquareMetres } from "../quantities/units.js";
import type { CableCover } from "./cable-surface.js";
import { linearRangeCaveats } from "./conductor-loop.js";
import type { CableInAir, CableSetting, SurfaceCooling } from "./heat-balance.js";
import { insulations } from "./insulations.js";
import { convectionCaveats } from "./natural-convection.js";

/** Stranding makes a bare conductor about 15 % wider than a solid one. */
const BARE_USUAL = 1.25;

/** From here on a bare round bar is given more current than the formula for such bars, by 8 % at 30 mm. [cda-round-bars] */
const THICK_BARE: Metres = 0.03;
/** From here on thin air is worth a word on how it is counted. */
const HIGH_ALTITUDE: Metres = 3000;

export function balanceCaveats(
  { cable, core }: CableSetting,
  { convecting }: SurfaceCooling,
  conductorC: Celsius,
): Caveat[] {
  return [
    ...core.caveats,
    ...surfaceCaveats(cable, core.section.area, conductorC),
    ...convectionCaveats(convecting),
    ...linearRangeCaveats(conductorC),
    ...settingCaveats(cable),
  ];
}

function settingCaveats(cable: CableInAir): Caveat[] {
  const { sun, grouping, altitude, loadedCores } = cable;
  const about = (code: string, field: string, text: string): Caveat => ({
    code,
    field,
    text,
    cite: "common-practice",
  });
  return [
    about(
      "still-air",
      "cooling",
      "for a cable stretched out in still, free air: on a drum, coiled, enclosed, buried or in a loom it gets hotter, and the air around it must stay at the ambient temperature",
    ),
    about(
      "local-code",
      "cooling",
      "the installation tables of the local code govern what may be installed; have it checked by a licensed person",
    ),
    ...(sun === 0 ? [about("no-sun", "sunHeat", "no sun: full sun is about 1000 W/m²")] : []),
    ...(grouping === 1
      ? [
          about(
            "alone",
            "cooling",
            `no other loaded cable beside it${loadedCores === 1 ? ": its own return against it already leaves 5 to 10 % less" : ""}`,
          ),
        ]
      : []),
    ...(altitude === 0 ? [about("sea-level", "pressure", "air pressure of sea level")] : []),
    ...(altitude >= HIGH_ALTITUDE ? [THIN_AIR] : []),
  ];
}

const THIN_AIR: Caveat = {
  code: "thin-air",
  field: "pressure",
  text: "on the unsafe side for thin wires: at 6096 m (20,000 ft) an AWG 14 wire keeps 0.93 of its current here, 0.91 by the curve for aircraft wire",
  cite: "faa-altitude",
};

const THICK_BAR: Caveat = {
  code: "thick-bare",
  field: "cooling",
  text: "on the unsafe side for thick bare bars: a copper rod of 50 mm gets 11 % more current here than by the formula for such bars",
  cite: "cda-round-bars",
};

function surfaceCaveats(
  { insulation, outerDiameter, loadedCores }: CableCover,
  area: SquareMetres,
  conductorC: Celsius,
): Caveat[] {
  const caveats: Caveat[] = [];
  if (insulation === "none") {
    const solid = 2 * Math.sqrt(area / Math.PI);
    if (outerDiameter > BARE_USUAL * solid)
      caveats.push({
        code: "wide-for-bare",
        field: "cooling",
        text: `bare metal of this size is about ${figure(solid * 1000)} mm across: a wider surface cools better only if the metal is hollow or flat`,
        cite: "common-practice",
      });
    if (outerDiameter >= THICK_BARE) caveats.push(THICK_BAR);
    return caveats;
  }
  if (loadedCores > 1)
    caveats.push({
      code: "several-cores",
      field: "insulationResistance",
      text: "heat of several cores taken as made in the middle of the cable, about the hottest that they can lie; fillers and gaps between them are not counted",
      cite: "hottest-of-several",
    });
  if (loadedCores === 2)
    caveats.push({
      code: "below-tables",
      field: "cooling",
      text: "on the safe side for two cores in one cable: 7 to 24 % less current than tables of such cables in free air (1.5 to 120 mm², from memory)",
      cite: "iec-60364-5-52",
    });
  const { usualLimitC } = insulations[insulation];
  // A limit that was typed is met to the last digits only.
  if (conductorC > usualLimitC + 1e-6)
    caveats.push({
      code: "above-insulation-limit",
      field: "temperatureFactor",
      text: `above ${usualLimitC} °C, the usual limit of ${insulation}: the insulation's own data rule`,
      cite: "insulation-limits",
    });
  return caveats;
}
