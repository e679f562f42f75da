/** A row tried before it is written: what the feed table says of it. */
import { type Cell, type CellTable, evaluate, isCellTable } from "../../functions/downfeed.js";
import { type BlockName, TABLE_BLOCKS, tablePlace } from "../../src/schedules/columns.js";
import { BLOCK_AREAS } from "../budgets/names.js";
import { textOf } from "../budgets/reading/range-table.js";
import type { FoundBudget, ReadValue } from "../budgets/reading/found-budget.js";
import type { TypedCell } from "./typed-sheets.js";

/**
 * @param row In its block, from 0 with the header; undefined for one behind the last.
 * @param cells By place in the block.
 * @returns The table's note on the row, or why there is no table; "" where there is nothing to say.
 */
export function triedRow(
  { ranges }: Pick<FoundBudget, "ranges">,
  block: BlockName,
  row: number | undefined,
  cells: readonly TypedCell[],
): string {
  const [note = ""] = triedRows({ ranges }, block, [{ row, cells }]);
  return note;
}

export interface TriedRow {
  readonly row: number | undefined;
  readonly cells: readonly TypedCell[];
}

/** Several at once; in the same order. */
export function triedRows(
  { ranges }: Pick<FoundBudget, "ranges">,
  block: BlockName,
  tried: readonly TriedRow[],
): readonly string[] {
  const blocks = TABLE_BLOCKS.flatMap((name): CellTable[] => {
    const range = ranges[BLOCK_AREAS[name]];
    if (!range) return [];
    const values = range.values.map((line) => line.map(cellOf));
    for (const { row, cells } of name === block ? tried : []) {
      // What a formula comes to is known to the sheet alone: nothing is said of a row that holds one.
      if (cells.some(isFormula)) continue;
      if (row === undefined) values.push(cells.map(cellOf));
      else values[row] = cells.map(cellOf);
    }
    return [values];
  });
  const outcome = evaluate("CHAIN_TABLE", blocks);
  const table = outcome.ok && isCellTable(outcome.value) ? outcome.value : [];
  // Of two rows with one name the later one is tried.
  const notes = new Map(
    table.slice(1).map((line) => [String(line[0]), String(line[tablePlace("note")] ?? "")]),
  );
  return tried.map(({ cells }) => {
    if (cells.some(isFormula)) return "";
    if (!outcome.ok) return outcome.message;
    return notes.get(textOf(cells[0] as ReadValue)) ?? "";
  });
}

function isFormula(cell: TypedCell): boolean {
  return typeof cell === "string" && cell.startsWith("=");
}

function cellOf(value: ReadValue): Cell {
  return value === "" ? null : (value as Cell);
}
