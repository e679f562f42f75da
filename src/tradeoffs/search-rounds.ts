/**
 * Which candidates of what is varied are settled, round by round. All of them in one round where they are few enough. Else
 * a search for what no change of one figure beats, a Pareto local search (L. Paquete, M. Chiarandini, T. Stützle, 2004,
 * from memory): it begins with the feed as it is and with points of Sobol's sequence over the choices, and settles every
 * neighbour (a candidate that differs in one variation, at any of its choices) of each candidate on the front, until no
 * neighbour of the front is left or its candidates are used up. While none holds, those nearest to holding stand for the
 * front. What comes out depends on nothing but the request.
 */
import { InputError } from "../quantities/errors.js";
import { sobolSequence } from "../spread/sobol-sequence.js";
import type { Round, SearchFindings } from "./feed-search.js";
import { MergedFindings } from "./merged-findings.js";
import { candidateCount, choicesAt, indexOf, type VariedFeed } from "./varied-feed.js";

/** More take too long to wait for. */
export const MOST_CANDIDATES = 200_000;

/** Above, two candidates would have one number. */
export const MOST_COUNTED = Number.MAX_SAFE_INTEGER;

/** Points of the sequence. */
const START = 1024;
/** Neighbours that are settled before the front is looked at anew. */
const ROUND = 2048;

/** How far a search has come, and with it what it proves. */
export interface SearchExtent {
  /** All combinations. */
  readonly all: number;
  readonly settled: number;
  /** Candidates of the front of which a neighbour is not settled; 0 where all are settled. */
  readonly unproven: number;
  /** Where none that is settled holds, and others are left: the one nearest to it. */
  readonly nearest?: number;
}

/** What nothing settled beats, nothing beats at all. */
export function isWhole({ all, settled }: SearchExtent): boolean {
  return settled === all;
}

export class SearchRounds {
  readonly found = new MergedFindings();
  /** Undefined when the search has ended. */
  round: Round | undefined;
  /** Candidates that are settled at most. */
  readonly most: number;
  private readonly all: number;
  private readonly isWhole: boolean;
  /** Candidates of which every neighbour is settled. */
  private readonly explored = new Set<number>();

  /**
   * @param most Candidates that are settled.
   * @throws {InputError} for more combinations than can be counted.
   */
  constructor(
    private readonly varied: VariedFeed,
    most = MOST_CANDIDATES,
  ) {
    this.all = candidateCount(varied);
    if (this.all > MOST_COUNTED)
      throw new InputError("combinations", this.all, `at most ${MOST_COUNTED}: give fewer choices`);
    this.most = Math.min(this.all, most);
    this.isWhole = this.all <= most;
    this.round = this.roundOf(
      this.isWhole ? Array.from({ length: this.all }, (_, at) => at) : this.start(),
    );
  }

  /** @param shares All of the round. */
  take(shares: readonly SearchFindings[]): void {
    this.found.add(this.round!, shares);
    const next = this.isWhole ? [] : this.neighbours();
    this.round = next.length > 0 ? this.roundOf(next) : undefined;
  }

  get extent(): SearchExtent {
    const { all, found } = this;
    const [nearest] = found.front.length > 0 || found.size === all ? [] : found.nearest;
    return {
      all,
      settled: found.size,
      unproven: this.isWhole ? 0 : this.unexplored(found.front).length,
      ...(nearest && { nearest: nearest.index }),
    };
  }

  private roundOf(candidates: readonly number[]): Round {
    const { front } = this.found;
    return {
      candidates: Float64Array.from(candidates),
      front,
      isMeasured: !this.isWhole && front.length === 0,
    };
  }

  /** The feed as it is, or what is nearest to it among the choices, and points that fill the choices evenly. */
  private start(): readonly number[] {
    const { variations, asNow } = this.varied;
    const open = variations.flatMap(({ choices }, variation) =>
      choices.length > 1 ? [{ variation, count: choices.length }] : [],
    );
    const now = asNow.map((choice) => choice ?? 0);
    const candidates = new Set([indexOf(this.varied, now)]);
    const next = sobolSequence(open.length);
    // A search with few candidates keeps most of them for what is beside the front.
    const points = Math.min(START, Math.ceil(this.most / 4));
    for (let point = 0; point < points; point++) {
      const at = [...now];
      const coordinates = next();
      open.forEach(({ variation, count }, axis) => {
        at[variation] = Math.floor((coordinates[axis]! / 2 ** 32) * count);
      });
      candidates.add(indexOf(this.varied, at));
    }
    return [...candidates].slice(0, this.most);
  }

  /** Some of those that are not settled, of members spread over the front. */
  private neighbours(): readonly number[] {
    const { front } = this.found;
    const left = this.most - this.found.size;
    const members = this.unexplored(front.length > 0 ? front : this.found.nearest);
    const each = this.varied.variations.reduce((sum, { choices }) => sum + choices.length - 1, 0);
    const taken = Math.min(members.length, Math.ceil(ROUND / each));
    const next = new Set<number>();
    for (let place = 0; place < taken; place++)
      for (const neighbour of this.besideOf(members[Math.floor((place * members.length) / taken)]!))
        if (next.size < left && !this.found.has(neighbour)) next.add(neighbour);
    return [...next];
  }

  private unexplored(members: readonly { readonly index: number }[]): readonly number[] {
    return members.flatMap(({ index }) => {
      if (this.explored.has(index)) return [];
      for (const neighbour of this.besideOf(index)) if (!this.found.has(neighbour)) return [index];
      this.explored.add(index);
      return [];
    });
  }

  /** Those that differ in one variation. */
  private *besideOf(index: number): Generator<number> {
    let step = 1;
    const { variations } = this.varied;
    const at = choicesAt(this.varied, index);
    for (let variation = variations.length - 1; variation >= 0; variation--) {
      const { length } = variations[variation]!.choices;
      for (let choice = 0; choice < length; choice++)
        if (choice !== at[variation]) yield index + (choice - at[variation]!) * step;
      step *= length;
    }
  }
}
