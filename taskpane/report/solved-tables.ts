/** What the sheets calculate, as they show it: items, cases, bands, a day, answers. */
import { heading } from "../../functions/documents/markup.js";
import type { ReadArea } from "../budgets/reading/found-budget.js";
import { type ReportSource, shownBlocks } from "./report-source.js";
import { LANDSCAPE, reportTable, withoutEmptyColumns } from "./report-table.js";

const SECTIONS = [
  ["Items solved", "Solved"],
  ["Cases", "Cases"],
  ["Bands", "Bands"],
  ["Day", "Day"],
  ["Answers", "Answers"],
] as const;

export function solvedTables(source: ReportSource): string {
  return SECTIONS.flatMap(([title, part]) => {
    const area = source.budget.areas[part];
    return area ? [heading(2, title), ...areaTables(source, area, title)] : [];
  }).join("\n");
}

function areaTables(source: ReportSource, area: ReadArea, title: string): string[] {
  return shownBlocks(source, area).map(({ caption, ...block }) =>
    reportTable(
      withoutEmptyColumns({
        ...block,
        caption: caption || `${title}, on sheet ${area.sheet}`,
        room: LANDSCAPE,
      }),
    ),
  );
}
