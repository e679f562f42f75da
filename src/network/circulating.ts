/**
 * What flows between the supplies of a feed while nothing draws: no load, and no stage its own. Each supply in turn stands
 * at the top of its window with all others at the bottom of theirs, which drives most through every way between them.
 */
import type { Amperes, Volts, Watts } from "../quantities/units.js";
import { compiledFeed, enterTree } from "./compiled-feed.js";
import type { FeedColumns } from "./feed-columns.js";
import { supplyWindow } from "./feed-conditions.js";
import { type SolvedRow, solvedRow } from "./feed-row.js";
import { noOperatingPoint } from "./operating-point.js";
import { lossAt } from "./row-flow.js";
import { KINDS } from "./row-kinds.js";
import { solution } from "./solution.js";

/** The most that a row carries while nothing draws. */
export interface Circulating {
  readonly row: number;
  /** Below 0 where it flows from what the row feeds, or to a tie's first item. */
  readonly current: Amperes;
  readonly loss: Watts;
  /** All rows of its tree in that case, and the place of its own. */
  readonly rows: readonly SolvedRow[];
  readonly place: number;
  /** The supply that stands at the top of its window. */
  readonly highest: number;
}

/** Below this part of the current that its voltage would drive through its resistance nothing flows but rounding. */
const ROUNDING = 1e-9;

/**
 * Rows that carry something, in the table's order.
 * @throws {InputError | NoAnswerError} for a feed that is refused.
 */
export function circulating(columns: FeedColumns): readonly Circulating[] {
  const feed = compiledFeed(columns);
  const { numbers, state } = feed;
  const found = new Map<number, Circulating>();
  for (const tree of feed.trees) {
    const fault = enterTree(feed, tree, { loads: "none", supply: "nominal" });
    if (fault) throw fault.error;
    if (!tree.mesh) continue;
    for (const row of tree.order) numbers.fixedLoss[row] = 0;
    const supplies = tree.order.filter((row) => KINDS[columns.kind[row]!]!.role === "supply");
    for (const highest of supplies) {
      for (const row of supplies) numbers.voltage[row] = endOf(columns, row, row === highest);
      if (solution(tree, feed).outcome !== "solved") throw noOperatingPoint(tree, feed).error;
      const rows = [...tree.order].map((row) => solvedRow(feed, row));
      for (const [place, row] of tree.order.entries()) {
        const current = state.outputCurrent[row]!;
        const most = (ROUNDING * state.noLoadVoltage[row]!) / (numbers.resistance[row]! || 1);
        if (Math.abs(current) <= Math.max(most, Math.abs(found.get(row)?.current ?? 0))) continue;
        found.set(row, {
          row,
          current,
          loss: lossAt(feed, row),
          rows,
          place,
          highest,
        });
      }
    }
  }
  return [...found.values()].sort((one, other) => one.row - other.row);
}

/** The nominal voltage where its window does not give the end. */
function endOf(columns: FeedColumns, row: number, isHighest: boolean): Volts {
  const { lowest, highest } = supplyWindow(columns, row);
  const end = isHighest ? highest : lowest;
  return Number.isNaN(end) ? columns.figures.voltage[row]! : end;
}
