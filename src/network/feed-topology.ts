/** Who feeds whom: from names to one order in which every item stands behind the one that feeds it. */
import { InputError } from "../quantities/errors.js";
import type { FeedColumns } from "./feed-columns.js";
import { NO_PARENT } from "./feed-state.js";
import { type Mesh, meshOf } from "./meshes/mesh.js";
import { NameIndex } from "./name-index.js";
import { EQUATION, KINDS, type RowKind } from "./row-kinds.js";

/** One supply and all that it feeds, supplies that feed a bus or are tied with what they feed, or a part of the table that has no supply. */
export interface FeedTree {
  /** Rows of the tree, each behind what feeds it. */
  readonly order: Int32Array;
  /** Where some rows are fed from several, or a load gives power back. */
  readonly mesh: Mesh | undefined;
  /** Why no row of the tree can be solved, and which row is to blame. */
  readonly fault: RowFault | undefined;
}

export interface RowFault {
  readonly row: number;
  readonly error: InputError;
}

export interface FeedTopology {
  /** Row that feeds each row, the first one of several; NO_PARENT for none. */
  readonly parent: Int32Array;
  readonly trees: readonly FeedTree[];
}

/** The name as it is compared: trimmed, without case. */
export function plainName(name: string): string {
  return name.trim().toLowerCase();
}

/** Names and links of a feed, as the topology reads them; where figures are left out no load gives power back. */
type LinkedColumns = Pick<FeedColumns, "count" | "item" | "fedFrom" | "kind"> & {
  readonly figures?: FeedColumns["figures"];
};

/** Never throws: what is wrong with a link stands as the fault of its tree, so that other trees can be solved. */
export function feedTopology(columns: LinkedColumns): FeedTopology {
  const index = new NameIndex(columns.item.map(plainName));
  const parent = new Int32Array(columns.count).fill(NO_PARENT);
  const faults = new Map<number, InputError>();
  const feeders = new Map<number, readonly number[]>();
  for (let row = 0; row < columns.count; row++) {
    const found = feedOf(row, columns, index);
    if (found instanceof InputError) faults.set(row, found);
    else if (typeof found === "number") parent[row] = found;
    else {
      parent[row] = found[0]!;
      if (found.length > 1) feeders.set(row, found);
    }
  }
  const trees = treesOf(columns, parent, faults);
  const giving = new Set(columns.figures ? givingLoads(columns.kind, columns.figures) : []);
  return {
    parent,
    trees:
      feeders.size === 0 && giving.size === 0
        ? trees
        : meshedTrees(trees, { ...columns, parent, feeders, giving }),
  };
}

/** Power loads that are below 0 at light, nominal or peak load: they give power back. */
export function givingLoads(
  kind: FeedColumns["kind"],
  { load, lightLoad, peakLoad }: FeedColumns["figures"],
): readonly number[] {
  const found: number[] = [];
  for (let row = 0; row < kind.length; row++)
    if (load[row]! < 0 || lightLoad[row]! < 0 || peakLoad[row]! < 0)
      if (KINDS[kind[row]!]?.equation === EQUATION.power) found.push(row);
  return found;
}

function feedOf(
  row: number,
  { item, fedFrom, kind }: LinkedColumns,
  index: NameIndex,
): number | readonly number[] | InputError {
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
  const fedBy = KINDS[kind[row]!]?.fedBy ?? "one";
  if (fedBy === "one") return feedingRow(from, from, kind, index);
  const found: number[] = [];
  for (const one of from.split(SEPARATOR)) {
    const feeding = feedingRow(one, from, kind, index);
    if (feeding instanceof InputError) return feeding;
    if (found.includes(feeding)) return new InputError("fedFrom", from, "each item once");
    found.push(feeding);
  }
  if (fedBy === "two ends" && found.length !== 2)
    return new InputError(
      "fedFrom",
      from,
      `the names of the two items whose outputs it joins, parted by "${SEPARATOR}"`,
    );
  return found;
}

/** Parts the names of several items. */
export const SEPARATOR = ";";

function feedingRow(
  name: string,
  from: string,
  kind: Uint8Array,
  index: NameIndex,
): number | InputError {
  const feeding = plainName(name);
  if (index.isTwice(feeding))
    return new InputError("fedFrom", from, `the name of one item; two rows have this name`);
  const found = index.rowOf(feeding);
  if (found === undefined)
    return new InputError(
      "fedFrom",
      from,
      name.includes(SEPARATOR) ? ONE_FEED : "the name of an item in this table",
    );
  if (roleAt(kind, found) === "load")
    return new InputError("fedFrom", from, "an item that feeds others, not a load");
  if (KINDS[kind[found]!]?.fedBy === "two ends")
    return new InputError("fedFrom", from, "an item that feeds others, not a tie");
  return found;
}

