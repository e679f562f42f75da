/** A feed in each of nine cases: its supplies at lowest, nominal and highest voltage, its loads light, nominal and peak. */
import type { CompiledFeed } from "./compiled-feed.js";
import type { FeedColumns } from "./feed-columns.js";
import type { LoadSet } from "./feed-conditions.js";
import { leastMargin } from "./feed-totals.js";
import { type OperatingPoint, refusedRow, solvedFeed } from "./operating-point.js";
import type { RefusedRow } from "./feed-row.js";
import { loadingAt } from "./row-flow.js";

export const CASE_SUPPLIES = ["lowest", "nominal", "highest"] as const;
export const CASE_LOADS = ["light", "nominal", "peak"] as const satisfies readonly LoadSet[];

export interface FeedCase {
  readonly supply: (typeof CASE_SUPPLIES)[number];
  readonly loads: (typeof CASE_LOADS)[number];
  readonly point: OperatingPoint;
  /** First row without an answer; undefined where every row has one. */
  readonly refused: RefusedRow | undefined;
  /** Least margin to a window; not there where no stage or load has one, nor where a row is refused. */
  readonly margin: RowFigure | undefined;
  /** Highest part of a rated current; not there where none is given, nor where a row is refused. */
  readonly loading: RowFigure | undefined;
}

/** A figure of the row that has it worst. */
export interface RowFigure {
  readonly row: number;
  readonly value: number;
}

/** "supply lowest, loads peak". */
export function caseText({ supply, loads }: Pick<FeedCase, "supply" | "loads">) {
  return `supply ${supply}, loads ${loads}`;
}

/** The nine cases, by supply and then by loads. Never throws for a row. */
export function feedCases(columns: FeedColumns): readonly FeedCase[] {
  return CASE_SUPPLIES.flatMap((supply) =>
    CASE_LOADS.map((loads) => {
      const point = solvedFeed(columns, { loads, supply });
      const refused = firstRefused(columns, point);
      const found = refused === undefined;
      return {
        supply,
        loads,
        point,
        refused,
        margin: found ? leastMarginOf(point.feed) : undefined,
        loading: found ? highestLoadingOf(point.feed) : undefined,
      };
    }),
  );
}

/** In the table's order. */
function firstRefused(columns: FeedColumns, { faults }: OperatingPoint): RefusedRow | undefined {
  const row = columns.item.findIndex((_, at) => faults.has(at));
  const fault = faults.get(row);
  return fault && refusedRow(columns, row, fault);
}

function leastMarginOf({ columns, state }: CompiledFeed): RowFigure | undefined {
  let found: RowFigure | undefined;
  for (let row = 0; row < columns.count; row++) {
    const value = leastMargin(columns, row, state.inputVoltage[row]!);
    if (value < (found?.value ?? Infinity)) found = { row, value };
  }
  return found;
}

function highestLoadingOf(feed: CompiledFeed): RowFigure | undefined {
  let found: RowFigure | undefined;
  for (let row = 0; row < feed.columns.count; row++) {
    const value = loadingAt(feed, row);
    if (value !== undefined && value > (found?.value ?? -1)) found = { row, value };
  }
  return found;
}
