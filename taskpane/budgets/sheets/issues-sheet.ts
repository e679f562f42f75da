/** What was issued of a budget and when; the pane writes it. */
import type { SheetPlan } from "../../../src/plans/sheet-plan.js";
import { range, bareCell, headingRow, valueCell } from "../../../src/plans/sheet-builder.js";
import { headingFormat } from "../formats.js";
import { ISSUED_COLUMNS } from "../issues/issued-values.js";
import type { Places } from "../places.js";
import { ISSUE_COLUMNS } from "../issues/issues.js";
import { sheetPlan } from "./sheet.js";

const HEAD = 5;
const ISSUES = 30;
const ISSUED_HEAD = HEAD + ISSUES + 5;

/** The table of issues, and below it what the last one held, as far down as it goes. */
export const ISSUES_RANGE = range(0, HEAD, ISSUE_COLUMNS.length - 1, HEAD + ISSUES);
/** The headings only. */
export const ISSUED_RANGE = range(0, ISSUED_HEAD, ISSUED_COLUMNS.length - 1, ISSUED_HEAD);

export function issuesSheet(places: Places): SheetPlan {
  const count = ISSUE_COLUMNS.length;
  return sheetPlan(places, {
    key: "issues",
    name: "Issues",
    subtitle:
      "Written by the pane's view Hand over when the document is issued: a row for each issue, the last one current, and what it held.",
    columnWidths: [130, 180, 170, 420, 150, 150, 150, 110, 90, 260, 110, 110],
    frozenRows: HEAD,
    cells: [
      ...headingRow(0, HEAD, ISSUE_COLUMNS),
      ...Array.from({ length: count * ISSUES }, (_, index) => {
        const format = headingFormat(ISSUE_COLUMNS[index % count]!);
        return bareCell(
          index % count,
          HEAD + 1 + Math.floor(index / count),
          "inputText",
          format === undefined ? {} : { format },
        );
      }),
      valueCell(0, ISSUED_HEAD - 2, "Schedules and requirements as they were issued", "heading"),
      valueCell(
        0,
        ISSUED_HEAD - 1,
        "Values of the last issue and of the one before: the report tells by them what changed.",
        "label",
      ),
      ...headingRow(0, ISSUED_HEAD, ISSUED_COLUMNS),
    ],
  });
}
