/** What next: of all choices the single ones that mend what the feed as it is breaks, the cheapest first. */
import type { JudgedRow } from "../judgement/checks.js";
import type { JudgedFeed } from "../judgement/judged-feed.js";
import { CandidateJudge, type Held } from "./candidate-judge.js";
import { figuresOf, lacking } from "./objectives.js";
import type { VariedFeed } from "./varied-feed.js";

export interface NextChange {
  /** Places of the variation and of its choice. */
  readonly variation: number;
  readonly choice: number;
  /** Rows of the feed as it is that hold with this change. */
  readonly mends: readonly JudgedRow[];
  /** By how much those of the whole feed differ, in its currency, kg and W; undefined where it is not known. */
  readonly price: number | undefined;
  readonly mass: number | undefined;
  readonly loss: number | undefined;
}

/**
 * None that breaks what held before; where the feed had no operating point, nothing did. One of which the price is not
 * known comes after those of which it is.
 */
export function nextChanges(varied: VariedFeed, held: Held): readonly NextChange[] {
  const judge = new CandidateJudge(varied, held);
  const rows = judge.rows(varied.present);
  const broken = rows.filter((row) => judge.isBroken(row));
  if (broken.length === 0) return [];
  const unbroken = rows.filter((row) => !judge.isBroken(row));
  const rowsOf = (variation: number) =>
    varied.parts.find(({ variations }) => variations.includes(variation))!.rows;
  const changes = varied.alone.flatMap((feeds, variation) =>
    feeds.flatMap((feed, choice): NextChange[] => {
      const left = judge.rows(feed).filter((row) => judge.isBroken(row));
      const mends = broken.filter((row) => !left.some((one) => isSame(one, row)));
      const isWorse = left.some((row) => unbroken.some((one) => isSame(one, row)));
      if (mends.length === 0 || isWorse) return [];
      return [
        { variation, choice, mends, ...differences(varied.present, feed, rowsOf(variation)) },
      ];
    }),
  );
  return changes.sort(
    (one, other) =>
      rising(one.price, other.price) ||
      rising(one.mass, other.mass) ||
      rising(one.loss, other.loss) ||
      one.variation - other.variation,
  );
}

function isSame(one: JudgedRow, other: JudgedRow): boolean {
  return one.item === other.item && one.check === other.check;
}

const TOLD = ["price", "mass", "loss"] as const;

/** @param rows Those that the choice changes. */
function differences(present: JudgedFeed, changed: JudgedFeed, rows: readonly number[]) {
  const [before, after] = [present, changed].map((feed) => figuresOf(feed, TOLD)());
  const [price, mass, loss] = TOLD.map((objective, at) => {
    const isUnknown =
      objective !== "loss" &&
      [present, changed].some((feed) => lacking(feed, rows, objective) !== undefined);
    const difference = after![at]! - before![at]!;
    return isUnknown || Number.isNaN(difference) ? undefined : difference;
  });
  return { price, mass, loss };
}

/** Unknown ones last. */
function rising(one = Infinity, other = Infinity): number {
  return one === other ? 0 : one - other;
}
