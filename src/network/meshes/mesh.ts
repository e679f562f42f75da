/**
 * The part of a feed in which currents part or meet, or may flow back: what stands between its supplies and its buses that
 * are fed from several items, its ties and the loads that give power back. What hangs on that part as a tree is solved as
 * any tree is.
 */
import { InputError } from "../../quantities/errors.js";
import { NO_PARENT } from "../feed-state.js";
import { EQUATION, type Equation, KINDS } from "../row-kinds.js";
import { type Drawing, type Edge, GROUND, type Island } from "./island.js";

/** Links of a group of rows that hang together. */
export interface MeshLinks {
  /** All rows, each behind what feeds it. */
  readonly order: Int32Array;
  readonly kind: Uint8Array;
  readonly fedFrom: readonly (string | undefined)[];
  readonly item: readonly string[];
  /** The only or the first item that feeds a row. */
  readonly parent: Int32Array;
  /** Every item that feeds a row, where there are several: buses and ties. */
  readonly feeders: ReadonlyMap<number, readonly number[]>;
  /** Loads that give power back in some case. */
  readonly giving: ReadonlySet<number>;
}

export interface Mesh {
  readonly feeders: ReadonlyMap<number, readonly number[]>;
  readonly giving: ReadonlySet<number>;
  /** Bus that a row feeds with others. */
  readonly busBehind: ReadonlyMap<number, number>;
  /** Regulated stages part a mesh: what one feeds does not depend on what feeds it. Each stands behind those that it feeds. */
  readonly islands: readonly Island[];
}

/** @returns the fault of a loop that a regulated stage closes, and the row to blame. */
export function meshOf(links: MeshLinks): Mesh | { row: number; error: InputError } {
  const core = coreRows(links);
  const islandOf = islandsByRow(links, core);
  const found = islandOrder(links, core, islandOf);
  if (!Array.isArray(found)) return found;
  const ofRow = new Map<number, number>();
  for (const row of links.order) {
    const own = islandOf.get(row);
    const island = own ?? ofRow.get(links.parent[row]!);
    if (island !== undefined) ofRow.set(row, island);
  }
  const { feeders, giving } = links;
  const buses = [...feeders].filter(([row]) => !isTie(links, row));
  return {
    feeders,
    giving,
    busBehind: new Map(
      buses.flatMap(([bus, feeding]) => feeding.map((row) => [row, bus] as const)),
    ),
    islands: found.map((island) => islandAt(island, links, core, islandOf, ofRow)),
  };
}

function equationAt({ kind }: MeshLinks, row: number) {
  return KINDS[kind[row]!]!.equation;
}

function isTie({ kind }: MeshLinks, row: number): boolean {
  return KINDS[kind[row]!]!.fedBy === "two ends";
}

function feedersAt({ parent, feeders }: MeshLinks, row: number): readonly number[] {
  return feeders.get(row) ?? (parent[row] === NO_PARENT ? [] : [parent[row]!]);
}

/** Rows that are fed from several, and all that feeds those or a load that gives power back. */
function coreRows(links: MeshLinks): ReadonlySet<number> {
  const core = new Set(links.feeders.keys());
  for (const row of links.giving) core.add(links.parent[row]!);
  for (let at = links.order.length - 1; at >= 0; at--) {
    const row = links.order[at]!;
    if (core.has(row)) for (const feeding of feedersAt(links, row)) core.add(feeding);
  }
  return core;
}

/** Island of each core row, named by one of its rows. */
function islandsByRow(links: MeshLinks, core: ReadonlySet<number>): Map<number, number> {
  const islandOf = new Map<number, number>();
  const find = (row: number): number => {
    let root = row;
    while (islandOf.get(root) !== root) root = islandOf.get(root)!;
    islandOf.set(row, root);
    return root;
  };
  for (const row of links.order) {
    if (!core.has(row)) continue;
    islandOf.set(row, row);
    if (equationAt(links, row) === EQUATION.regulated) continue;
    for (const feeding of feedersAt(links, row)) islandOf.set(find(feeding), find(row));
  }
  for (const row of core) find(row);
  return islandOf;
}

