/** Why a choice is on no candidate of the front: what became of the settled candidates that have it. */
import type { Stop } from "./candidate-judge.js";
import type { OutcomeCounts, TradeOutcome } from "./merged-findings.js";
import { choicesAt, type Counted } from "./varied-feed.js";

export interface LeftOutChoice {
  /** Places of the variation and of its choice. */
  readonly variation: number;
  readonly choice: number;
  /** Candidates with this choice that one of the front beats. */
  readonly beaten: number;
  /** The others, by what stops them, the most frequent first. */
  readonly stops: readonly CountedStop[];
}

export interface CountedStop extends Stop {
  readonly count: number;
}

export interface Tallied {
  readonly counts: OutcomeCounts;
  readonly leftOut: readonly LeftOutChoice[];
}

export function tallied(
  outcomes: Iterable<readonly [index: number, outcome: TradeOutcome]>,
  { variations }: Counted,
): Tallied {
  const all = new Tally();
  const tallies = variations.map(({ choices }) => choices.map(() => new Tally()));
  for (const [index, outcome] of outcomes) {
    all.count(outcome);
    choicesAt({ variations }, index).forEach((choice, variation) =>
      tallies[variation]![choice]!.count(outcome),
    );
  }
  return {
    counts: {
      unbeaten: all.unbeaten,
      beaten: all.beaten,
      stopped: all.stops.reduce((sum, { count }) => sum + count, 0),
    },
    leftOut: tallies.flatMap((ofChoices, variation) =>
      ofChoices.flatMap(({ unbeaten, beaten, stops }, choice) =>
        unbeaten > 0 ? [] : [{ variation, choice, beaten, stops }],
      ),
    ),
  };
}

class Tally {
  unbeaten = 0;
  beaten = 0;
  private readonly stopped = new Map<Stop, number>();

  count(outcome: TradeOutcome): void {
    if (outcome.kind === "unbeaten") this.unbeaten += 1;
    else if (outcome.kind === "beaten") this.beaten += 1;
    else this.stopped.set(outcome.by, (this.stopped.get(outcome.by) ?? 0) + 1);
  }

  get stops(): readonly CountedStop[] {
    return [...this.stopped]
      .map(([{ item, check }, count]) => ({ item, check, count }))
      .sort((one, other) => other.count - one.count);
  }
}
