/**
 * Notes on cells, each in a box that its text fits into; in an Excel that puts none on cells yet, on a sheet of their own,
 * each with the cells that it is about.
 */
import { cellPlace } from "../../../src/plans/addresses.js";
import type { UsedNames } from "../../../src/plans/placeholders.js";
import type { PlanCell, SheetPlan, WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { rectangles } from "./rectangles.js";

/** Characters that Excel's own box shows, in some four short lines. */
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

export const NOTES_KEY = "notesOnCells";

const words = {
  title: "Notes on cells",
  why: "This version of Excel puts no notes on cells, so they stand here, sheet by sheet.",
  headings: ["Sheet", "Cells", "Which hold", "Note"],
};

const FIRST_ROW = 5;

/** Undefined for a plan without notes. */
export function listedNotes(
  plan: WorkbookPlan,
  used: Pick<UsedNames, "sheets">,
  taken: readonly string[],
): SheetPlan | undefined {
  const lines = plan.sheets.flatMap((sheet) => noteLines(sheet, used.sheets[sheet.key] ?? ""));
  if (lines.length === 0) return undefined;
  const cells = lines.flatMap((line, index) =>
    line.map((value, column): PlanCell => {
      const at = `${"ABCD"[column]}${FIRST_ROW + index}`;
      return { at, value, style: column === 3 ? "text" : "label" };
    }),
  );
  return {
    key: NOTES_KEY,
    name: freeName([...taken, ...Object.values(used.sheets)]),
    columnWidths: [150, 120, 260, 800],
    frozenRows: FIRST_ROW - 1,
    cells: [
      { at: "A1", value: words.title, style: "title" },
      { at: "A2", value: words.why, style: "subtitle" },
      ...words.headings.map((value, column): PlanCell => {
        return { at: `${"ABCD"[column]}${FIRST_ROW - 1}`, value, style: "tableHeading" };
      }),
      ...cells.filter(({ value }) => value !== ""),
    ],
    merges: [],
    validations: [],
    conditionalFormats: [],
    pictures: [],
  };
}

/** Cells with the same note are one line, such as those that came out of one formula. */
function noteLines({ cells }: SheetPlan, sheet: string): readonly (readonly string[])[] {
  const byNote = new Map<string, PlanCell[]>();
  for (const cell of cells)
    if (cell.note !== undefined) byNote.set(cell.note, [...(byNote.get(cell.note) ?? []), cell]);
  return [...byNote].map(([note, alike]) => {
    const [only] = alike;
    const shown = only?.value ?? only?.shows;
    const held = alike.length === 1 && typeof shown === "string" ? shown : "";
    return [sheet, rectangles(alike.map(({ at }) => cellPlace(at))).join(", "), held, note];
  });
}

function freeName(taken: readonly string[]): string {
  const names = new Set(taken.map((name) => name.toLowerCase()));
  let count = 1;
  const name = () => (count === 1 ? words.title : `${words.title} ${count}`);
  while (names.has(name().toLowerCase())) count += 1;
  return name();
}
