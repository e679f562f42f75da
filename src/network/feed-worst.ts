/**
 * The worst that each row of a feed can see: over supply lowest, nominal and highest; no, light and peak loads; the
 * corners of the given tolerances; and, if asked, with one unit lost on each row that has several in parallel, in turn.
 */
import { NoAnswerError } from "../quantities/errors.js";
import type { Note } from "../quantities/steps.js";
import type { Amperes, Fraction, Volts, Watts } from "../quantities/units.js";
import { type CompiledFeed, compiledFeed, itemAt } from "./compiled-feed.js";
import {
  type Breadth,
  CORNER_LOADS,
  CORNER_SUPPLIES,
  cornerText,
  type FeedCorner,
  isToleranced,
  itemInCorner,
  MOST_FOR_EVERY_CORNER,
  toleranceCorners,
} from "./feed-corner.js";
import { loadOf } from "./feed-conditions.js";
import type { FeedItem } from "./feed-item.js";
import { enterItem } from "./feed-numbers.js";
import { rowLoss } from "./feed-row.js";
import { solveTree } from "./feed-solver.js";
import { leastMargin } from "./feed-totals.js";
import type { FeedTree } from "./feed-topology.js";
import { noOperatingPoint } from "./operating-point.js";
import { worstNotes } from "./worst-notes.js";

export interface WorstRow {
  readonly item: FeedItem;
  readonly lowestInputVoltage: Volts;
  readonly highestInputVoltage: Volts;
  readonly highestInputCurrent: Amperes;
  readonly highestLoss: Watts;
  /** Not there where no rating is given. */
  readonly highestLoading: number | undefined;
  /** Least of (V − lowest)/lowest and (highest − V)/highest; not there for a supply or without a window. */
  readonly leastMargin: Fraction | undefined;
  /** Where the least margin is met; without a window, where the input voltage is lowest. */
  readonly at: FeedCorner;
  readonly notes: readonly Note[];
}

/** What is tried: how many corners of the tolerances, and how many cases in all. */
export interface FeedWorst {
  /** In the table's order. */
  readonly rows: readonly WorstRow[];
  readonly cases: number;
}

/** Rows times cases that a search may come to; some seconds of work. */
const MOST_ROW_SOLUTIONS = 4e6;

/** @throws {NoAnswerError} where a case has no operating point, or there are too many cases. For a feed whose rows are all in order. */
export function feedWorst(
  items: readonly FeedItem[],
  unitsLost: 0 | 1,
): FeedWorst {
  const feed = compiledFeed(items);
  const rows = new Array<WorstRow>(items.length);
  let cases = 0;
  for (const tree of feed.trees) {
    const search = treeSearch(tree, items, unitsLost);
    cases += search.cases;
    searchTree(tree, search, feed, rows);
  }
  return { rows, cases };
}

interface TreeSearch {
  readonly supplies: readonly FeedCorner["supply"][];
  readonly loads: readonly FeedCorner["loads"][];
  readonly lost: readonly (FeedItem | undefined)[];
  readonly toleranced: readonly FeedItem[];
  readonly breadth: Breadth;
  readonly cases: number;
}

function treeSearch(
  { order }: FeedTree,
  items: readonly FeedItem[],
  unitsLost: 0 | 1,
): TreeSearch {
  const rows = Array.from(order.slice().sort(), (row) => itemAt(items, row));
  const supply = itemAt(items, order[0]!);
  const supplies = CORNER_SUPPLIES.filter(
    (name) => name === "nominal" || givenVoltage(supply, name) !== undefined,
  );
  const loads = CORNER_LOADS.filter(
    (name) => name !== "light" || rows.some(({ lightLoad }) => lightLoad),
  );
  const parallel = rows.filter(({ inParallel }) => inParallel > 1);
  const lost = [undefined, ...(unitsLost === 1 ? parallel : [])];
  const toleranced = rows.filter(isToleranced);
  const points = supplies.length * loads.length * lost.length;
  const breadths: readonly Breadth[] = [
    ...(toleranced.length <= MOST_FOR_EVERY_CORNER
      ? (["every corner"] as const)
      : []),
    "each alone and all together",
    "all together",
  ];
  for (const breadth of breadths) {
    const cases = points * cornerCount(toleranced.length, breadth);
    if (cases * rows.length <= MOST_ROW_SOLUTIONS)
      return { supplies, loads, lost, toleranced, breadth, cases };
  }
  throw new NoAnswerError(
    "feedTable",
    `too many cases: ${rows.length} rows with ${parallel.length} that can lose a unit; ask for the worst case of a part of the feed`,
  );
}

