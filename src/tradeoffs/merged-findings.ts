/** What several shares of one search found, as the one finding of all candidates. */
import { BEATEN, type SearchFindings, STOPPED, UNBEATEN } from "./feed-search.js";
import type { Stop } from "./candidate-judge.js";
import { type FrontPoint, UnbeatenPoints } from "./unbeaten.js";

export interface TradeFindings {
  /** Those that none beats, by rising first figure. */
  readonly front: readonly FrontPoint[];
  /** By candidate: one figure for each objective. */
  readonly valuesAt: (index: number) => readonly number[];
  /** By candidate. */
  readonly outcomeAt: (index: number) => TradeOutcome;
  readonly counts: Readonly<Record<TradeOutcome["kind"], number>>;
}

export type TradeOutcome =
  | { readonly kind: "unbeaten" }
  /** By a candidate of the front, whether or not a check stops it too. */
  | { readonly kind: "beaten"; readonly by: FrontPoint }
  /** No candidate of the front beats it. */
  | { readonly kind: "stopped"; readonly by: Stop };

/** @param shares All of one search, in any order. */
export function mergedFindings(
  shares: readonly SearchFindings[],
  objectives: number,
): TradeFindings {
  const byFirst = [...shares].sort((one, other) => one.share.first - other.share.first);
  const valuesAt = (index: number): readonly number[] => {
    const { values } = byFirst[index % byFirst.length]!;
    const first = Math.floor(index / byFirst.length) * objectives;
    return [...values.subarray(first, first + objectives)];
  };
  const found = (index: number) => {
    const { outcomes, stops } = byFirst[index % byFirst.length]!;
    return { outcome: outcomes[Math.floor(index / byFirst.length)]!, stops };
  };
  const count = shares.reduce((sum, { outcomes }) => sum + outcomes.length, 0);
  const unbeaten = new UnbeatenPoints();
  for (let index = 0; index < count; index++)
    if (found(index).outcome === UNBEATEN) unbeaten.add({ index, values: valuesAt(index) });
  const outcomeAt = (index: number): TradeOutcome => {
    const by = unbeaten.beating({ index, values: valuesAt(index) });
    const { outcome, stops } = found(index);
    // What a search of one share took for unbeaten, another share's candidate may beat.
    if (by && !(by.index === index)) return { kind: "beaten", by };
    if (outcome >= STOPPED) return { kind: "stopped", by: stops[outcome - STOPPED]! };
    if (outcome === BEATEN) throw new RangeError(`nothing beats candidate ${index}`);
    return { kind: "unbeaten" };
  };
  const counts = { unbeaten: 0, beaten: 0, stopped: 0 };
  for (let index = 0; index < count; index++) counts[outcomeAt(index).kind]++;
  return { front: unbeaten.points(), valuesAt, outcomeAt, counts };
}
