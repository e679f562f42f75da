/**
 * The worst that each row of a feed can see: supply lowest to highest; light, nominal or peak loads, of which any may
 * be less or off; every tolerance anywhere within its ends; and, if asked, one unit lost on each row that has several
 * in parallel, in turn.
 *
 * Each row has corners of its own, in which everything on its way goes the way that is worst for it. `worst-bounds.ts`
 * proves of most rows that no case between or beside them is worse; of the others the notes say so.
 */
import { type Extreme, EXTREMES, type MetExtreme, type WorstRow } from "./worst-row.js";
import { NO_PARENT } from "./feed-state.js";
import { NoAnswerError } from "../quantities/errors.js";
import { type CompiledFeed, compiledFeed } from "./compiled-feed.js";
import type { FeedColumns } from "./feed-columns.js";
import { type LoadSet, loadOf } from "./feed-conditions.js";
import {
  CORNER_SUPPLIES,
  type CornerSupply,
  cornerText,
  enterCorner,
  type FeedCorner,
  isToleranced,
  supplyAt,
  wayThrough,
} from "./feed-corner.js";
import { type SolvedRow, solvedRow } from "./feed-row.js";
import { solution } from "./solution.js";
import { leastMargin } from "./feed-totals.js";
import { levelSources } from "./feed-levels.js";
import { type FeedTree } from "./feed-topology.js";
import { noOperatingPoint } from "./operating-point.js";
import { lossAt, ratedFlowAt } from "./row-flow.js";
import { EQUATION, KINDS } from "./row-kinds.js";
import { likelyEnds, treeProof } from "./worst-bounds.js";
import {
  aloneCorners,
  heaviestCorner,
  idleCorner,
  type LoadedTree,
  lowCorners,
  MOST_FOR_EVERY_CORNER,
  meshShifts,
  togetherShifts,
} from "./worst-corners.js";
import { worstCaveats } from "./worst-caveats.js";

export interface FeedWorst {
  readonly columns: FeedColumns;
  /** In the table's order. */
  readonly rows: readonly WorstRow[];
  /** How many cases were solved. */
  readonly cases: number;
  /** One extreme of one row: a judgement asks for few of all that `rows` says. */
  extremeOf(row: number, name: Extreme): MetExtreme;
  isProven(row: number): boolean;
}

/** Rows times cases that the corners beside each row's own may come to. */
const MOST_BESIDE = 3e5;

/** Rows times cases that a search may come to in all; some seconds of work. */
const MOST_ROW_SOLUTIONS = 4e6;

/** A search that was not made: it says nothing of the feed itself. */
export class TooManyCasesError extends NoAnswerError {}

/** A case in which the feed has no operating point. */
export class CollapsedCaseError extends NoAnswerError {
  constructor(
    message: string,
    readonly corner: FeedCorner,
  ) {
    super("feedTable", message);
  }
}

/** @throws {CollapsedCaseError | TooManyCasesError} For a feed whose rows are all in order. */
export function feedWorst(columns: FeedColumns, unitsLost: 0 | 1, alike?: CompiledFeed): FeedWorst {
  const { inParallel } = columns.figures;
  const lostOf = (order: Int32Array) => [
    undefined,
    // A load of several that has lost one draws less, which is tried anyway.
    ...[...order].filter(
      (row) =>
        unitsLost === 1 && inParallel[row]! > 1 && KINDS[columns.kind[row]!]!.role !== "load",
    ),
  ];
  const feed = compiledFeed(columns, alike);
  const run = (search: TreeSearch, { order }: FeedTree) => search.run(lostOf(order), MOST_BESIDE);
  return found(feed, levelSources(feed), true, run);
}

/**
 * The worst while one unit of a row with several in parallel is lost. Rows on its way have corners of their own; of the
 * others, whose voltage falls with it only by what they share, none is proven.
 *
 * @param among Rows of the feed of which this is asked, one after the other: they share what may be tried beside.
 * @throws as `feedWorst`.
 */
