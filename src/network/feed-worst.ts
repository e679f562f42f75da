/**
 * The worst that each row of a feed can see: supply lowest to highest; light, nominal or peak loads, of which any may
 * be less or off; every tolerance anywhere within its ends; and, if asked, one unit lost on each row that has several
 * in parallel, in turn.
 *
 * Each row has corners of its own, in which everything on its way goes the way that is worst for it. `worst-bounds.ts`
 * proves of most rows that no case between or beside them is worse; of the others the notes say so.
 */
import { NoAnswerError } from "../quantities/errors.js";
import type { Note } from "../quantities/steps.js";
import type { Amperes, Fraction, Volts, Watts } from "../quantities/units.js";
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
import { solveTree } from "./feed-solver.js";
import { leastMargin } from "./feed-totals.js";
import type { FeedTree } from "./feed-topology.js";
import { noOperatingPoint } from "./operating-point.js";
import { lossAt, ratedFlowAt } from "./row-flow.js";
import { EQUATION, KINDS } from "./row-kinds.js";
import { treeProof } from "./worst-bounds.js";
import {
  aloneCorners,
  idleCorner,
  lowCorners,
  MOST_FOR_EVERY_CORNER,
  togetherShifts,
} from "./worst-corners.js";
import { worstNotes } from "./worst-notes.js";

export interface WorstRow {
  /** Of the feed table. */
  readonly row: number;
  readonly lowestInputVoltage: Volts;
  /** Without any drop, all stages off. */
  readonly highestInputVoltage: Volts;
  readonly highestInputCurrent: Amperes;
  readonly highestLoss: Watts;
  /** Not there where no rating is given. */
  readonly highestLoading: number | undefined;
  /** Least of (V − lowest)/lowest and (highest − V)/highest; not there for a supply or without a window. */
  readonly leastMargin: Fraction | undefined;
  /** Where the least margin is met; without a window, where the input voltage is lowest. */
  readonly at: FeedCorner;
  /** No case within the tolerances, loads and supply window is worse. */
  readonly proven: boolean;
  readonly notes: readonly Note[];
}

export interface FeedWorst {
  readonly columns: FeedColumns;
  /** In the table's order. */
  readonly rows: readonly WorstRow[];
  /** How many cases were solved. */
  readonly cases: number;
}

/** Rows times cases that the corners beside each row's own may come to. */
const MOST_BESIDE = 3e5;

/** Rows times cases that a search may come to in all; some seconds of work. */
const MOST_ROW_SOLUTIONS = 4e6;

/** @throws {NoAnswerError} where a case has no operating point, or there are too many cases. For a feed whose rows are all in order. */
export function feedWorst(columns: FeedColumns, unitsLost: 0 | 1): FeedWorst {
  const feed = compiledFeed(columns);
  const rows = new Array<WorstRow>(columns.count);
  let cases = 0;
  for (const tree of feed.trees) {
    const search = new TreeSearch(tree, feed);
    search.run(unitsLost);
    cases += search.tried.length;
    for (const row of tree.order) rows[row] = search.rowFound(row);
  }
  return { columns, rows, cases };
}

/** The rows of a feed as they stand in one corner. */
export function cornerRows(
  columns: FeedColumns,
  corner: FeedCorner,
): readonly SolvedRow[] {
  const feed = compiledFeed(columns);
  for (const { order } of feed.trees) {
    enterCorner(feed, order, corner);
    if (corner.alone !== undefined) {
      const way = new Set(wayThrough(corner.alone, order, feed.parent));
      for (const row of order)
        if (!way.has(row))
          feed.numbers.demand[row] = feed.numbers.fixedLoss[row] = 0;
    }
    solveTree(order, feed);
  }
  return Array.from({ length: columns.count }, (_, row) =>
    solvedRow(feed, row),
  );
}

