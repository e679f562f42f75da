/** Present cost of energy that is lost every year, paid at year end. */
import { requireAtLeast } from "../quantities/errors.js";
import type { Note, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import {
  type PresentWorth,
  presentWorth,
  presentWorthGivens,
  presentWorthSteps,
  rateNotes,
  type YearlyPayment,
} from "./present-worth.js";

export interface YearlyEnergy extends YearlyPayment {
  /** In kWh. */
  readonly energyPerYear: number;
  /** In money per kWh, in the first year. */
  readonly price: number;
}

export interface PresentCost extends PresentWorth {
  readonly yearlyCost: number;
  readonly presentCost: number;
  readonly notes: readonly Note[];
}

/** @throws {InputError} */
export function presentCost(energy: YearlyEnergy): PresentCost {
  const { energyPerYear, price } = energy;
  requireAtLeast("energyPerYear", energyPerYear, 0);
  requireAtLeast("price", price, 0);
  const { presentWorthFactor } = presentWorth(energy);
  const yearlyCost = energyPerYear * price;
  return {
    yearlyCost,
    presentWorthFactor,
    presentCost: yearlyCost * presentWorthFactor,
    notes: rateNotes(energy),
  };
}

export const presentCostGivens: QuantitiesOf<YearlyEnergy> = {
  energyPerYear: { label: "Energy a year", symbol: "W", unit: "kWh" },
  price: { label: "Price of energy", symbol: "p", unit: "money/kWh" },
  ...presentWorthGivens,
};

export function presentCostSteps(energy: YearlyEnergy): StepsOf<PresentCost> {
  return {
    yearlyCost: {
      label: "Cost of the first year",
      symbol: "K₁",
      unit: "money",
      kind: "formula",
      formula: "energyPerYear * price",
      cite: "definition",
    },
    ...presentWorthSteps(energy),
    presentCost: {
      label: "Present cost",
      symbol: "K",
      unit: "money",
      kind: "formula",
      formula: "yearlyCost * presentWorthFactor",
      cite: "present-worth",
    },
  };
}