export function feedWorstWithout(
  columns: FeedColumns,
  row: number,
  among: number,
  alike?: CompiledFeed,
): FeedWorst {
  const feed = compiledFeed(columns, alike);
  return found(feed, levelSources(feed), true, (search, { order }) => {
    const lost = order.includes(row) ? row : undefined;
    const own = lost === undefined ? undefined : new Set(wayThrough(lost, order, feed.parent));
    search.run([lost], MOST_BESIDE / among, own);
  });
}

/**
 * The worst over some cases alone, as a search has found them for another state of the feed: at most as bad as a search
 * of its own would find, for a part of its work.
 * @throws {CollapsedCaseError}
 */
export function worstAmong(
  feed: CompiledFeed,
  source: Int32Array,
  corners: readonly FeedCorner[],
): FeedWorst {
  return found(feed, source, false, (search) => search.runAlone(corners));
}

/**
 * The worst of the rows that are asked of, each in the corners of its own and of all that feeds it: all of it where a
 * row is proven, for a part of a search's work.
 *
 * @param source As `levelSources` has it.
 * @param lost Row of which one unit is lost, on the way of the rows that are asked of; undefined for none.
 * @param beside More cases to try of a row.
 * @throws {CollapsedCaseError} where a row is asked of.
 */
export function worstOfRows(
  feed: CompiledFeed,
  source: Int32Array,
  lost: number | undefined,
  beside: (row: number, name: Extreme) => readonly FeedCorner[],
): FeedWorst {
  return found(
    feed,
    source,
    false,
    () => {},
    (search, row, name) => {
      search.runFor(row, lost);
      search.tryNew(beside(row, name));
    },
  );
}

/**
 * The first few cases of the search that `feedWorst` makes: no load on the highest supply, and the heaviest loads on the
 * lowest one, as given. What breaks a limit in one of them breaks it in the worst; what holds in them says nothing.
 *
 * @throws {NoAnswerError} as `feedWorst`.
 */
export function feedGlance(feed: CompiledFeed, source: Int32Array): FeedWorst {
  return found(feed, source, true, (search) => search.glance());
}

/** Rows of a tree of which one unit is lost, one after the other; undefined for none. */
type LostRows = readonly (number | undefined)[];

/** @param runFor Before a row is asked of. */
function found(
  feed: CompiledFeed,
  source: Int32Array,
  tellsWhy: boolean,
  run: (search: TreeSearch, tree: FeedTree) => void,
  runFor?: (search: TreeSearch, row: number, name: Extreme) => void,
): FeedWorst {
  const { columns } = feed;
  const searches = new Array<TreeSearch>(columns.count);
  const all = feed.trees.map((tree) => {
    const search = new TreeSearch(tree, feed, source, tellsWhy);
    run(search, tree);
    for (const row of tree.order) searches[row] = search;
    return search;
  });
  let rows: readonly WorstRow[] | undefined;
  return {
    columns,
    get cases() {
      return all.reduce((sum, { tried }) => sum + tried.length, 0);
    },
    get rows() {
      return (rows ??= searches.map((search, row) => search.rowFound(row)));
    },
    extremeOf: (row, name) => {
      runFor?.(searches[row]!, row, name);
      return searches[row]!.met(row, name);
    },
    isProven: (row) => searches[row]!.isProven(row),
  };
}

/** The rows of a feed as they stand in one corner; undefined where they have no operating point in it. */
export function cornerRows(
  columns: FeedColumns,
  corner: FeedCorner,
): readonly SolvedRow[] | undefined {
  const feed = compiledFeed(columns);
  for (const tree of feed.trees) {
    const { order } = tree;
    enterCorner(feed, order, corner);
    if (corner.alone !== undefined) {
      const way = new Set(wayThrough(corner.alone, order, feed.parent));
      for (const row of order)
        if (!way.has(row)) feed.numbers.demand[row] = feed.numbers.fixedLoss[row] = 0;
    }
    if (solution(tree, feed).outcome !== "solved") return undefined;
  }
  return Array.from({ length: columns.count }, (_, row) => solvedRow(feed, row));
}

