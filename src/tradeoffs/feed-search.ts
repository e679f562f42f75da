/**
 * Candidates of what is varied in a feed, settled in rounds and in steps, so that the caller can tell how far it is and
 * stop it. Of a round every candidate's figures are found first. Then they are judged in the order of the first figure,
 * the second and so on: a candidate is beaten by an earlier one or by none, so that one which an unbeaten candidate beats
 * needs no judgement. Where the margin is traded too, all are judged. A small block, spread over the round, goes before
 * the rest, so that the time of all can be told from it.
 */
import { InputError } from "../quantities/errors.js";
import { CandidateJudge, type Held, type Stop } from "./candidate-judge.js";
import { type FiguresOf, figuresOf, type Objective, requireFigures } from "./objectives.js";
import { type FrontPoint, UnbeatenPoints } from "./unbeaten.js";
import { choicesAt, StandingFeed, type VariedFeed } from "./varied-feed.js";

export interface FeedSearchRequest extends Held {
  readonly varied: VariedFeed;
  /** Two or three, the first one counts where candidates are put in order. */
  readonly objectives: readonly Objective[];
}

/** Candidates that are settled together. */
export interface Round {
  /** Their numbers. */
  readonly candidates: Float64Array;
  /** Of the rounds before: those that none beats so far. */
  readonly front: readonly FrontPoint[];
  /** Whether one that breaks a check tells how far it is from holding. */
  readonly isMeasured: boolean;
}

/** Every so many candidates of a round from a first one: the share of one thread among several. */
export interface Share {
  readonly first: number;
  readonly every: number;
}

const ALL: Share = { first: 0, every: 1 };

/** Candidates of a share that are settled before the rest. */
const BLOCK = 32;

/** What became of a candidate; from `STOPPED` on, the place of what stopped it, plus this. */
export const BEATEN = 0;
export const UNBEATEN = 1;
export const STOPPED = 2;

export interface SearchFindings {
  readonly share: Share;
  /** By candidate of the share, one figure for each objective; less is better, the margin stands with its sign changed. */
  readonly values: Float64Array;
  /** By candidate of the share. */
  readonly outcomes: Uint16Array;
  /** By candidate of the share: what `CandidateJudge.brokenness` says of one that is stopped, where it is measured. */
  readonly broken: Float64Array;
  readonly stops: readonly Stop[];
}

/** Set up once for all rounds. */
export class FeedSearch {
  readonly judge: CandidateJudge;
  private readonly feed: StandingFeed;
  private readonly figures: FiguresOf;
  private readonly variedRows: readonly number[];

  /** @throws {InputError} for too few objectives or variations. */
  constructor(readonly request: FeedSearchRequest) {
    const { varied, objectives } = request;
    if (varied.variations.length === 0)
      throw new InputError("variations", null, "one figure of the feed or more, with its choices");
    if (new Set(objectives).size !== objectives.length || objectives.length < 2)
      throw new InputError("objectives", objectives.join(", "), "two or three different ones");
    this.feed = new StandingFeed(varied);
    this.figures = figuresOf(this.feed, objectives);
    this.variedRows = varied.parts.flatMap(({ rows }) => rows);
    this.judge = new CandidateJudge(varied, request);
  }

  /** @throws {UnknownFigureError} for a candidate that lacks a figure which is traded. */
  figuresAt(index: number): ReturnType<FiguresOf> {
    const { varied, objectives } = this.request;
    requireFigures(this.feed.at(choicesAt(varied, index)), this.variedRows, objectives);
    return this.figures();
  }

  settling(round: Round, share = ALL): Settling {
    return new Settling(this, round, share);
  }
}

/** A share of a round. */
export class Settling {
  readonly count: number;
  figured = 0;
  settled = 0;
  private readonly unbeaten: UnbeatenPoints;
  private readonly values: Float64Array;
  private readonly outcomes: Uint16Array;
  private readonly broken: Float64Array;
  private readonly stops: Stop[] = [];
  /** Places of the candidates in the order in which they are come to: the block, then the rest. */
  private readonly places: Uint32Array;
  private readonly block: number;

