/** The blocks of a budget as the cell functions take them. */
import type { CellTable } from "../../../functions/downfeed.js";
import { TABLE_BLOCKS, type TableBlock } from "../../../src/schedules/columns.js";
import { BLOCK_AREAS } from "../names.js";
import type { FoundBudget } from "./found-budget.js";
import { calledTable } from "./range-table.js";

/** Those that the feed table is made of and the budget has, in the order in which people type them. */
export function blockTables({
  ranges,
}: Pick<FoundBudget, "ranges">): ReadonlyMap<TableBlock, CellTable> {
  return new Map(
    TABLE_BLOCKS.flatMap((name) => {
      const range = ranges[BLOCK_AREAS[name]];
      return range ? [[name, calledTable(range)] as const] : [];
    }),
  );
}