function isSame(one: FeedCorner, other: FeedCorner): boolean {
  return (
    one.supply === other.supply &&
    one.loads === other.loads &&
    one.alone === other.alone &&
    one.apart === other.apart &&
    one.idle === other.idle &&
    one.lost === other.lost &&
    one.shifts.every((shift, row) => shift === other.shifts[row])
  );
}

/** Sets of loads that draw something, of which none is at most another in every row. */
function heaviestLoads(order: Int32Array, columns: FeedColumns): readonly LoadSet[] {
  const sets = (["peak", "nominal", "light"] as const).map((loads) => ({
    loads,
    demands: Array.from(order, (row) => {
      const load = loadOf(columns, row, loads);
      const inverse = KINDS[columns.kind[row]!]!.equation === EQUATION.conductance;
      return inverse && load > 0 ? 1 / load : load;
    }),
  }));
  const kept = sets.filter(
    ({ demands }, at) =>
      !sets.some(
        (other, place) =>
          place !== at &&
          demands.every((value, row) => value <= other.demands[row]!) &&
          // Of equal sets the first one stays.
          (place < at || demands.some((value, row) => value < other.demands[row]!)),
      ),
  );
  return kept.map(({ loads }) => loads);
}

class TreeSearch {
  readonly tried: FeedCorner[] = [];
  private readonly worst: Worst;
  private readonly proven: Uint8Array;

  constructor(
    private readonly tree: FeedTree,
    private readonly feed: CompiledFeed,
    private readonly source: Int32Array,
    /** How much of its loads a feed carries in a case takes many solutions to find. */
    private readonly tellsWhy: boolean,
  ) {
    const { count } = feed.columns;
    this.worst = emptyWorst(count);
    this.proven = new Uint8Array(count).fill(1);
  }

  runAlone(corners: readonly FeedCorner[]): void {
    const { order } = this.tree;
    const { parent } = this.feed;
    for (const corner of corners)
      this.try(
        corner,
        corner.alone === undefined || this.tree.mesh
          ? order
          : wayThrough(corner.alone, order, parent),
      );
  }

  /** Rows that have had corners of their own in `runFor`. */
  private readonly hadOwn = new Set<number>();
  private loaded: readonly LoadedTree[] | undefined;

  runFor(row: number, lost: number | undefined): void {
    const { order } = this.tree;
    if (this.tree.mesh) {
      if (this.tried.length === 0) this.runMesh([lost], MOST_BESIDE);
      return;
    }
    const { columns, parent } = this.feed;
    const own = new Set<number>();
    for (let at = row; at !== NO_PARENT; at = parent[at]!) if (!this.hadOwn.has(at)) own.add(at);
    if (own.size === 0) return;
    this.loaded ??= heaviestLoads(order, columns).map((loads) =>
      this.tryLoaded(loads, lost, () => likelyEnds(order, this.feed)),
    );
    for (const one of this.loaded) this.tryOwnCorners(one, own);
    for (const one of own) this.hadOwn.add(one);
  }

  /** Those that are none of the tried ones. */
  tryNew(corners: readonly FeedCorner[]): void {
    this.runAlone(corners.filter((one) => !this.tried.some((other) => isSame(one, other))));
  }

  private get supplies(): readonly CornerSupply[] {
    const { order } = this.tree;
    const { columns } = this.feed;
    const supplies = order.filter((row) => KINDS[columns.kind[row]!]!.role === "supply");
    return CORNER_SUPPLIES.filter((name) =>
      supplies.every((row) => !Number.isNaN(supplyAt(columns, row, name))),
    );
  }

