/** Two versions of a feed drawn: the same numbers as on the sheet, and what is better in words. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { planFaults } from "../../../src/plans/plan-faults.js";
import { comparisonPictures } from "../../../taskpane/pictures/comparison/comparison-picture.js";
import { drawingPart } from "../../../taskpane/pictures/parts/drawing.js";
import { SHEET_PALETTE } from "../../../taskpane/pictures/parts/palettes.js";
import { svgText } from "../../../taskpane/pictures/parts/svg-parts.js";
import { picturePlan } from "../../../taskpane/pictures/picture-plan.js";
import { findBudgets } from "../../../taskpane/workbook/found-budgets.js";
import { MemoryHost } from "../../hosts/memory-host.js";
import { smallBudget } from "../versions/small-budget.js";

async function budgetsOf(...ohms: readonly number[]) {
  const host = new MemoryHost();
  for (const [index, one] of ohms.entries())
    await host.insert(smallBudget(`Version ${index + 1}`, one));
  return (await findBudgets(host)).budgets;
}

describe("the picture of two versions", () => {
  it("tells the figures of the whole feed, their difference, and what is better and worse", async () => {
    const [first, ...others] = await budgetsOf(2, 1);
    const [variant, ...more] = comparisonPictures(first!, others);
    assert.deepEqual(more, []);
    assert.equal(variant!.name, "Version 2 · Quay2");
    const { picture } = variant!;
    assert.equal(picture.title, "Two versions: A Version 1 · Quay, B Version 2 · Quay2");
    // 10² · 2 Ω and 10² · 1 Ω of 380 V · 10 A; 360 V and 370 V where 365 V is the least.
    const loss = picture.table.rows.find(([figure]) => figure === "Highest loss (W)");
    assert.deepEqual(loss, ["Highest loss (W)", 200, 100, -100, -0.5, "better"]);
    assert.match(
      picture.alternative,
      /^Better in B: Highest loss 200\.0\u00a0W → 100\.0\u00a0W; Least efficiency at nominal loads 94\.7\u00a0% → 97\.4\u00a0%; .*Checks that fail 1 → 0\. Worse in B: nothing\./,
    );
    const drawn = svgText(
      drawingPart(picture, { width: 318, palette: SHEET_PALETTE, stem: "test" }),
    );
    // 1 − 200/3800 and 1 − 100/3800.
    for (const text of [
      "Highest loss: better",
      "A 200.0\u00a0W",
      "B 100.0\u00a0W (-50.0\u00a0%)",
      "B 97.4\u00a0% (+2.6 percentage points)",
      "Highest supply power: same",
      "B 4200.0\u00a0W<",
    ])
      assert.ok(drawn.includes(text), text);
    assert.doesNotMatch(drawn, /NaN|undefined/);
  });

  it("says the same the other way round where A and B change places", async () => {
    const [first, other] = await budgetsOf(2, 1);
    const [back] = comparisonPictures(other!, [first!]);
    assert.match(back!.picture.alternative, /^Better in B: nothing\. Worse in B: Highest loss 100/);
  });

  it("is one for each further budget, and none of one alone or of one that is refused", async () => {
    const [first, ...others] = await budgetsOf(2, 1, 3);
    assert.equal(comparisonPictures(first!, others).length, 2);
    assert.deepEqual(comparisonPictures(first!, []), []);
    const host = new MemoryHost();
    await host.insert(smallBudget("Quay", 2));
    await host.insert(smallBudget("Bare", 1));
    const type = async (sheet: string, address: string, text: string) => {
      await host.write({ sheet, address }, [[text]], { overwrite: true });
      const [one, other] = (await findBudgets(host)).budgets;
      return comparisonPictures(one!, [other!]);
    };
    const [unsolved] = await type("Feed 2", "C5", "no such kind");
    assert.match(
      unsolved!.picture.alternative,
      /^Better in B: nothing\. Worse in B: Cases solved, of nine 9 → 0\./,
    );
    assert.deepEqual(await type("Inputs 2", "A5", "No such requirement"), []);
  });

  it("becomes a sheet that every host can write, with its numbers", async () => {
    const [first, ...others] = await budgetsOf(2, 1);
    const [{ picture } = assert.fail()] = comparisonPictures(first!, others);
    const plan = picturePlan(picture, first!, { title: "Version 1", solvedFor: "" });
    assert.deepEqual(planFaults(plan), []);
    const values = plan.sheets[0]!.cells.map(({ value }) => value);
    for (const cell of picture.table.rows.flat()) if (cell !== "") assert.ok(values.includes(cell));
  });
});
