/** Current of a short circuit at the end of a loop, steady: the least that a fuse must clear, or the greatest that has to be broken and withstood. */
import { InputError, requireAbove, requireAtLeast } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsWith } from "../quantities/steps.js";
import type { Amperes, Ohms, Volts } from "../quantities/units.js";
import { promptClearingCaveat } from "./prompt-clearing.js";

/**
 * `least`: after the supply's capacitors are empty and its limiter has acted; does it clear the fuse? `greatest`: before
 * the limiter acts; does the fuse break it, does the cable withstand it?
 */
export const FAULT_CASES = ["least", "greatest"] as const;
export type FaultCase = (typeof FAULT_CASES)[number];

export interface FaultLoop {
  readonly voltage: Volts;
  readonly supplyResistance: Ohms;
  /** Resistance of both conductors up to the fault. */
  readonly loopResistance: Ohms;
  /** Current limit of the supply; undefined where none is known. Not counted in the greatest case. */
  readonly currentLimit: Amperes | undefined;
  /** Undefined: as the least, without a word on the case. */
  readonly faultCase: FaultCase | undefined;
}

export interface FaultCurrent {
  /** Current that the resistances alone would let flow. */
  readonly prospectiveCurrent: Amperes;
  readonly current: Amperes;
  readonly caveats: readonly Caveat[];
}

/**
 * Current of a bolted fault at the end of a loop, held at the supply's limit in the least case.
 * @throws {InputError} naming a field; resistances of 0 together let no figure be told.
 */
export function faultCurrent(loop: FaultLoop): FaultCurrent {
  const { voltage, supplyResistance, loopResistance, currentLimit } = loop;
  requireAbove("voltage", voltage, 0);
  requireAtLeast("supplyResistance", supplyResistance, 0);
  requireAtLeast("loopResistance", loopResistance, 0);
  if (currentLimit !== undefined) requireAbove("currentLimit", currentLimit, 0);
  const resistance = supplyResistance + loopResistance;
  if (!(resistance > 0))
    throw new InputError("loopResistance", loopResistance, "above 0 where supply resistance is 0");
  const prospectiveCurrent = voltage / resistance;
  const current = Math.min(prospectiveCurrent, limitOf(loop) ?? Infinity);
  return { prospectiveCurrent, current, caveats: notesOn(current, loop) };
}

/** The limit that counts: an electronic one takes time to act, and capacitors behind it none. */
function limitOf({ currentLimit, faultCase }: FaultLoop): Amperes | undefined {
  return faultCase === "greatest" ? undefined : currentLimit;
}

/** Without it the current comes out as large as it can be, which is not the safe side. */
export const NO_LIMIT_NOTE: Caveat = {
  code: "no-limit-given",
  field: "current",
  text: "no current limit of the supply given: an electronic supply holds far less, and the fuse may then never clear",
  cite: "common-practice",
};

const CASE_NOTES: Readonly<Record<FaultCase, Caveat>> = {
  least: {
    code: "least-case",
    field: "current",
    text: "the least fault current: it asks for the supply's lowest voltage, its greatest resistance (cold or empty battery) and the loop at its hottest",
    cite: "common-practice",
  },
  greatest: {
    code: "greatest-case",
    field: "current",
    text: "the greatest fault current: it asks for the supply's highest voltage, its least resistance and the loop at its coldest; no current limit is counted, and capacitors discharge into the fault on top of it",
    cite: "common-practice",
  },
};

function notesOn(current: Amperes, loop: FaultLoop): Caveat[] {
  const { currentLimit, faultCase } = loop;
  const asked = faultCase === undefined ? [] : [CASE_NOTES[faultCase]];
  if (faultCase === "greatest") return asked;
  if (currentLimit === undefined) return [...asked, NO_LIMIT_NOTE];
  if (current < currentLimit) return asked;
  return [...asked, promptClearingCaveat(currentLimit)];
}

export const faultLoopGivens: QuantitiesOf<
  Required<Omit<FaultLoop, "currentLimit">> & { currentLimit: Amperes }
> = {
  voltage: { label: "Supply voltage", symbol: "U", unit: "V" },
  supplyResistance: { label: "Supply resistance", symbol: "Rs", unit: "Ω" },
  loopResistance: { label: "Resistance of the loop", symbol: "Rl", unit: "Ω" },
  currentLimit: {
    label: "Current limit of the supply",
    symbol: "Im",
    unit: "A",
  },
};

export function faultCurrentSteps(loop: FaultLoop): StepsWith<"current"> {
  return {
    prospectiveCurrent: {
      label: "Current that the resistances let flow",
      symbol: "Ip",
      unit: "A",
      kind: "formula",
      formula: "voltage / (supplyResistance + loopResistance)",
      cite: "ohm-joule",
    },
    current: {
      label: "Fault current",
      symbol: "Ik",
      unit: "A",
      kind: "formula",
      formula:
        limitOf(loop) === undefined
          ? "prospectiveCurrent"
          : "min(prospectiveCurrent, currentLimit)",
      cite: "definition",
    },
  };
}