  /**
   * @param mostBeside Rows times cases that the corners beside each row's own may come to.
   * @param own Rows that have corners of their own; every row where it is left out.
   */
  run(lost: LostRows, mostBeside: number, own?: ReadonlySet<number>): void {
    if (this.tree.mesh) {
      this.runMesh(lost, mostBeside);
      return;
    }
    const { order } = this.tree;
    const { columns } = this.feed;
    const { supplies } = this;
    const sets = heaviestLoads(order, columns);
    const toleranced = order.filter(
      (row) => isToleranced(columns, row) && KINDS[columns.kind[row]!]!.role !== "load",
    );
    const ownCorners = lost.length * sets.length * (2 + toleranced.length);
    if (ownCorners * order.length > MOST_ROW_SOLUTIONS)
      throw new TooManyCasesError(
        "feedTable",
        `too many cases: ${order.length} rows, ${toleranced.length} of them with a tolerance, and ${lost.length - 1} that can lose a unit; ask for the worst case of a part of the feed`,
      );
    this.try(idleCorner(order, this.feed, supplies.at(-1)!), order);
    for (const one of lost)
      for (const loads of sets) {
        const loaded = this.tryLoaded(loads, one, () => this.provenEnds(loads, one));
        if (own) for (const row of order) if (!own.has(row)) this.proven[row] = 0;
        this.tryOwnCorners(loaded, own);
        this.lastDrawsMore = loaded.drawsMore;
      }
    this.tryBeside(supplies, lost, mostBeside);
  }

  /** Where currents have more than one way the worst lies in no corner that can be told beforehand: nothing is proven. */
  private runMesh(lost: LostRows, mostBeside: number): void {
    const { order } = this.tree;
    const { supplies, feed } = this;
    this.try(idleCorner(order, feed, supplies.at(-1)!), order);
    const sets = ["none", "light", "nominal", "peak"] as const;
    const stands = this.meshSupplies();
    const points = lost.length * stands.length * sets.length * order.length;
    const corners = meshShifts(order, feed, mostBeside / points);
    if (points * corners.length > MOST_ROW_SOLUTIONS)
      throw new TooManyCasesError(
        "feedTable",
        `too many cases: ${order.length} rows of which some are fed from several, and ${lost.length - 1} that can lose a unit; ask for the worst case of a part of the feed`,
      );
    for (const unit of lost)
      for (const stand of stands)
        for (const loads of sets)
          for (const shifts of corners)
            this.try({ ...stand, loads, alone: undefined, idle: false, lost: unit, shifts }, order);
    this.proven.fill(0);
  }

  /** All supplies together, and each against all others, which drives most through what lies between them. */
  private meshSupplies(): readonly Pick<FeedCorner, "supply" | "apart">[] {
    const { supplies, feed } = this;
    const rows = this.tree.order.filter((row) => KINDS[feed.columns.kind[row]!]!.role === "supply");
    const ends = (["lowest", "highest"] as const).filter((end) => supplies.includes(end));
    const apart = rows.length > 1 && ends.length === 2;
    return [
      ...supplies.map((supply) => ({ supply })),
      ...(apart ? ends.flatMap((supply) => [...rows].map((row) => ({ supply, apart: row }))) : []),
    ];
  }

  /** Says nothing of what is proven. */
  glance(): void {
    const { order } = this.tree;
    this.try(idleCorner(order, this.feed, this.supplies.at(-1)!), order);
    for (const loads of heaviestLoads(order, this.feed.columns))
      this.try(this.asGiven(loads, undefined), order);
    this.proven.fill(0);
  }

  /** The loads on the lowest supply, everything else in the middle of its tolerance. */
  private asGiven(loads: LoadSet, lost: number | undefined): FeedCorner {
    return {
      supply: this.supplies[0]!,
      loads,
      alone: undefined,
      idle: false,
      lost,
      shifts: new Int8Array(this.feed.columns.count),
    };
  }

