/**
 * The smallest change of one figure with which a failed check holds: solved by judging the changed feed with the check
 * itself. A figure has steps from its least change on, the last digit of what is printed or the next size that is made;
 * the more of it, the better the check, so that the first step that holds is found by halving. Steps are tried in the cases in which
 * the check has failed; what holds there is judged in every case, and a case that still fails is added to them.
 */
import { InputError, NoAnswerError } from "../quantities/errors.js";
import { changedFeed, movesFeed } from "./changed-feed.js";
import { figureChange } from "./changes.js";
import type { Change, Figure, Finding } from "./check.js";
import { MissingFigure, MissingRequirement } from "./place.js";
import type { FoundExtreme, Solved, TreeContext } from "./tree-context.js";

/** What a check finds of a changed tree; undefined where it finds nothing. */
export type Judge = (tree: TreeContext) => Finding | undefined;

interface Solution {
  readonly figure: Figure;
  readonly step: number;
  readonly finding: Finding;
}

/** Of the first group of figures of which one mends it, the cheapest change, or where prices are not known the smallest. */
export function mendOf(
  finding: Finding,
  judge: Judge,
  holds: (finding: Finding) => boolean,
): Change | undefined {
  // What one group is found to fail in, the next ones are tried in, too.
  const cases = [...(finding.cases ?? [])];
  for (const group of finding.figures?.() ?? []) {
    const solution = mendAmong(group, cases, judge, holds);
    if (solution) return figureChange(solution.figure, solution.step, solution.finding);
  }
  return undefined;
}

function mendAmong(
  group: readonly Figure[],
  cases: FoundExtreme[],
  judge: Judge,
  holds: (finding: Finding) => boolean,
): Solution | undefined {
  const from = new Map<Figure, number>();
  const judged = (figure: Figure, step: number, solved: Solved) => {
    const { place, valueAt } = figure;
    const change = valueAt(step);
    const isAsBefore = !movesFeed(place, change.field);
    const make = () =>
      place.tree.changed(changedFeed(place, change), isAsBefore ? "as before" : solved);
    const tree =
      solved === "every case"
        ? place.tree.once(`${place.row} ${change.field} ${JSON.stringify(change.to)}`, make)
        : make();
    return tree.fault && !isAsBefore ? undefined : foundBy(judge, tree);
  };
  const solve = (figure: Figure): Solution[] => {
    const start = from.get(figure) ?? 0;
    const end = figure.steps - 1;
    if (start > end) return [];
    // What is refused at its end may still hold before it; what is judged and fails there holds nowhere.
    const farthest = judged(figure, end, cases);
    if (farthest && !holds(farthest)) return [];
    let last = farthest;
    const step = firstThat(start, figure.steps, (at) => {
      const result = judged(figure, at, cases);
      if (result === undefined || !holds(result)) return false;
      last = result;
      return true;
    });
    return step === undefined ? [] : [{ figure, step, finding: last! }];
  };
  for (;;) {
    const [best] = bySize(group.flatMap(solve));
    if (!best) return undefined;
    const whole = judged(best.figure, best.step, "every case");
    if (whole && holds(whole)) return { ...best, finding: whole };
    from.set(best.figure, best.step + 1);
    cases.push(...(whole?.cases ?? []));
  }
}

function bySize(solutions: readonly Solution[]): readonly Solution[] {
  const prices = new Map(solutions.map((one) => [one, one.figure.price?.(one.step)]));
  const arePriced = ![...prices.values()].includes(undefined);
  const size = (one: Solution) => (arePriced ? prices.get(one)! : one.figure.amount(one.step));
  return [...solutions].sort((one, other) => size(one) - size(other));
}

/** A changed figure may be refused, or leave a question without an answer: then it mends nothing. */
function foundBy(judge: Judge, tree: TreeContext): Finding | undefined {
  try {
    return judge(tree);
  } catch (error) {
    if (
      error instanceof MissingFigure ||
      error instanceof MissingRequirement ||
      error instanceof InputError ||
      error instanceof NoAnswerError
    )
      return undefined;
    throw error;
  }
}

/** The first step of those below `count` that holds, where all from some step on do: sought in strides that double, then by halving. */
function firstThat(
  from: number,
  count: number,
  holds: (step: number) => boolean,
): number | undefined {
  let below = from - 1;
  let at = from;
  while (at < count && !holds(at)) {
    const stride = at - from + 1;
    below = at;
    at = at === count - 1 ? count : Math.min(at + stride, count - 1);
  }
  if (at >= count) return undefined;
  while (at - below > 1) {
    const middle = (below + at) >> 1;
    if (holds(middle)) at = middle;
    else below = middle;
  }
  return at;
}
