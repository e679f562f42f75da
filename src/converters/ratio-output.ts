/**
 * Output voltage of a fixed-ratio stage: the ratio of its input, less the droop of its output resistance.
 *
 * Left out: any regulation, and the change of the output resistance with load or temperature; the caller gives it hot.
 */
import { NoAnswerError, requireAbove, requireAtLeast } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Amperes, Ohms, Volts } from "../quantities/units.js";

export interface RatioFeed {
  readonly inputVoltage: Volts;
  /** Output ÷ input voltage: 1/8 steps down, 4 steps up. */
  readonly ratio: number;
  readonly outputCurrent: Amperes;
  readonly outputResistance: Ohms;
}

export interface RatioOutput {
  /** Output voltage without resistance: what the output reads at no load. */
  readonly idealVoltage: Volts;
  readonly droop: Volts;
  readonly outputVoltage: Volts;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError | NoAnswerError} the latter where the droop leaves no output. */
export function ratioOutput(feed: RatioFeed): RatioOutput {
  const { inputVoltage, ratio, outputCurrent, outputResistance } = feed;
  requireAbove("inputVoltage", inputVoltage, 0);
  requireAbove("ratio", ratio, 0);
  requireAtLeast("outputCurrent", outputCurrent, 0);
  requireAtLeast("outputResistance", outputResistance, 0);

  const idealVoltage = ratio * inputVoltage;
  const droop = outputCurrent * outputResistance;
  const outputVoltage = idealVoltage - droop;
  if (!(outputVoltage > 0)) throw noOutput(feed, idealVoltage, droop);

  return { idealVoltage, droop, outputVoltage, caveats: notesOn(feed) };
}

export const ratioFeedGivens: QuantitiesOf<RatioFeed> = {
  inputVoltage: { label: "Input voltage", symbol: "Vin", unit: "V" },
  ratio: { label: "Ratio, output to input", symbol: "r", unit: "1" },
  outputCurrent: { label: "Output current", symbol: "I", unit: "A" },
  outputResistance: { label: "Output resistance", symbol: "R", unit: "Ω" },
};

export const ratioOutputSteps: StepsOf<RatioOutput> = {
  idealVoltage: {
    label: "Output without droop",
    symbol: "V₀",
    unit: "V",
    kind: "formula",
    formula: "ratio * inputVoltage",
    cite: "ratio-circuit",
  },
  droop: {
    label: "Droop",
    symbol: "ΔV",
    unit: "V",
    kind: "formula",
    formula: "outputCurrent * outputResistance",
    cite: "ohm-joule",
  },
  outputVoltage: {
    label: "Output voltage",
    symbol: "Vout",
    unit: "V",
    kind: "formula",
    formula: "idealVoltage - droop",
    cite: "ratio-circuit",
  },
};

function noOutput(
  { outputCurrent, outputResistance }: RatioFeed,
  idealVoltage: Volts,
  droop: Volts,
): NoAnswerError {
  return new NoAnswerError(
    "outputCurrent",
    `no output voltage is left: ${outputCurrent} A through ${outputResistance} Ω drops ${figure(droop)} V, ` +
      `${figure(droop - idealVoltage)} V more than the ${figure(idealVoltage)} V there is; ` +
      `the current must be below ${figure(idealVoltage / outputResistance)} A`,
  );
}

function notesOn({ outputCurrent, outputResistance }: RatioFeed): Caveat[] {
  if (outputCurrent === 0)
    return [
      {
        code: "no-load",
        field: "outputVoltage",
        text: "at no load: no output current given",
        cite: "definition",
      },
    ];
  if (outputResistance === 0)
    return [
      {
        code: "ideal-resistance",
        field: "outputVoltage",
        text: "ideal: no output resistance given",
        cite: "definition",
      },
    ];
  return [];
}