  /** As given, and everything at the end of its tolerance at which the feed draws more. */
  private tryLoaded(loads: LoadSet, lost: number | undefined, endsOf: () => Int8Array): LoadedTree {
    const { order } = this.tree;
    const { feed } = this;
    const asGiven = this.asGiven(loads, lost);
    this.try(asGiven, order);
    const loaded = { order, feed, loads, lost, drawsMore: endsOf() };
    const heaviest = heaviestCorner({ ...loaded, supply: asGiven.supply });
    // Where nothing has a tolerance it is the case as given.
    if (isSame(heaviest, asGiven)) this.tried.push(heaviest);
    else this.try(heaviest, order);
    return loaded;
  }

  private provenEnds(loads: LoadSet, lost: number | undefined): Int8Array {
    const { order } = this.tree;
    const { drawsMore, proven } = treeProof(order, this.feed, loads, lost);
    for (const row of order) this.proven[row]! &= proven[row]!;
    return drawsMore;
  }

  private tryOwnCorners(loaded: LoadedTree, own: ReadonlySet<number> | undefined): void {
    const { order } = this.tree;
    const { supplies } = this;
    const place = { ...loaded, ...(own && { own }) };
    for (const corner of lowCorners({ ...place, supply: supplies[0]! })) this.try(corner, order);
    for (const { corner, order: way } of aloneCorners({ ...place, supply: supplies.at(-1)! }))
      this.try(corner, way);
  }

  private lastDrawsMore: Int8Array = new Int8Array(0);

  /** Corners that all rows share: what people expect to be tried, and all there is for a row of which nothing is proven. */
  private tryBeside(supplies: readonly CornerSupply[], lost: LostRows, mostBeside: number): void {
    const { order } = this.tree;
    const { feed } = this;
    const { columns } = feed;
    const toleranced = order.filter((row) => isToleranced(columns, row)).length;
    const hasLight = order.some((row) => loadOf(columns, row, "light") > 0);
    const loads = (["none", "light", "nominal", "peak"] as const).filter(
      (set) => set !== "light" || hasLight,
    );
    const points = supplies.length * loads.length * order.length;
    const every =
      toleranced <= MOST_FOR_EVERY_CORNER && points * lost.length * 2 ** toleranced <= mostBeside;
    const corners = togetherShifts(order, feed, this.lastDrawsMore, every);
    const all = points * corners.length * lost.length <= mostBeside;
    for (const one of all ? lost : lost.filter((unit) => unit === undefined))
      for (const supply of supplies)
        for (const set of loads)
          for (const shifts of corners)
            this.try(
              {
                supply,
                loads: set,
                alone: undefined,
                idle: false,
                lost: one,
                shifts,
              },
              order,
            );
  }

  private try(corner: FeedCorner, order: Int32Array): void {
    const { feed } = this;
    enterCorner(feed, order, corner);
    const part = { order, mesh: this.tree.mesh };
    if (solution(part, feed).outcome !== "solved") {
      const reason = this.tellsWhy
        ? noOperatingPoint(part, feed).error.message
        : "no operating point";
      throw new CollapsedCaseError(`at ${cornerText(corner, feed.columns)}: ${reason}`, corner);
    }
    for (const row of order)
      keepWorst(row, corner, this.tried.length, feed, this.source, this.worst);
    this.tried.push(corner);
  }

  rowFound(row: number): WorstRow {
    const { worst, tried, feed } = this;
    const margin = worst.leastMargin[row]!;
    const hasMargin = Number.isFinite(margin);
    const extremes = Object.fromEntries(
      EXTREMES.map((name) => [name, this.met(row, name)]),
    ) as Record<Extreme, MetExtreme>;
    const loading = worst.highestLoading[row]!;
    const found = {
      row,
      lowestInputVoltage: extremes.lowestVoltage.value,
      highestInputVoltage: extremes.highestVoltage.value,
      highestInputCurrent: extremes.highestCurrent.value,
      highestLoss: extremes.highestLoss.value,
      extremes,
      highestLoading: loading === -Infinity ? undefined : loading,
      leastMargin: hasMargin ? margin : undefined,
      at: hasMargin ? tried[worst.leastMarginCase[row]!]! : extremes.lowestVoltage.at,
      proven: this.isProven(row),
    };
    return { ...found, caveats: worstCaveats(found, feed.columns, tried.length) };
  }

