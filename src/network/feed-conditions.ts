/** At which loads and which supply voltage a feed is solved. */
import { InputError, requireAbove } from "../quantities/errors.js";
import type { Volts } from "../quantities/units.js";
import type { FeedColumns } from "./feed-columns.js";
import { EQUATION, KINDS } from "./row-kinds.js";

/** Loads as they stand in a column of the feed, or none of them. */
export type LoadSet = "none" | "light" | "nominal" | "peak";

/** A number multiplies every nominal load; 0 is no load. */
export type LoadCase = LoadSet | number | MultipliedLoads;

export interface MultipliedLoads {
  readonly loads: LoadSet;
  readonly times: number;
}

/** A number is the open-circuit voltage itself. */
export type SupplyCase = "lowest" | "nominal" | "highest" | Volts;

export interface FeedConditions {
  readonly loads: LoadCase;
  readonly supply: SupplyCase;
}

export const NOMINAL: FeedConditions = { loads: "nominal", supply: "nominal" };

/** A supply's window: its Lowest V and Highest V, or what its Tolerance reaches if that is wider. */
export interface SupplyWindow {
  /** NaN where neither is given. */
  readonly lowest: number;
  readonly highest: number;
}

export function supplyWindow({ figures }: FeedColumns, row: number): SupplyWindow {
  const voltage = figures.voltage[row]!;
  const tolerance = figures.tolerance[row]!;
  const lowest = figures.lowestVoltage[row]!;
  const highest = figures.highestVoltage[row]!;
  if (Number.isNaN(tolerance)) return { lowest, highest };
  const low = voltage * (1 - tolerance);
  const high = voltage * (1 + tolerance);
  return {
    lowest: lowest < low ? lowest : low,
    highest: highest > high ? highest : high,
  };
}

/**
 * Open-circuit voltage of a supply in a case.
 * @throws {InputError} where the supply has no voltage for the case.
 */
export function supplyVoltage(feed: FeedColumns, row: number, supply: SupplyCase): Volts {
  if (typeof supply === "number") {
    requireAbove("supply", supply, 0);
    return supply;
  }
  if (supply === "nominal") return feed.figures.voltage[row]!;
  const voltage = supplyWindow(feed, row)[supply];
  if (Number.isNaN(voltage))
    throw new InputError(
      supply === "lowest" ? "lowestVoltage" : "highestVoltage",
      null,
      `given on the supply to solve at its ${supply} voltage`,
    );
  return voltage;
}

/**
 * The feed with each load as it is in a case and each supply at the case's voltage, as if they had been entered so. A
 * supply that is asked for at one voltage is exact: it has no window left.
 * @throws {InputError} where a supply has no voltage for the case.
 */
export function columnsAt(feed: FeedColumns, { loads, supply }: FeedConditions): FeedColumns {
  const { figures, kind, count } = feed;
  const load = figures.load.slice();
  const voltage = figures.voltage.slice();
  const lowestVoltage = figures.lowestVoltage.slice();
  const highestVoltage = figures.highestVoltage.slice();
  const tolerance = figures.tolerance.slice();
  for (let row = 0; row < count; row++) {
    const { role } = KINDS[kind[row]!]!;
    if (role === "load") load[row] = loadOf(feed, row, loads);
    if (role !== "supply" || supply === "nominal") continue;
    voltage[row] = supplyVoltage(feed, row, supply);
    lowestVoltage[row] = highestVoltage[row] = Number.NaN;
    tolerance[row] = 0;
  }
  return {
    ...feed,
    figures: { ...figures, load, voltage, lowestVoltage, highestVoltage, tolerance },
  };
}

/** W, A or Ω of one item in the case; 0 is no load. */
export function loadOf(feed: FeedColumns, row: number, loads: LoadCase): number {
  const { figures, kind } = feed;
  if (typeof loads === "number") return loadOf(feed, row, { loads: "nominal", times: loads });
  if (typeof loads === "object") {
    if (loads.times === 0) return 0;
    const once = loadOf(feed, row, loads.loads);
    return KINDS[kind[row]!]!.equation === EQUATION.conductance
      ? once / loads.times
      : once * loads.times;
  }
  const nominal = figures.load[row] || 0;
  switch (loads) {
    case "none":
      return 0;
    case "light":
      return figures.lightLoad[row] || 0;
    case "nominal":
      return nominal;
    case "peak": {
      const peak = figures.peakLoad[row]!;
      return Number.isNaN(peak) ? nominal : peak;
    }
  }
}
