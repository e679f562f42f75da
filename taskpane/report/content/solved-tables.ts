/** What the sheets calculate, as they show it: items, cases, bands, a day, answers. */
import { meaningsOfBands } from "../../../src/safety/band-meanings.js";
import type { ReadRange } from "../../budgets/reading/found-budget.js";
import { heading, list, notedTable, type ReportBlock } from "./blocks.js";
import { type ReportSource, shownBlocks } from "./report-source.js";

const SECTIONS = [
  ["Items solved", "Solved"],
  ["Cases", "Cases"],
  ["Bands", "Bands"],
  ["Day", "Day"],
  ["Answers", "Answers"],
] as const;

export function solvedTables(source: ReportSource): readonly ReportBlock[] {
  return SECTIONS.flatMap(([title, part]) => {
    const range = source.budget.ranges[part];
    return range
      ? [
          heading(title),
          ...rangeTables(source, range, title),
          ...list(meaningsOfBands(range.values.flat())),
        ]
      : [];
  });
}

function rangeTables(source: ReportSource, range: ReadRange, title: string): ReportBlock[] {
  return shownBlocks(source, range).map(({ caption, ...block }) =>
    notedTable({
      ...block,
      caption: caption || `${title}, on sheet ${range.sheet}`,
    }),
  );
}
