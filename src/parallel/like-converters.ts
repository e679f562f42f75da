/** Units of one design: what they have in common, and by how much they differ. */
import { InputError, requireAbove, requireAtLeast } from "../quantities/errors.js";
import type { Quantities, Steps } from "../quantities/steps.js";
import type { Amperes, Fraction, Ohms, Volts } from "../quantities/units.js";

export interface LikeConverters {
  readonly load: Amperes;
  readonly setVoltage: Volts;
  /** ± part of the set voltage between units. */
  readonly mismatch: Fraction;
  /** Output resistance of one unit, its own lead to the bus included. */
  readonly outputResistance: Ohms;
  /** ± part of it between units. */
  readonly resistanceMismatch: Fraction;
}

/** Ends of what units differ by. */
export interface ConverterExtremes {
  readonly highestVoltage: Volts;
  readonly lowestVoltage: Volts;
  readonly lowestResistance: Ohms;
  readonly highestResistance: Ohms;
}

export function requireLikeConverters(converters: LikeConverters): void {
  requireAbove("load", converters.load, 0);
  requireAbove("setVoltage", converters.setVoltage, 0);
  requireAbove("outputResistance", converters.outputResistance, 0);
  for (const field of ["mismatch", "resistanceMismatch"] as const) {
    requireAtLeast(field, converters[field], 0);
    if (converters[field] >= 1)
      throw new InputError(field, converters[field], "below 1: 0.01 for 1 %");
  }
}

export function converterExtremes(converters: LikeConverters): ConverterExtremes {
  const { setVoltage, mismatch, outputResistance, resistanceMismatch } = converters;
  return {
    highestVoltage: setVoltage * (1 + mismatch),
    lowestVoltage: setVoltage * (1 - mismatch),
    lowestResistance: outputResistance * (1 - resistanceMismatch),
    highestResistance: outputResistance * (1 + resistanceMismatch),
  };
}

export const likeConvertersGivens = {
  load: { label: "Load", symbol: "I", unit: "A" },
  setVoltage: { label: "Set voltage", symbol: "V", unit: "V" },
  mismatch: { label: "Difference of set voltages, ±", symbol: "t", unit: "1" },
  outputResistance: {
    label: "Output resistance of one unit",
    symbol: "R",
    unit: "Ω",
  },
  resistanceMismatch: {
    label: "Difference of resistances, ±",
    symbol: "u",
    unit: "1",
  },
} satisfies Quantities;

export const converterExtremesSteps: Steps = {
  highestVoltage: {
    label: "Highest set voltage",
    symbol: "V₁",
    unit: "V",
    kind: "formula",
    formula: "setVoltage * (1 + mismatch)",
    cite: "definition",
  },
  lowestVoltage: {
    label: "Lowest set voltage",
    symbol: "V₂",
    unit: "V",
    kind: "formula",
    formula: "setVoltage * (1 - mismatch)",
    cite: "definition",
  },
  lowestResistance: {
    label: "Lowest resistance",
    symbol: "R₁",
    unit: "Ω",
    kind: "formula",
    formula: "outputResistance * (1 - resistanceMismatch)",
    cite: "definition",
  },
  highestResistance: {
    label: "Highest resistance",
    symbol: "R₂",
    unit: "Ω",
    kind: "formula",
    formula: "outputResistance * (1 + resistanceMismatch)",
    cite: "definition",
  },
};
