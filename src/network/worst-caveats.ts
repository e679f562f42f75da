/** What a reader of a row's worst case should know beside its numbers. */
import type { WorstRow } from "./worst-row.js";
import { figure } from "../quantities/figures.js";
import type { Caveat } from "../quantities/steps.js";
import type { FeedColumns } from "./feed-columns.js";
import { supplyWindow } from "./feed-conditions.js";
import { sharingCaveat, zeroCaveats } from "./feed-caveats.js";
import { KINDS } from "./row-kinds.js";

type Found = Omit<WorstRow, "caveats">;

/** @param cases How many were tried for the row's tree. */
export function worstCaveats(found: Found, columns: FeedColumns, cases: number): readonly Caveat[] {
  const caveats: Caveat[] = [];
  const add = (code: string, field: keyof Found, text: string) =>
    caveats.push({ code, field, text, cite: "definition" });
  windowCaveats(found, columns, add);
  const { highestLoading, row } = found;
  if (highestLoading !== undefined && highestLoading > 1)
    add("overloaded", "highestLoading", `at ${figure(highestLoading)} of its rated current`);
  const sharing = sharingCaveat(columns, row);
  if (sharing) caveats.push(sharing);
  basisCaveats(found, columns, add);
  caveats.push(...zeroCaveats(columns, row));
  if (!found.proven) add("not-proven", "highestInputCurrent", `not proven, ${cases} cases tried`);
  return caveats;
}

type Add = (code: string, field: keyof Found, text: string) => void;

function windowCaveats(
  { row, lowestInputVoltage, highestInputVoltage }: Found,
  { kind, figures }: FeedColumns,
  add: Add,
): void {
  if (KINDS[kind[row]!]!.role === "supply") return;
  const below = figures.lowestVoltage[row]! - lowestInputVoltage;
  const above = highestInputVoltage - figures.highestVoltage[row]!;
  if (below > 0) add("below-window", "lowestInputVoltage", `${figure(below)} V below its window`);
  if (above > 0) add("above-window", "highestInputVoltage", `${figure(above)} V above its window`);
}

/** What the search took for granted. */
function basisCaveats({ row }: Found, columns: FeedColumns, add: Add): void {
  const { role, toleranced } = KINDS[columns.kind[row]!]!;
  if (toleranced.length > 0 && Number.isNaN(columns.figures.tolerance[row]!))
    add(
      "no-tolerance",
      "lowestInputVoltage",
      "not determined beyond its nominal figures: no tolerance given",
    );
  if (role !== "supply") return;
  const { lowest, highest } = supplyWindow(columns, row);
  if (Number.isNaN(lowest) || Number.isNaN(highest))
    add(
      "no-supply-window",
      "lowestInputVoltage",
      "its window is not given in full: nominal voltage in its place",
    );
}
