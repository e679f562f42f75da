/** What a payment at the end of each year is worth today: years' worth of the first payment. */
import { requireAbove, requireAtLeast } from "../quantities/errors.js";
import type { Note, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Fraction } from "../quantities/units.js";

export interface YearlyPayment {
  /** Need not be whole: between whole years the closed form goes on smoothly. */
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

/** Of rates that look like per cent typed as they are spoken, and of a price that is taken not to rise. */
export function rateNotes({ discountRate, priceRise }: YearlyPayment): Note[] {
  const about = (code: string, text: string): Note => ({
    code,
    field: "presentWorthFactor",
    text,
    cite: "definition",
  });
  return [
    ...(discountRate >= 1 || priceRise >= 1
      ? [
          about(
            "rate-in-per-cent",
            "a rate of 1 or more is 100 % a year or more: 8 % is 0.08",
          ),
        ]
      : []),
    ...(priceRise === 0
      ? [about("constant-price", "at a constant price: no yearly rise given")]
      : []),
  ];
}

export const presentWorthGivens: QuantitiesOf<YearlyPayment> = {
  years: { label: "Years", symbol: "n", unit: "1" },
  discountRate: { label: "Discount rate per year", symbol: "i", unit: "1" },
  priceRise: { label: "Rise of the price per year", symbol: "e", unit: "1" },
};

export function presentWorthSteps(
  payment: YearlyPayment,
): StepsOf<PresentWorth> {
  return {
    presentWorthFactor: {
      label: "Present worth of one payment a year",
      symbol: "PV",
      unit: "1",
      kind: "formula",
      formula: factorFormula(payment),
      cite: "present-worth",
    },
  };
}

const CLOSE_RATES = 1e-3;
const FEW_YEARS = 0.03;

/** Cells have no logarithm of 1 + x: where the closed form would cancel, they take the binomial series of the same. */
function factorFormula({
  years,
  discountRate,
  priceRise,
}: YearlyPayment): string {
  const equal = "years / (1 + discountRate)";
  if (discountRate === priceRise) return equal;
  const gap = Math.abs(discountRate - priceRise) / (1 + discountRate);
  const cancels = gap * Math.min(years, 1) < CLOSE_RATES;
  return cancels && gap * Math.max(years, 1) < FEW_YEARS
    ? `${equal} * ${seriesFormula(1)}`
    : "(1 - ((1 + priceRise) / (1 + discountRate))^years) / (discountRate - priceRise)";
}

/** What is left out after as many terms is below 1e-13 of the whole. */
const TERMS = 7;

/** (1 − (1 − x)ⁿ) / (n · x) from this term on, each term a part of the one before it. */
function seriesFormula(term: number): string {
  if (term > TERMS) return "1";
  const part = `(years - ${term}) / ${term + 1} * (discountRate - priceRise) / (1 + discountRate)`;
  return `(1 - ${part} * ${seriesFormula(term + 1)})`;
}
