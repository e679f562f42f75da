/** The blocks of a budget as the cell functions take them. */
import type { Cell, CellTable } from "../../../functions/downfeed.js";
import type { BlockName } from "../../../src/schedules/columns.js";
import { BLOCK_AREAS } from "../names.js";
import type { FoundBudget, ReadRange } from "./found-budget.js";

/** Those that the budget has, in the order of their names. */
export function blockTables({
  ranges,
}: Pick<FoundBudget, "ranges">): ReadonlyMap<BlockName, CellTable> {
  return new Map(
    (Object.keys(BLOCK_AREAS) as BlockName[]).flatMap((name) => {
      const range = ranges[BLOCK_AREAS[name]];
      return range ? [[name, cellTable(range)] as const] : [];
    }),
  );
}

/** A cell that reads "" is a blank one. */
function cellTable({ values }: ReadRange): CellTable {
  return values.map((row) => row.map((value) => (value === "" ? null : (value as Cell))));
}
