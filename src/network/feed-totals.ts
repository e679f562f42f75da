import type { Fraction, Volts, Watts } from "../quantities/units.js";
import type { CompiledFeed } from "./compiled-feed.js";
import type { FeedColumns } from "./feed-columns.js";
import { KINDS } from "./row-kinds.js";

export interface FeedTotals {
  /** At the open-circuit voltage, so that the supply's own loss is among the losses. */
  readonly supplyPower: Watts;
  readonly loadPower: Watts;
  readonly loss: Watts;
  /** Not there where the supply gives nothing, nor where loads give back more than others take. */
  readonly efficiency: Fraction | undefined;
  /** Supply power less loads and losses: 0 but for rounding. */
  readonly closingError: Watts;
  /** Least of (V − lowest)/lowest and (highest − V)/highest over stages and loads with a window; not there where none has one. */
  readonly lowestMargin: Fraction | undefined;
}

const NONE: ReadonlyMap<number, unknown> = new Map();

/** @param faults Rows that were not solved and count for nothing. */
export function feedTotals(
  { columns, numbers, state }: CompiledFeed,
  faults: ReadonlyMap<number, unknown> = NONE,
): FeedTotals {
  let supplyPower = 0;
  let loadPower = 0;
  let loss = 0;
  let lowestMargin = Infinity;
  for (let row = 0; row < columns.count; row++) {
    if (faults.size > 0 && faults.has(row)) continue;
    const kind = KINDS[columns.kind[row]!]!;
    const power = state.inputVoltage[row]! * state.inputCurrent[row]!;
    if (kind.role === "supply") supplyPower += power;
    if (kind.role === "load") loadPower += power;
    loss += kind.loss(row, numbers, state);
    const margin = leastMargin(columns, row, state.inputVoltage[row]!);
    if (margin < lowestMargin) lowestMargin = margin;
  }
  return {
    supplyPower,
    loadPower,
    loss,
    efficiency: supplyPower > 0 && loadPower >= 0 ? loadPower / supplyPower : undefined,
    closingError: supplyPower - loadPower - loss,
    lowestMargin: lowestMargin === Infinity ? undefined : lowestMargin,
  };
}

/** Infinity for a row without a window. A supply's range describes its tolerance and is no limit to check: it has no window. */
export function leastMargin(
  { kind, figures }: FeedColumns,
  row: number,
  inputVoltage: Volts,
): number {
  if (KINDS[kind[row]!]!.role === "supply") return Infinity;
  const lowest = figures.lowestVoltage[row]!;
  const highest = figures.highestVoltage[row]!;
  const below = (inputVoltage - lowest) / lowest;
  const above = (highest - inputVoltage) / highest;
  // A limit that is not given is NaN, and no margin is less than that.
  return Math.min(Number.isNaN(below) ? Infinity : below, Number.isNaN(above) ? Infinity : above);
}
