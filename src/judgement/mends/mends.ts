/**
 * The smallest change of one figure with which a failed check holds: solved by judging the changed feed with the check
 * itself. A figure has steps from its least change on, the last digit of what is printed or the next size that is made;
 * the more of it, the better the check, so that the first step that holds is found by its margins and by halving. Steps
 * are tried in the cases in which the check has failed; what holds there is judged in all that may be worse, and a case
 * that still fails is added to them.
 */
import { InputError, NoAnswerError } from "../../quantities/errors.js";
import type { Change, Figure, Finding } from "../check.js";
import { MissingFigure, MissingRequirement } from "../place.js";
import type { CaseName, TreeContext, WorstCase } from "../tree-context.js";
import { changedFeed, movesFeed } from "./changed-feed.js";
import { type Changed, TriedTree, UnmovedTree, WholeTree } from "./changed-tree.js";
import { figureChange } from "./changes.js";

/** A check as it judges a tree. */
export interface Judge {
  /** Undefined where it finds nothing. */
  readonly find: (tree: TreeContext) => Finding | undefined;
  readonly holds: (finding: Finding) => boolean;
  /** Below 0 where it fails; undefined of words. */
  readonly margin: (finding: Finding) => number | undefined;
  /** Whether it holds, where that takes less than to find by how much. */
  readonly holdsIn?: (tree: TreeContext) => boolean;
}

/**
 * Of the first group of figures of which one mends it, the cheapest change, or where prices are not known the smallest;
 * or words where none is told.
 */
export function mendOf(failed: Finding, judge: Judge, tree: TreeContext): Change | string {
  const failures = tree.once("failures", () => ({ count: 0 }));
  failures.count += 1;
  if (failures.count > MOST_SOLVED)
    return `no change sought: more than ${MOST_SOLVED} checks fail, mend the first ones`;
  const search = new MendSearch(failed, judge);
  const tried = new Set<string>();
  for (const group of failed.figures?.() ?? []) {
    const mend = search.among(group);
    if (mend) return figureChange(mend.figure, mend.step, mend.finding);
    for (const { place, field } of group) tried.add(place.said(field));
  }
  return tried.size === 0 ? NO_MEND : `${NO_MEND}, tried: ${[...tried].join(", ")}`;
}

const NO_MEND = "no single figure mends it";

/**
 * Failed checks of a tree of which a change is sought. In a feed of 300 items, each change of which moves the feed, so
 * many take two to three times as long as the judgement itself.
 */
const MOST_SOLVED = 100;

/** Where a step leads: the check fails still, it holds, or the figure is refused or leaves no answer. */
interface Outcome {
  readonly is: "fails" | "holds" | "refused";
  readonly margin?: number | undefined;
}

interface Solution {
  readonly figure: Figure;
  readonly step: number;
}

const FEW_STEPS = 40;

/** Of a solution each, and of a case that is added where it does not hold. */
const MOST_ROUNDS = 12;

class MendSearch {
  /** In which the check was found to fail, whichever figure was changed. */
  private readonly cases: WorstCase[];
  private readonly names: CaseName[];

  constructor(
    private readonly failed: Finding,
    private readonly judge: Judge,
  ) {
    this.cases = [...(failed.cases ?? [])];
    this.names = [...(failed.names ?? [])];
  }

