/**
 * How much constant power a bus behind resistance and inductance, with a capacitor on it, can feed before small
 * disturbances grow, against the load.
 *
 * To small changes a load of constant power P at V is a conductance −g, g = P/V². With R and L in line, and C behind its
 * own r at the bus, the natural response has LC(1 − gr)·s² + (C(R + r − gRr) − gL)·s + (1 − gR) = 0. It dies out while all
 * three coefficients are above 0 (all below 0 is not on the upper root: gR > 1): g < 1/r, g < C(R + r)/(L + RrC), g < 1/R.
 * Together with V = V₀ − R·P/V a conductance has V = V₀/(1 + gR) and P = gV²: the first of the limits on g gives the
 * critical power, and g = 1/R is the collapse, V₀²/4R. Without r the second is P = V²·R·C/L [negative-impedance].
 */
import { NoAnswerError, requireAbove, requireAtLeast } from "../quantities/errors.js";
import type { Cited, Caveat, Quantities, Steps, StepsWith } from "../quantities/steps.js";
import type { Farads, Henries, Ohms, Volts, Watts } from "../quantities/units.js";
import { loadedSupply, loadedSupplySteps } from "../supplies/loaded-supply.js";
import { heldPowerSag } from "./held-power-step.js";

export interface ConstantPowerBus {
  readonly openCircuitVoltage: Volts;
  readonly load: Watts;
  readonly resistance: Ohms;
  readonly inductance: Henries;
  readonly capacitance: Farads;
  readonly capacitorResistance: Ohms;
}

export type StabilityLimit = "damping" | "collapse" | "capacitor resistance";

/** What small disturbances allow. */
export interface CriticalPower {
  /** What sets the critical power. */
  readonly limit: StabilityLimit;
  /** Load as a part of the most that arrives. */
  readonly partOfLimit: number;
  /** Bus voltage at this load, upper root. */
  readonly busVoltage: Volts;
  /** −V²/P, which a small change of voltage meets; on the upper root always larger than R. */
  readonly loadResistance: Ohms;
  /** Conductance of the load up to which the circuit damps, 1/Ω. */
  readonly dampedConductance: number;
  readonly criticalConductance: number;
  readonly criticalVoltage: Volts;
  readonly criticalPower: Watts;
  readonly margin: number;
}

/** With caveats on what a large disturbance does, which is followed step by step in time. */
export interface StabilityMargin extends CriticalPower {
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError}; {NoAnswerError} where the load has no operating point at all. */
export function stabilityMargin(bus: ConstantPowerBus): StabilityMargin {
  const found = criticalPower(bus);
  return { ...found, caveats: [...notesOn(found.margin), ...switchedOn(bus)] };
}

/** Power of the load up to which small disturbances die out and the bus has an operating point. @throws as `stabilityMargin`. */
export function criticalPower(bus: ConstantPowerBus): CriticalPower {
  const { openCircuitVoltage, load, resistance, inductance } = bus;
  const { capacitance, capacitorResistance } = bus;
  requireAbove("openCircuitVoltage", openCircuitVoltage, 0);
  requireAbove("load", load, 0);
  requireAbove("resistance", resistance, 0);
  requireAbove("inductance", inductance, 0);
  requireAbove("capacitance", capacitance, 0);
  requireAtLeast("capacitorResistance", capacitorResistance, 0);
  const { partOfLimit, voltage: busVoltage } = loadedSupply(bus);
  const dampedConductance =
    (capacitance * (resistance + capacitorResistance)) /
    (inductance + resistance * capacitorResistance * capacitance);
  const { limit, criticalConductance } = firstLimit(bus, dampedConductance);
  const criticalVoltage = openCircuitVoltage / (1 + criticalConductance * resistance);
  const power = criticalConductance * criticalVoltage ** 2;
  return {
    limit,
    partOfLimit,
    busVoltage,
    loadResistance: (-busVoltage * busVoltage) / load,
    dampedConductance,
    criticalConductance,
    criticalVoltage,
    criticalPower: power,
    margin: power / load,
  };
}