/** Those that are fed first; what feeds them behind them. */
function islandOrder(
  links: MeshLinks,
  core: ReadonlySet<number>,
  islandOf: ReadonlyMap<number, number>,
): number[] | { row: number; error: InputError } {
  const borders = [...core].filter((row) => equationAt(links, row) === EQUATION.regulated);
  const order: number[] = [];
  const onTheWay = new Set<number>();
  let fault: { row: number; error: InputError } | undefined;
  const place = (island: number): void => {
    if (order.includes(island)) return;
    onTheWay.add(island);
    for (const row of borders) {
      if (islandOf.get(links.parent[row]!) !== island) continue;
      const fed = islandOf.get(row)!;
      if (onTheWay.has(fed)) fault ??= { row, error: loopError(links, row) };
      else place(fed);
    }
    onTheWay.delete(island);
    order.push(island);
  };
  for (const island of new Set(islandOf.values())) place(island);
  return fault ?? order;
}

function loopError({ fedFrom }: MeshLinks, row: number): InputError {
  return new InputError(
    "fedFrom",
    fedFrom[row] ?? null,
    "an item that this stage does not feed by another way: a loop through a regulated stage is not solved",
  );
}

function islandAt(
  island: number,
  links: MeshLinks,
  core: ReadonlySet<number>,
  islandOf: ReadonlyMap<number, number>,
  ofRow: ReadonlyMap<number, number>,
): Island {
  const rows = links.order.filter((row) => islandOf.get(row) === island);
  const terminals = rows.filter((row) => !isTie(links, row));
  const placeOf = new Map([...terminals].map((row, place) => [row, place]));
  const at = (row: number) => placeOf.get(row)!;
  const edges = [...rows].flatMap((row): Edge[] => {
    const feeding = feedersAt(links, row);
    if (isTie(links, row))
      return [{ row, from: at(feeding[0]!), to: at(feeding[1]!), sort: "tie" }];
    if (feeding.length > 1)
      return feeding.map((from) => ({ row, from: at(from), to: at(row), sort: "joint" }));
    const equation = equationAt(links, row);
    if (equation === EQUATION.supply || equation === EQUATION.regulated)
      return [{ row, from: GROUND, to: at(row), sort: "source" }];
    const sort = equation === EQUATION.ratio ? "ratio" : "line";
    return [{ row, from: at(feeding[0]!), to: at(row), sort }];
  });
  const drawing = [...core, ...links.giving].flatMap((row): Drawing[] => {
    const sort = DRAWN_BY.get(equationAt(links, row));
    const feeding = links.parent[row]!;
    if (sort === undefined || islandOf.get(feeding) !== island) return [];
    return [{ row, terminal: at(feeding), sort }];
  });
  return {
    terminals,
    edges,
    radial: links.order.filter(
      (row) => !core.has(row) && !links.giving.has(row) && ofRow.get(row) === island,
    ),
    drawing,
    plans: new Map(),
  };
}

const DRAWN_BY: ReadonlyMap<Equation, Drawing["sort"]> = new Map([
  [EQUATION.ratio, "ratio"],
  [EQUATION.regulated, "regulated"],
  [EQUATION.power, "load"],
]);

/** What of a feed is left when a row is out. */
export interface LitPart {
  readonly out: number;
  /** Rows whose output has a voltage, by whatever way. */
  readonly lit: ReadonlySet<number>;
  /** Whether a source has what it needs to give any: a regulated stage an input. */
  readonly gives: (row: number) => boolean;
}

/** The ends that still have a voltage, and what lies between them. */
export function meshWithout(mesh: Mesh, part: LitPart): Mesh {
  return { ...mesh, islands: mesh.islands.flatMap((island) => islandWithout(island, part)) };
}

function islandWithout(
  { terminals, edges, radial, drawing }: Island,
  { lit, out, gives }: LitPart,
): readonly Island[] {
  const left = terminals.filter((row) => lit.has(row));
  if (left.length === 0) return [];
  const placeOf = new Map([...left].map((row, place) => [row, place]));
  const place = (terminal: number) =>
    terminal === GROUND ? GROUND : placeOf.get(terminals[terminal]!);
  return [
    {
      terminals: left,
      edges: edges.flatMap(({ row, from, to, sort }) => {
        const [one, other] = [place(from), place(to)];
        if (row === out || one === undefined || other === undefined) return [];
        if (sort === "source" && !gives(row)) return [];
        return [{ row, from: one, to: other, sort }];
      }),
      radial: radial.filter((row) => lit.has(row)),
      drawing: drawing.flatMap(({ row, terminal, sort }) => {
        const at = place(terminal);
        return row === out || at === undefined ? [] : [{ row, terminal: at, sort }];
      }),
      plans: new Map(),
    },
  ];
}
