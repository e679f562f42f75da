/** The summary of a report never shows a feed as better than its sheets say. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { CASES_COLUMNS } from "../../../functions/families/chain-cases.js";
import { CHECKS_COLUMNS } from "../../../src/judgement/check-row.js";
import type { ReadRange, ReadValue } from "../../../taskpane/budgets/reading/found-budget.js";
import { summary } from "../../../taskpane/report/content/summary.js";
import { sectionMarkup } from "../../../taskpane/report/page/report-page.js";

function range(headings: readonly string[], rows: readonly Record<string, ReadValue>[]): ReadRange {
  const values = rows.map((row) => headings.map((heading) => row[heading] ?? ""));
  return { sheet: "Sheet", address: "A1:Z9", values: [[...headings], ...values] };
}

const check = (Item: string, Verdict: string, Margin: ReadValue) => ({
  Item,
  Check: "Band in service",
  Verdict,
  Margin,
  Found: "–",
});

function told(
  checks: readonly Record<string, ReadValue>[],
  ranges: Record<string, ReadRange> = {},
) {
  const Checks = range(CHECKS_COLUMNS, checks);
  const source = { budget: { stem: "Feed", ranges: { Checks, ...ranges } }, title: "", sheets: [] };
  return sectionMarkup({ kind: "upright", blocks: summary(source, []) });
}

describe("the summary", () => {
  it("shows what fails without a margin before what holds with one", () => {
    const text = told([check("Rail", "holds", 0.02), check("Stage", "fails", "–")]);
    assert.match(text, /Stage<\/\w+>[^]*fails/);
    assert.doesNotMatch(text, /Rail/);
  });

  it("shows what is not determined beside the least margin", () => {
    const text = told([check("Rail", "holds", 0.02), check("Spur", "not determined", "–")]);
    assert.match(text, /Rail/);
    assert.match(text, /Spur<\/\w+>[^]*not determined/);
  });

  it("names the cases that are not solved beside the greatest of the others", () => {
    const [heading = ""] = CASES_COLUMNS;
    const cases = range(CASES_COLUMNS, [
      { [heading]: "supply lowest, loads peak", "Supply W": { error: "#N/A" } },
      { [heading]: "supply highest, loads peak", "Supply W": 120, "Load W": 100, "Loss W": 20 },
    ]);
    const text = told([], { Cases: cases });
    assert.match(text, /Not solved, and not among these: supply lowest, loads peak\./);
  });
});
