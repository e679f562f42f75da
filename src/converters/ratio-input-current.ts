/** Input current of a fixed-ratio stage: the output current times the ratio, and what the stage draws by itself. */
import { requireAbove, requireAtLeast } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Amperes, Volts, Watts } from "../quantities/units.js";

export interface RatioDraw {
  readonly outputCurrent: Amperes;
  /** Output ÷ input voltage. */
  readonly ratio: number;
  /** What the stage draws with nothing on its output; undefined for a stage without it. */
  readonly noLoad: { readonly inputVoltage: Volts; readonly noLoadPower: Watts } | undefined;
}

export interface RatioInputCurrent {
  readonly reflectedCurrent: Amperes;
  readonly noLoadCurrent: Amperes;
  readonly inputCurrent: Amperes;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError} */
export function ratioInputCurrent(draw: RatioDraw): RatioInputCurrent {
  const { outputCurrent, ratio, noLoad } = draw;
  requireAtLeast("outputCurrent", outputCurrent, 0);
  requireAbove("ratio", ratio, 0);
  if (noLoad) {
    requireAbove("inputVoltage", noLoad.inputVoltage, 0);
    requireAtLeast("noLoadPower", noLoad.noLoadPower, 0);
  }

  const reflectedCurrent = ratio * outputCurrent;
  const noLoadCurrent = noLoad ? noLoad.noLoadPower / noLoad.inputVoltage : 0;
  const inputCurrent = reflectedCurrent + noLoadCurrent;

  return {
    reflectedCurrent,
    noLoadCurrent,
    inputCurrent,
    caveats: notesOn(draw),
  };
}

export const ratioDrawGivens: QuantitiesOf<
  Omit<RatioDraw, "noLoad"> & NonNullable<RatioDraw["noLoad"]>
> = {
  outputCurrent: { label: "Output current", symbol: "I", unit: "A" },
  ratio: { label: "Ratio, output to input", symbol: "r", unit: "1" },
  inputVoltage: { label: "Input voltage", symbol: "Vin", unit: "V" },
  noLoadPower: { label: "No-load power", symbol: "P₀", unit: "W" },
};

export const ratioInputCurrentSteps: StepsOf<RatioInputCurrent> = {
  reflectedCurrent: {
    label: "Output current seen from the input",
    symbol: "I′",
    unit: "A",
    kind: "formula",
    formula: "ratio * outputCurrent",
    cite: "ratio-circuit",
  },
  noLoadCurrent: {
    label: "Current drawn at no load",
    symbol: "I₀",
    unit: "A",
    kind: "formula",
    formula: "noLoadPower / inputVoltage",
    cite: "ohm-joule",
  },
  inputCurrent: {
    label: "Input current",
    symbol: "Iin",
    unit: "A",
    kind: "formula",
    formula: "reflectedCurrent + noLoadCurrent",
    cite: "ratio-circuit",
  },
};

function notesOn({ outputCurrent, noLoad }: RatioDraw): Caveat[] {
  const caveats: Caveat[] = [];
  if (outputCurrent === 0)
    caveats.push({
      code: "no-load",
      field: "inputCurrent",
      text: "at no load: no output current given",
      cite: "definition",
    });
  if (!noLoad || noLoad.noLoadPower === 0)
    caveats.push({
      code: "ideal-no-load",
      field: "inputCurrent",
      text: "ideal: no no-load power given",
      cite: "definition",
    });
  return caveats;
}
