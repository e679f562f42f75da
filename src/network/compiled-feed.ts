/** A feed set up once: who feeds whom, and arrays of which only the numbers change from one case to the next. */
import { InputError, type NoAnswerError } from "../quantities/errors.js";
import { requireFeedItem } from "./feed-check.js";
import {
  type FeedConditions,
  loadOf,
  supplyVoltage,
} from "./feed-conditions.js";
import type { FeedItem } from "./feed-item.js";
import { emptyNumbers, enterItem, type FeedNumbers } from "./feed-numbers.js";
import { emptyState, type FeedState } from "./feed-solver.js";
import {
  type FeedTree,
  feedTopology,
  type LinkedItem,
} from "./feed-topology.js";

/** A row that could not be read; it keeps its place so that its tree is refused for it. */
export interface UnreadItem extends LinkedItem {
  readonly error: InputError;
}

export type FeedEntry = FeedItem | UnreadItem;

export interface CompiledFeed {
  readonly items: readonly FeedEntry[];
  readonly parent: Int32Array;
  readonly trees: readonly FeedTree[];
  readonly numbers: FeedNumbers;
  readonly state: FeedState;
}

/** Why a tree has no answer, and the row to blame. */
export interface Fault {
  readonly row: number;
  readonly error: InputError | NoAnswerError;
}

export function compiledFeed(items: readonly FeedEntry[]): CompiledFeed {
  const { parent, trees } = feedTopology(items);
  return {
    items,
    parent,
    trees,
    numbers: emptyNumbers(items.length),
    state: emptyState(items.length),
  };
}

/** Checks every row of the tree and enters it at the case; the first one that is refused is the tree's fault. */
export function enterTree(
  { items, numbers }: CompiledFeed,
  { order, fault }: FeedTree,
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

/** A row of a tree in which no row was left unread. */
export function itemAt(items: readonly FeedEntry[], row: number): FeedItem {
  return items[row] as FeedItem;
}
