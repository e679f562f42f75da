/** Precharge of a capacitance through a resistor, with no load meanwhile: the resistance for a time, and the energy it takes up. */
import { InputError, requireAbove } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Farads, Fraction, Joules, Ohms, Seconds, Volts } from "../quantities/units.js";
import { CHARGED_NOTE } from "./charged-caveat.js";

export interface PrechargeInTime {
  readonly capacitance: Farads;
  readonly time: Seconds;
  /** Part of the supply's voltage that is reached when the time is over. */
  readonly fractionReached: Fraction;
}

export interface PrechargeResistance {
  readonly timeConstants: number;
  readonly resistance: Ohms;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError} */
export function prechargeResistance({
  capacitance,
  time,
  fractionReached,
}: PrechargeInTime): PrechargeResistance {
  requireAbove("capacitance", capacitance, 0);
  requireAbove("time", time, 0);
  requireReached(fractionReached);
  const timeConstants = -Math.log1p(-fractionReached);
  const resistance = time / (capacitance * timeConstants);
  return { timeConstants, resistance, caveats: [LOAD_NOTE] };
}

export interface PrechargeToVoltage {
  readonly capacitance: Farads;
  /** Voltage of the supply. */
  readonly voltage: Volts;
  readonly fractionReached: Fraction;
}

export interface PrechargeEnergy {
  /** Energy that the resistor takes up. */
  readonly energy: Joules;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError} */
export function prechargeEnergy({
  capacitance,
  voltage,
  fractionReached,
}: PrechargeToVoltage): PrechargeEnergy {
  requireAbove("capacitance", capacitance, 0);
  requireAbove("voltage", voltage, 0);
  requireReached(fractionReached);
  const energy = 0.5 * capacitance * voltage ** 2 * (fractionReached * (2 - fractionReached));
  return { energy, caveats: [LOAD_NOTE, PULSE_NOTE, CHARGED_NOTE] };
}

function requireReached(fractionReached: Fraction): void {
  if (!(fractionReached > 0 && fractionReached < 1))
    throw new InputError(
      "fractionReached",
      fractionReached,
      "above 0 and below 1, which takes for ever: 0.95 is common",
    );
}

const LOAD_NOTE: Caveat = {
  code: "no-load",
  field: "capacitance",
  text: "no load may draw while precharging; capacitance behind a ratio counts × ratio²",
  cite: "common-practice",
};

const PULSE_NOTE: Caveat = {
  code: "pulse",
  field: "energy",
  text: "the resistor must stand this energy as a pulse, and the whole supply if the precharge never ends",
  cite: "common-practice",
};

const fractionGiven = {
  label: "Part of the supply's voltage reached",
  symbol: "f",
  unit: "1",
} as const;

export const prechargeInTimeGivens: QuantitiesOf<PrechargeInTime> = {
  capacitance: { label: "Capacitance", symbol: "C", unit: "F" },
  time: { label: "Precharge time", symbol: "t", unit: "s" },
  fractionReached: fractionGiven,
};

export const prechargeToVoltageGivens: QuantitiesOf<PrechargeToVoltage> = {
  capacitance: { label: "Capacitance", symbol: "C", unit: "F" },
  voltage: { label: "Voltage of the supply", symbol: "U", unit: "V" },
  fractionReached: fractionGiven,
};

export const prechargeResistanceSteps: StepsOf<PrechargeResistance> = {
  timeConstants: {
    label: "Time constants that it takes",
    symbol: "n",
    unit: "1",
    kind: "formula",
    formula: "ln(1 / (1 - fractionReached))",
    cite: "capacitor-discharge",
  },
  resistance: {
    label: "Precharge resistance",
    symbol: "R",
    unit: "Ω",
    kind: "formula",
    formula: "time / (capacitance * timeConstants)",
    cite: "capacitor-discharge",
  },
};

export const prechargeEnergySteps: StepsOf<PrechargeEnergy> = {
  energy: {
    label: "Energy in the resistor",
    symbol: "W",
    unit: "J",
    kind: "formula",
    formula: "0.5 * capacitance * voltage^2 * (fractionReached * (2 - fractionReached))",
    cite: "capacitor-energy",
  },
};
