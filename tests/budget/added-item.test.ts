/** Adding an item by hand as the Notes sheet tells it: a row in each table, and the row above copied into it. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgets } from "../../src/budget/budgets.js";
import { columnLetters } from "../../src/plans/addresses.js";
import { type OpenBudget, openBudget } from "./open-budget.js";

const LAST = "Weather and sky sensors";
const ADDED = "Star camera";

let budget: OpenBudget;
beforeAll(async () => {
  budget = await openBudget(budgets[0]!);
});
afterAll(() => budget.workbook.dispose());

/** The rows of a sheet that begin with the item, counted from 1. */
function rowsOf(sheet: string, item: string): number[] {
  return budget
    .rows(sheet)
    .flatMap(([first], index) => (first === item ? [index + 1] : []));
}

/** As a spreadsheet does it: a row without `$` moves with the copy. */
async function copyRow(sheet: string, from: number, to: number) {
  for (let column = 0; column < 20; column += 1) {
    const letter = columnLetters(column);
    const formula = budget.workbook.formula(sheet, `${letter}${from}`);
    const value = budget.workbook.value(sheet, `${letter}${from}`);
    const content = formula === "" ? value : moved(formula, to - from);
    if (typeof content !== "object" && content !== "")
      await budget.workbook.set(sheet, `${letter}${to}`, content);
  }
}

function moved(formula: string, by: number): string {
  return formula.replace(
    /(?<![A-Za-z$\d])(\$?[A-Z]{1,2})(\d+)(?![\d(])/g,
    (_, column: string, row: string) => `${column}${Number(row) + by}`,
  );
}

describe("an item added by hand", () => {
  it("is solved, summed and judged with the others", async () => {
    const before = Number(budget.balance("All loads"));
    // From the lowest table up, so that the rows found stay where they are.
    const [inResults, inFeed] = rowsOf("Budget", LAST);
    assert.ok(inResults && inFeed);
    await budget.workbook.insertRow("Budget", inFeed);
    await copyRow("Budget", inFeed + 1, inFeed);
    await budget.workbook.set("Budget", `A${inFeed}`, ADDED);
    await budget.workbook.insertRow("Budget", inResults);
    await copyRow("Budget", inResults - 1, inResults);

    const results = budget.table("Budget", "Item", "Check");
    assert.equal(results.length, 14);
    assert.equal(results[12]?.["Item"], ADDED);
    assert.equal(results[13]?.["Item"], LAST);
    // The copy draws 40 W, as the row that it was copied from.
    assert.ok(
      Math.abs(Number(budget.balance("All loads")) - before - 40) < 1e-9,
    );
    assert.equal(budget.balance("Closing check"), "✔ closes");
    const added = budget
      .table("Bands", "Item", "In service V")
      .find(({ Item }) => Item === ADDED);
    assert.equal(added?.["After one fault V"], 56.1);
  });
});
