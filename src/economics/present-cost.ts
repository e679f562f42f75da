/** Present cost of energy that is lost every year, paid at year end. */
import { requireAtLeast } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import {
  type PresentWorth,
  presentWorth,
  presentWorthGivens,
  presentWorthSteps,
  rateCaveats,
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
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError} */
export function presentCost(energy: YearlyEnergy): PresentCost {
  const { energyPerYear, price } = energy;
  requireAtLeast("energyPerYear", energyPerYear, 0);
  requireAtLeast("price", price, 0);
  const worth = presentWorth(energy);
  const yearlyCost = energyPerYear * price;
  return {
    yearlyCost,
    ...worth,
    presentCost: yearlyCost * worth.presentWorthFactor,
    caveats: rateCaveats(energy),
  };
}

export const presentCostGivens: QuantitiesOf<YearlyEnergy> = {
  energyPerYear: { label: "Energy a year", symbol: "W", unit: "kWh" },
  price: { label: "Price of energy", symbol: "p", unit: "money/kWh" },
  ...presentWorthGivens,
};

export const presentCostSteps: StepsOf<PresentCost> = {
  yearlyCost: {
    label: "Cost of the first year",
    symbol: "K₁",
    unit: "money",
    kind: "formula",
    formula: "energyPerYear * price",
    cite: "definition",
  },
  ...presentWorthSteps,
  presentCost: {
    label: "Present cost",
    symbol: "K",
    unit: "money",
    kind: "formula",
    formula: "yearlyCost * presentWorthFactor",
    cite: "present-worth",
  },
};
