/** The working that both functions of a cable in still air share; the equation that the surface's rise satisfies is theirs. */
import type { Quantities, Step, Steps } from "../quantities/steps.js";
import { airSteps, altitudeGivens, pressureStep } from "./air-properties.js";
import { coverGivens, surfaceSteps } from "./cable-surface.js";
import { type ConductorWorking, conductorWorking, numbersOf } from "./conductor.js";
import type { CableInAir, CableSetting, SurfaceCooling } from "./heat-balance.js";
import { convectionSteps } from "./natural-convection.js";

export const cableGivens = {
  ambientC: { label: "Temperature of the air", symbol: "θa", unit: "°C" },
  ...coverGivens,
  grouping: { label: "Grouping factor", symbol: "C_g", unit: "1" },
  ...altitudeGivens,
  sun: { label: "Sun on the cable", symbol: "E", unit: "W/m²" },
} satisfies Quantities;

export function settingSteps({ cable }: CableSetting): Steps {
  return {
    ...surfaceSteps(cable, cable.material),
    pressure: pressureStep(cable.altitude),
    ambientK: {
      label: "Temperature of the air, absolute",
      symbol: "Ta",
      unit: "K",
      kind: "formula",
      formula: "ambientC + 273.15",
      cite: "definition",
    },
    sunHeat: {
      label: "Heat of the sun taken in",
      symbol: "q_s",
      unit: "W/m",
      kind: "formula",
      formula: "0.9 * outerDiameter * sun",
      cite: "common-practice",
    },
  };
}

/** @param residual 0 at the rise that is right, in fields of the steps below it, too. */
export function coolingSteps(residual: string): Steps {
  return {
    surfaceRise: {
      label: "Rise of the surface above the air",
      symbol: "ΔT",
      unit: "K",
      kind: "solved",
      residual,
      cite: "rayleigh-number",
    },
    surfaceTemperatureC: {
      label: "Temperature of the surface",
      symbol: "θs",
      unit: "°C",
      kind: "formula",
      formula: "ambientC + surfaceRise",
      cite: "definition",
    },
    surfaceK: kelvins("Temperature of the surface, absolute", "Ts", "ambientK + surfaceRise"),
    filmK: kelvins(
      "Temperature of the film of air, the mean of both",
      "Tf",
      "ambientK + surfaceRise / 2",
    ),
    expansion: {
      label: "Thermal expansion of the air",
      symbol: "β",
      unit: "1/K",
      kind: "formula",
      formula: "1 / filmK",
      cite: "churchill-chu",
    },
    ...airSteps,
    ...convectionSteps,
    radiation: {
      label: "Heat by radiation",
      symbol: "q_r",
      unit: "W/m",
      kind: "formula",
      formula:
        "pi * outerDiameter * emissivity * 0.00000005670374419 * (surfaceK^2 + ambientK^2) * (surfaceK + ambientK) * surfaceRise",
      cite: "grey-radiation",
    },
    cooling: {
      label: "Heat that the surface gives off",
      symbol: "q",
      unit: "W/m",
      kind: "formula",
      formula: "convection + radiation",
      cite: "rayleigh-number",
    },
  };
}

function kelvins(label: string, symbol: string, formula: string): Step {
  return {
    label,
    symbol,
    unit: "K",
    kind: "formula",
    formula,
    cite: "definition",
  };
}

/** After the conductor's temperature, whether it was given or found. */
export function hotSteps(temperature: string): Steps {
  return {
    temperatureFactor: {
      label: "Resistance at the conductor temperature ÷ at 20 °C",
      symbol: "k_θ",
      unit: "1",
      kind: "formula",
      formula: `1 + temperatureCoefficient * (${temperature} - 20)`,
      cite: "linear-temperature",
    },
    hotResistance: {
      label: "Resistance per metre of one core at the conductor temperature",
      symbol: "R′",
      unit: "Ω/m",
      shown: { unit: "Ω/km", perUnit: 1000 },
      kind: "formula",
      formula: "resistancePerMetre * temperatureFactor",
      cite: "linear-temperature",
    },
  };
}

/** Every given and every number of the balance by field name, with the working of the core. */
export function balanceWorking(
  cable: CableInAir,
  setting: CableSetting,
  cooling: SurfaceCooling,
): ConductorWorking {
  const core = conductorWorking(setting.core);
  return {
    givens: { ...core.givens, ...cableGivens },
    steps: { ...core.steps, ...settingSteps(setting) },
    values: {
      ...core.values,
      ...numbersOf(cable),
      insulation: cable.insulation,
      ...numbersOf(setting),
      ...numbersOf(setting.surface),
      ...numbersOf(cooling),
      ...numbersOf(cooling.air),
      ...numbersOf(cooling.convecting),
    },
  };
}
