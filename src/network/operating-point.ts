/** A feed solved at one set of loads and one supply voltage: every row's voltages, currents, loss and notes. */
import { NoAnswerError } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import { collapseOf } from "./collapse.js";
import { type CompiledFeed, compiledFeed, enterTree, type Fault } from "./compiled-feed.js";
import { columnsOf, type FeedColumns, type FeedEntry } from "./feed-columns.js";
import { type FeedConditions, NOMINAL } from "./feed-conditions.js";
import { type FeedRow, type RefusedRow, solvedRow } from "./feed-row.js";
import type { TreeSolution } from "./feed-solver.js";
import { type SolvableTree, solution } from "./solution.js";
import { type FeedTotals, feedTotals } from "./feed-totals.js";

export interface OperatingPoint {
  /** The solved feed: coefficients and solution of every row without a fault. */
  readonly feed: CompiledFeed;
  /** Why a row has no answer, by row. */
  readonly faults: ReadonlyMap<number, Fault>;
  readonly totals: FeedTotals;
  /** One for each tree that was solved. */
  readonly solutions: readonly TreeSolution[];
  /** In the table's order; made when first asked for. */
  readonly rows: readonly FeedRow[];
}

/** Never throws for a row: a tree that is refused or has no operating point says so in its rows. */
export function operatingPoint(
  entries: readonly FeedEntry[],
  conditions: FeedConditions = NOMINAL,
): OperatingPoint {
  return solvedFeed(columnsOf(entries), conditions);
}

/** The same of a feed that stands in columns. `alike`: as of `compiledFeed`. */
export function solvedFeed(
  columns: FeedColumns,
  conditions: FeedConditions,
  alike?: CompiledFeed,
): OperatingPoint {
  const feed = compiledFeed(columns, alike);
  const faults = new Map<number, Fault>();
  const solutions: TreeSolution[] = [];
  for (const tree of feed.trees) {
    const found = enterTree(feed, tree, conditions) ?? solved(tree, feed);
    if ("error" in found) for (const row of tree.order) faults.set(row, found);
    else solutions.push(found);
  }
  const totals = feedTotals(feed, faults);
  return new SolvedFeed(feed, faults, totals, solutions);
}

class SolvedFeed implements OperatingPoint {
  private made: readonly FeedRow[] | undefined;

  constructor(
    readonly feed: CompiledFeed,
    readonly faults: ReadonlyMap<number, Fault>,
    readonly totals: FeedTotals,
    readonly solutions: readonly TreeSolution[],
  ) {}

  get rows(): readonly FeedRow[] {
    const { columns } = this.feed;
    this.made ??= Array.from({ length: columns.count }, (_, row) => {
      const fault = this.faults.get(row);
      return fault ? refusedRow(columns, row, fault) : solvedRow(this.feed, row);
    });
    return this.made;
  }
}

function solved(tree: SolvableTree, feed: CompiledFeed): TreeSolution | Fault {
  const found = solution(tree, feed);
  return found.outcome === "solved" ? found : noOperatingPoint(tree, feed);
}

/** Part of the multiple in a message to which it is found. */
const MESSAGE_TOLERANCE = 1e-5;

/** Why a tree has no operating point at the loads now entered, and where loads only draw, how much of them it carries. */
export function noOperatingPoint(tree: SolvableTree, feed: CompiledFeed): Fault {
  const collapse = collapseOf(tree, feed, MESSAGE_TOLERANCE);
  if (collapse.outcome === "not determined") return noneGivingBack(tree, feed, collapse.row);
  // Bisection meets the same collapse again, so the loads as given are never carried here.
  const row = collapse.outcome === "no collapse" ? tree.order[0]! : collapse.row;
  const most =
    collapse.outcome === "carries"
      ? `the feed can supply at most ${carriedFigure(collapse.multiple)} times these loads`
      : "its stages' no-load loss alone is more than the feed can deliver";
  const name = feed.columns.item[row];
  const message = `no operating point that is reached from no load: ${most}; the voltage collapses at "${name}"`;
  return { row, error: new NoAnswerError("feedTable", message) };
}

/** A multiple of the loads would multiply what is given back too. */
function noneGivingBack(tree: SolvableTree, feed: CompiledFeed, giving: number): Fault {
  const found = solution(tree, feed);
  if (found.outcome === "solved") throw new Error("there is an operating point");
  const nameOf = (row: number) => `"${feed.columns.item[row]}"`;
  if (found.outcome === "overfed") {
    const watts = `${figure(found.power)} W`;
    const message = `no operating point: nothing takes ${watts} that ${nameOf(found.row)} gives back, and ${nameOf(found.blocking)} lets none of it through: allow Reverse flow of ${nameOf(found.blocking)}, or add a load or clamp that takes ${watts}`;
    return { row: found.blocking, error: new NoAnswerError("feedTable", message) };
  }
  const message = `no operating point found with what ${nameOf(giving)} gives back; the voltage collapses at ${nameOf(found.row)}`;
  return { row: found.row, error: new NoAnswerError("feedTable", message) };
}

/** Never rounded up: at the very edge "1 times" would read as if the loads could be carried. */
function carriedFigure(multiple: number): string {
  return figure(Math.floor(multiple * 1e4) / 1e4);
}

export function refusedRow(
  { item }: FeedColumns,
  row: number,
  { row: blamed, error }: Fault,
): RefusedRow {
  return {
    outcome: "refused",
    item: item[row] ?? "",
    blamed: item[blamed] ?? "",
    error,
  };
}
