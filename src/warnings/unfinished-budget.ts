/** A budget whose user has still to enter something says so where its solved rows would stand. */
import { cellAt, textOf } from "./area-table.js";
import type { FoundBudget, Warning } from "./warning.js";

/** Heads the solved rows. */
const SOLVED = "Item";

/** What to enter first; undefined where the feed is solved, or refused. */
export function unfinishedNote({ areas }: FoundBudget): Warning | undefined {
  const area = areas["Solved"];
  const first = textOf(area?.values[0]?.[0]);
  if (!area || first === "" || first === SOLVED) return undefined;
  return {
    id: "unfinished",
    severity: "note",
    item: "",
    text: first,
    unit: "",
    cite: "definition",
    at: cellAt(area, 0, 0),
  };
}
