/** A feed solved at one set of loads and one supply voltage: every row's voltages, currents, loss and notes. */
import { InputError, NoAnswerError } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import { collapseOf } from "./collapse.js";
import { requireFeedItem } from "./feed-check.js";
import {
  type FeedConditions,
  loadOf,
  NOMINAL,
  supplyVoltage,
} from "./feed-conditions.js";
import type { FeedItem } from "./feed-item.js";
import { emptyNumbers, enterItem, type FeedNumbers } from "./feed-numbers.js";
import {
  type FeedRow,
  feedResistances,
  type RefusedRow,
  solvedRow,
} from "./feed-row.js";
import {
  emptyState,
  type FeedState,
  solveTree,
  type TreeSolution,
} from "./feed-solver.js";
import {
  feedTopology,
  type FeedTree,
  type LinkedItem,
} from "./feed-topology.js";
import { type FeedTotals, feedTotals } from "./feed-totals.js";

/** A row that could not be read; it keeps its place so that its tree is refused for it. */
export interface UnreadItem extends LinkedItem {
  readonly error: InputError;
}

export type FeedEntry = FeedItem | UnreadItem;

export interface OperatingPoint {
  /** In the table's order. */
  readonly rows: readonly FeedRow[];
  readonly totals: FeedTotals;
  /** One for each tree that was solved. */
  readonly solutions: readonly TreeSolution[];
}

interface Fault {
  readonly row: number;
  readonly error: InputError | NoAnswerError;
}

/** Never throws for a row: a tree that is refused or has no operating point says so in its rows. */
export function operatingPoint(
  items: readonly FeedEntry[],
  conditions: FeedConditions = NOMINAL,
): OperatingPoint {
  const { parent, trees } = feedTopology(items);
  const numbers = emptyNumbers(items.length);
  const state = emptyState(items.length);
  const rows = new Array<FeedRow>(items.length);
  const solutions: TreeSolution[] = [];
  for (const tree of trees) {
    const found =
      entryFault(tree, items, numbers, conditions) ??
      solved(tree.order, parent, items, numbers, state);
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

/** Checks every row of the tree and enters it into `numbers`; the first one that is refused is the tree's fault. */
function entryFault(
  { order, fault }: FeedTree,
  items: readonly FeedEntry[],
  numbers: FeedNumbers,
  { loads, supply }: FeedConditions,
): Fault | undefined {
  // What a row holds is told before how rows hang together: an unread row is often why they do not.
  const inTableOrder = order.slice().sort();
  for (const row of inTableOrder) {
    const item = items[row];
    if (item && "error" in item) return { row, error: item.error };
  }
  if (fault) return fault;
  for (const row of inTableOrder) {
    const item = itemAt(items, row);
    try {
      requireFeedItem(item);
      const voltage =
        item.kind === "supply"
          ? supplyVoltage(item, supply)
          : (item.voltage ?? 0);
      enterItem(numbers, row, item, voltage, loadOf(item, loads));
    } catch (error) {
      if (error instanceof InputError) return { row, error };
      throw error;
    }
  }
  return undefined;
}

function solved(
  order: Int32Array,
  parent: Int32Array,
  items: readonly FeedEntry[],
  numbers: FeedNumbers,
  state: FeedState,
): TreeSolution | Fault {
  const solution = solveTree(order, parent, numbers, state);
  if (solution.outcome === "solved") return solution;
  const collapse = collapseOf(order, parent, numbers, state);
  const name = `"${items[collapse.row]?.item}"`;
  const most =
    collapse.outcome === "carries"
      ? `the feed carries at most ${carriedFigure(collapse.multiple)} times these loads`
      : "what its stages lose without load is more than the feed carries";
  const message = `no operating point: ${most}; the voltage collapses at ${name}`;
  return { row: collapse.row, error: new NoAnswerError("feedTable", message) };
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

/** A row of a tree in which no row was left unread. */
function itemAt(items: readonly FeedEntry[], row: number): FeedItem {
  return items[row] as FeedItem;
}
