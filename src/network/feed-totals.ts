import type { Fraction, Volts, Watts } from "../quantities/units.js";
import type { FeedItem } from "./feed-item.js";
import type { FeedRow, SolvedRow } from "./feed-row.js";

export interface FeedTotals {
  /** At the open-circuit voltage, so that the supply's own loss is among the losses. */
  readonly supplyPower: Watts;
  readonly loadPower: Watts;
  readonly loss: Watts;
  /** Not there where the supply gives nothing. */
  readonly efficiency: Fraction | undefined;
  /** Supply power less loads and losses: 0 but for rounding. */
  readonly closingError: Watts;
  /** Least of (V − lowest)/lowest and (highest − V)/highest over stages and loads with a window; not there where none has one. */
  readonly lowestMargin: Fraction | undefined;
}

/** Over the rows that were solved. */
export function feedTotals(rows: readonly FeedRow[]): FeedTotals {
  const solved = rows.filter(
    (row): row is SolvedRow => row.outcome === "solved",
  );
  const supplies = solved.filter(({ item }) => item.kind === "supply");
  const supplyPower = sumOf(supplies, ({ inputPower }) => inputPower);
  const loadPower = sumOf(solved, ({ output, inputPower }) =>
    output ? 0 : inputPower,
  );
  const loss = sumOf(solved, (row) => row.loss);
  const lowestMargin = solved.reduce(
    (least, row) => Math.min(least, leastMargin(row.item, row.inputVoltage)),
    Infinity,
  );
  return {
    supplyPower,
    loadPower,
    loss,
    efficiency: supplyPower > 0 ? loadPower / supplyPower : undefined,
    closingError: supplyPower - loadPower - loss,
    lowestMargin: lowestMargin === Infinity ? undefined : lowestMargin,
  };
}

/** Infinity for a row without a window. A supply's window is what it may be, not what it must be kept in: it has none. */
export function leastMargin(item: FeedItem, inputVoltage: Volts): number {
  const { kind, lowestVoltage: lowest, highestVoltage: highest } = item;
  if (kind === "supply") return Infinity;
  return Math.min(
    lowest === undefined ? Infinity : (inputVoltage - lowest) / lowest,
    highest === undefined ? Infinity : (highest - inputVoltage) / highest,
  );
}

function sumOf(
  rows: readonly SolvedRow[],
  of: (row: SolvedRow) => number,
): number {
  return rows.reduce((sum, row) => sum + of(row), 0);
}
