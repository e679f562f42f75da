/** What a payment at the end of each year is worth today: years' worth of the first payment. */
import { InputError, requireAbove, requireAtLeast } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Fraction } from "../quantities/units.js";

export interface YearlyPayment {
  /** Need not be whole: between whole years the closed form goes on smoothly. */
  readonly years: number;
  /** Discount rate of money, per year. */
  readonly discountRate: Fraction;
  /** Part by which each year's payment exceeds the one before it. */
  readonly priceRise: Fraction;
}

export interface PresentWorth {
  /** (i − e)/(1 + i), the part by which each payment is worth less than the one before it. */
  readonly rateGap: number;
  /** 1 where the rates are apart, 0 where they are equal or close, between the two in between: how the factor is written. */
  readonly ratesApart: number;
  /** Payments of the first year's amount that the whole is worth today. */
  readonly presentWorthFactor: number;
}

/** |rate gap| · years from which on the closed form takes over: below, it would cancel. */
const CLOSE_RATES = 0.03;

/** Beyond it the sum is no money, and products of it would leave the range of a number. */
const GREATEST_FACTOR = 1e30;

/** The sum of (1 + e)^(k − 1) / (1 + i)^k over the years k, in closed form. @throws {InputError} */
export function presentWorth(payment: YearlyPayment): PresentWorth {
  const { years, discountRate, priceRise } = payment;
  requireAbove("years", years, 0);
  requireAtLeast("discountRate", discountRate, 0);
  requireAbove("priceRise", priceRise, -1);
  requireFewYears(payment);
  const excess = discountRate - priceRise;
  const rateGap = excess / (1 + discountRate);
  const ratesApart = Math.min(
    1,
    Math.max(0, (Math.abs(rateGap) * Math.max(years, 3)) / CLOSE_RATES - 1),
  );
  // Through logarithms, so that nothing cancels where the price rises nearly as fast as money is discounted.
  const presentWorthFactor =
    excess === 0 ? years / (1 + discountRate) : -Math.expm1(years * Math.log1p(-rateGap)) / excess;
  return { rateGap, ratesApart, presentWorthFactor };
}

function requireFewYears({ years, discountRate, priceRise }: YearlyPayment): void {
  const ahead = priceRise - discountRate;
  const most =
    ahead > 0
      ? Math.log1p(GREATEST_FACTOR * ahead) / Math.log1p(ahead / (1 + discountRate))
      : GREATEST_FACTOR * (1 + discountRate);
  if (years > most)
    throw new InputError(
      "years",
      years,
      `at most ${Math.floor(most)} at these rates, where the payments add up to ${GREATEST_FACTOR} times the first`,
    );
}

/** Caveats on rates that look like per cent typed as they are spoken, and on a price taken not to rise. */
export function rateCaveats({ discountRate, priceRise }: YearlyPayment): Caveat[] {
  const about = (code: string, text: string): Caveat => ({
    code,
    field: "presentWorthFactor",
    text,
    cite: "definition",
  });
  return [
    ...(discountRate >= 1 || priceRise >= 1
      ? [about("rate-in-per-cent", "a rate of 1 or more is 100 % a year or more: 8 % is 0.08")]
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

/**
 * Cells have no logarithm of 1 + x and formulas no condition: the closed form, of which nothing is taken where the
 * rates are close and it would be 0/0 or cancel, and the binomial series of the same.
 */
function factorFormula(): string {
  // Both differences have the same sign.
  const closed =
    "abs(1 - ((1 + priceRise) / (1 + discountRate))^years) / max(abs(discountRate - priceRise), 0.000000000001)";
  return `ratesApart * ${closed} + (1 - ratesApart) * years / (1 + discountRate) * ${seriesFormula(1)}`;
}

/** What is left out after as many terms is below 1e-13 of the whole. */
const TERMS = 7;

/** (1 − (1 − x)ⁿ) / (n · x) from this term on, each term a part of the one before it. */
function seriesFormula(term: number): string {
  if (term > TERMS) return "1";
  return `(1 - (years - ${term}) / ${term + 1} * rateGap * ${seriesFormula(term + 1)})`;
}

/** One form for every input, so that a sheet of native formulas follows its rates wherever they go. */
export const presentWorthSteps: StepsOf<PresentWorth> = {
  rateGap: {
    label: "Part by which each payment is worth less than the one before",
    symbol: "x",
    unit: "1",
    kind: "formula",
    formula: "(discountRate - priceRise) / (1 + discountRate)",
    cite: "present-worth",
  },
  ratesApart: {
    label: "Part taken of the closed form (the series takes over at close rates)",
    symbol: "w",
    unit: "1",
    kind: "formula",
    formula: "min(1, max(0, abs(rateGap) * max(years, 3) / 0.03 - 1))",
    cite: "definition",
  },
  presentWorthFactor: {
    label: "Present worth of one payment a year",
    symbol: "PV",
    unit: "1",
    kind: "formula",
    formula: factorFormula(),
    cite: "present-worth",
  },
};
