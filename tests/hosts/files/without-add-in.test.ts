/**
 * A budget opened where nothing knows the cell functions, every formula calculated anew by LibreOffice
 * (https://www.libreoffice.org): a cell shows what it showed before, an error or nothing, never something else.
 */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { cellAddress } from "../../../src/plans/addresses.js";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { ridgeTop } from "../../../taskpane/budgets/samples/ridge-top.js";
import { openBudget } from "../../budgets/open-budget.js";
import { ownFeed } from "../../feeds/own-feed.js";
import { contentOf } from "../../helpers/copied-budget.js";
import { calculatedByLibreOffice } from "../../helpers/libre-office.js";

describe.each([
  ["the ridge-top observatory", ridgeTop],
  ["a feed of one's own", ownFeed],
] as const)("%s, calculated without the add-in", (_, sample) => {
  it("shows no number and no verdict that it did not show with it", async () => {
    const plan = budgetPlan(sample);
    const budget = await openBudget(plan);
    const shown = await calculatedByLibreOffice(contentOf(plan));
    let errors = 0;
    const lies: string[] = [];
    for (const { name } of plan.sheets)
      budget.rows(name).forEach((cells, row) =>
        cells.forEach((value, column) => {
          const at = cellAddress({ row, column });
          const found = shown.get(name)?.get(at) ?? "";
          if (typeof found === "object") errors += 1;
          else if (found !== "" && found !== value) {
            const isRounded =
              typeof found === "number" &&
              typeof value === "number" &&
              Math.abs(found - value) <= 1e-12 * Math.abs(value);
            if (!isRounded) lies.push(`${name}!${at}: ${String(found)}, not ${String(value)}`);
          }
        }),
      );
    budget.workbook.dispose();
    assert.deepEqual(lies, []);
    assert.ok(errors > 20, String(errors));
  }, 180_000);
});
