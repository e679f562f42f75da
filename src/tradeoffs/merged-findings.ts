/** What the shares of one search found, round by round, as the one finding of all candidates that are settled. */
import type { Stop } from "./candidate-judge.js";
import { type Round, type SearchFindings, STOPPED, UNBEATEN } from "./feed-search.js";
import { type FrontPoint, UnbeatenPoints } from "./unbeaten.js";

export type TradeOutcome =
  | { readonly kind: "unbeaten" }
  /** By a candidate of the front, whether or not a check stops it too. */
  | { readonly kind: "beaten"; readonly by: FrontPoint }
  /** No candidate of the front beats it. */
  | { readonly kind: "stopped"; readonly by: Stop };

export type OutcomeCounts = Readonly<Record<TradeOutcome["kind"], number>>;

interface Settled {
  readonly index: number;
  readonly values: readonly number[];
  /** In its share. */
  readonly isUnbeaten: boolean;
  /** Undefined of one that nothing stopped, or that needed no judgement. */
  readonly stop: Stop | undefined;
  readonly broken: number;
}

/** As many are kept of those that are nearest to holding. */
const NEAREST = 8;

export class MergedFindings {
  /** Of those that a check stops, the nearest to holding; of equals the one with the lower number first. */
  readonly nearest: Pick<Settled, "index" | "broken">[] = [];
  private readonly settled = new Map<number, Settled>();
  private readonly unbeaten: UnbeatenPoints;
  private readonly stops = new Map<string, Stop>();

  /** @param front Of which none beats another one. */
  constructor(front: readonly FrontPoint[] = []) {
    this.unbeaten = new UnbeatenPoints(front);
  }

  /** @param shares All of one round, in any order. */
  add({ candidates, isMeasured }: Round, shares: readonly SearchFindings[]): void {
    for (const { share, values, outcomes, broken, stops } of shares) {
      const own = stops.map((stop) => this.oneOf(stop));
      const length = values.length / outcomes.length;
      outcomes.forEach((outcome, place) => {
        const index = candidates[share.first + place * share.every]!;
        const point = { index, values: [...values.subarray(place * length, (place + 1) * length)] };
        const isUnbeaten = outcome === UNBEATEN;
        if (isUnbeaten) this.unbeaten.add(point);
        const stop = outcome >= STOPPED ? own[outcome - STOPPED] : undefined;
        const settled = { ...point, isUnbeaten, stop, broken: broken[place]! };
        this.settled.set(index, settled);
        if (stop && isMeasured) this.keepNearest(settled);
      });
    }
  }

  /** Those that none beats, by rising first figure. */
  get front(): readonly FrontPoint[] {
    return this.unbeaten.points();
  }

  get size(): number {
    return this.settled.size;
  }

  has(index: number): boolean {
    return this.settled.has(index);
  }

  /** What became of every candidate that is settled. */
  *outcomes(): Generator<readonly [index: number, outcome: TradeOutcome]> {
    for (const one of this.settled.values()) yield [one.index, this.outcomeOf(one)];
  }

  /** Undefined of a candidate that is not settled. */
  outcomeAt(index: number): TradeOutcome | undefined {
    const settled = this.settled.get(index);
    return settled && this.outcomeOf(settled);
  }

  private keepNearest(one: Settled): void {
    const isNearer = (other: Pick<Settled, "index" | "broken">) =>
      one.broken < other.broken || (one.broken === other.broken && one.index < other.index);
    const place = this.nearest.findIndex(isNearer);
    if (place >= 0) this.nearest.splice(place, 0, one);
    else this.nearest.push(one);
    this.nearest.length = Math.min(this.nearest.length, NEAREST);
  }

  /** Each share of a search tells its stops by records of its own. */
  private oneOf(stop: Stop): Stop {
    const key = `${stop.item}|${stop.check}`;
    const known = this.stops.get(key) ?? stop;
    this.stops.set(key, known);
    return known;
  }

  private outcomeOf(settled: Settled): TradeOutcome {
    // What one share took for unbeaten, another share's candidate may beat.
    const by = this.unbeaten.beating(settled);
    if (by) return { kind: "beaten", by };
    if (settled.stop) return { kind: "stopped", by: settled.stop };
    if (!settled.isUnbeaten) throw new RangeError(`nothing beats candidate ${settled.index}`);
    return { kind: "unbeaten" };
  }
}
