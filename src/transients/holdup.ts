/** Hold-up: a capacitor alone feeds a load that holds its power, from one voltage down to another. */
import { InputError, requireAbove, requireFraction } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Farads, Fraction, Joules, Seconds, Volts, Watts } from "../quantities/units.js";
import { CHARGED_NOTE } from "./charged-caveat.js";

interface HeldUp {
  /** Power at the load. */
  readonly power: Watts;
  readonly startVoltage: Volts;
  /** Voltage at which the load gives up. */
  readonly endVoltage: Volts;
  /** Efficiency of what lies between capacitor and load. */
  readonly efficiency: Fraction;
}

export interface HoldupNeed extends HeldUp {
  readonly time: Seconds;
}

export interface HoldupCapacitance {
  /** Energy out of the capacitor. */
  readonly energy: Joules;
  readonly capacitance: Farads;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError} */
export function holdupCapacitance(need: HoldupNeed): HoldupCapacitance {
  const { power, time, startVoltage, endVoltage, efficiency } = need;
  requireHeldUp(need);
  requireAbove("time", time, 0);
  const energy = (power * time) / efficiency;
  const capacitance = (2 * energy) / ((startVoltage - endVoltage) * (startVoltage + endVoltage));
  return { energy, capacitance, caveats: [AGE_NOTE, CHARGED_NOTE] };
}

export interface HoldupStore extends HeldUp {
  readonly capacitance: Farads;
}

export interface HoldupTime {
  readonly energy: Joules;
  readonly time: Seconds;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError} */
export function holdupTime(store: HoldupStore): HoldupTime {
  const { power, capacitance, startVoltage, endVoltage, efficiency } = store;
  requireHeldUp(store);
  requireAbove("capacitance", capacitance, 0);
  const energy = 0.5 * capacitance * (startVoltage - endVoltage) * (startVoltage + endVoltage);
  return {
    energy,
    time: (efficiency * energy) / power,
    caveats: [AGE_NOTE, CHARGED_NOTE],
  };
}

function requireHeldUp({ power, startVoltage, endVoltage, efficiency }: HeldUp): void {
  requireAbove("power", power, 0);
  requireAbove("startVoltage", startVoltage, 0);
  requireAbove("endVoltage", endVoltage, 0);
  requireFraction("efficiency", efficiency);
  if (endVoltage >= startVoltage)
    throw new InputError("endVoltage", endVoltage, `below start V, ${startVoltage}`);
}

const AGE_NOTE: Caveat = {
  code: "least-capacitance",
  field: "capacitance",
  text: "the capacitance that is left at the low end of its tolerance, at the end of its life and in the cold",
  cite: "common-practice",
};

const heldUpGivens: QuantitiesOf<HeldUp> = {
  power: { label: "Power at the load", symbol: "P", unit: "W" },
  startVoltage: { label: "Voltage at the start", symbol: "U₀", unit: "V" },
  endVoltage: { label: "Voltage at the end", symbol: "U₁", unit: "V" },
  efficiency: {
    label: "Efficiency between capacitor and load",
    symbol: "η",
    unit: "1",
  },
};

export const holdupNeedGivens: QuantitiesOf<HoldupNeed> = {
  ...heldUpGivens,
  time: { label: "Hold-up time", symbol: "t", unit: "s" },
};

export const holdupStoreGivens: QuantitiesOf<HoldupStore> = {
  ...heldUpGivens,
  capacitance: { label: "Capacitance", symbol: "C", unit: "F" },
};

export const holdupCapacitanceSteps: StepsOf<HoldupCapacitance> = {
  energy: {
    label: "Energy out of the capacitor",
    symbol: "W",
    unit: "J",
    kind: "formula",
    formula: "power * time / efficiency",
    cite: "holdup-energy",
  },
  capacitance: {
    label: "Capacitance needed",
    symbol: "C",
    unit: "F",
    kind: "formula",
    formula: "2 * energy / ((startVoltage - endVoltage) * (startVoltage + endVoltage))",
    cite: "holdup-energy",
  },
};

export const holdupTimeSteps: StepsOf<HoldupTime> = {
  energy: {
    label: "Energy out of the capacitor",
    symbol: "W",
    unit: "J",
    kind: "formula",
    formula: "0.5 * capacitance * (startVoltage - endVoltage) * (startVoltage + endVoltage)",
    cite: "holdup-energy",
  },
  time: {
    label: "Hold-up time",
    symbol: "t",
    unit: "s",
    kind: "formula",
    formula: "efficiency * energy / power",
    cite: "holdup-energy",
  },
};
