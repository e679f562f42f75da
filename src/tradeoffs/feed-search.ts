/**
 * The search through every combination of what is varied in a feed, in steps, so that its caller can tell how far it is
 * and stop it. First every candidate's figures are found. Then they are judged in the order of the first figure, the
 * second and so on: a candidate is beaten by an earlier one or by none, so that one which an unbeaten candidate beats
 * needs no judgement. Where the margin is traded too, all are judged.
 */
import { InputError } from "../quantities/errors.js";
import { CandidateJudge, type Held, type Stop } from "./candidate-judge.js";
import { figuresOf, type Objective, unknownFigure } from "./objectives.js";
import { type FrontPoint, UnbeatenPoints } from "./unbeaten.js";
import { candidateCount, choicesAt, StandingFeed, type VariedFeed } from "./varied-feed.js";

export interface FeedSearchRequest extends Held {
  readonly varied: VariedFeed;
  /** Two or three, the first one counts where candidates are put in order. */
  readonly objectives: readonly Objective[];
}

/** Above, a search takes too long to wait for. */
export const MOST_CANDIDATES = 200_000;

/** Every so many candidates from a first one: the share of one thread among several. */
export interface Share {
  readonly first: number;
  readonly every: number;
}

const ALL: Share = { first: 0, every: 1 };

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
  readonly stops: readonly Stop[];
}

export class FeedSearch {
  /** Of the share. */
  readonly count: number;
  private readonly figures: ReturnType<typeof figuresOf>;
  private readonly feed: StandingFeed;
  private readonly judge: CandidateJudge;
  private readonly unbeaten = new UnbeatenPoints();
  private readonly values: Float64Array;
  private readonly outcomes: Uint16Array;
  private readonly stops: Stop[] = [];
  private order: Uint32Array | undefined;
  private figured = 0;
  private settled = 0;

  /** @throws {InputError} for too many candidates, too few objectives, or figures that are not typed. */
  constructor(
    private readonly request: FeedSearchRequest,
    private readonly share: Share = ALL,
  ) {
    const { varied, objectives } = request;
    requireSearch(request);
    this.count = Math.ceil((candidateCount(varied) - share.first) / share.every);
    this.values = new Float64Array(this.count * objectives.length);
    this.outcomes = new Uint16Array(this.count);
    this.feed = new StandingFeed(varied);
    this.figures = figuresOf(this.feed, objectives);
    this.judge = new CandidateJudge(varied, request);
  }

  /** Takes up to so many more steps, of two that each candidate takes. @returns how many are taken in all. */
  advance(steps: number): number {
    for (let step = 0; step < steps && this.settled < this.count; step++)
      if (this.figured < this.count) this.figure(this.figured++);
      else this.settle(this.inOrder()[this.settled++]!);
    return this.figured + this.settled;
  }

  /** Those of the share that none beats so far. */
  get front(): readonly FrontPoint[] {
    return this.unbeaten.points();
  }

  findings(): SearchFindings {
    const { share, values, outcomes, stops } = this;
    return { share, values, outcomes, stops };
  }

  private indexOf(place: number): number {
    return this.share.first + place * this.share.every;
  }

  private figure(place: number): void {
    this.feed.at(choicesAt(this.request.varied, this.indexOf(place)));
    const { length } = this.request.objectives;
    this.figures().forEach((value, at) => {
      this.values[place * length + at] = value ?? 0;
    });
  }

  /** By the first figure, then the second and so on; what has no operating point comes last. */
  private inOrder(): Uint32Array {
    const { length } = this.request.objectives;
    const { values } = this;
    this.order ??= Uint32Array.from(this.outcomes.keys()).sort((one, other) => {
      for (let at = 0; at < length; at++) {
        const [own, its] = [values[one * length + at]!, values[other * length + at]!];
        if (own === its) continue;
        if (Number.isNaN(own) || Number.isNaN(its)) return Number.isNaN(own) ? 1 : -1;
        return own - its;
      }
      return one - other;
    });
    return this.order;
  }

  private settle(place: number): void {
    const { varied, objectives } = this.request;
    const first = place * objectives.length;
    const point = () => ({
      index: this.indexOf(place),
      values: [...this.values.subarray(first, first + objectives.length)],
    });
    const marginAt = objectives.indexOf("worst margin");
    if (marginAt < 0 && this.unbeaten.beating(point())) return;
    const judged = this.judge.judge(choicesAt(varied, this.indexOf(place)));
    if (judged.stop) {
      this.outcomes[place] = STOPPED + this.placeOf(judged.stop);
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

function requireSearch({ varied, objectives }: FeedSearchRequest): void {
  const count = candidateCount(varied);
  if (!(count <= MOST_CANDIDATES))
    throw new InputError("combinations", count, `at most ${MOST_CANDIDATES}: give fewer choices`);
  if (varied.variations.length === 0)
    throw new InputError("variations", null, "one figure of the feed or more, with its choices");
  if (new Set(objectives).size !== objectives.length || objectives.length < 2)
    throw new InputError("objectives", objectives.join(", "), "two or three different ones");
  const unknown = unknownFigure(varied, objectives);
  if (unknown)
    throw new InputError(
      "objectives",
      unknown.objective,
      `one that every item which is varied has: ${unknown.item} has none${unknown.size && ` with ${unknown.size}`}`,
    );
}
