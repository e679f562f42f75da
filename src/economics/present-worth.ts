/** What a payment at the end of each year is worth today: years' worth of the first payment. */
import { requireAbove, requireAtLeast } from "../quantities/errors.js";
import type { QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Fraction } from "../quantities/units.js";

export interface YearlyPayment {
  readonly years: number;
  /** Of money, per year. */
  readonly discountRate: Fraction;
  /** By which each year's payment is above the one before it. */
  readonly priceRise: Fraction;
}

export interface PresentWorth {
  /** Payments of the first year's amount that the whole is worth today. */
  readonly presentWorthFactor: number;
}

/** The sum of (1 + e)^(k − 1) / (1 + i)^k over the years k, in closed form. @throws {InputError} */
export function presentWorth(payment: YearlyPayment): PresentWorth {
  const { years, discountRate, priceRise } = payment;
  requireAbove("years", years, 0);
  requireAtLeast("discountRate", discountRate, 0);
  requireAbove("priceRise", priceRise, -1);
  const excess = discountRate - priceRise;
  // Through logarithms, so that nothing cancels where the price rises nearly as fast as money is discounted.
  const presentWorthFactor =
    excess === 0
      ? years / (1 + discountRate)
      : -Math.expm1(years * Math.log1p(-excess / (1 + discountRate))) / excess;
  return { presentWorthFactor };
}

export const presentWorthGivens: QuantitiesOf<YearlyPayment> = {
  years: { label: "Years", symbol: "n", unit: "1" },
  discountRate: { label: "Discount rate per year", symbol: "i", unit: "1" },
  priceRise: { label: "Rise of the price per year", symbol: "e", unit: "1" },
};

export function presentWorthSteps({
  discountRate,
  priceRise,
}: YearlyPayment): StepsOf<PresentWorth> {
  return {
    presentWorthFactor: {
      label: "Present worth of one payment a year",
      symbol: "PV",
      unit: "1",
      kind: "formula",
      formula:
        discountRate === priceRise
          ? "years / (1 + discountRate)"
          : "(1 - ((1 + priceRise) / (1 + discountRate))^years) / (discountRate - priceRise)",
      cite: "present-worth",
    },
  };
}
