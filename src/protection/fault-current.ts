/** Current of a short circuit at the end of a loop, steady: after the supply's capacitors are empty and its limiter has acted. */
import {
  InputError,
  requireAbove,
  requireAtLeast,
} from "../quantities/errors.js";
import type { Note, QuantitiesOf, StepsWith } from "../quantities/steps.js";
import type { Amperes, Ohms, Volts } from "../quantities/units.js";

export interface FaultLoop {
  readonly voltage: Volts;
  readonly supplyResistance: Ohms;
  /** Of both conductors up to the fault. */
  readonly loopResistance: Ohms;
  /** Of the supply; undefined where none is known. */
  readonly currentLimit: Amperes | undefined;
}

export interface FaultCurrent {
  /** That the resistances alone would let flow. */
  readonly prospectiveCurrent: Amperes;
  readonly current: Amperes;
  readonly notes: readonly Note[];
}

/** @throws {InputError} naming a field; resistances of 0 together let no figure be told. */
export function faultCurrent(loop: FaultLoop): FaultCurrent {
  const { voltage, supplyResistance, loopResistance, currentLimit } = loop;
  requireAbove("voltage", voltage, 0);
  requireAtLeast("supplyResistance", supplyResistance, 0);
  requireAtLeast("loopResistance", loopResistance, 0);
  if (currentLimit !== undefined) requireAbove("currentLimit", currentLimit, 0);
  const resistance = supplyResistance + loopResistance;
  if (!(resistance > 0))
    throw new InputError(
      "loopResistance",
      loopResistance,
      "above 0 where supply resistance is 0",
    );
  const prospectiveCurrent = voltage / resistance;
  const current = Math.min(prospectiveCurrent, currentLimit ?? Infinity);
  return { prospectiveCurrent, current, notes: notesOn(current, loop) };
}

/** Without it the current comes out as large as it can be, which is not the safe side. */
export const NO_LIMIT_NOTE: Note = {
  code: "no-limit-given",
  field: "current",
  text: "no current limit of the supply given: an electronic supply holds far less, and the fuse may then never clear",
  cite: "common-practice",
};

function notesOn(current: Amperes, { currentLimit }: FaultLoop): Note[] {
  if (currentLimit === undefined) return [NO_LIMIT_NOTE];
  if (current < currentLimit) return [];
  return [
    {
      code: "limit-rules",
      field: "current",
      text: "the supply's current limit rules: a fuse rated above about half of it will not clear promptly",
      cite: "common-practice",
    },
  ];
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

export function faultCurrentSteps({
  currentLimit,
}: FaultLoop): StepsWith<"current"> {
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
        currentLimit === undefined
          ? "prospectiveCurrent"
          : "min(prospectiveCurrent, currentLimit)",
      cite: "definition",
    },
  };
}
