/** Loss and load voltage of one load of constant power behind a resistance, at the upper of its two operating points. */
import type { UncertainFunction, UncertainInput } from "../../src/spread/uncertain-input.js";

export const LOAD_POWER = 10e3;

export function loadVoltage(supply: number, resistance: number): number {
  return supply / 2 + Math.sqrt((supply * supply) / 4 - resistance * LOAD_POWER);
}

/** Of supply, V, and loop resistance, Ω. */
export const voltageOf: UncertainFunction = ([supply = 0, resistance = 0]) =>
  loadVoltage(supply, resistance);

export const lossOf: UncertainFunction = ([supply = 0, resistance = 0]) =>
  resistance * (LOAD_POWER / loadVoltage(supply, resistance)) ** 2;

export const FEED_INPUTS: readonly UncertainInput[] = [
  { name: "supply", value: 400, halfWidth: 20, distribution: "flat" },
  { name: "resistance", value: 2, halfWidth: 0.2, distribution: "flat" },
];
