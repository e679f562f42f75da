/** A row tried before it is written: what the feed table says of it. */
import { type Cell, type CellTable, evaluate, isCellTable } from "../../functions/downfeed.js";
import { type BlockName, tablePlace } from "../../src/schedules/columns.js";
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
  // What a formula comes to is known to the sheet alone: nothing is said of a row that holds one.
  if (cells.some(isFormula)) return "";
  const blocks = (Object.keys(BLOCK_AREAS) as BlockName[]).flatMap((name): CellTable[] => {
    const range = ranges[BLOCK_AREAS[name]];
    if (!range) return [];
    const values = range.values.map((line) => line.map(cellOf));
    if (name === block) {
      const tried = cells.map(cellOf);
      if (row === undefined) values.push(tried);
      else values[row] = tried;
    }
    return [values];
  });
  const outcome = evaluate("CHAIN_TABLE", blocks);
  if (!outcome.ok) return outcome.message;
  const table = isCellTable(outcome.value) ? outcome.value : [];
  const name = textOf(cells[0] as ReadValue);
  const own = table.slice(1).filter((line) => String(line[0]) === name);
  return String(own.at(-1)?.[tablePlace("note")] ?? "");
}

function isFormula(cell: TypedCell): boolean {
  return typeof cell === "string" && cell.startsWith("=");
}

function cellOf(value: ReadValue): Cell {
  return value === "" ? null : (value as Cell);
}
