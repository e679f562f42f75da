/** What next: of all choices the single ones that mend what the feed as it is breaks, the cheapest first. */
import type { JudgedRow } from "../judgement/checks.js";
import type { JudgedFeed } from "../judgement/judged-feed.js";
import { CandidateJudge, type Held } from "./candidate-judge.js";
import { figuresOf } from "./objectives.js";
import type { VariedFeed } from "./varied-feed.js";

export interface NextChange {
  /** Places of the variation and of its choice. */
  readonly variation: number;
  readonly choice: number;
  /** Rows of the feed as it is that hold with this change. */
  readonly mends: readonly JudgedRow[];
  /** Of the whole feed, in its currency, kg and W; below 0 it is less. */
  readonly price: number;
  readonly mass: number;
  readonly loss: number;
}

/**
 * None that breaks what held before; where the feed had no operating point, nothing did. What a choice lacks a price of
 * adds none: its mass and loss decide then.
 */
export function nextChanges(varied: VariedFeed, held: Held): readonly NextChange[] {
  const judge = new CandidateJudge(varied, held);
  const rows = judge.rows(varied.present);
  const broken = rows.filter((row) => judge.isBroken(row));
  if (broken.length === 0) return [];
  const unbroken = rows.filter((row) => !judge.isBroken(row));
  const before = figures(varied.present);
  const changes = varied.alone.flatMap((feeds, variation) =>
    feeds.flatMap((feed, choice): NextChange[] => {
      const left = judge.rows(feed).filter((row) => judge.isBroken(row));
      const mends = broken.filter((row) => !left.some((one) => isSame(one, row)));
      const isWorse = left.some((row) => unbroken.some((one) => isSame(one, row)));
      if (mends.length === 0 || isWorse) return [];
      const after = figures(feed);
      return [
        {
          variation,
          choice,
          mends,
          price: after.price - before.price,
          mass: after.mass - before.mass,
          loss: after.loss - before.loss,
        },
      ];
    }),
  );
  return changes.sort(
    (one, other) =>
      one.price - other.price ||
      one.mass - other.mass ||
      one.loss - other.loss ||
      one.variation - other.variation,
  );
}

function isSame(one: JudgedRow, other: JudgedRow): boolean {
  return one.item === other.item && one.check === other.check;
}

function figures(feed: JudgedFeed) {
  const [price = 0, mass = 0, loss = 0] = figuresOf(feed, ["price", "mass", "loss"])();
  return { price, mass, loss };
}
