/** Who feeds whom: from names to one order in which every item stands behind the one that feeds it. */
import { InputError } from "../quantities/errors.js";
import type { FeedItem, FeedKind } from "./feed-item.js";

export const NO_PARENT = -1;

/** One supply and all that it feeds, or a part of the table that has no supply. */
export interface FeedTree {
  /** Rows of the tree, each behind the one that feeds it. */
  readonly order: Int32Array;
  /** Why no row of the tree can be solved, and which row is to blame. */
  readonly fault: RowFault | undefined;
}

export interface RowFault {
  readonly row: number;
  readonly error: InputError;
}

export interface FeedTopology {
  /** Row that feeds each row, NO_PARENT for none. */
  readonly parent: Int32Array;
  readonly trees: readonly FeedTree[];
}

/** What a row must tell for its place in the tree; the kind of a refused row may be unknown. */
export type LinkedItem = Pick<FeedItem, "item" | "fedFrom"> & {
  readonly kind: FeedKind | undefined;
};

/** The name as it is compared: trimmed, without case. */
export function plainName(name: string): string {
  return name.trim().toLowerCase();
}

/** Never throws: what is wrong with a link stands as the fault of its tree, so that other trees can be solved. */
export function feedTopology(items: readonly LinkedItem[]): FeedTopology {
  const { rowOf, twice } = rowsByName(items);
  const parent = new Int32Array(items.length).fill(NO_PARENT);
  const faults = new Map<number, InputError>();
  items.forEach((item, row) => {
    const found = feedOf(item, items, rowOf, twice);
    if (found instanceof InputError) faults.set(row, found);
    else parent[row] = found;
  });
  return { parent, trees: treesOf(items, parent, faults) };
}

function rowsByName(items: readonly LinkedItem[]) {
  const rowOf = new Map<string, number>();
  const twice = new Set<string>();
  items.forEach(({ item }, row) => {
    const name = plainName(item);
    if (rowOf.has(name)) twice.add(name);
    else rowOf.set(name, row);
  });
  return { rowOf, twice };
}

function feedOf(
  { item, fedFrom, kind }: LinkedItem,
  items: readonly LinkedItem[],
  rowOf: ReadonlyMap<string, number>,
  twice: ReadonlySet<string>,
): number | InputError {
  if (item.trim() === "") return new InputError("item", null, "given");
  if (twice.has(plainName(item)))
    return new InputError("item", item, "a name that no other row has");
  if (kind === "supply") {
    return fedFrom === undefined
      ? NO_PARENT
      : new InputError("fedFrom", fedFrom, "blank for a supply");
  }
  if (fedFrom === undefined)
    return new InputError(
      "fedFrom",
      null,
      "the name of the item that feeds this one",
    );
  if (twice.has(plainName(fedFrom))) {
    return new InputError(
      "fedFrom",
      fedFrom,
      `${ONE_FEED}; two rows have this name`,
    );
  }
  const row = rowOf.get(plainName(fedFrom));
  if (row === undefined)
    return new InputError(
      "fedFrom",
      fedFrom,
      "the name of an item in this table",
    );
  if (items[row]?.kind?.endsWith("load"))
    return new InputError(
      "fedFrom",
      fedFrom,
      "an item that feeds others, not a load",
    );
  return row;
}

const ONE_FEED =
  "the name of one item (for two feeds solve each supply alone and take the worse, or use PARALLEL_SHARE and enter its bus as the supply)";

function treesOf(
  items: readonly LinkedItem[],
  parent: Int32Array,
  faults: ReadonlyMap<number, InputError>,
): FeedTree[] {
  const children = childrenOf(parent);
  const placed = new Uint8Array(items.length);
  const trees: FeedTree[] = [];
  for (let root = 0; root < items.length; root++) {
    if (parent[root] === NO_PARENT)
      trees.push(treeFrom([root], children, placed, faults));
  }
  // What is left hangs on a loop: each loop is a tree of its own, without a root.
  for (let row = 0; row < items.length; row++) {
    if (!placed[row])
      trees.push(loopTree(row, items, parent, children, placed, faults));
  }
  return trees;
}

function treeFrom(
  roots: readonly number[],
  children: ChildLists,
  placed: Uint8Array,
  faults: ReadonlyMap<number, InputError>,
): FeedTree {
  const order = [...roots];
  for (const root of roots) placed[root] = 1;
  for (let next = 0; next < order.length; next++) {
    for (
      let child = children.first[order[next] ?? 0] ?? NO_PARENT;
      child !== NO_PARENT;
    ) {
      if (!placed[child]) {
        placed[child] = 1;
        order.push(child);
      }
      child = children.next[child] ?? NO_PARENT;
    }
  }
  const row = order.find((candidate) => faults.has(candidate));
  const error = row === undefined ? undefined : faults.get(row);
  const fault =
    row === undefined || error === undefined ? undefined : { row, error };
  return { order: Int32Array.from(order), fault };
}

function loopTree(
  row: number,
  items: readonly LinkedItem[],
  parent: Int32Array,
  children: ChildLists,
  placed: Uint8Array,
  faults: ReadonlyMap<number, InputError>,
): FeedTree {
  const seen = new Set<number>();
  let onLoop = row;
  while (!seen.has(onLoop)) {
    seen.add(onLoop);
    onLoop = parent[onLoop] ?? NO_PARENT;
  }
  const loop: number[] = [];
  for (
    let at = onLoop;
    !loop.includes(at) && loop.length < LOOP_NAMES;
    at = parent[at] ?? NO_PARENT
  )
    loop.push(at);
  const names = loop.map((at) => `"${items[at]?.item}"`).join(", ");
  const error = new InputError(
    "fedFrom",
    items[onLoop]?.fedFrom ?? null,
    `${ONE_FEED}; this one closes a loop: ${names}`,
  );
  const { order } = treeFrom([onLoop], children, placed, faults);
  return { order, fault: { row: onLoop, error } };
}

/** How many items of a loop a message names. */
const LOOP_NAMES = 6;

/** Children of each row as linked lists, in the table's order. */
interface ChildLists {
  readonly first: Int32Array;
  readonly next: Int32Array;
}

function childrenOf(parent: Int32Array): ChildLists {
  const first = new Int32Array(parent.length).fill(NO_PARENT);
  const next = new Int32Array(parent.length).fill(NO_PARENT);
  for (let row = parent.length - 1; row >= 0; row--) {
    const feeding = parent[row] ?? NO_PARENT;
    if (feeding === NO_PARENT) continue;
    next[row] = first[feeding] ?? NO_PARENT;
    first[feeding] = row;
  }
  return { first, next };
}
