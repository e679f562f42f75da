/** The blocks of a budget as the cell functions take them. */
import type { Cell, CellTable } from "../../../functions/downfeed.js";
import { TABLE_BLOCKS, type TableBlock } from "../../../src/schedules/columns.js";
import { BLOCK_AREAS } from "../names.js";
import type { FoundBudget, ReadRange } from "./found-budget.js";

/** Those that the feed table is made of and the budget has, in the order in which people type them. */
export function blockTables({
  ranges,
}: Pick<FoundBudget, "ranges">): ReadonlyMap<TableBlock, CellTable> {
  return new Map(
    TABLE_BLOCKS.flatMap((name) => {
      const range = ranges[BLOCK_AREAS[name]];
      return range ? [[name, cellTable(range)] as const] : [];
    }),
  );
}

/** A cell that reads "" is a blank one. */
function cellTable({ values }: ReadRange): CellTable {
  return values.map((row) => row.map((value) => (value === "" ? null : (value as Cell))));
}
