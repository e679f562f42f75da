/**
 * Voltage of a battery of like cells: the open-circuit curve at the state of charge, straight between its points, less
 * what the cells' resistance drops.
 *
 * Left out: slow polarisation, differences between cells, contacts and leads.
 */
import type { Battery } from "./battery.js";
import { InputError, NoAnswerError, requireAbove, requireWhole } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat, Quantities, QuantitiesOf, StepsWith } from "../quantities/steps.js";
import type { Fraction, Volts } from "../quantities/units.js";
import { batteryCaveats } from "./battery-caveats.js";
import { openCircuitCurves, pointsAround } from "./open-circuit-curves.js";

export interface BatteryVoltage {
  readonly chargeBelow: Fraction;
  readonly voltageBelow: Volts;
  readonly chargeAbove: Fraction;
  readonly voltageAbove: Volts;
  readonly cellOpenVoltage: Volts;
  readonly cellVoltage: Volts;
  readonly voltage: Volts;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError}; {NoAnswerError} where the current drops all of the voltage. */
export function batteryVoltage(battery: Battery): BatteryVoltage {
  const { cellsInSeries, stateOfCharge, current, cellResistance } = battery;
  const { chemistry, strings } = battery;
  requireWhole("cellsInSeries", cellsInSeries, 1);
  requireWhole("strings", strings, 1);
  if (!(stateOfCharge >= 0 && stateOfCharge <= 1))
    throw new InputError("stateOfCharge", stateOfCharge, "0 to 1: 0.6 for 60 %");
  requireAbove("cellResistance", cellResistance, 0);
  const curve = openCircuitCurves[chemistry];
  const { below, above } = pointsAround(curve, stateOfCharge);
  const [chargeBelow, voltageBelow] = below;
  const [chargeAbove, voltageAbove] = above;
  const cellOpenVoltage =
    voltageBelow +
    ((voltageAbove - voltageBelow) * (stateOfCharge - chargeBelow)) / (chargeAbove - chargeBelow);
  const cellVoltage = cellOpenVoltage - (current / strings) * cellResistance;
  if (!(cellVoltage > 0))
    throw new NoAnswerError(
      "current",
      `no operating point: ${figure(current / strings)} A per string drop more than a cell's ${figure(cellOpenVoltage)} V`,
    );
  return {
    chargeBelow,
    voltageBelow,
    chargeAbove,
    voltageAbove,
    cellOpenVoltage,
    cellVoltage,
    voltage: cellsInSeries * cellVoltage,
    caveats: batteryCaveats(battery, cellVoltage),
  };
}

export const batteryGivens: QuantitiesOf<Battery> & Quantities = {
  cellsInSeries: { label: "Cells in series", symbol: "ns", unit: "1" },
  stateOfCharge: { label: "State of charge", symbol: "z", unit: "1" },
  current: {
    label: "Current of the battery, discharge positive",
    symbol: "I",
    unit: "A",
  },
  cellResistance: { label: "Resistance of one cell", symbol: "Rc", unit: "Ω" },
  strings: { label: "Strings in parallel", symbol: "np", unit: "1" },
};

export function batterySteps({ chemistry }: Battery): StepsWith<"voltage"> {
  const { label, cite } = openCircuitCurves[chemistry];
  const looked = (what: string, symbol: string, unit: string) =>
    ({
      label: what,
      symbol,
      unit,
      kind: "lookup",
      table: `open-circuit voltage, ${label}`,
      key: "stateOfCharge",
      cite,
    }) as const;
  return {
    chargeBelow: looked("Charge of the point at or below", "z₁", "1"),
    voltageBelow: looked("Voltage there", "U₁", "V"),
    chargeAbove: looked("Charge of the point above", "z₂", "1"),
    voltageAbove: looked("Voltage there", "U₂", "V"),
    cellOpenVoltage: {
      label: "Open-circuit voltage of one cell",
      symbol: "Uoc",
      unit: "V",
      kind: "formula",
      formula:
        "voltageBelow + (voltageAbove - voltageBelow) * (stateOfCharge - chargeBelow) / (chargeAbove - chargeBelow)",
      cite,
    },
    cellVoltage: {
      label: "Voltage of one cell",
      symbol: "Uc",
      unit: "V",
      kind: "formula",
      formula: "cellOpenVoltage - current / strings * cellResistance",
      cite: "ohm-joule",
    },
    voltage: {
      label: "Voltage of the battery",
      symbol: "U",
      unit: "V",
      kind: "formula",
      formula: "cellsInSeries * cellVoltage",
      cite: "cells-in-series",
    },
  };
}
