/** Notes on cells, each in a box that its text fits into: Excel's own box holds some four short lines. */
import type { PlanCell } from "../../../src/plans/sheet-plan.js";

/** More characters than the usual box shows. */
const SHORT = 60;

const WIDTH = 320;
const MOST_HEIGHT = 400;
const CHARACTERS_IN_A_LINE = 60;
const LINE_HEIGHT = 13;
const PADDING = 12;

export function placeNotes(sheet: Excel.Worksheet, cells: readonly PlanCell[]): void {
  // On the web a note has no size of its own, and asking for one is refused.
  const hasSize = Office.context.platform !== Office.PlatformType.OfficeOnline;
  for (const { at, note } of cells) {
    if (note === undefined) continue;
    const placed = sheet.notes.add(at, note);
    if (!hasSize || note.length <= SHORT) continue;
    placed.width = WIDTH;
    placed.height = noteHeight(note);
  }
}

function noteHeight(note: string): number {
  const lines = note
    .split("\n")
    .reduce((sum, line) => sum + Math.max(1, Math.ceil(line.length / CHARACTERS_IN_A_LINE)), 0);
  return Math.min(MOST_HEIGHT, lines * LINE_HEIGHT + PADDING);
}
