/** A feed of one's own that grows to forty items, takes rows in every block, loses one, and is as it was when all is undone. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import { Places } from "../../taskpane/budgets/places.js";
import { ownFeed } from "../feeds/own-feed.js";
import { type OpenBudget, openBudget } from "./open-budget.js";

const LAMPS = Array.from({ length: 28 }, (_, index) => [
  `Lamp ${index + 1}`,
  "24 V stage",
  "",
  "power",
  "",
  "",
  "",
  0.5,
]);

describe("a feed of one's own that grows", () => {
  const places = new Places(ownFeed);
  const load = places.block("Load");
  const firstFree = load.row + 1 + load.count;
  let budget: OpenBudget;
  let steps = 0;
  const solved = () => budget.table("Budget", "Item", "Input V");
  const itemsOf = (rows: ReturnType<typeof solved>) => rows.map(({ Item }) => Item);
  /** Cells of all sheets that show an error. */
  const errors = () =>
    budget.plan.sheets.flatMap(({ name }) =>
      budget
        .rows(name)
        .flat()
        .flatMap((value) => (typeof value === "object" ? [`${name}: ${value.error}`] : [])),
    );
  let first: ReturnType<typeof solved>;
  let forty: ReturnType<typeof solved>;

  beforeAll(async () => {
    budget = await openBudget(budgetPlan(ownFeed));
    first = solved();
    assert.equal(first.length, 12);
  }, 120_000);
  afterAll(() => budget.workbook.dispose());

  it("has forty items, each with its margin, when rows are inserted and pasted into", async () => {
    await budget.workbook.insertRow("Loads", load.closing, LAMPS.length - 2);
    const last = firstFree + LAMPS.length - 1;
    await budget.workbook.paste("Loads", `A${firstFree}:H${last}`, LAMPS);
    steps += 2;
    forty = solved();
    assert.equal(forty.length, 40);
    for (const { Item, ...row } of forty)
      if (/^Lamp/.test(String(Item)))
        assert.ok(Math.abs(Number(row["Input W"]) - 1.2 * 0.5) < 1e-12, String(Item));
    assert.ok(budget.table("Checks", "Item", "Check").some(({ Item }) => Item === "Lamp 28"));
    assert.deepEqual(errors(), []);
  }, 120_000);

  it("is solved the same with an empty row in the middle of every block", async () => {
    // From the last block of a sheet to its first one, so that none has moved yet.
    for (const { sheet, row, count } of [...places.blocks].reverse()) {
      const name = sheet.charAt(0).toUpperCase() + sheet.slice(1);
      await budget.workbook.insertRow(name, row + 1 + Math.ceil(count / 2));
      steps += 1;
    }
    assert.deepEqual(solved(), forty);
    assert.deepEqual(errors(), []);
  }, 120_000);

  it("has every other item still when one row is deleted", async () => {
    // One empty row stands above it.
    await budget.workbook.deleteRow("Loads", firstFree + 1);
    steps += 1;
    assert.deepEqual(
      itemsOf(solved()),
      itemsOf(forty).filter((item) => item !== "Lamp 1"),
    );
    assert.deepEqual(errors(), []);
  }, 120_000);

  it("is as it was when all of it is undone", async () => {
    assert.equal(steps, 11);
    for (let step = 0; step < steps; step += 1) await budget.workbook.undo();
    assert.deepEqual(solved(), first);
    assert.deepEqual(errors(), []);
  }, 120_000);
});
