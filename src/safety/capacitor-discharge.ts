/** How long a capacitor takes to discharge through a resistor. Left out: dielectric absorption, by which voltage returns. */
import { InputError, requireAbove } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Farads, Ohms, Seconds, Volts, Watts } from "../quantities/units.js";

export interface DischargingCapacitor {
  readonly capacitance: Farads;
  readonly startVoltage: Volts;
  readonly endVoltage: Volts;
  readonly resistance: Ohms;
}

export interface CapacitorDischarge {
  readonly timeConstant: Seconds;
  /** (start − end)/end: the ratio of near voltages alone would have lost its digits. */
  readonly excess: number;
  readonly time: Seconds;
  /** Power in the resistor at the start. */
  readonly startPower: Watts;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError} */
export function capacitorDischarge(capacitor: DischargingCapacitor): CapacitorDischarge {
  const { capacitance, startVoltage, endVoltage, resistance } = capacitor;
  requireAbove("capacitance", capacitance, 0);
  requireAbove("startVoltage", startVoltage, 0);
  requireAbove("endVoltage", endVoltage, 0);
  requireAbove("resistance", resistance, 0);
  const excess = (startVoltage - endVoltage) / endVoltage;
  if (!(excess > NEAR))
    throw new InputError(
      "endVoltage",
      endVoltage,
      `below start V, ${startVoltage}, by more than rounding`,
    );
  const timeConstant = resistance * capacitance;
  const time = timeConstant * Math.log1p(excess);
  const startPower = startVoltage ** 2 / resistance;
  const caveats = notesOn(timeConstant, startVoltage);
  return { timeConstant, excess, time, startPower, caveats };
}

/** Nearer than this, as a part of the end, some spreadsheets take 1 + excess for 1, and the step divides by 0. */
const NEAR = 1e-13;

/** [iec-60204-1-discharge] */
const MACHINE_TIME = 5;
const MACHINE_VOLTAGE = 60;

function notesOn(timeConstant: Seconds, startVoltage: Volts): Caveat[] {
  const caveats: Caveat[] = [
    {
      code: "verify",
      field: "time",
      text: "wait for the discharge, then verify it by measurement: a resistor may be open, and voltage may return",
      cite: "common-practice",
    },
  ];
  // Whatever end was asked for: from a lower start the time is below 0.
  const toMachineVoltage = timeConstant * Math.log(startVoltage / MACHINE_VOLTAGE);
  if (toMachineVoltage > MACHINE_TIME)
    caveats.push({
      code: "over-five-seconds",
      field: "time",
      text: `comes to ${MACHINE_VOLTAGE} V after ${figure(toMachineVoltage)} s, more than the ${MACHINE_TIME} s that machinery may take above 60 µC; other rules ask for 1 or 2 s`,
      cite: "iec-60204-1-discharge",
    });
  return caveats;
}

export const capacitorDischargeGivens: QuantitiesOf<DischargingCapacitor> = {
  capacitance: { label: "Capacitance", symbol: "C", unit: "F" },
  startVoltage: { label: "Voltage at the start", symbol: "U₀", unit: "V" },
  endVoltage: { label: "Voltage at the end", symbol: "U₁", unit: "V" },
  resistance: { label: "Discharge resistance", symbol: "R", unit: "Ω" },
};

export const capacitorDischargeSteps: StepsOf<CapacitorDischarge> = {
  timeConstant: {
    label: "Time constant",
    symbol: "τ",
    unit: "s",
    kind: "formula",
    formula: "resistance * capacitance",
    cite: "capacitor-discharge",
  },
  excess: {
    label: "Start above the end, in parts of the end",
    symbol: "x",
    unit: "1",
    kind: "formula",
    formula: "(startVoltage - endVoltage) / endVoltage",
    cite: "definition",
  },
  time: {
    label: "Discharge time, τ · ln(U₀/U₁)",
    symbol: "t",
    unit: "s",
    kind: "formula",
    // What 1 + x loses by rounding is made good by the quotient, so that near voltages keep their digits.
    formula: "timeConstant * ln(1 + excess) * (excess / (1 + excess - 1))",
    cite: "capacitor-discharge",
  },
  startPower: {
    label: "Power in the resistor at the start",
    symbol: "P₀",
    unit: "W",
    kind: "formula",
    formula: "startVoltage^2 / resistance",
    cite: "ohm-joule",
  },
};
