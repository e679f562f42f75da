/** What the sheets calculate, as they show it: items, cases, bands, a day, answers. */
import { heading } from "../../functions/documents/markup.js";
import type { ReadRange } from "../budgets/reading/found-budget.js";
import { type ReportSource, shownBlocks } from "./report-source.js";
import { LANDSCAPE, notedTable } from "./report-table.js";

const SECTIONS = [
  ["Items solved", "Solved"],
  ["Cases", "Cases"],
  ["Bands", "Bands"],
  ["Day", "Day"],
  ["Answers", "Answers"],
] as const;

export function solvedTables(source: ReportSource): string {
  return SECTIONS.flatMap(([title, part]) => {
    const range = source.budget.ranges[part];
    return range ? [heading(2, title), ...rangeTables(source, range, title)] : [];
  }).join("\n");
}

function rangeTables(source: ReportSource, range: ReadRange, title: string): string[] {
  return shownBlocks(source, range).map(({ caption, ...block }) =>
    notedTable({
      ...block,
      caption: caption || `${title}, on sheet ${range.sheet}`,
      room: LANDSCAPE,
    }),
  );
}
