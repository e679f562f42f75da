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

/** A row that is in no tree yet, and one on the way up from a row that is being placed. */
const UNPLACED = -1;
const ON_THE_WAY = -2;

/**
 * Rows in the table's order, but each behind the one that feeds it: from a row the way goes up to what stands already,
 * or to a supply, and down again. A way that meets itself is a loop, which is a tree of its own without a root.
 */
function treesOf(
  columns: LinkedColumns,
  parent: Int32Array,
  faults: ReadonlyMap<number, InputError>,
): FeedTree[] {
  const { count } = columns;
  const treeOf = new Int32Array(count).fill(UNPLACED);
  const rows = new Int32Array(count);
  const loops = new Map<number, RowFault>();
  const way: number[] = [];
  let placed = 0;
  let trees = 0;
  for (let start = 0; start < count; start++) {
    let row = start;
    while (row !== NO_PARENT && treeOf[row] === UNPLACED) {
      treeOf[row] = ON_THE_WAY;
      way.push(row);
      row = parent[row]!;
    }
    if (way.length === 0) continue;
    const isLoop = row !== NO_PARENT && treeOf[row] === ON_THE_WAY;
    if (isLoop) loops.set(trees, loopFault(row, parent, columns));
    const tree = row === NO_PARENT || isLoop ? trees++ : treeOf[row]!;
    for (let last = way.pop(); last !== undefined; last = way.pop()) {
      treeOf[last] = tree;
      rows[placed++] = last;
    }
  }
  return ordersOf(rows, treeOf, trees).map((order, tree) => ({
    order,
    fault: loops.get(tree) ?? firstFault(order, faults),
  }));
}

/** The rows of each tree, in the order in which they stand among all. */
function ordersOf(rows: Int32Array, treeOf: Int32Array, trees: number): Int32Array[] {
  if (trees === 1) return [rows];
  const lengths = new Int32Array(trees);
  for (const tree of treeOf) lengths[tree]! += 1;
  const orders = Array.from(lengths, (length) => new Int32Array(length));
  lengths.fill(0);
  for (const row of rows) {
    const tree = treeOf[row]!;
    orders[tree]![lengths[tree]!++] = row;
  }
  return orders;
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

/** Rows of a loop, each fed from the next one. */
function loopFault(row: number, parent: Int32Array, { item, fedFrom }: LinkedColumns): RowFault {
  const loop = [row];
  for (let at = parent[row]!; at !== row; at = parent[at]!) loop.push(at);
  const names = loop.map((at) => `"${item[at]}"`).join(", ");
  const error = new InputError(
    "fedFrom",
    fedFrom[row] ?? null,
    `${ONE_FEED}; this one closes a loop: ${names}`,
  );
  return { row, error };
}
