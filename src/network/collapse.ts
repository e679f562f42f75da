/** How much a tree can carry when it cannot carry what it is asked to. */
import type { FeedNumbers } from "./feed-numbers.js";
import { solveTree, type FeedState } from "./feed-solver.js";

export type Collapse =
  /** Every load of the tree times `multiple` can be carried, and no more. */
  | {
      readonly outcome: "carries";
      readonly multiple: number;
      readonly row: number;
    }
  /** What the stages themselves draw is too much already. */
  | { readonly outcome: "carries nothing"; readonly row: number };

/** Part of the multiple to which it is found. */
const TOLERANCE = 1e-5;

/**
 * Bisection on the multiple of the tree's loads between none and all; the answer lies on the carried side.
 * Call it for a tree that collapses at its full loads. The demands in `numbers` are as before at the end.
 */
export function collapseOf(
  order: Int32Array,
  parent: Int32Array,
  numbers: FeedNumbers,
  state: FeedState,
): Collapse {
  const full = Float64Array.from(order, (row) => numbers.demand[row]!);
  const solveAt = (multiple: number) => {
    order.forEach(
      (row, index) => (numbers.demand[row] = full[index]! * multiple),
    );
    return solveTree(order, parent, numbers, state);
  };
  const unloaded = solveAt(0);
  let carried = 0;
  let refused = 1;
  let row = order[0]!;
  while (
    unloaded.outcome === "solved" &&
    refused - carried > TOLERANCE * refused &&
    refused > SMALLEST
  ) {
    const middle = (carried + refused) / 2;
    const found = solveAt(middle);
    if (found.outcome === "solved") carried = middle;
    else {
      refused = middle;
      row = found.row;
    }
  }
  solveAt(1);
  return unloaded.outcome === "solved"
    ? { outcome: "carries", multiple: carried, row }
    : { outcome: "carries nothing", row: unloaded.row };
}

/** Below this multiple the loads are as good as none. */
const SMALLEST = 1e-9;
