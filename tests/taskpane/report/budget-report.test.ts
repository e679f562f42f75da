/** The printed report of a budget, made without a page. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { ridgeTop } from "../../../taskpane/budgets/samples/ridge-top.js";
import { findBudgets } from "../../../taskpane/workbook/found-budgets.js";
import { budgetReport } from "../../../taskpane/report/budget-report.js";
import { HeadlessHost } from "../../helpers/headless-host.js";

describe("the report of a budget", () => {
  const host = new HeadlessHost();
  const { Stage: stages = [], ...others } = ridgeTop.schedules;
  let report: string;
  beforeAll(async () => {
    const bare = stages.map(({ Basis: basis, ...stage }) =>
      stage["Stage"] === "5 V stage" ? stage : { ...stage, Basis: basis! },
    );
    await host.insert(budgetPlan({ ...ridgeTop, schedules: { ...others, Stage: bare } }));
    const [budget] = (await findBudgets(host)).budgets;
    report = await budgetReport(host, budget!, []);
  });
  afterAll(() => {
    host.dispose();
  });

  it("says what every row of every schedule rests on, and where that is not given", () => {
    const [, table = ""] =
      /<caption>Basis of every row of the schedules<\/caption>(.*?)<\/table>/s.exec(report)!;
    const rows = [...table.matchAll(/<tr>(.*?)<\/tr>/gs)].map(([, row = ""]) =>
      [...row.matchAll(/<t[dh][^>]*>(.*?)<\/t[dh]>/gs)].map(([, cell]) => cell),
    );
    const typed = Object.values(ridgeTop.schedules).reduce((sum, each) => sum + each.length, 0);
    assert.equal(rows.length, typed + 1);
    assert.deepEqual(rows[1]?.slice(0, 2), ["Supply", "Valley bus"]);
    assert.match(String(rows[1]?.[2]), /^assumed; float charge/);
    assert.deepEqual(
      rows.filter(([, , basis]) => basis === "not given"),
      [["Stage", "5 V stage", "not given"]],
    );
  });
});
