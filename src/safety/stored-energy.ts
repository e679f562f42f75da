/** Energy in a charged capacitor. */
import { requireAbove } from "../quantities/errors.js";
import type { QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Farads, Joules, Volts } from "../quantities/units.js";

export interface ChargedCapacitor {
  readonly capacitance: Farads;
  readonly voltage: Volts;
}

export interface StoredEnergy {
  readonly energy: Joules;
}

/** @throws {InputError} */
export function storedEnergy({
  capacitance,
  voltage,
}: ChargedCapacitor): StoredEnergy {
  requireAbove("capacitance", capacitance, 0);
  requireAbove("voltage", voltage, 0);
  return { energy: 0.5 * capacitance * voltage ** 2 };
}

export const storedEnergyGivens: QuantitiesOf<ChargedCapacitor> = {
  capacitance: { label: "Capacitance", symbol: "C", unit: "F" },
  voltage: { label: "Voltage", symbol: "U", unit: "V" },
};

export const storedEnergySteps: StepsOf<StoredEnergy> = {
  energy: {
    label: "Stored energy",
    symbol: "W",
    unit: "J",
    kind: "formula",
    formula: "0.5 * capacitance * voltage^2",
    cite: "capacitor-energy",
  },
};
