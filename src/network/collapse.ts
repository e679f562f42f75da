/** How much a tree can carry: the multiple of its loads at which the voltage collapses, and where. */
import { type FeedState } from "./feed-state.js";
import type { SolvableFeed } from "./feed-solver.js";
import { type SolvableTree, solution } from "./solution.js";

export type Collapse =
  /** Every load of the tree times `multiple` can be carried, and no more. */
  | {
      readonly outcome: "carries";
      readonly multiple: number;
      /** The row whose input voltage has fallen furthest from where it stands without load. */
      readonly row: number;
      /** Smallest of 1 + β·R there: 0 at the very edge. */
      readonly leastDivisor: number;
    }
  /** What the stages themselves draw is too much already. */
  | { readonly outcome: "carries nothing"; readonly row: number }
  /** No collapse up to `MOST_MULTIPLE` times the loads. */
  | { readonly outcome: "no collapse" }
  /** A load gives power back: a multiple of all loads may be carried where a lesser one is not. */
  | { readonly outcome: "not determined"; readonly row: number };

/** Beyond this a multiple of the loads means nothing. */
export const MOST_MULTIPLE = 1e6;

/** Below this multiple the loads are as good as none. */
const SMALLEST = 1e-9;

/**
 * Follows the upper root from no load upward: doubling while the loads are carried, then bisection to `tolerance`, a
 * part of the multiple; the answer lies on the carried side. Demands and solution in `feed` are those
 * of the loads as given at the end.
 */
export function collapseOf(tree: SolvableTree, feed: SolvableFeed, tolerance: number): Collapse {
  const giving = givingNow(tree, feed);
  if (giving !== undefined) return { outcome: "not determined", row: giving };
  const solveAt = loadScale(tree, feed);
  const unloaded = solveAt(0);
  if (unloaded.outcome !== "solved") return { outcome: "carries nothing", row: unloaded.row };

  let carried = 0;
  let refused = 1;
  while (solveAt(refused).outcome === "solved") {
    carried = refused;
    refused *= 2;
    if (refused > MOST_MULTIPLE) {
      solveAt(1);
      return { outcome: "no collapse" };
    }
  }
  while (refused - carried > tolerance * refused && refused > SMALLEST) {
    const middle = (carried + refused) / 2;
    if (solveAt(middle).outcome === "solved") carried = middle;
    else refused = middle;
  }
  const edge = solveAt(carried);
  const row = furthestFallen(tree.order, feed.state);
  solveAt(1);
  return {
    outcome: "carries",
    multiple: carried,
    row,
    leastDivisor: edge.outcome === "solved" ? edge.leastDivisor : 0,
  };
}

/** The first load that gives power back in the case that is entered. */
export function givingNow({ order }: SolvableTree, { numbers }: SolvableFeed): number | undefined {
  return order.find((row) => numbers.demand[row]! < 0);
}

/** Solves the tree with every load as entered now times a multiple. */
export function loadScale(tree: SolvableTree, feed: SolvableFeed) {
  const { order } = tree;
  const { demand } = feed.numbers;
  const full = Float64Array.from(order, (row) => demand[row]!);
  return (multiple: number) => {
    order.forEach((row, index) => (demand[row] = full[index]! * multiple));
    return solution(tree, feed);
  };
}

function furthestFallen(order: Int32Array, { inputVoltage, noLoadVoltage }: FeedState): number {
  let found = order[0]!;
  let least = Infinity;
  for (const row of order) {
    const left = inputVoltage[row]! / noLoadVoltage[row]!;
    if (left >= least) continue;
    least = left;
    found = row;
  }
  return found;
}
