/** A supply behind its resistance with a load that holds its power: the voltage at the load, the upper of two roots. */
import {
  NoAnswerError,
  requireAbove,
  requireAtLeast,
} from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Amperes, Ohms, Volts, Watts } from "../quantities/units.js";

export interface SupplyWithLoad {
  readonly openCircuitVoltage: Volts;
  readonly resistance: Ohms;
  readonly load: Watts;
}

export interface LoadedSupply {
  /** 1 at the most that arrives, 0 with no drop. */
  readonly partOfLimit: number;
  readonly voltage: Volts;
  readonly current: Amperes;
}

/** @throws {InputError}; {NoAnswerError} where the load is more than V²/4R, with the voltage collapsed. */
export function loadedSupply(supply: SupplyWithLoad): LoadedSupply {
  const { openCircuitVoltage, resistance, load } = supply;
  requireAbove("openCircuitVoltage", openCircuitVoltage, 0);
  requireAtLeast("resistance", resistance, 0);
  requireAtLeast("load", load, 0);
  const partOfLimit = (4 * resistance * load) / openCircuitVoltage ** 2;
  if (partOfLimit > 1)
    throw new NoAnswerError(
      "load",
      `no operating point: at most ${figure(openCircuitVoltage ** 2 / (4 * resistance))} W arrive behind ${figure(resistance)} Ω, ${figure(load)} W are asked for; the voltage collapses`,
    );
  const voltage = (openCircuitVoltage * (1 + Math.sqrt(1 - partOfLimit))) / 2;
  return { partOfLimit, voltage, current: load / voltage };
}

export const supplyWithLoadGivens: QuantitiesOf<SupplyWithLoad> = {
  openCircuitVoltage: {
    label: "Open-circuit voltage",
    symbol: "V₀",
    unit: "V",
  },
  resistance: { label: "Resistance up to the load", symbol: "R", unit: "Ω" },
  load: { label: "Load", symbol: "P", unit: "W" },
};

export const loadedSupplySteps: StepsOf<LoadedSupply> = {
  partOfLimit: {
    label: "Load as a part of the most that arrives",
    symbol: "x",
    unit: "1",
    kind: "formula",
    formula: "4 * resistance * load / openCircuitVoltage^2",
    cite: "maximum-power",
  },
  voltage: {
    label: "Voltage at the load, upper root",
    symbol: "V",
    unit: "V",
    kind: "formula",
    formula: "openCircuitVoltage * (1 + sqrt(1 - partOfLimit)) / 2",
    cite: "two-roots",
  },
  current: {
    label: "Current",
    symbol: "I",
    unit: "A",
    kind: "formula",
    formula: "load / voltage",
    cite: "definition",
  },
};