  constructor(
    private readonly search: FeedSearch,
    private readonly round: Round,
    private readonly share: Share,
  ) {
    const { objectives } = search.request;
    const { candidates, front } = round;
    this.count = Math.max(0, Math.ceil((candidates.length - share.first) / share.every));
    this.unbeaten = new UnbeatenPoints(front);
    this.values = new Float64Array(this.count * objectives.length);
    this.outcomes = new Uint16Array(this.count);
    this.broken = new Float64Array(this.count);
    this.block = Math.min(this.count, BLOCK);
    this.places = blockFirst(this.count, this.block);
  }

  /** Takes up to so many more steps, of two that each candidate takes. @returns whether any is left. */
  advance(steps: number): boolean {
    for (let step = 0; step < steps && this.settled < this.count; step++) {
      const end = this.settled < this.block ? this.block : this.count;
      if (this.figured < end) {
        this.figure(this.places[this.figured++]!);
        if (this.figured === end) this.sort(this.places.subarray(this.settled, end));
      } else this.settle(this.places[this.settled++]!);
    }
    return this.settled < this.count;
  }

  /** Those of the share, and of the rounds before, that none beats so far. */
  get front(): readonly FrontPoint[] {
    return this.unbeaten.points();
  }

  findings(): SearchFindings {
    const { share, values, outcomes, broken, stops } = this;
    return { share, values, outcomes, broken, stops };
  }

  private indexOf(place: number): number {
    return this.round.candidates[this.share.first + place * this.share.every]!;
  }

  private figure(place: number): void {
    const figures = this.search.figuresAt(this.indexOf(place));
    figures.forEach((value, at) => {
      this.values[place * figures.length + at] = value ?? 0;
    });
  }

  /** By the first figure, then the second and so on; what has no operating point comes last. */
  private sort(places: Uint32Array): void {
    const { length } = this.search.request.objectives;
    const { values } = this;
    places.sort((one, other) => {
      for (let at = 0; at < length; at++) {
        const [own, its] = [values[one * length + at]!, values[other * length + at]!];
        if (own === its) continue;
        if (Number.isNaN(own) || Number.isNaN(its)) return Number.isNaN(own) ? 1 : -1;
        return own - its;
      }
      return this.indexOf(one) - this.indexOf(other);
    });
  }

  private settle(place: number): void {
    const { judge, request } = this.search;
    const { varied, objectives } = request;
    const first = place * objectives.length;
    const index = this.indexOf(place);
    const point = () => ({
      index,
      values: [...this.values.subarray(first, first + objectives.length)],
    });
    const marginAt = objectives.indexOf("worst margin");
    if (marginAt < 0 && this.unbeaten.beating(point())) return;
    const choices = choicesAt(varied, index);
    const judged = judge.judge(choices);
    if (judged.stop) {
      this.outcomes[place] = STOPPED + this.placeOf(judged.stop);
      if (this.round.isMeasured) this.broken[place] = judge.brokenness(choices);
      return;
    }
    if (marginAt >= 0) this.values[first + marginAt] = -judged.margin;
    this.unbeaten.add(point());
    this.outcomes[place] = UNBEATEN;
  }

  private placeOf({ item, check }: Stop): number {
    const at = this.stops.findIndex((one) => one.item === item && one.check === check);
    return at >= 0 ? at : this.stops.push({ item, check }) - 1;
  }
}

/** All places, a number of them, spread over all, before the others. */
function blockFirst(count: number, block: number): Uint32Array {
  const isEarly = new Uint8Array(count);
  for (let at = 0; at < block; at++) isEarly[Math.floor((at * count) / block)] = 1;
  let early = 0;
  let late = block;
  const places = new Uint32Array(count);
  isEarly.forEach((one, place) => {
    places[one ? early++ : late++] = place;
  });
  return places;
}
