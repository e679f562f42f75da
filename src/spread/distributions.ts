/** How an input may lie within its tolerance ± T: by the quantile of its deviation, and by its standard uncertainty. */
import type { CitationId } from "../quantities/citations.js";
import { normalQuantile } from "./normal-quantile.js";

export const DISTRIBUTION_NAMES = ["flat", "triangular", "normal"] as const;
export type Distribution = (typeof DISTRIBUTION_NAMES)[number];

interface Shape {
  /** What T is. */
  readonly meaning: string;
  /** Deviation in parts of T below which the input lies with a probability above 0 and below 1. */
  readonly quantile: (probability: number) => number;
  /** Square of the number of standard uncertainties in T. */
  readonly squareOfDivisor: number;
  readonly cite: CitationId;
}

export const DISTRIBUTIONS: Readonly<Record<Distribution, Shape>> = {
  flat: {
    meaning: "anywhere within ± T, all values alike",
    quantile: (probability) => 2 * probability - 1,
    squareOfDivisor: 3,
    cite: "gum-flat",
  },
  triangular: {
    meaning: "within ± T, the nominal value likeliest, the ends never reached",
    quantile: (probability) =>
      probability < 0.5 ? Math.sqrt(2 * probability) - 1 : 1 - Math.sqrt(2 * (1 - probability)),
    squareOfDivisor: 6,
    cite: "gum-triangular",
  },
  normal: {
    meaning: "T is three standard uncertainties: 0.27 % of all lie beyond ± T",
    quantile: (probability) => normalQuantile(probability) / 3,
    squareOfDivisor: 9,
    cite: "three-sigma",
  },
};
