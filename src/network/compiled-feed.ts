/** A feed set up once: who feeds whom, and arrays of which only the numbers change from one case to the next. */
import { type FeedNumbers, type FeedState } from "./feed-state.js";
import { InputError, type NoAnswerError } from "../quantities/errors.js";
import { type RowCheck, rowCheck } from "./feed-check.js";
import type { FeedColumns } from "./feed-columns.js";
import { type FeedConditions, loadOf, supplyVoltage } from "./feed-conditions.js";
import { blocksReverse, emptyNumbers, enterRow } from "./feed-numbers.js";
import { emptyState } from "./feed-solver.js";
import { type FeedTree, feedTopology, givingLoads } from "./feed-topology.js";
import type { Mesh } from "./meshes/mesh.js";
import { meshFault } from "./meshes/mesh-solver.js";
import { EQUATION, KINDS } from "./row-kinds.js";

export interface CompiledFeed {
  readonly columns: FeedColumns;
  readonly check: RowCheck;
  readonly parent: Int32Array;
  readonly trees: readonly FeedTree[];
  /** Those of the trees that have one. */
  readonly meshes: readonly Mesh[];
  readonly numbers: FeedNumbers;
  readonly state: FeedState;
}

/** Why a tree has no answer, and the row to blame. */
export interface Fault {
  readonly row: number;
  readonly error: InputError | NoAnswerError;
}

/** @param alike A feed that differs in figures alone: who feeds whom is not looked up again, unless other loads give power back. */
export function compiledFeed(columns: FeedColumns, alike?: CompiledFeed): CompiledFeed {
  const { parent, trees } = alike && givesAlike(columns, alike) ? alike : feedTopology(columns);
  const numbers = emptyNumbers(columns.count);
  for (const { order, mesh } of trees)
    if (mesh) for (const row of order) numbers.oneWay[row] = blocksReverse(columns, row) ? 1 : 0;
  return {
    columns,
    check: rowCheck(columns),
    parent,
    trees,
    meshes: trees.flatMap(({ mesh }) => (mesh ? [mesh] : [])),
    numbers,
    state: emptyState(columns.count),
  };
}

/** Which rows can carry current backwards hangs on the loads that give power back. */
function givesAlike({ kind, figures }: FeedColumns, { columns }: CompiledFeed): boolean {
  const [one, other] = [givingLoads(kind, figures), givingLoads(kind, columns.figures)];
  return one.length === other.length && one.every((row, at) => row === other[at]);
}

/** Checks every row of the tree and enters it at the case; the first one in the table that is refused is the tree's fault. */
export function enterTree(
  { columns, check, numbers }: CompiledFeed,
  { order, fault, mesh }: FeedTree,
  { loads, supply }: FeedConditions,
): Fault | undefined {
  // What a row holds is told before how rows hang together: an unread row is often why they do not.
  if (columns.refused.size > 0) {
    const unread = firstInTable(order, (row) => columns.refused.get(row));
    if (unread) return unread;
  }
  if (fault) return fault;
  const refusalOf = (row: number): InputError | undefined => {
    try {
      check(row);
      enterRow(
        numbers,
        columns,
        row,
        openVoltageOf(columns, row, supply),
        loadOf(columns, row, loads),
      );
      return undefined;
    } catch (error) {
      if (error instanceof InputError) return error;
      throw error;
    }
  };
  for (const row of order) if (refusalOf(row)) return firstInTable(order, refusalOf);
  return mesh && meshFault(mesh, numbers);
}

/** Of several refused rows people are told of the first one that they read, whatever feeds it. */
function firstInTable(
  order: Int32Array,
  refusalOf: (row: number) => InputError | undefined,
): Fault | undefined {
  for (const row of order.slice().sort()) {
    const error = refusalOf(row);
    if (error) return { row, error };
  }
  return undefined;
}

/** Voltage that a row has of its own: of a supply at the case, a set point, a forward drop; 0 where it has none. */
function openVoltageOf(feed: FeedColumns, row: number, supply: FeedConditions["supply"]): number {
  return KINDS[feed.kind[row]!]!.equation === EQUATION.supply
    ? supplyVoltage(feed, row, supply)
    : feed.figures.voltage[row] || 0;
}
