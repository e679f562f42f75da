import { InputError, requireFraction } from "../quantities/errors.js";
import type { StepsOf } from "../quantities/steps.js";
import type { Fraction } from "../quantities/units.js";

export interface Chain {
  /** One for each stage, in any order. */
  readonly efficiencies: readonly Fraction[];
}

export interface ChainEfficiency {
  readonly efficiency: Fraction;
}

/** Efficiency of stages in a row, each one carrying what the next one takes. @throws {InputError} outside above 0 to 1. */
export function chainEfficiency({ efficiencies }: Chain): ChainEfficiency {
  if (efficiencies.length === 0)
    throw new InputError("efficiencies", null, "one efficiency or more");
  for (const efficiency of efficiencies) requireFraction("efficiencies", efficiency);
  return {
    efficiency: efficiencies.reduce((product, efficiency) => product * efficiency, 1),
  };
}

/** The product over however many stages there are, one factor each: `efficiency1 * efficiency2 * …`. */
export function chainEfficiencySteps({ efficiencies }: Chain): StepsOf<ChainEfficiency> {
  return {
    efficiency: {
      label: "Efficiency of the chain",
      symbol: "η",
      unit: "1",
      kind: "formula",
      formula: efficiencies.map((_, index) => `efficiency${index + 1}`).join(" * "),
      cite: "definition",
    },
  };
}
