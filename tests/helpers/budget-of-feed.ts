/** A typed feed as the pane finds it in a workbook: each block on a sheet of its own. */
import { evaluate } from "../../functions/runner.js";
import { isCellTable, type CellTable } from "../../functions/cells.js";
import { rangeAddress } from "../../src/plans/addresses.js";
import type { BlockName } from "../../src/schedules/columns.js";
import { BLOCK_AREAS } from "../../taskpane/budgets/names.js";
import type {
  FoundBudget,
  ReadRange,
  ReadValue,
} from "../../taskpane/budgets/reading/found-budget.js";
import type { TypedFeed } from "../feeds/typed-feed.js";

/** With its checks, as the sheet spills them. */
export function budgetOf({ blocks, askedFor }: TypedFeed): FoundBudget {
  const table = called("CHAIN_TABLE", ...blocks, askedFor);
  return {
    stem: "Quarry",
    ranges: {
      ...Object.fromEntries(
        [...blocks, askedFor].map((block) => {
          const name = String(block[0]?.[0]) as BlockName;
          return [BLOCK_AREAS[name], rangeOf(name, block)];
        }),
      ),
      Checks: rangeOf("Checks", called("CHAIN_CHECKS", table, askedFor)),
    },
  };
}

function called(id: string, ...args: readonly CellTable[]): CellTable {
  const outcome = evaluate(id, args);
  if (!outcome.ok || !isCellTable(outcome.value)) throw new Error(JSON.stringify(outcome));
  return outcome.value;
}

function rangeOf(sheet: string, cells: CellTable): ReadRange {
  const right = (cells[0]?.length ?? 1) - 1;
  return {
    sheet,
    address: rangeAddress({ top: 0, left: 0, right, bottom: cells.length - 1 }),
    values: cells.map((row) => row.map((cell): ReadValue => cell ?? "")),
  };
}
