import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { rangePlace } from "../../src/plans/addresses.js";
import type { SheetPlan } from "../../src/plans/sheet-plan.js";
import { budgets } from "../../taskpane/budgets/budgets.js";
import { type OpenBudget, openBudget } from "../budgets/open-budget.js";
import { copyRequest } from "../helpers/copied-budget.js";

describe("a budget read for copying", () => {
  const plan = budgets[0]!;
  let budget: OpenBudget;
  beforeAll(async () => {
    budget = await openBudget(plan);
  });
  afterAll(() => budget.workbook.dispose());

  it("comes with all its sheets, in the plan's order and looks", async () => {
    const { sheets, title } = await copyRequest(budget);
    assert.equal(title, plan.title);
    assert.deepEqual(
      sheets.map(({ name }) => name),
      plan.sheets.map(({ name }) => name),
    );
    for (const { plan: own, name } of sheets) assert.equal(own?.name, name);
  });

  it("comes with a sheet that only formulas name", async () => {
    const { sheets } = await copyRequest({
      ...budget,
      found() {
        const { stem, ranges } = budget.found();
        const named = Object.entries(ranges).filter(([, range]) => range?.sheet !== "Inputs");
        return { stem, ranges: Object.fromEntries(named) };
      },
    });
    assert.equal(sheets.at(0)?.name, "Inputs");
  });

  it("keeps its look where rows were inserted, and has none where its texts are gone", async () => {
    const { workbook } = budget;
    const look = async (name: string) =>
      (await copyRequest(budget)).sheets.find((sheet) => sheet.name === name)?.plan;
    const loads = budget.plan.names.find(({ name }) => name === "Loads")!;
    const { top, bottom } = rangePlace(loads.range);
    await workbook.insertRow("Loads", top + 3);
    const [before, now] = [plan.sheets.find(({ key }) => key === "loads")!, await look("Loads")];
    assert.ok(now);
    const styleAt = (sheet: SheetPlan, at: string) =>
      sheet.cells.find((cell) => cell.at === at)?.style;
    // Header, typed rows and one more, the grey row, which has moved.
    for (const [at, was] of [
      [`B${top + 1}`, `B${top + 1}`],
      [`B${top + 2}`, `B${top + 2}`],
      [`B${bottom + 1}`, `B${bottom}`],
      [`B${bottom + 2}`, `B${bottom + 1}`],
    ] as const)
      assert.equal(styleAt(now, at), styleAt(before, was), at);
    assert.equal(styleAt(now, `B${bottom + 2}`), "closing");
    const kinds = (sheet: SheetPlan) =>
      sheet.validations.find(({ kind }) => kind === "list")?.range;
    assert.equal(kinds(now), kinds(before)?.replace(/\d+$/, String(bottom + 2)));
    await workbook.set("Loads", `A${top + 1}`, "Consumers");
    assert.equal(await look("Loads"), undefined);
    assert.ok(await look("Inputs"));
  });
});