function roleAt(kind: Uint8Array, row: number): RowKind["role"] | undefined {
  return KINDS[kind[row]!]?.role;
}

const ONE_FEED =
  'the name of one item (several feed a row of kind "bus"; a row of kind "tie" joins the outputs of two)';

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
    if (isLoop) loops.set(trees, loopFault(row, wayAround(row, parent), columns));
    const tree = row === NO_PARENT || isLoop ? trees++ : treeOf[row]!;
    for (let last = way.pop(); last !== undefined; last = way.pop()) {
      treeOf[last] = tree;
      rows[placed++] = last;
    }
  }
  return ordersOf(rows, treeOf, trees).map((order, tree) => ({
    order,
    mesh: undefined,
    fault: loops.get(tree) ?? firstFault(order, faults),
  }));
}

type Links = LinkedColumns & Pick<FeedTopology, "parent"> & Pick<Mesh, "feeders" | "giving">;

/** Trees that rows fed from several join, each group as one; all others as they are. */
function meshedTrees(trees: readonly FeedTree[], links: Links): readonly FeedTree[] {
  const treeOf = new Map(trees.flatMap(({ order }, tree) => [...order].map((row) => [row, tree])));
  const groupOf = trees.map((_, tree) => tree);
  const meshed = new Set(links.giving);
  for (const [row, feeders] of links.feeders) {
    const joined = new Set(feeders.map((feeding) => groupOf[treeOf.get(feeding)!]!));
    const group = groupOf[treeOf.get(row)!]!;
    groupOf.forEach((one, tree) => joined.has(one) && (groupOf[tree] = group));
    meshed.add(row);
  }
  const groups = new Map<number, FeedTree[]>();
  trees.forEach((tree, at) =>
    groups.set(groupOf[at]!, [...(groups.get(groupOf[at]!) ?? []), tree]),
  );
  return [...groups.values()].map((group) => {
    const rows = group.flatMap(({ order }) => [...order]).sort((one, other) => one - other);
    const fault = group.find((tree) => tree.fault)?.fault;
    if (fault) return { order: Int32Array.from(rows), mesh: undefined, fault };
    return rows.some((row) => meshed.has(row)) ? meshedTree(rows, links) : group[0]!;
  });
}

function meshedTree(rows: readonly number[], links: Links): FeedTree {
  const { parent, feeders, giving } = links;
  const feedersOf = (row: number) =>
    feeders.get(row) ?? (parent[row] === NO_PARENT ? [] : [parent[row]!]);
  const placed = new Set<number>();
  // In the order in which they are come to.
  const way = new Set<number>();
  for (const start of rows) {
    let row: number | undefined = start;
    const back: number[] = [];
    while (row !== undefined) {
      way.add(row);
      const next: number | undefined = placed.has(row)
        ? undefined
        : feedersOf(row).find((one) => !placed.has(one));
      if (next !== undefined && way.has(next)) {
        const loop = [...way].slice([...way].indexOf(next)).reverse();
        return {
          order: Int32Array.from(rows),
          mesh: undefined,
          fault: loopFault(next, loop, links),
        };
      }
      if (next === undefined) {
        placed.add(row);
        way.delete(row);
        row = back.pop();
      } else {
        back.push(row);
        row = next;
      }
    }
  }
  const order = Int32Array.from(placed);
  const mesh = meshOf({
    ...links,
    order,
    feeders: new Map([...feeders].filter(([row]) => placed.has(row))),
    giving: new Set([...giving].filter((row) => placed.has(row))),
  });
  return "error" in mesh
    ? { order, mesh: undefined, fault: mesh }
    : { order, mesh, fault: undefined };
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
function wayAround(row: number, parent: Int32Array): readonly number[] {
  const loop = [row];
  for (let at = parent[row]!; at !== row; at = parent[at]!) loop.push(at);
  return loop;
}

function loopFault(
  row: number,
  loop: readonly number[],
  { item, fedFrom }: LinkedColumns,
): RowFault {
  const names = loop.map((at) => `"${item[at]}"`).join(", ");
  const error = new InputError(
    "fedFrom",
    fedFrom[row] ?? null,
    `an item nearer to a supply; this one closes a loop: ${names} (a ring is closed by a row of kind "tie")`,
  );
  return { row, error };
}
