/**
 * The worst-placed of like units on one bus with a load of constant current: its voltage at the top of what units differ
 * by and its resistance at the bottom, all others the opposite way. No other placement gives a unit more.
 */
import {
  InputError,
  NoAnswerError,
  requireAbove,
  requireAtLeast,
  requireWhole,
} from "../quantities/errors.js";
import type { Quantities, Steps } from "../quantities/steps.js";
import type { Amperes, Fraction, Ohms, Volts } from "../quantities/units.js";
import type { ReverseFlow } from "./parallel-share.js";

/** What like units have in common, and by how much they differ. */
export interface LikeUnits {
  readonly load: Amperes;
  readonly setVoltage: Volts;
  /** ± part of the set voltage between units. */
  readonly mismatch: Fraction;
  /** Of one unit, its own lead to the bus included. */
  readonly outputResistance: Ohms;
  /** ± part of it between units. */
  readonly resistanceMismatch: Fraction;
}

export interface LikeUnitsInParallel extends LikeUnits {
  readonly units: number;
  readonly reverseFlow: ReverseFlow;
}

/** Ends of what units differ by. */
export interface UnitExtremes {
  readonly highestVoltage: Volts;
  readonly lowestVoltage: Volts;
  readonly lowestResistance: Ohms;
  readonly highestResistance: Ohms;
}

export interface ParallelWorst extends UnitExtremes {
  readonly evenShare: Amperes;
  /** If currents could flow back into the other units. */
  readonly freeCurrent: Amperes;
  readonly worstCurrent: Amperes;
}

/** @throws {InputError}; {NoAnswerError} where the load leaves no voltage on the bus. */
export function parallelWorst(parallel: LikeUnitsInParallel): ParallelWorst {
  const { load, units, reverseFlow } = parallel;
  requireLikeUnits(parallel);
  requireWhole("units", units, 1);
  const extremes = unitExtremes(parallel);
  const freeCurrent = freeCurrentOf(units, load, extremes);
  const worstCurrent =
    reverseFlow === "blocked" ? Math.min(freeCurrent, load) : freeCurrent;
  const { highestVoltage, lowestResistance } = extremes;
  if (!(highestVoltage - worstCurrent * lowestResistance > 0))
    throw new NoAnswerError(
      "load",
      `no operating point: ${load} A leave no voltage on the bus of ${units} units`,
    );
  return { ...extremes, evenShare: load / units, freeCurrent, worstCurrent };
}

export function requireLikeUnits(units: LikeUnits): void {
  requireAbove("load", units.load, 0);
  requireAbove("setVoltage", units.setVoltage, 0);
  requireAbove("outputResistance", units.outputResistance, 0);
  for (const field of ["mismatch", "resistanceMismatch"] as const) {
    requireAtLeast(field, units[field], 0);
    if (units[field] >= 1)
      throw new InputError(field, units[field], "below 1: 0.01 for 1 %");
  }
}

export function unitExtremes(units: LikeUnits): UnitExtremes {
  const { setVoltage, mismatch, outputResistance, resistanceMismatch } = units;
  return {
    highestVoltage: setVoltage * (1 + mismatch),
    lowestVoltage: setVoltage * (1 - mismatch),
    lowestResistance: outputResistance * (1 - resistanceMismatch),
    highestResistance: outputResistance * (1 + resistanceMismatch),
  };
}

function freeCurrentOf(
  units: number,
  load: Amperes,
  ends: UnitExtremes,
): Amperes {
  const { highestVoltage, lowestVoltage } = ends;
  const { lowestResistance, highestResistance } = ends;
  const others = (units - 1) / highestResistance;
  return (
    (load + others * (highestVoltage - lowestVoltage)) /
    (1 + others * lowestResistance)
  );
}

export const likeUnitsGivens: Quantities = {
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
};

export const unitExtremesSteps: Steps = {
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

export function parallelWorstSteps({
  reverseFlow,
}: LikeUnitsInParallel): Steps {
  return {
    ...unitExtremesSteps,
    evenShare: {
      label: "Even share",
      symbol: "I/n",
      unit: "A",
      kind: "formula",
      formula: "load / units",
      cite: "definition",
    },
    freeCurrent: {
      label: "Current of the worst-placed unit, flow back allowed",
      symbol: "If",
      unit: "A",
      kind: "formula",
      formula:
        "(load + (units - 1) / highestResistance * (highestVoltage - lowestVoltage)) / (1 + (units - 1) / highestResistance * lowestResistance)",
      cite: "parallel-generators",
    },
    worstCurrent: {
      label: "Current of the worst-placed unit",
      symbol: "Iw",
      unit: "A",
      kind: "formula",
      formula:
        reverseFlow === "blocked" ? "min(freeCurrent, load)" : "freeCurrent",
      cite: "parallel-generators",
    },
  };
}
