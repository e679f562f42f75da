/** Who feeds whom: from names to one order in which every item stands behind the one that feeds it. */
import { InputError } from "../quantities/errors.js";
import type { FeedColumns } from "./feed-columns.js";
import { NO_PARENT } from "./feed-state.js";
import { NameIndex } from "./name-index.js";
import { KINDS, type RowKind } from "./row-kinds.js";

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

/** The name as it is compared: trimmed, without case. */
export function plainName(name: string): string {
  return name.trim().toLowerCase();
}

/** Names and links of a feed, as the topology reads them. */
type LinkedColumns = Pick<FeedColumns, "count" | "item" | "fedFrom" | "kind">;

/** Never throws: what is wrong with a link stands as the fault of its tree, so that other trees can be solved. */
export function feedTopology(columns: LinkedColumns): FeedTopology {
  const index = new NameIndex(columns.item.map(plainName));
  const parent = new Int32Array(columns.count).fill(NO_PARENT);
  const faults = new Map<number, InputError>();
  for (let row = 0; row < columns.count; row++) {
    const found = feedOf(row, columns, index);
    if (found instanceof InputError) faults.set(row, found);
    else parent[row] = found;
  }
  return { parent, trees: treesOf(columns, parent, faults) };
}

function feedOf(
  row: number,
  { item, fedFrom, kind }: LinkedColumns,
  index: NameIndex,
): number | InputError {
  const name = index.names[row]!;
  const from = fedFrom[row];
  if (name === "") return new InputError("item", null, "given");
  if (index.isTwice(name))
    return new InputError("item", item[row]!, "a name that no other row has");
  if (roleAt(kind, row) === "supply") {
    return from === undefined ? NO_PARENT : new InputError("fedFrom", from, "blank for a supply");
  }
  if (from === undefined)
    return new InputError("fedFrom", null, "the name of the item that feeds this one");
  // Most rows are fed by the one above them, and call it what it is called there.
  if (!index.hasTwice && row > 0 && from === item[row - 1])
    if (roleAt(kind, row - 1) !== "load") return row - 1;
  const feeding = plainName(from);
  if (index.isTwice(feeding)) {
    return new InputError("fedFrom", from, `${ONE_FEED}; two rows have this name`);
  }
  const found = index.rowOf(feeding);
  if (found === undefined)
    return new InputError("fedFrom", from, "the name of an item in this table");
  if (roleAt(kind, found) === "load")
    return new InputError("fedFrom", from, "an item that feeds others, not a load");
  return found;
}

function roleAt(kind: Uint8Array, row: number): RowKind["role"] | undefined {
  return KINDS[kind[row]!]?.role;
}

const ONE_FEED =
  "the name of one item (for two feeds solve each supply alone and take the worse, or use PARALLEL_SHARE and enter its bus as the supply)";

function treesOf(
  columns: LinkedColumns,
  parent: Int32Array,
  faults: ReadonlyMap<number, InputError>,
): FeedTree[] {
  const { count } = columns;
  const children = childrenOf(parent);
  const placed = new Uint8Array(count);
  const rows = new Int32Array(count);
  const treeFrom = (root: number): Int32Array => {
    let length = 1;
    rows[0] = root;
    placed[root] = 1;
    for (let next = 0; next < length; next++) {
      let child = children.first[rows[next]!]!;
      for (; child !== NO_PARENT; child = children.next[child]!) {
        if (placed[child]) continue;
        placed[child] = 1;
        rows[length++] = child;
      }
    }
    return rows.slice(0, length);
  };
  const trees: FeedTree[] = [];
  for (let root = 0; root < count; root++) {
    if (parent[root] !== NO_PARENT) continue;
    const order = treeFrom(root);
    trees.push({ order, fault: firstFault(order, faults) });
  }
  // What is left hangs on a loop: each loop is a tree of its own, without a root.
  for (let row = 0; row < count; row++) {
    if (placed[row]) continue;
    const loop = loopFrom(row, parent);
    const error = loopError(loop, columns);
    trees.push({ order: treeFrom(loop[0]!), fault: { row: loop[0]!, error } });
  }
  return trees;
}

function firstFault(
  order: Int32Array,
  faults: ReadonlyMap<number, InputError>,
): RowFault | undefined {
  if (faults.size === 0) return undefined;
  for (const row of order) {
    const error = faults.get(row);
    if (error) return { row, error };
  }
  return undefined;
}

/** Rows of the loop that a row hangs on, each fed from the next one. */
function loopFrom(row: number, parent: Int32Array): number[] {
  const seen = new Set<number>();
  let at = row;
  while (!seen.has(at)) {
    seen.add(at);
    at = parent[at]!;
  }
  const way = [...seen];
  return way.slice(way.indexOf(at));
}

function loopError(loop: readonly number[], { item, fedFrom }: LinkedColumns): InputError {
  const names = loop.map((row) => `"${item[row]}"`).join(", ");
  return new InputError(
    "fedFrom",
    fedFrom[loop[0]!] ?? null,
    `${ONE_FEED}; this one closes a loop: ${names}`,
  );
}

/** Children of each row as linked lists, in the table's order. */
interface ChildLists {
  readonly first: Int32Array;
  readonly next: Int32Array;
}

function childrenOf(parent: Int32Array): ChildLists {
  const first = new Int32Array(parent.length).fill(NO_PARENT);
  const next = new Int32Array(parent.length).fill(NO_PARENT);
  for (let row = parent.length - 1; row >= 0; row--) {
    const feeding = parent[row]!;
    if (feeding === NO_PARENT) continue;
    next[row] = first[feeding]!;
    first[feeding] = row;
  }
  return { first, next };
}
