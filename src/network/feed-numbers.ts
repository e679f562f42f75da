/**
 * A feed as the solver reads it: one array per coefficient, of whole rows (n items in parallel as one), in SI.
 * A topology is set up once; for other loads, sizes or voltages only numbers change.
 */
import type { FeedItem, FeedKind } from "./feed-item.js";

/** Kinds by number, so that the solver's inner loop compares integers. */
export const KIND = {
  supply: 0,
  line: 1,
  ratio: 2,
  regulated: 3,
  power: 4,
  current: 5,
  conductance: 6,
} as const;

export const KIND_OF: Readonly<Record<FeedKind, number>> = {
  supply: KIND.supply,
  run: KIND.line,
  series: KIND.line,
  ratio: KIND.ratio,
  regulated: KIND.regulated,
  "power load": KIND.power,
  "current load": KIND.current,
  "resistance load": KIND.conductance,
};

export interface FeedNumbers {
  readonly kind: Uint8Array;
  /** Open-circuit voltage, set point or forward drop, V. */
  readonly voltage: Float64Array;
  /** Output resistance of the whole row, Ω. */
  readonly resistance: Float64Array;
  readonly ratio: Float64Array;
  /** Loss drawn at the input: fixed + linear·I + quadratic·I², W, V, Ω; of a ratio row without what its resistance dissipates. */
  readonly fixedLoss: Float64Array;
  readonly linearLoss: Float64Array;
  readonly quadraticLoss: Float64Array;
  /** Output ÷ input power where losses are given so; 1 otherwise. */
  readonly efficiency: Float64Array;
  /** W, A or S of a load row. */
  readonly demand: Float64Array;
}

export function emptyNumbers(count: number): FeedNumbers {
  return {
    kind: new Uint8Array(count),
    voltage: new Float64Array(count),
    resistance: new Float64Array(count),
    ratio: new Float64Array(count),
    fixedLoss: new Float64Array(count),
    linearLoss: new Float64Array(count),
    quadraticLoss: new Float64Array(count),
    efficiency: new Float64Array(count),
    demand: new Float64Array(count),
  };
}

/** Enters one checked item. `voltage` and `load` are those of the case that is solved, of one item. */
export function enterItem(
  numbers: FeedNumbers,
  row: number,
  item: FeedItem,
  voltage: number,
  load: number,
): void {
  const n = item.inParallel;
  const resistance = item.resistance ?? 0;
  const isRatio = item.kind === "ratio";
  numbers.kind[row] = KIND_OF[item.kind];
  numbers.voltage[row] = voltage;
  numbers.resistance[row] = resistance / n;
  numbers.ratio[row] = item.ratio ?? 1;
  numbers.fixedLoss[row] = n * (item.fixedLoss ?? 0);
  numbers.linearLoss[row] = item.linearLoss ?? 0;
  const quadratic = item.quadraticLoss ?? (isRatio ? resistance : 0);
  numbers.quadraticLoss[row] =
    (isRatio ? quadratic - resistance : quadratic) / n;
  numbers.efficiency[row] = item.efficiency ?? 1;
  numbers.demand[row] = demandOf(item.kind, load, n);
}

function demandOf(kind: FeedKind, load: number, n: number): number {
  if (kind !== "resistance load") return load * n;
  return load === 0 ? 0 : n / load;
}
