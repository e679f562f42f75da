/** Feeds typed as schedules, through the functions that read them. */
import assert from "node:assert/strict";
import { BLANKS_TOLD, type BlankCells } from "../../functions/arguments.js";
import { type Argument, type Cell, type CellTable, isCellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import { tableHeader, type TableField, tablePlace } from "../../src/schedules/columns.js";
import type { TypedFeed } from "../feeds/typed-feed.js";

/** The feed table of blocks. */
export function feedTableOf(
  blocks: readonly CellTable[],
  blanks: BlankCells = BLANKS_TOLD,
): CellTable {
  return tableFrom("CHAIN_TABLE", blocks, blanks);
}

export function feedTableOfFeed({ blocks, askedFor }: TypedFeed): CellTable {
  return feedTableOf([...blocks, askedFor]);
}

/** The spill of a function. */
export function tableFrom(
  id: string,
  args: readonly Argument[],
  blanks: BlankCells = BLANKS_TOLD,
): CellTable {
  const outcome = evaluate(id, args, blanks);
  assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
  assert.ok(isCellTable(outcome.value));
  return outcome.value;
}

/** Why a call is refused. */
export function refusalOf(blocks: readonly Argument[], blanks: BlankCells = BLANKS_TOLD): string {
  const outcome = evaluate("CHAIN_TABLE", blocks, blanks);
  assert.ok(!outcome.ok, "was not refused");
  return outcome.message;
}

/** A cell of a feed table by item and field. */
export function tableCell(table: CellTable, item: string, field: TableField): Cell {
  const place = tablePlace(field);
  assert.equal(table[0]?.[place], tableHeader(field));
  return rowNamed(table, item)[place] ?? null;
}

/** A cell of a spill by the name in its first column and its header. */
export function spillCell(table: CellTable, item: string, header: string): Cell {
  const place = table[0]?.indexOf(header) ?? -1;
  assert.ok(place >= 0, header);
  return rowNamed(table, item)[place] ?? null;
}

function rowNamed(table: CellTable, item: string): readonly Cell[] {
  const row = table.find(([name]) => name === item);
  assert.ok(row, `no row ${item}`);
  return row;
}

export function number(cell: Cell | undefined): number {
  assert.ok(typeof cell === "number", JSON.stringify(cell));
  return cell;
}
