/** The arguments of every function that pays by the year. */
import { presentWorthGivens } from "../../src/economics/present-worth.js";
import { fills } from "../entry.js";

export const presentWorthParameters = {
  years: fills(presentWorthGivens.years, {
    name: "years",
    meaning: "years that count",
    kind: "number",
  }),
  discountRate: fills(presentWorthGivens.discountRate, {
    name: "discount rate",
    meaning: "part of one per year: 0.08 is 8 %; 0 is none",
    kind: "number",
    zero: "real",
  }),
  priceRise: fills(presentWorthGivens.priceRise, {
    name: "yearly price rise",
    meaning: "part by which the price rises each year; none unless told otherwise",
    kind: "number",
    optional: true,
  }),
} as const;