/** A large disturbance: all of the load at once. LOAD_STEP_SAG with the bus voltage gives the sag itself. */
function switchedOn(bus: ConstantPowerBus): Caveat[] {
  const { openCircuitVoltage, load } = bus;
  try {
    heldPowerSag({
      ...bus,
      currentStep: load / openCircuitVoltage,
      busVoltage: openCircuitVoltage,
    });
    return [];
  } catch (error) {
    if (!(error instanceof NoAnswerError)) throw error;
    return [
      {
        code: "large-step",
        field: "margin",
        text: `all of the load at once: ${error.message}`,
        cite: "constant-power-stability",
      },
    ];
  }
}

function firstLimit(
  { resistance, capacitorResistance }: ConstantPowerBus,
  dampedConductance: number,
): { readonly limit: StabilityLimit; readonly criticalConductance: number } {
  const limits: readonly (readonly [StabilityLimit, number])[] = [
    ["damping", dampedConductance],
    ["collapse", 1 / resistance],
    ["capacitor resistance", capacitorResistance > 0 ? 1 / capacitorResistance : Infinity],
  ];
  const [limit, criticalConductance] = limits.reduce((least, one) =>
    one[1] < least[1] ? one : least,
  );
  return { limit, criticalConductance };
}

/** Below this a change of temperature or age may take what damping there is. */
const COMMON_MARGIN = 2;

function notesOn(margin: number): Caveat[] {
  const about = (code: string, text: string): Caveat => ({
    code,
    field: "margin",
    text,
    cite: "common-practice",
  });
  const filter = about(
    "one-side",
    "all elements referred to the same side; an input filter of the load belongs to the inductance and capacitance",
  );
  if (margin < 1)
    return [
      about("grows", "small disturbances grow: more capacitance, less inductance or more damping"),
      filter,
    ];
  if (margin < COMMON_MARGIN)
    return [
      about(
        "small-margin",
        `below ${COMMON_MARGIN}, a common margin: small disturbances die out, large ones may not`,
      ),
      filter,
    ];
  return [filter];
}

export const constantPowerBusGivens = {
  openCircuitVoltage: {
    label: "Open-circuit voltage",
    symbol: "V₀",
    unit: "V",
  },
  load: { label: "Load of constant power", symbol: "P", unit: "W" },
  resistance: { label: "Resistance up to the bus", symbol: "R", unit: "Ω" },
  inductance: { label: "Inductance up to the bus", symbol: "L", unit: "H" },
  capacitance: { label: "Capacitance on the bus", symbol: "C", unit: "F" },
  capacitorResistance: {
    label: "Series resistance of the capacitor",
    symbol: "r",
    unit: "Ω",
  },
} satisfies Quantities;

const LIMITS: Readonly<
  Record<StabilityLimit, { readonly formula: string; readonly told: string }>
> = {
  damping: { formula: "dampedConductance", told: "where damping ends" },
  collapse: { formula: "1 / resistance", told: "where the voltage collapses" },
  "capacitor resistance": {
    formula: "1 / capacitorResistance",
    told: "where the capacitor's own resistance ends it",
  },
};

export function stabilityMarginSteps({ limit }: CriticalPower): StepsWith<"margin"> {
  const { formula, told } = LIMITS[limit];
  const step = (
    label: string,
    symbol: string,
    unit: string,
    text: string,
    cite: Cited = "constant-power-stability",
  ): Steps[string] => ({
    label,
    symbol,
    unit,
    kind: "formula",
    formula: text,
    cite,
  });
  return {
    partOfLimit: loadedSupplySteps.partOfLimit,
    busVoltage: {
      ...loadedSupplySteps.voltage,
      label: "Bus voltage at this load, upper root",
    },
    loadResistance: step(
      "Resistance of the load to small changes",
      "RL",
      "Ω",
      "-busVoltage * busVoltage / load",
    ),
    dampedConductance: step(
      "Conductance up to which the circuit damps",
      "gd",
      "1/Ω",
      "capacitance * (resistance + capacitorResistance) / (inductance + resistance * capacitorResistance * capacitance)",
      "negative-impedance",
    ),
    criticalConductance: step(`Critical conductance, ${told}`, "g", "1/Ω", formula),
    criticalVoltage: step(
      "Bus voltage there",
      "Vc",
      "V",
      "openCircuitVoltage / (1 + criticalConductance * resistance)",
    ),
    criticalPower: step("Critical power", "Pc", "W", "criticalConductance * criticalVoltage^2"),
    margin: step("Margin", "m", "1", "criticalPower / load"),
  };
}
