/** The highest voltage behind fixed ratios: no load, no drop, supply and ratio at their highest. */
import { requireAbove, requireTolerance } from "../quantities/errors.js";
import type { QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Fraction, Volts } from "../quantities/units.js";

export interface RatioPath {
  /** With float charge, regeneration and a lightly loaded rectifier counted. */
  readonly supplyHighest: Volts;
  /** Output ÷ input; of several stages the product. */
  readonly ratio: number;
  /** ± part of the ratio, 0 where it is exact; of several stages the product of (1 + t), less 1. */
  readonly tolerance: Fraction;
}

export interface WorstVoltage {
  readonly nominalRatioVoltage: Volts;
  readonly voltage: Volts;
}

/** @throws {InputError} */
export function worstVoltage(path: RatioPath): WorstVoltage {
  const { supplyHighest, ratio, tolerance } = path;
  requireAbove("supplyHighest", supplyHighest, 0);
  requireAbove("ratio", ratio, 0);
  requireTolerance("tolerance", tolerance);
  const nominalRatioVoltage = supplyHighest * ratio;
  return {
    nominalRatioVoltage,
    voltage: nominalRatioVoltage * (1 + tolerance),
  };
}

export const worstVoltageGivens: QuantitiesOf<RatioPath> = {
  supplyHighest: { label: "Supply, highest", symbol: "Us", unit: "V" },
  ratio: { label: "Ratio, output ÷ input", symbol: "r", unit: "1" },
  tolerance: { label: "Tolerance of the ratio", symbol: "t", unit: "1" },
};

export const worstVoltageSteps: StepsOf<WorstVoltage> = {
  nominalRatioVoltage: {
    label: "Output at the nominal ratio, no load",
    symbol: "Ur",
    unit: "V",
    kind: "formula",
    formula: "supplyHighest * ratio",
    cite: "ratio-circuit",
  },
  voltage: {
    label: "Output at the highest ratio, no load",
    symbol: "Umax",
    unit: "V",
    kind: "formula",
    formula: "nominalRatioVoltage * (1 + tolerance)",
    cite: "definition",
  },
};
