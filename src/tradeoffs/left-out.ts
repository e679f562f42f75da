/** Why a choice is on no candidate of the front: what became of the candidates that have it. */
import type { Stop } from "./candidate-judge.js";
import type { TradeFindings } from "./merged-findings.js";
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

export function leftOutChoices(
  { counts, outcomeAt }: Pick<TradeFindings, "counts" | "outcomeAt">,
  { variations }: Counted,
): readonly LeftOutChoice[] {
  const tallies = variations.map(({ choices }) => choices.map(() => new Tally()));
  const all = counts.unbeaten + counts.beaten + counts.stopped;
  for (let index = 0; index < all; index++) {
    const outcome = outcomeAt(index);
    choicesAt({ variations }, index).forEach((choice, variation) => {
      const tally = tallies[variation]![choice]!;
      if (outcome.kind === "unbeaten") tally.unbeaten += 1;
      else if (outcome.kind === "beaten") tally.beaten += 1;
      else tally.stopped.set(outcome.by, (tally.stopped.get(outcome.by) ?? 0) + 1);
    });
  }
  return tallies.flatMap((ofChoices, variation) =>
    ofChoices.flatMap(({ unbeaten, beaten, stopped }, choice) => {
      if (unbeaten > 0) return [];
      const stops = merged(stopped).sort((one, other) => other.count - one.count);
      return [{ variation, choice, beaten, stops }];
    }),
  );
}

class Tally {
  unbeaten = 0;
  beaten = 0;
  /** Each share of a search tells its stops by records of its own. */
  readonly stopped = new Map<Stop, number>();
}

function merged(stopped: ReadonlyMap<Stop, number>): CountedStop[] {
  const all: CountedStop[] = [];
  for (const [{ item, check }, count] of stopped) {
    const at = all.findIndex((one) => one.item === item && one.check === check);
    if (at < 0) all.push({ item, check, count });
    else all[at] = { ...all[at]!, count: all[at]!.count + count };
  }
  return all;
}
