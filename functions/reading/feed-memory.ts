/**
 * What was found of the last few feed tables. A sheet asks several functions about one table at every edit; each reads
 * its cells, and some search the same cases. A table is known again by what its cells hold, so that a changed cell is
 * another table and nothing here ever has to be forgotten for being wrong.
 */
import { type FeedCase, feedCases } from "../../src/network/feed-cases.js";
import { type Cell, type CellTable, isCellError } from "../cells.js";
import { type FeedTable, feedTable } from "./feed-table.js";

/** Several budgets in one workbook take turns. */
const MOST_TABLES = 4;

export class KnownTable {
  private readonly found = new Map<string, unknown>();

  constructor(readonly table: FeedTable) {}

  /** What `find` gives, once for this table. `name` tells one question from another. */
  once<T>(name: string, find: () => T): T {
    if (!this.found.has(name)) this.found.set(name, find());
    return this.found.get(name) as T;
  }
}

/** Its nine operating points. */
export function casesOf(table: KnownTable): readonly FeedCase[] {
  return table.once("cases", () => feedCases(table.table.feed));
}

/** In the order in which they were last asked for. */
const known = new Map<string, KnownTable>();

/** @throws {InputError} as `feedTable`. */
export function knownTable(cells: CellTable): KnownTable {
  const key = contentOf(cells);
  const table = known.get(key) ?? new KnownTable(feedTable(cells));
  known.delete(key);
  known.set(key, table);
  const [oldest] = known.keys();
  if (known.size > MOST_TABLES && oldest !== undefined) known.delete(oldest);
  return table;
}

/** Tells every two tables apart, a blank from "" and 1 from "1" among them. */
function contentOf(cells: CellTable): string {
  return cells.map((row) => row.map(cellContent).join("\u0001")).join("\u0002");
}

function cellContent(cell: Cell): string {
  if (typeof cell === "number") return Object.is(cell, -0) ? "-0" : String(cell);
  if (typeof cell === "string") return JSON.stringify(cell);
  if (isCellError(cell)) return `!${cell.error}`;
  return cell === null ? "" : `?${cell}`;
}
