/** At which loads and which supply voltage a feed is solved. */
import { InputError, requireAbove } from "../quantities/errors.js";
import type { Volts } from "../quantities/units.js";
import type { FeedItem } from "./feed-item.js";

/** A number multiplies every nominal load. */
export type LoadCase = "none" | "light" | "nominal" | "peak" | number;

/** A number is the open-circuit voltage itself. */
export type SupplyCase = "lowest" | "nominal" | "highest" | Volts;

export interface FeedConditions {
  readonly loads: LoadCase;
  readonly supply: SupplyCase;
}

export const NOMINAL: FeedConditions = { loads: "nominal", supply: "nominal" };

/** @throws {InputError} where the supply has no voltage for the case. */
export function supplyVoltage(item: FeedItem, supply: SupplyCase): Volts {
  if (typeof supply === "number") {
    requireAbove("supply", supply, 0);
    return supply;
  }
  const field = (
    {
      lowest: "lowestVoltage",
      nominal: "voltage",
      highest: "highestVoltage",
    } as const
  )[supply];
  const voltage = item[field];
  if (voltage === undefined)
    throw new InputError(
      field,
      null,
      `given on the supply to solve at its ${supply} voltage`,
    );
  return voltage;
}

/** W, A or Ω of one item in the case; 0 is no load. */
export function loadOf(item: FeedItem, loads: LoadCase): number {
  const nominal = item.load ?? 0;
  if (typeof loads === "number")
    return item.kind === "resistance load" ? nominal / loads : nominal * loads;
  switch (loads) {
    case "none":
      return 0;
    case "light":
      return item.lightLoad ?? 0;
    case "nominal":
      return nominal;
    case "peak":
      return item.peakLoad ?? nominal;
  }
}
