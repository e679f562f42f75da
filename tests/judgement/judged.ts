/** A feed judged as a sheet judges it: blocks, table, checks; its rows by their headings. */
import assert from "node:assert/strict";
import type { Argument, Cell, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import type { CheckName } from "../../src/judgement/check-row.js";
import type { TypedFeed } from "../feeds/typed-feed.js";

export type Judged = Readonly<Record<string, Cell>>;

export function tableOf({ blocks, askedFor }: TypedFeed): CellTable {
  return spill("CHAIN_TABLE", [...blocks, askedFor]);
}

export function spill(id: string, args: readonly Argument[]): CellTable {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  return outcome.value as CellTable;
}

export function rowsBelow([headings = [], ...rows]: CellTable): Judged[] {
  return rows.map((row) => Object.fromEntries(row.map((cell, at) => [String(headings[at]), cell])));
}

export function judged(feed: CellTable, askedFor: CellTable): Judged[] {
  return rowsBelow(spill("CHAIN_CHECKS", [feed, askedFor]));
}

export function judgedFeed(feed: TypedFeed): Judged[] {
  return judged(tableOf(feed), feed.askedFor);
}

export function found(rows: readonly Judged[], item: string, check: CheckName): Judged {
  const row = rows.find(({ Item, Check }) => Item === item && Check === check);
  assert.ok(row, `no ${check} of ${item}`);
  return row;
}

export function number(row: Judged, heading: string): number {
  const cell = row[heading];
  assert.ok(typeof cell === "number", `${heading}: ${String(cell)}`);
  return cell;
}

/** What is asked with one value changed or added. */
export function askedWith(askedFor: CellTable, values: Readonly<Record<string, Cell>>): CellTable {
  return [...askedFor.filter(([label]) => !(String(label) in values)), ...Object.entries(values)];
}

/** A table with some figures of one item changed; a header that is new is put behind the others. */
export function changed(
  [headers = [], ...rows]: CellTable,
  item: string,
  figures: Readonly<Record<string, Cell>>,
): CellTable {
  const added = Object.keys(figures).filter((name) => !headers.includes(name));
  const all = [...headers, ...added];
  return [
    all,
    ...rows.map((row) =>
      all.map((header, at) =>
        row[0] === item && String(header) in figures ? figures[String(header)]! : (row[at] ?? ""),
      ),
    ),
  ];
}
