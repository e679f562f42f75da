import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgets } from "../../taskpane/budgets/budgets.js";
import { startTexts, tradeRequest } from "../../taskpane/tradeoffs/trade-fields.js";
import { candidatePlan } from "../../taskpane/tradeoffs/candidate-sample.js";
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
        const { stem, areas } = budget.found();
        const named = Object.entries(areas).filter(([, area]) => area?.sheet !== "Inputs");
        return { stem, areas: Object.fromEntries(named) };
      },
    });
    assert.equal(sheets.at(0)?.name, "Inputs");
  });

  it("has no look of the plan any more where texts of a sheet have moved", async () => {
    await budget.workbook.insertRow("Inputs", 3);
    const { sheets } = await copyRequest(budget);
    const inputs = sheets.find(({ name }) => name === "Inputs");
    assert.equal(inputs?.plan, undefined);
    assert.ok(sheets.some(({ plan: own }) => own !== undefined));
  });
});

describe("a candidate read for copying", () => {
  const request = tradeRequest(
    new Map([...startTexts, ["aluminiumSizes", "25"], ["tolerance", "0"]]),
  );
  for (const arrangement of [[18], [3, 5]])
    it(`is known by its looks, whatever its title and figures, with ${arrangement.length} in line`, async () => {
      const plan = candidatePlan(
        request,
        {
          supply: request.supplies.at(-1)!,
          cable: request.cables.at(-1)!,
          arrangement,
          units: 3,
        },
        { framework: "ISO 6469-3", condition: "wet" },
        "Another name",
      );
      const budget = await openBudget(plan);
      const { sheets, title } = await copyRequest(budget);
      budget.workbook.dispose();
      assert.equal(title, "Another name");
      assert.deepEqual(
        sheets.map(({ name }) => name),
        plan.sheets.map(({ name }) => name),
      );
      for (const { plan: own, name } of sheets) assert.equal(own?.name, name);
    });
});
