/** The conductor's area at which its price and the present cost of what it loses are least together: Kelvin's law. */
import {
  type PresentWorth,
  presentWorth,
  presentWorthGivens,
  presentWorthSteps,
  rateCaveats,
  type YearlyPayment,
} from "../economics/present-worth.js";
import { InputError, requireAbove } from "../quantities/errors.js";
import type { Caveat, Quantities, StepsWith } from "../quantities/steps.js";
import { ABSOLUTE_ZERO_C } from "../quantities/units.js";
import type { Amperes, Celsius, OhmMetres, SquareMetres } from "../quantities/units.js";
import { type ConductorMaterial, REFERENCE_TEMPERATURE_C } from "./conductor-materials.js";

export interface PricedConductor extends YearlyPayment {
  /** Rms current over the hours that count. */
  readonly rmsCurrent: Amperes;
  readonly hoursPerYear: number;
  /** In money per kWh. */
  readonly price: number;
  /** Rise of the price of a metre of route, the whole cable, for each m² of one core. */
  readonly priceSlope: number;
  readonly temperatureC: Celsius;
  readonly material: ConductorMaterial;
  readonly conductors: number;
}

export interface EconomicArea extends PresentWorth {
  /** At the conductor's temperature. */
  readonly hotResistivity: OhmMetres;
  /** Present cost of what one metre of route and one m² would lose. */
  readonly lossCost: number;
  readonly area: SquareMetres;
  readonly caveats: readonly Caveat[];
}

const HOURS_PER_YEAR = 8760;

/** @throws {InputError} */
export function economicArea(conductor: PricedConductor): EconomicArea {
  const { rmsCurrent, hoursPerYear, price, priceSlope } = conductor;
  const { temperatureC, material, conductors } = conductor;
  requireAbove("rmsCurrent", rmsCurrent, 0);
  requireAbove("hoursPerYear", hoursPerYear, 0);
  requireAbove("price", price, 0);
  requireAbove("priceSlope", priceSlope, 0);
  requireAbove("temperatureC", temperatureC, ABSOLUTE_ZERO_C);
  if (conductors !== 1 && conductors !== 2)
    throw new InputError("conductors", conductors, "1 or 2");
  const worth = presentWorth(conductor);
  const hotResistivity =
    material.resistivity *
    (1 + material.temperatureCoefficient * (temperatureC - REFERENCE_TEMPERATURE_C));
  requireHot(temperatureC, hotResistivity);
  const lossCost =
    ((conductors * hotResistivity * rmsCurrent ** 2) / 1000) *
    hoursPerYear *
    price *
    worth.presentWorthFactor;
  const area = Math.sqrt(lossCost / priceSlope);
  const caveats = [...notesOn(hoursPerYear), ...rateCaveats(conductor)];
  return { ...worth, hotResistivity, lossCost, area, caveats };
}

function requireHot(temperatureC: Celsius, hotResistivity: OhmMetres): void {
  if (!(hotResistivity > 0))
    throw new InputError(
      "temperatureC",
      temperatureC,
      "one at which the material's straight line gives it a resistance",
    );
}

function notesOn(hoursPerYear: number): Caveat[] {
  const caveats: Caveat[] = [
    {
      code: "cost-only",
      field: "area",
      text: "by cost alone: drop, temperature and fault withstand may ask for more",
      cite: "kelvin-law",
    },
  ];
  if (hoursPerYear > HOURS_PER_YEAR)
    caveats.push({
      code: "more-than-a-year",
      field: "lossCost",
      text: `a year has ${HOURS_PER_YEAR} hours`,
      cite: "definition",
    });
  return caveats;
}

export const pricedConductorGivens = {
  rmsCurrent: { label: "Rms current", symbol: "I", unit: "A" },
  hoursPerYear: { label: "Hours a year", symbol: "h", unit: "h" },
  price: { label: "Price of energy", symbol: "p", unit: "money/kWh" },
  ...presentWorthGivens,
  priceSlope: {
    label: "Price of a metre of route, for each area of one core",
    symbol: "A",
    unit: "money/m³",
    shown: { unit: "money/(m·mm²)", perUnit: 1e-6 },
  },
  temperatureC: { label: "Conductor temperature", symbol: "θ", unit: "°C" },
  conductors: { label: "Lengths in the loop", symbol: "n", unit: "1" },
} satisfies Quantities;

/** After the steps of the material. */
export const economicAreaSteps: StepsWith<"area"> = {
  ...presentWorthSteps,
  hotResistivity: {
    label: "Resistivity at the conductor temperature",
    symbol: "ρθ",
    unit: "Ω·m",
    shown: { unit: "nΩ·m", perUnit: 1e9 },
    kind: "formula",
    formula: "resistivity * (1 + temperatureCoefficient * (temperatureC - 20))",
    cite: "linear-temperature",
  },
  lossCost: {
    label: "Present cost of what one metre of one square metre loses",
    symbol: "K",
    unit: "money·m",
    kind: "formula",
    formula:
      "conductors * hotResistivity * rmsCurrent^2 / 1000 * hoursPerYear * price * presentWorthFactor",
    cite: "kelvin-law",
  },
  area: {
    label: "Economic area of one core",
    symbol: "S",
    unit: "m²",
    shown: { unit: "mm²", perUnit: 1e6 },
    kind: "formula",
    formula: "sqrt(lossCost / priceSlope)",
    cite: "kelvin-law",
  },
};