function cornerCount(toleranced: number, breadth: Breadth): number {
  if (toleranced === 0) return 1;
  if (breadth === "every corner") return 2 ** toleranced;
  return 4 + (breadth === "all together" ? 0 : 2 * toleranced);
}

function givenVoltage(supply: FeedItem, name: FeedCorner["supply"]) {
  return {
    lowest: supply.lowestVoltage,
    nominal: supply.voltage,
    highest: supply.highestVoltage,
  }[name];
}

function searchTree(
  { order }: FeedTree,
  search: TreeSearch,
  feed: CompiledFeed,
  rows: WorstRow[],
): void {
  const { items, parent, numbers, state } = feed;
  const worst = emptyWorst(items.length);
  const tried: FeedCorner[] = [];
  for (const corner of cornersOf(search)) {
    for (const row of order) enterRow(row, itemAt(items, row), corner, feed);
    const { outcome } = solveTree(order, parent, numbers, state);
    if (outcome !== "solved") {
      const { error } = noOperatingPoint(order, feed);
      throw new NoAnswerError(
        "feedTable",
        `at ${cornerText(corner)}: ${error.message}`,
      );
    }
    for (const row of order)
      keepWorst(row, itemAt(items, row), corner, tried.length, feed, worst);
    tried.push(corner);
  }
  for (const row of order) {
    const found = worstRow(row, itemAt(items, row), worst, tried);
    rows[row] = { ...found, notes: worstNotes(found, search.breadth) };
  }
}

function* cornersOf({
  supplies,
  loads,
  lost,
  toleranced,
  breadth,
}: TreeSearch): Generator<FeedCorner> {
  const corners = toleranceCorners(toleranced, breadth).map(
    (corner) =>
      new Map(toleranced.map((item, index) => [item, corner[index]!])),
  );
  for (const one of lost)
    for (const supply of supplies)
      for (const load of loads)
        for (const shifts of corners)
          yield { supply, loads: load, lost: one, shifts };
}

function enterRow(
  row: number,
  given: FeedItem,
  corner: FeedCorner,
  { numbers }: CompiledFeed,
): void {
  const item = itemInCorner(given, corner);
  const voltage =
    item.kind === "supply" ? givenVoltage(item, corner.supply) : item.voltage;
  enterItem(numbers, row, item, voltage ?? 0, loadOf(item, corner.loads));
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
  item: FeedItem,
  { lost }: FeedCorner,
  index: number,
  { numbers, state }: CompiledFeed,
  worst: Worst,
): void {
  const voltage = state.inputVoltage[row]!;
  const current = state.inputCurrent[row]!;
  const carried = item.kind.endsWith("load")
    ? current
    : state.outputCurrent[row]!;
  const raise = (of: Float64Array, value: number) => {
    if (value > of[row]!) of[row] = value;
  };
  raise(worst.highestVoltage, voltage);
  raise(worst.highestCurrent, current);
  raise(worst.highestLoss, rowLoss(row, item.kind, numbers, state));
  if (item.ratedCurrent !== undefined) {
    const units = item.inParallel - (item === lost ? 1 : 0);
    raise(worst.highestLoading, carried / (item.ratedCurrent * units));
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
  const margin = leastMargin(item, voltage);
  if (margin < worst.leastMargin[row]!) {
    worst.leastMargin[row] = margin;
    worst.leastMarginCase[row] = index;
  }
}

function worstRow(
  row: number,
  item: FeedItem,
  worst: Worst,
  tried: readonly FeedCorner[],
): Omit<WorstRow, "notes"> {
  const margin = worst.leastMargin[row]!;
  const hasMargin = Number.isFinite(margin);
  const cases = hasMargin ? worst.leastMarginCase : worst.lowestVoltageCase;
  return {
    item,
    lowestInputVoltage: worst.lowestVoltage[row]!,
    highestInputVoltage: worst.highestVoltage[row]!,
    highestInputCurrent: worst.highestCurrent[row]!,
    highestLoss: worst.highestLoss[row]!,
    highestLoading:
      item.ratedCurrent === undefined ? undefined : worst.highestLoading[row]!,
    leastMargin: hasMargin ? margin : undefined,
    at: tried[cases[row]!]!,
  };
}