  among(group: readonly Figure[]): (Solution & { readonly finding: Finding }) | undefined {
    // A step that fails in some cases does not hold in more of them either.
    const from = new Map(group.map((figure) => [figure, 0]));
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const solutions: Solution[] = [];
      for (const [figure, start] of from) {
        const end = lastSmaller(figure, solutions);
        const step = this.firstThatHolds(figure, start, end);
        if (step !== undefined) solutions.push({ figure, step });
        from.set(figure, step ?? Math.max(start, end + 1));
      }
      const [best] = bySize(solutions);
      if (!best) return undefined;
      const finding = this.whole(best);
      if (finding && this.judge.holds(finding)) return { ...best, finding };
      this.cases.push(...(finding?.cases ?? []));
      this.names.push(...(finding?.names ?? []));
      if (finding) from.set(best.figure, best.step + 1);
      else from.delete(best.figure);
    }
    return undefined;
  }

  /** The first step from `start` to `end` that holds: before it all fail, behind it some may be refused. */
  private firstThatHolds(figure: Figure, start: number, end: number): number | undefined {
    if (start > end) return undefined;
    let below: { readonly step: number; readonly margin?: number | undefined } = {
      step: start - 1,
      ...(start === 0 && { margin: this.judge.margin(this.failed) }),
    };
    // Of sizes and units the least is often enough.
    if (figure.steps <= FEW_STEPS) {
      const first = { step: start, ...this.outcome(figure, start) };
      if (first.is === "holds" || start === end) return first.is === "holds" ? start : undefined;
      if (first.is === "fails") below = first;
    }
    let above = { step: end, ...this.outcome(figure, end) };
    if (above.is === "fails") return undefined;
    let last: Outcome["is"] | undefined;
    for (let tries = 1; above.step - below.step > 1; tries++) {
      const at = between(below, above, tries % OF_TRIES === 0);
      const found = { step: at, ...this.outcome(figure, at) };
      // A bound that stays twice counts half (the Illinois rule), or the others would creep towards it.
      if (found.is === "fails") {
        below = found;
        if (last === "fails") above = halved(above);
      } else {
        above = found;
        if (last !== undefined && last !== "fails") below = halved(below);
      }
      last = found.is;
    }
    return above.is === "holds" ? above.step : undefined;
  }

  private outcome(figure: Figure, step: number): Outcome {
    const { judge, cases, names } = this;
    return (
      answered((): Outcome => {
        const tree = changedTree(figure, step, (changed) => new TriedTree(changed, cases, names));
        if (judge.holdsIn) return { is: judge.holdsIn(tree) ? "holds" : "fails" };
        const finding = judge.find(tree);
        if (!finding) return { is: "refused" };
        return { is: judge.holds(finding) ? "holds" : "fails", margin: judge.margin(finding) };
      }) ?? { is: "refused" }
    );
  }

  /** What is found where it is tried in every case; failed checks that the same change mends share the solutions. */
  private whole({ figure, step }: Solution): Finding | undefined {
    const { place, field } = figure;
    return answered(() => {
      const tree = place.tree.once(`${place.row} ${field} ${figure.textAt(step)}`, () =>
        changedTree(figure, step, (changed) => new WholeTree(changed)),
      );
      const finding = this.judge.find(tree);
      // What ends a fault, say, is found without a solution: the loads are to be carried all the same, in the cases of
      // the row that is changed, which hold those of all that feeds it.
      const wasCarried = place.tree.fault === undefined;
      if (wasCarried && finding && this.judge.holds(finding))
        tree.extreme(place.row, "lowestVoltage");
      return finding;
    });
  }
}

/** @throws {InputError} */
function changedTree(
  { place, field, valueAt }: Figure,
  step: number,
  moved: (changed: Changed) => TreeContext,
): TreeContext {
  const rows = place.rowsWithSame(field);
  const feed = changedFeed(place, rows, valueAt(step));
  const changed = { before: place.tree, feed, rows };
  return movesFeed(place, field) ? moved(changed) : new UnmovedTree(changed);
}

/** A changed figure may be refused, or leave a question without an answer: undefined then. */
function answered<T>(find: () => T): T | undefined {
  try {
    return find();
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

/** Every so many tries the middle is tried, whatever the margins say. */
const OF_TRIES = 4;

interface Bound {
  readonly step: number;
  readonly margin?: number | undefined;
}

function halved<T extends Bound>(bound: T): T {
  return bound.margin === undefined ? bound : { ...bound, margin: bound.margin / 2 };
}

/** Where the margins of two steps meet 0 on a straight line; their middle where they are not known. */
function between(below: Bound, above: Bound, halves: boolean): number {
  const [low, high] = [below.step + 1, above.step - 1];
  const { margin: lacks = NaN } = below;
  const { margin: exceeds = NaN } = above;
  const part = lacks / (lacks - exceeds);
  if (halves || !(part >= 0 && part <= 1)) return (low + high) >> 1;
  const at = below.step + Math.ceil((above.step - below.step) * part);
  return Math.min(high, Math.max(low, at));
}

/** The last step of a figure that is a smaller change than the solutions so far; any where prices may count. */
function lastSmaller(figure: Figure, solutions: readonly Solution[]): number {
  const sizes = solutions.map((one) => one.figure.amount(one.step));
  if (figure.price || sizes.length === 0) return figure.steps - 1;
  const least = Math.min(...sizes);
  let [low, high] = [-1, figure.steps];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (figure.amount(middle) < least) low = middle;
    else high = middle;
  }
  return low;
}

function bySize(solutions: readonly Solution[]): readonly Solution[] {
  if (solutions.length < 2) return solutions;
  const prices = new Map(solutions.map((one) => [one, one.figure.price?.(one.step)]));
  const arePriced = ![...prices.values()].includes(undefined);
  const size = (one: Solution) => (arePriced ? prices.get(one)! : one.figure.amount(one.step));
  return [...solutions].sort((one, other) => size(one) - size(other));
}
