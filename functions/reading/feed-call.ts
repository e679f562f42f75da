/** A call about a feed table: its arguments, and the feed they describe solved. */
import type { FeedConditions, LoadCase, SupplyCase } from "../../src/network/feed-conditions.js";
import type { FeedColumns } from "../../src/network/feed-columns.js";
import { FEED_KINDS } from "../../src/network/feed-item.js";
import type { FeedRow, SolvedRow } from "../../src/network/feed-row.js";
import { feedRowGivens, feedRowValues, stepsOfRow } from "../../src/network/feed-steps.js";
import { type OperatingPoint, refusedRow, solvedFeed } from "../../src/network/operating-point.js";
import { rowCaveats } from "../../src/network/feed-caveats.js";
import { rowFigureGivens, rowFigureSteps, rowFigureValues } from "../../src/network/row-figures.js";
import { KINDS } from "../../src/network/row-kinds.js";
import { InputError, NoAnswerError } from "../../src/quantities/errors.js";
import type { Caveat } from "../../src/quantities/steps.js";
import type { CellTable } from "../cells.js";
import type { Parameter, Working } from "../entry.js";
import { type FeedTable, feedTable, isWaiting, rowReason } from "./feed-table.js";

export const feedTableParameter = {
  name: "feed table",
  unit: "",
  meaning: "range with a header row: Item, Fed from, Kind and the columns that its rows need",
  kind: "cells",
} as const satisfies Parameter;

export const loadsParameter = {
  name: "loads",
  unit: "1",
  meaning: "light, nominal (default) or peak, or a number that multiplies Load: 0 is no load",
  kind: "number or choice",
  choices: ["light", "nominal", "peak"],
  zero: "real",
  optional: true,
} as const satisfies Parameter;

export const supplyParameter = {
  name: "supply",
  unit: "V",
  meaning:
    "lowest, nominal (default) or highest of the supply's window, or its open-circuit voltage",
  kind: "number or choice",
  choices: ["lowest", "nominal", "highest"],
  optional: true,
} as const satisfies Parameter;

export interface Solve extends FeedConditions {
  readonly table: FeedTable;
}

export interface Solved {
  readonly table: FeedTable;
  readonly loads: LoadCase;
  readonly point: OperatingPoint;
}

export function solveOf(
  cells: CellTable,
  loads: number | string | undefined,
  supply: number | string | undefined,
): Solve {
  return solveOfTable(feedTable(cells), loads, supply);
}

/** The same of a table that is read. */
export function solveOfTable(
  table: FeedTable,
  loads: number | string | undefined,
  supply: number | string | undefined,
): Solve {
  if (typeof loads === "number" && !(loads >= 0)) throw new InputError("loads", loads, "0 or more");
  if (typeof supply === "number") requireOneSupply(table, supply);
  return {
    table,
    loads: loads === 0 ? "none" : ((loads ?? "nominal") as LoadCase),
    supply: (supply ?? "nominal") as SupplyCase,
  };
}

export function requireOneSupply({ feed }: FeedTable, supply: number): void {
  if (!(supply > 0)) throw new InputError("supply", supply, "above 0");
  const place = FEED_KINDS.indexOf("supply");
  const supplies = feed.kind.filter((kind) => kind === place).length;
  if (supplies > 1) {
    throw new InputError(
      "supply",
      supply,
      `"lowest", "nominal" or "highest" for a table with ${supplies} supplies`,
    );
  }
}

export function solve({ table, loads, supply }: Solve): Solved {
  return { table, loads, point: solvedFeed(table.feed, { loads, supply }) };
}

/** Said at every load: a cell that was left blank may have asked for it. */
const NO_LOAD: Caveat = {
  code: "no-load",
  field: "inputCurrent",
  text: "drawn as no load: loads is 0 (the spreadsheet may pass a blank cell as 0)",
  cite: "definition",
};

const NONE: readonly Caveat[] = [];

/** What the table says of its row, in front of what solving it says. */
export function toldCaveats({ told }: FeedTable, row: number): readonly Caveat[] {
  const text = told[row] ?? "";
  if (text === "") return NONE;
  return [{ code: "of-table", field: "item", text, cite: "definition" }];
}

/** Caveats on a row that was solved. */
export function notesAt({ table, loads, point }: Solved, row: number): readonly Caveat[] {
  const { feed } = point;
  const told = toldCaveats(table, row);
  const found = rowCaveats(feed, row);
  const isUnloaded = loads === "none" && KINDS[feed.columns.kind[row]!]!.role === "load";
  // Of a large table most rows end here, without a list of their own.
  if (told.length === 0 && !isUnloaded) return found;
  return isUnloaded ? [...told, ...found, NO_LOAD] : [...told, ...found];
}

/** One answer needs every row. @throws the first refused row's reason. */
export function requireEveryRow({ table, point }: Solved): void {
  const row = table.feed.item.findIndex((_, at) => point.faults.has(at));
  const fault = point.faults.get(row);
  if (!fault) return;
  const refused = refusedRow(table.feed, row, fault);
  const reason = rowReason({ ...refused, item: "" }, table.fields);
  if (fault.error instanceof NoAnswerError) throw new NoAnswerError("feedTable", reason);
  throw new InputError("feedTable", refused.blamed, `solvable; ${reason}`);
}

/**
 * What a feed waits for that is wrong in nothing else: the reason of its first row that waits for a figure. Undefined
 * where none does.
 */
export function waitingReason(table: FeedTable): string | undefined {
  const { faults } = solve({ table, loads: "none", supply: "nominal" }).point;
  const [fault, ...others] = faults.values();
  if (!fault || ![fault, ...others].every(({ error }) => isWaiting(error))) return undefined;
  return rowReason({ ...refusedRow(table.feed, fault.row, fault), item: "" }, table.fields);
}

/** The feed of a table in which every row is in order, whatever the loads. @throws the first refused row's reason. */
export function feedInOrder(table: FeedTable, supply: SupplyCase): FeedColumns {
  requireEveryRow(solve({ table, loads: "none", supply }));
  return table.feed;
}

export function solvedWorking(rows: readonly FeedRow[]): readonly Working[] {
  return rowWorkings(rows).filter((working) => working !== undefined);
}

/** Each solved row's equations, and the figures that are worked out of them. @param feedLoss Of all rows, where shares of it are told. */
export function figuredWorking({ rows }: OperatingPoint, feedLoss?: number): readonly Working[] {
  const workings = rowWorkings(rows);
  return rows.flatMap((row, index): Working[] => {
    const working = workings[index];
    if (!working || row.outcome !== "solved") return [];
    const values = { ...working.values, ...rowFigureValues(row, feedLoss) };
    // No efficiency without power, and no loading without a rating.
    const figures = Object.entries(rowFigureSteps(row.item.kind, flowsBack(row))).filter(
      ([name]) => name in values,
    );
    return [
      {
        ...working,
        givens: { ...working.givens, ...rowFigureGivens },
        steps: { ...working.steps, ...Object.fromEntries(figures) },
        values,
      },
    ];
  });
}

function flowsBack({ output, inputCurrent }: SolvedRow): boolean {
  return (output?.current ?? inputCurrent) < 0;
}

/** Each row's equations; undefined for a refused row. */
export function rowWorkings(rows: readonly FeedRow[]): readonly (Working | undefined)[] {
  const values = feedRowValues(rows);
  return rows.map((row, index) =>
    row.outcome === "solved"
      ? {
          title: row.item.item,
          givens: feedRowGivens,
          steps: stepsOfRow(row),
          values: values[index] ?? {},
        }
      : undefined,
  );
}
