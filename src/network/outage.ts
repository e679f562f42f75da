/**
 * A feed with one of its rows taken out: opened at both ends, so that nothing flows through it. What still reaches a
 * supply another way goes on, what does not is dark.
 */
import type { Amperes, Volts } from "../quantities/units.js";
import { type CompiledFeed, compiledFeed, enterTree, type Fault } from "./compiled-feed.js";
import type { FeedColumns } from "./feed-columns.js";
import type { RowFigure } from "./feed-cases.js";
import type { FeedConditions } from "./feed-conditions.js";
import { NO_PARENT } from "./feed-state.js";
import type { FeedTree } from "./feed-topology.js";
import { leastMargin } from "./feed-totals.js";
import { meshWithout } from "./meshes/mesh.js";
import { noOperatingPoint } from "./operating-point.js";
import { loadingAt } from "./row-flow.js";
import { EQUATION, KINDS } from "./row-kinds.js";
import { solution } from "./solution.js";

export interface Outage {
  /** The row that is out. */
  readonly row: number;
  /** Why what is left has no operating point; then nothing else is known of it. */
  readonly fault: Fault | undefined;
  /** Loads that reach no supply any more, in the table's order. */
  readonly dark: readonly number[];
  /** Load with the lowest voltage as a part of the one that it has with nothing out. */
  readonly lowest: LowestLoad | undefined;
  /** Least margin to a window; not there where no lit row has one. */
  readonly margin: RowFigure | undefined;
  /** Highest part of a rated current; not there where no lit row has one. */
  readonly loading: RowFigure | undefined;
  /** Current of every row, 0 of what is dark. */
  readonly current: (row: number) => Amperes;
  /** The feed as it is left: its arrays are its own. */
  readonly feed: CompiledFeed;
}

export interface LowestLoad extends RowFigure {
  readonly voltage: Volts;
  /** With nothing out. */
  readonly usual: Volts;
}

/** Rows that may be taken out: all but loads and buses. */
export function outageRows({ kind }: FeedColumns): readonly number[] {
  return [...kind.keys()].filter((row) => {
    const { role, fedBy } = KINDS[kind[row]!]!;
    return role !== "load" && fedBy !== "several";
  });
}

/**
 * Each of the rows out in turn.
 * @throws {InputError | NoAnswerError} for a feed that is refused or collapses with nothing out.
 */
export function outages(
  columns: FeedColumns,
  conditions: FeedConditions,
  rows: readonly number[] = outageRows(columns),
): readonly Outage[] {
  const feed = compiledFeed(columns);
  const treeOf = new Map<number, FeedTree>();
  for (const tree of feed.trees) {
    const fault = enterTree(feed, tree, conditions) ?? collapsed(tree, feed);
    if (fault) throw fault.error;
    for (const row of tree.order) treeOf.set(row, tree);
  }
  const whole = feed.state.inputVoltage.slice();
  return rows.map((row) => {
    const tree = treeOf.get(row)!;
    const found = outageOf(row, tree, feed, whole);
    // Other trees stand in the same arrays, and are read with the next one's outages.
    enterTree(feed, tree, conditions);
    if (feed.trees.length > 1) solution(tree, feed);
    return found;
  });
}

function collapsed(tree: FeedTree, feed: CompiledFeed): Fault | undefined {
  return solution(tree, feed).outcome === "solved" ? undefined : noOperatingPoint(tree, feed);
}

