/** Issues a budget, changes it, issues it again: its table, its lines on Inputs, its report. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import { fingerprint } from "../../taskpane/budgets/issues/fingerprint.js";
import { rangeRows, textOf } from "../../taskpane/budgets/reading/range-table.js";
import type { FoundBudget } from "../../taskpane/budgets/reading/found-budget.js";
import { documentText, issues, issueState } from "../../taskpane/budgets/issues/issues.js";
import { ridgeTop } from "../../taskpane/budgets/samples/ridge-top.js";
import { budgetReport } from "../../taskpane/report/content/report.js";
import { reportPage } from "../../taskpane/report/page/report-page.js";
import { findBudgets } from "../../taskpane/workbook/found-budgets.js";
import { changesSinceIssue, issueDocument } from "../../taskpane/workbook/issues/issuing.js";
import { HeadlessHost } from "../helpers/headless-host.js";

const ENTRY = {
  issue: "A",
  date: "2026-11-28",
  purpose: "for review",
  change: "first issue",
  author: "A. Author",
  checker: "C. Checker",
  approver: "",
};

describe("a document that is issued", () => {
  const host = new HeadlessHost();
  let edits = 0;
  const counted: Pick<HeadlessHost, "read" | "used" | "edit"> = {
    read: (ranges) => host.read(ranges),
    used: (sheet) => host.used(sheet),
    edit: (each) => {
      edits += 1;
      return host.edit(each);
    },
  };
  const found = async () => (await findBudgets(host)).budgets[0] as FoundBudget;
  const issue = async (entry: Partial<typeof ENTRY> = {}) =>
    issueDocument(counted, await found(), { ...ENTRY, ...entry });
  const type = async (block: string, item: string, heading: string, value: string | number) => {
    const row = rangeRows((await found()).ranges[block]!).find((one) => one.item === item)!;
    await host.write(row.at(heading), [[value]]);
  };
  const report = async () => reportPage(await budgetReport(host, await found(), []));
  let never: FoundBudget;
  let first: FoundBudget;
  let reports: string[];

  beforeAll(async () => {
    await host.insert(budgetPlan(ridgeTop));
    never = await found();
    reports = [await report()];
    await issue();
    first = await found();
    reports.push(await report());
    await type("Cables", "Cable to the summit", "Length", 420);
    reports.push(await report());
    await issue({ issue: "B", purpose: "for construction", change: "longer cable" });
    reports.push(await report());
  });
  afterAll(() => {
    host.dispose();
  });

  it("has a row in the table of issues with who, when, what for, and the figures that a reviewer compares", () => {
    const [row] = issues(first);
    const cell = (column: string) => row?.value(column);
    assert.deepEqual(
      ["Issue", "Date", "Purpose", "What changed", "Author", "Checker", "Approver"].map(cell),
      ["A", "2026-11-28", "for review", "first issue", "A. Author", "C. Checker", ""],
    );
    const cases = rangeRows(first.ranges["Cases"]!).flatMap((one) => {
      const watts = one.value("Supply W");
      return typeof watts === "number" ? [watts] : [];
    });
    assert.equal(cell("Highest supply W"), Math.max(...cases));
    const checks = rangeRows(first.ranges["Checks"]!);
    const failing = checks.filter((one) => one.value("Verdict") === "fails");
    assert.ok(failing.length > 0);
    assert.equal(cell("Checks that fail"), failing.length);
    assert.equal(cell("Fingerprint"), fingerprint(first));
    const margins = checks.flatMap((one) => {
      const margin = one.value("Margin");
      return typeof margin === "number" ? [margin] : [];
    });
    assert.equal(cell("Least margin"), Math.min(...margins));
    // 31.94 J against 0.25 J.
    assert.equal(cell("Least margin at"), "Summit stage: Stored energy");
  });

  it("bears issue, purpose and fingerprint on Inputs, as values", () => {
    assert.equal(documentText(first, "issue"), "A");
    assert.equal(documentText(first, "purpose"), "for review");
    assert.equal(documentText(first, "fingerprint"), fingerprint(first));
    assert.deepEqual(new Set(first.ranges["Document"]?.formulas?.flat()), new Set([""]));
  });

  it("is one change of the workbook for each issue", () => {
    assert.equal(edits, 2);
  });

  it("knows whether it was changed since", async () => {
    assert.equal(issueState(never, fingerprint(never)).kind, "never issued");
    assert.equal(issueState(first, fingerprint(first)).kind, "as issued");
    const [, , changed = ""] = reports;
    assert.match(changed, /Changed since issue A of 2026-11-28/);
    const last = await found();
    assert.equal(issueState(last, fingerprint(last)).kind, "as issued");
    const renamed = { ...last, ranges: { ...last.ranges, Issues: first.ranges["Issues"]! } };
    assert.deepEqual(issueState(renamed, fingerprint(last)), {
      kind: "not issued",
      issue: "B",
      last: "A",
    });
  });

  it("says on its cover that it was not issued, as issued, or changed since", () => {
    const status = reports.map((html) => /State<\/th><td>(.*?)<\/td>/.exec(html)?.[1] ?? "");
    assert.deepEqual(
      status.map((line) => line.slice(0, 21)),
      ["Not issued yet", "As issue A of 2026-11", "Changed since issue A", "As issue B of 2026-11"],
    );
  });

  it("names no issue at the foot of a page that it is not", () => {
    const feet = reports.map((html) => /@bottom-left \{[^}]*content: "([^"]*)"/.exec(html)?.[1]);
    const title = "Ridge\\2d top observatory";
    assert.deepEqual(feet, [
      title,
      `${title} · issue A`,
      `${title} · changed since issue A`,
      `${title} · issue B`,
    ]);
  });

  it("prints the table of issues, and every change with what it was", () => {
    const [before = "", , changed = "", second = ""] = reports;
    assert.doesNotMatch(before, /<h2>Issues<\/h2>/);
    const row =
      /Cable to the summit<\/td><td>Length \(m\)<\/td><td class="number">350<\/td><td class="number">420<\/td>/;
    assert.match(changed, /Since issue A/);
    assert.match(changed, row);
    assert.match(second, /From issue A to issue B/);
    assert.match(second, row);
    assert.doesNotMatch(second, /Since issue/);
    assert.match(second, /<td>for construction<\/td>/);
  });

  it("tells the changes since the last issue, none behind it", async () => {
    assert.equal(await changesSinceIssue(host, never), undefined);
    assert.deepEqual(await changesSinceIssue(host, await found()), []);
  });

  it("is refused for a name that the table has, and where a budget has no table", async () => {
    await assert.rejects(issue({ issue: "b" }), /there is an issue b in the table/);
    const ranges = { ...(await found()).ranges, Issues: undefined };
    await assert.rejects(
      issueDocument(counted, { stem: "Old", ranges }, ENTRY),
      /Old has no table of issues/,
    );
    assert.equal(edits, 2);
  });

  it("keeps text that looks like a formula as text", async () => {
    await issue({ issue: "C", change: "=1+1" });
    const last = issues(await found()).at(-1);
    assert.equal(textOf(last?.value("What changed")), "=1+1");
  });
});
