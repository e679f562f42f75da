/** Names that a budget writes into its workbook, behind its stem. */
import type { BlockName } from "../../src/schedules/columns.js";

/** Plan id of the budgets that 0.2 made of candidates of its trade-off. */
export const CANDIDATE_ID = "trade-off-candidate";

/** Plan id of every budget that was moved from sheets of 0.2. */
export const MOVED_ID = "moved-budget";

/** Names of the blocks' ranges, whatever the blocks' titles. */
export const BLOCK_AREAS = {
  Supply: "Supplies",
  Stage: "Stages",
  Cable: "Cables",
  "In line": "InLine",
  Load: "Loads",
  Location: "Locations",
  "Stage type": "Types",
  "Asked for": "Asked",
  Spread: "Spread",
} as const satisfies Readonly<Record<BlockName, string>>;