function outageOf(
  out: number,
  tree: FeedTree,
  feed: CompiledFeed,
  /** Input voltages with nothing out. */
  whole: Float64Array,
): Outage {
  const { columns, state, numbers } = feed;
  const lit = litRows(out, tree, feed);
  const isLoad = (row: number) => KINDS[columns.kind[row]!]!.role === "load";
  const dark = new Set(tree.order.filter((row) => !lit.has(row)));
  for (const row of dark) numbers.demand[row] = numbers.fixedLoss[row] = 0;
  const gives = (row: number) => feed.parent[row] === NO_PARENT || lit.has(feed.parent[row]!);
  const part = {
    order: tree.order.filter((row) => lit.has(row)),
    mesh: tree.mesh && meshWithout(tree.mesh, { out, lit, gives }),
  };
  const found = { row: out, dark: [...dark].filter(isLoad).sort((one, other) => one - other) };
  if (part.order.length > 0 && solution(part, feed).outcome !== "solved")
    return {
      ...found,
      fault: noOperatingPoint(part, feed),
      lowest: undefined,
      margin: undefined,
      loading: undefined,
      current: () => 0,
      feed,
    };
  const own = {
    ...state,
    inputVoltage: state.inputVoltage.slice(),
    inputCurrent: state.inputCurrent.slice(),
    outputCurrent: state.outputCurrent.slice(),
  };
  // What holds the output of the row that is out is somebody else.
  const left = [...columns.kind.keys()].filter((row) => row !== out && !dark.has(row));
  const least = worst(left, (row) =>
    isLoad(row) ? state.inputVoltage[row]! / whole[row]! : Infinity,
  );
  const loading = worst(left, (row) => {
    const value = loadingAt(feed, row);
    return value === undefined ? Infinity : -value;
  });
  return {
    ...found,
    fault: undefined,
    lowest: least && {
      ...least,
      voltage: state.inputVoltage[least.row]!,
      usual: whole[least.row]!,
    },
    margin: worst(left, (row) => leastMargin(columns, row, state.inputVoltage[row]!)),
    loading: loading && { row: loading.row, value: -loading.value },
    current: (row) => (row !== out && !dark.has(row) ? own.outputCurrent[row]! : 0),
    feed: { ...feed, state: own },
  };
}

function worst(rows: readonly number[], valueOf: (row: number) => number): RowFigure | undefined {
  let found: RowFigure | undefined;
  for (const row of rows) {
    const value = valueOf(row);
    if (value < (found?.value ?? Infinity)) found = { row, value };
  }
  return found;
}

/** Rows that reach a supply: forwards through anything that is not out, backwards through what lets current flow back. */
function litRows(
  out: number,
  { order, mesh }: FeedTree,
  { parent, columns, numbers }: CompiledFeed,
): ReadonlySet<number> {
  const feedersOf = (row: number) =>
    mesh?.feeders.get(row) ?? (parent[row] === NO_PARENT ? [] : [parent[row]!]);
  const behind = new Map<number, number[]>();
  for (const row of order)
    for (const feeding of feedersOf(row))
      behind.set(feeding, [...(behind.get(feeding) ?? []), row]);
  const isTie = (row: number) => KINDS[columns.kind[row]!]!.fedBy === "two ends";
  const role = (row: number) => KINDS[columns.kind[row]!]!.role;
  const isRegulated = (row: number) => numbers.equation[row] === EQUATION.regulated;
  /** Outputs that have a voltage. */
  const lit = new Set<number>();
  const waiting: number[] = [];
  const light = (row: number) => {
    if (lit.has(row)) return;
    lit.add(row);
    waiting.push(row);
  };
  for (const row of order) if (role(row) === "supply" && row !== out) light(row);
  for (let row = waiting.pop(); row !== undefined; row = waiting.pop()) {
    for (const next of behind.get(row) ?? []) {
      if (next === out) continue;
      if (isTie(next)) {
        const [one, other] = feedersOf(next);
        if (row === one) light(other!);
        else if (!numbers.oneWay[next]) light(one!);
      } else light(next);
    }
    const passesBack = row !== out && !numbers.oneWay[row] && !isRegulated(row);
    if (passesBack) for (const feeding of feedersOf(row)) light(feeding);
  }
  // A tie is lit where both its ends are; what is out has an output that others may hold.
  for (const row of order)
    if (isTie(row) && row !== out && feedersOf(row).every((end) => lit.has(end))) lit.add(row);
  return lit;
}
