/** The most power that arrives behind a resistance, at half the open-circuit voltage. */
import { requireAbove } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Ohms, Volts, Watts } from "../quantities/units.js";

export interface SupplyBehindResistance {
  readonly openCircuitVoltage: Volts;
  readonly resistance: Ohms;
}

export interface SupplyLimit {
  readonly power: Watts;
  readonly voltage: Volts;
  readonly caveats: readonly Caveat[];
}

/** The most power that arrives behind a resistance, V²/4R, and the voltage there. @throws {InputError} */
export function supplyLimit({
  openCircuitVoltage,
  resistance,
}: SupplyBehindResistance): SupplyLimit {
  requireAbove("openCircuitVoltage", openCircuitVoltage, 0);
  requireAbove("resistance", resistance, 0);
  return {
    power: openCircuitVoltage ** 2 / (4 * resistance),
    voltage: openCircuitVoltage / 2,
    caveats: [HALF_NOTE],
  };
}

const HALF_NOTE: Caveat = {
  code: "half-is-lost",
  field: "power",
  text: "at this limit half of the power is lost and a load that holds its power is about to collapse: stay below half of it",
  cite: "common-practice",
};

export const supplyBehindResistanceGivens: QuantitiesOf<SupplyBehindResistance> = {
  openCircuitVoltage: {
    label: "Open-circuit voltage",
    symbol: "V₀",
    unit: "V",
  },
  resistance: { label: "Resistance up to the load", symbol: "R", unit: "Ω" },
};

export const supplyLimitSteps: StepsOf<SupplyLimit> = {
  power: {
    label: "Most power that arrives",
    symbol: "Pmax",
    unit: "W",
    kind: "formula",
    formula: "openCircuitVoltage^2 / (4 * resistance)",
    cite: "maximum-power",
  },
  voltage: {
    label: "Voltage at the load there",
    symbol: "V",
    unit: "V",
    kind: "formula",
    formula: "openCircuitVoltage / 2",
    cite: "maximum-power",
  },
};
