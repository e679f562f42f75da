/** Power that a stage may give in warm surroundings: its rating up to a knee, then on a straight line down to none. */
import { InputError, requireAbove } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import { ABSOLUTE_ZERO_C } from "../quantities/units.js";
import type { Celsius, Fraction, Watts } from "../quantities/units.js";

export interface WarmStage {
  readonly ratedPower: Watts;
  /** Temperature of the air or plate that the rating is for. */
  readonly ambientC: Celsius;
  readonly kneeC: Celsius;
  readonly zeroC: Celsius;
}

export interface StageDerated {
  readonly part: Fraction;
  readonly power: Watts;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError} */
export function stageDerated(stage: WarmStage): StageDerated {
  const { ratedPower, ambientC, kneeC, zeroC } = stage;
  requireAbove("ratedPower", ratedPower, 0);
  requireAbove("ambientC", ambientC, ABSOLUTE_ZERO_C);
  requireAbove("kneeC", kneeC, ABSOLUTE_ZERO_C);
  if (!(zeroC > kneeC)) throw new InputError("zeroC", zeroC, `above the knee, ${kneeC} °C`);
  const line = (zeroC - ambientC) / (zeroC - kneeC);
  const part = Math.max(0, Math.min(1, line));
  return { part, power: ratedPower * part, caveats: notesOn(part) };
}

function notesOn(part: Fraction): Caveat[] {
  if (part > 0) return [];
  return [
    {
      code: "no-power",
      field: "power",
      text: "too warm to give any power",
      cite: "definition",
    },
  ];
}

export const warmStageGivens: QuantitiesOf<WarmStage> = {
  ratedPower: { label: "Rated power", symbol: "Pr", unit: "W" },
  ambientC: { label: "Ambient", symbol: "θa", unit: "°C" },
  kneeC: { label: "Knee", symbol: "θ₁", unit: "°C" },
  zeroC: { label: "No power left", symbol: "θ₀", unit: "°C" },
};

export const stageDeratedSteps: StepsOf<StageDerated> = {
  part: {
    label: "Part of the rating",
    symbol: "k",
    unit: "1",
    kind: "formula",
    formula: "max(0, min(1, (zeroC - ambientC) / (zeroC - kneeC)))",
    cite: "definition",
  },
  power: {
    label: "Power allowed",
    symbol: "P",
    unit: "W",
    kind: "formula",
    formula: "ratedPower * part",
    cite: "definition",
  },
};
