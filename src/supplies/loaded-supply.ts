/** A supply behind its resistance with a load that holds its power: the voltage at the load, the upper of two roots. */
import { NoAnswerError, requireAbove, requireAtLeast } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
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
  /** Also the lower root: the two add up to the open-circuit voltage. */
  readonly drop: Volts;
  readonly loss: Watts;
  readonly caveats: readonly Caveat[];
}

/**
 * Voltage and current of a supply behind a resistance that feeds a load at constant power: the upper root.
 * @throws {InputError}; {NoAnswerError} where the load is more than V²/4R, with the voltage collapsed.
 */
export function loadedSupply(supply: SupplyWithLoad): LoadedSupply {
  const { openCircuitVoltage, resistance, load } = supply;
  requireAbove("openCircuitVoltage", openCircuitVoltage, 0);
  requireAtLeast("resistance", resistance, 0);
  requireAtLeast("load", load, 0);
  requireServed(supply);
  // At the very limit rounding alone may come out above 1.
  const partOfLimit = Math.min((4 * resistance * load) / openCircuitVoltage ** 2, 1);
  const voltage = (openCircuitVoltage * (1 + Math.sqrt(1 - partOfLimit))) / 2;
  const current = load / voltage;
  return {
    partOfLimit,
    voltage,
    current,
    drop: current * resistance,
    loss: current ** 2 * resistance,
    caveats: notesOn(supply),
  };
}

function requireServed(supply: SupplyWithLoad): void {
  const { openCircuitVoltage, resistance, load } = supply;
  const most = openCircuitVoltage ** 2 / (4 * resistance);
  if (load > most)
    throw new NoAnswerError(
      "load",
      `no operating point: at most V₀²/4R = ${figure(most)} W arrive behind ${figure(resistance)} Ω, ${figure(load - most)} W less than the load; the voltage collapses`,
    );
}

function notesOn({ resistance, load }: SupplyWithLoad): Caveat[] {
  const about = (code: string, text: string): Caveat => ({
    code,
    field: "voltage",
    text,
    cite: "definition",
  });
  return [
    ...(resistance === 0 ? [about("ideal-resistance", "ideal: no resistance given")] : []),
    ...(load === 0 ? [about("no-load", "at no load: no load given")] : []),
  ];
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
    formula: "min(4 * resistance * load / openCircuitVoltage^2, 1)",
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
  drop: {
    label: "Drop up to the load",
    symbol: "ΔV",
    unit: "V",
    kind: "formula",
    formula: "current * resistance",
    cite: "ohm-joule",
  },
  loss: {
    label: "Loss up to the load",
    symbol: "Pl",
    unit: "W",
    kind: "formula",
    formula: "current^2 * resistance",
    cite: "ohm-joule",
  },
};