/** Sets of loads that draw something, of which none is at most another in every row. */
function heaviestLoads(
  order: Int32Array,
  columns: FeedColumns,
): readonly LoadSet[] {
  const sets = (["peak", "nominal", "light"] as const).map((loads) => ({
    loads,
    demands: Array.from(order, (row) => {
      const load = loadOf(columns, row, loads);
      const inverse =
        KINDS[columns.kind[row]!]!.equation === EQUATION.conductance;
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
          (place < at ||
            demands.some((value, row) => value < other.demands[row]!)),
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
  ) {
    const { count } = feed.columns;
    this.worst = emptyWorst(count);
    this.proven = new Uint8Array(count).fill(1);
  }

  run(unitsLost: 0 | 1): void {
    const { order } = this.tree;
    const { columns } = this.feed;
    const { inParallel } = columns.figures;
    // A load of several that has lost one draws less, which is tried anyway.
    const parallel = [...order].filter(
      (row) =>
        inParallel[row]! > 1 && KINDS[columns.kind[row]!]!.role !== "load",
    );
    const lost = [undefined, ...(unitsLost === 1 ? parallel : [])];
    const supplies = CORNER_SUPPLIES.filter(
      (name) => !Number.isNaN(supplyAt(columns, order[0]!, name)),
    );
    const [low, high] = [supplies[0]!, supplies.at(-1)!];
    const sets = heaviestLoads(order, columns);
    const toleranced = order.filter(
      (row) =>
        isToleranced(columns, row) &&
        KINDS[columns.kind[row]!]!.role !== "load",
    );
    const ownCorners = lost.length * sets.length * (2 + toleranced.length);
    if (ownCorners * order.length > MOST_ROW_SOLUTIONS)
      throw new NoAnswerError(
        "feedTable",
        `too many cases: ${order.length} rows, ${toleranced.length} of them with a tolerance, and ${parallel.length} that can lose a unit; ask for the worst case of a part of the feed`,
      );
    this.try(idleCorner(order, this.feed, high), order);
    for (const one of lost)
      for (const loads of sets) this.tryOwnCorners(loads, one, low, high);
    this.tryBeside(supplies, lost);
  }

  private tryOwnCorners(
    loads: LoadSet,
    lost: number | undefined,
    low: CornerSupply,
    high: CornerSupply,
  ): void {
    const { order } = this.tree;
    const { feed } = this;
    const asGiven: FeedCorner = {
      supply: low,
      loads,
      alone: undefined,
      idle: false,
      lost,
      shifts: new Int8Array(feed.columns.count),
    };
    this.try(asGiven, order);
    const { drawsMore, proven } = treeProof(order, feed, loads, lost);
    for (const row of order) this.proven[row]! &= proven[row]!;
    const place = { order, feed, loads, lost, drawsMore };
    for (const { corner } of lowCorners({ ...place, supply: low }))
      this.try(corner, order);
    for (const { corner, order: way } of aloneCorners({
      ...place,
      supply: high,
    }))
      this.try(corner, way);
    this.lastDrawsMore = drawsMore;
  }

  private lastDrawsMore: Int8Array = new Int8Array(0);

  /** Corners that all rows share: what people expect to be tried, and all there is for a row of which nothing is proven. */
  private tryBeside(
    supplies: readonly CornerSupply[],
    lost: readonly (number | undefined)[],
  ): void {
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
      toleranced <= MOST_FOR_EVERY_CORNER &&
      points * lost.length * 2 ** toleranced <= MOST_BESIDE;
    const corners = togetherShifts(order, feed, this.lastDrawsMore, every);
    const all = points * corners.length * lost.length <= MOST_BESIDE;
    for (const one of all ? lost : [undefined])
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
    if (solveTree(order, feed).outcome !== "solved") {
      const { error } = noOperatingPoint(order, feed);
      throw new NoAnswerError(
        "feedTable",
        `at ${cornerText(corner, feed.columns)}: ${error.message}`,
      );
    }
    for (const row of order)
      keepWorst(row, corner, this.tried.length, feed, this.worst);
    this.tried.push(corner);
  }

  rowFound(row: number): WorstRow {
    const { worst, tried, feed } = this;
    const margin = worst.leastMargin[row]!;
    const hasMargin = Number.isFinite(margin);
    const cases = hasMargin ? worst.leastMarginCase : worst.lowestVoltageCase;
    const loading = worst.highestLoading[row]!;
    const found = {
      row,
      lowestInputVoltage: worst.lowestVoltage[row]!,
      highestInputVoltage: worst.highestVoltage[row]!,
      highestInputCurrent: worst.highestCurrent[row]!,
      highestLoss: worst.highestLoss[row]!,
      highestLoading: loading === -Infinity ? undefined : loading,
      leastMargin: hasMargin ? margin : undefined,
      at: tried[cases[row]!]!,
      proven: this.proven[row] === 1,
    };
    return { ...found, notes: worstNotes(found, feed.columns, tried.length) };
  }
}

/** Extremes by row, and by which case they were met. */
interface Worst {
  readonly lowestVoltage: Float64Array;
  readonly highestVoltage: Float64Array;
  readonly highestCurrent: Float64Array;
  readonly highestLoss: Float64Array;
  readonly highestLoading: Float64Array;
  readonly leastMargin: Float64Array;
  readonly lowestVoltageCase: Int32Array;
  readonly leastMarginCase: Int32Array;
  /** Current at the lowest voltage: of equal voltages the case with more current counts. */
  readonly currentThere: Float64Array;
}

function emptyWorst(count: number): Worst {
  return {
    lowestVoltage: new Float64Array(count).fill(Infinity),
    highestVoltage: new Float64Array(count).fill(-Infinity),
    highestCurrent: new Float64Array(count).fill(-Infinity),
    highestLoss: new Float64Array(count).fill(-Infinity),
    highestLoading: new Float64Array(count).fill(-Infinity),
    leastMargin: new Float64Array(count).fill(Infinity),
    lowestVoltageCase: new Int32Array(count),
    leastMarginCase: new Int32Array(count),
    currentThere: new Float64Array(count).fill(-Infinity),
  };
}

function keepWorst(
  row: number,
  { lost }: FeedCorner,
  index: number,
  feed: CompiledFeed,
  worst: Worst,
): void {
  const { columns, state } = feed;
  const voltage = state.inputVoltage[row]!;
  const carried = ratedFlowAt(feed, row);
  raise(worst.highestVoltage, row, voltage);
  raise(worst.highestCurrent, row, state.inputCurrent[row]!);
  raise(worst.highestLoss, row, lossAt(feed, row));
  const rated = columns.figures.ratedCurrent[row]!;
  if (!Number.isNaN(rated)) {
    const units = columns.figures.inParallel[row]! - (row === lost ? 1 : 0);
    raise(worst.highestLoading, row, carried / (rated * units));
  }
  const lowest = worst.lowestVoltage[row]!;
  if (
    voltage < lowest ||
    (voltage === lowest && carried > worst.currentThere[row]!)
  ) {
    worst.lowestVoltage[row] = voltage;
    worst.lowestVoltageCase[row] = index;
    worst.currentThere[row] = carried;
  }
  const margin = leastMargin(columns, row, voltage);
  if (margin < worst.leastMargin[row]!) {
    worst.leastMargin[row] = margin;
    worst.leastMarginCase[row] = index;
  }
}

function raise(of: Float64Array, row: number, value: number): void {
  if (value > of[row]!) of[row] = value;
}
