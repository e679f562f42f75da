/** A feed solved at one set of loads and one supply voltage: every row's voltages, currents, loss and notes. */
import { NoAnswerError } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import { collapseOf } from "./collapse.js";
import {
  type CompiledFeed,
  compiledFeed,
  enterTree,
  type Fault,
  type FeedEntry,
  itemAt,
} from "./compiled-feed.js";
import { type FeedConditions, NOMINAL } from "./feed-conditions.js";
import {
  type FeedRow,
  feedResistances,
  type RefusedRow,
  solvedRow,
} from "./feed-row.js";
import { solveTree, type TreeSolution } from "./feed-solver.js";
import { type FeedTotals, feedTotals } from "./feed-totals.js";

export interface OperatingPoint {
  /** In the table's order. */
  readonly rows: readonly FeedRow[];
  readonly totals: FeedTotals;
  /** One for each tree that was solved. */
  readonly solutions: readonly TreeSolution[];
}

/** Never throws for a row: a tree that is refused or has no operating point says so in its rows. */
export function operatingPoint(
  items: readonly FeedEntry[],
  conditions: FeedConditions = NOMINAL,
): OperatingPoint {
  const feed = compiledFeed(items);
  const { parent, numbers, state } = feed;
  const rows = new Array<FeedRow>(items.length);
  const solutions: TreeSolution[] = [];
  for (const tree of feed.trees) {
    const found = enterTree(feed, tree, conditions) ?? solved(tree.order, feed);
    if ("error" in found) {
      for (const row of tree.order) rows[row] = refusedRow(row, found, items);
      continue;
    }
    solutions.push(found);
    const feedResistance = feedResistances(tree.order, parent, numbers);
    for (const row of tree.order)
      rows[row] = solvedRow(
        itemAt(items, row),
        row,
        numbers,
        state,
        feedResistance[row]!,
      );
  }
  return { rows, totals: feedTotals(rows), solutions };
}

function solved(order: Int32Array, feed: CompiledFeed): TreeSolution | Fault {
  const { parent, numbers, state } = feed;
  const solution = solveTree(order, parent, numbers, state);
  if (solution.outcome === "solved") return solution;
  return noOperatingPoint(order, feed);
}

/** Part of the multiple in a message to which it is found. */
const MESSAGE_TOLERANCE = 1e-5;

/** Why a tree that collapses at the loads now entered does so, and at how much of them. */
export function noOperatingPoint(
  order: Int32Array,
  { items, parent, numbers, state }: CompiledFeed,
): Fault {
  const collapse = collapseOf(order, parent, numbers, state, MESSAGE_TOLERANCE);
  // Bisection meets the same collapse again, so the loads as given are never carried here.
  const row = collapse.outcome === "no collapse" ? order[0]! : collapse.row;
  const most =
    collapse.outcome === "carries"
      ? `the feed carries at most ${carriedFigure(collapse.multiple)} times these loads`
      : "what its stages lose without load is more than the feed carries";
  const message = `no operating point: ${most}; the voltage collapses at "${items[row]?.item}"`;
  return { row, error: new NoAnswerError("feedTable", message) };
}

/** Never rounded up: at the very edge "1 times" would read as if the loads could be carried. */
function carriedFigure(multiple: number): string {
  return figure(Math.floor(multiple * 1e4) / 1e4);
}

function refusedRow(
  row: number,
  { row: blamed, error }: Fault,
  items: readonly FeedEntry[],
): RefusedRow {
  return {
    outcome: "refused",
    item: items[row]?.item ?? "",
    blamed: items[blamed]?.item ?? "",
    error,
  };
}
