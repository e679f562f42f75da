/** The arguments of every function that pays by the year. */
export const presentWorthParameters = {
  years: {
    name: "years",
    unit: "1",
    meaning: "years that count",
    kind: "number",
  },
  discountRate: {
    name: "discount rate",
    unit: "1",
    meaning: "part of one per year: 0.08 is 8 %; 0 is none",
    kind: "number",
    zero: "real",
  },
  priceRise: {
    name: "yearly price rise",
    unit: "1",
    meaning:
      "part by which the price rises each year; none unless told otherwise",
    kind: "number",
    optional: true,
  },
} as const;
