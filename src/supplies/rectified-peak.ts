/** The dc that a rectified line reaches: its peak at the high line, with no load and no drop in the rectifier. */
import { requireAbove, requireTolerance } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Fraction, Volts } from "../quantities/units.js";

export interface RectifiedLine {
  /** Rms, of the line that is rectified. */
  readonly lineVoltage: Volts;
  /** ± part of it; 0 where it is exact. */
  readonly tolerance: Fraction;
}

export interface RectifiedPeak {
  readonly nominalPeak: Volts;
  readonly peak: Volts;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError} */
export function rectifiedPeak(line: RectifiedLine): RectifiedPeak {
  const { lineVoltage, tolerance } = line;
  requireAbove("lineVoltage", lineVoltage, 0);
  requireTolerance("tolerance", tolerance);
  const nominalPeak = lineVoltage * Math.SQRT2;
  const peak = nominalPeak * (1 + tolerance);
  return { nominalPeak, peak, caveats: [PEAK_NOTE] };
}

const PEAK_NOTE: Caveat = {
  code: "no-load",
  field: "peak",
  text: "no load and no drop in the rectifier: the highest it can be short of surges; a controlled rectifier may hold more",
  cite: "common-practice",
};

export const rectifiedLineGivens: QuantitiesOf<RectifiedLine> = {
  lineVoltage: { label: "Line voltage, rms", symbol: "Us", unit: "V" },
  tolerance: { label: "Tolerance of the line", symbol: "t", unit: "1" },
};

export const rectifiedPeakSteps: StepsOf<RectifiedPeak> = {
  nominalPeak: {
    label: "Peak of the nominal line",
    symbol: "Un",
    unit: "V",
    kind: "formula",
    formula: "lineVoltage * sqrt(2)",
    cite: "rectified-peak",
  },
  peak: {
    label: "Peak at the high line",
    symbol: "Umax",
    unit: "V",
    kind: "formula",
    formula: "nominalPeak * (1 + tolerance)",
    cite: "definition",
  },
};