  met(row: number, name: Extreme): MetExtreme {
    const { value, met } = this.worst.greatest[name];
    return { value: signed(name, value[row]!), at: this.tried[met[row]!]! };
  }

  isProven(row: number): boolean {
    return this.proven[row] === 1;
  }
}

/** The greatest value of each row, and by which case it was met. */
interface Greatest {
  readonly value: Float64Array;
  readonly met: Int32Array;
}

/** Extremes by row. */
interface Worst {
  readonly greatest: Readonly<Record<Extreme, Greatest>>;
  readonly highestLoading: Float64Array;
  readonly leastMargin: Float64Array;
  readonly leastMarginCase: Int32Array;
  /** Current at the lowest voltage: of equal voltages the case with more current counts. */
  readonly currentThere: Float64Array;
}

function emptyWorst(count: number): Worst {
  const lowest = () => new Float64Array(count).fill(-Infinity);
  return {
    greatest: Object.fromEntries(
      EXTREMES.map((name) => [name, { value: lowest(), met: new Int32Array(count) }]),
    ) as Record<Extreme, Greatest>,
    highestLoading: lowest(),
    leastMargin: new Float64Array(count).fill(Infinity),
    leastMarginCase: new Int32Array(count),
    currentThere: lowest(),
  };
}

/** The lowest voltage is kept as the greatest of those below 0. */
function signed(name: Extreme, value: number): number {
  return name === "lowestVoltage" ? -value : value;
}

function keepWorst(
  row: number,
  { lost }: FeedCorner,
  index: number,
  feed: CompiledFeed,
  source: Int32Array,
  worst: Worst,
): void {
  const { columns, state } = feed;
  const { greatest } = worst;
  const { role } = KINDS[columns.kind[row]!]!;
  const voltage = state.inputVoltage[row]!;
  const current = state.inputCurrent[row]!;
  const output = state.outputVoltage[row]!;
  const carried = ratedFlowAt(feed, row);
  raise(greatest.highestVoltage, row, voltage, index);
  // Of a ring's lines either way counts.
  raise(greatest.highestCurrent, row, Math.abs(current), index);
  raise(greatest.highestLoss, row, lossAt(feed, row), index);
  raise(greatest.highestFlow, row, carried, index);
  const power = role === "stage" ? output * carried : voltage * current;
  raise(greatest.highestPower, row, power, index);
  const isLine = role === "line";
  raise(
    greatest.highestDrop,
    row,
    isLine && !state.blocked[row] ? Math.abs(voltage - output) : 0,
    index,
  );
  const from = source[row]!;
  const full =
    from === NO_PARENT
      ? voltage
      : KINDS[columns.kind[from]!]!.role === "supply"
        ? state.inputVoltage[from]!
        : state.outputVoltage[from]!;
  const fallen = full - (isLine ? output : voltage);
  raise(greatest.highestLevelDrop, row, fallen, index);
  const rated = columns.figures.ratedCurrent[row]!;
  if (!Number.isNaN(rated)) {
    const inParallel = columns.figures.inParallel[row]! - (row === lost ? 1 : 0);
    const loading = carried / (rated * inParallel);
    if (loading > worst.highestLoading[row]!) worst.highestLoading[row] = loading;
  }
  const lowest = -greatest.lowestVoltage.value[row]!;
  if (voltage < lowest || (voltage === lowest && carried > worst.currentThere[row]!)) {
    greatest.lowestVoltage.value[row] = -voltage;
    greatest.lowestVoltage.met[row] = index;
    worst.currentThere[row] = carried;
  }
  const margin = leastMargin(columns, row, voltage);
  if (margin < worst.leastMargin[row]!) {
    worst.leastMargin[row] = margin;
    worst.leastMarginCase[row] = index;
  }
}

function raise({ value, met }: Greatest, row: number, found: number, index: number): void {
  if (!(found > value[row]!)) return;
  value[row] = found;
  met[row] = index;
}
