/** The sheet What matters: what its formulas show is what the functions give for the feed as it stands. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { SLOPE_ONLY, TORNADO_COLUMNS } from "../../../functions/families/chain-tornado.js";
import { type Cell, type CellTable, evaluate } from "../../../functions/downfeed.js";
import { cellAddress, rangePlace } from "../../../src/plans/addresses.js";
import { planFaults } from "../../../src/plans/plan-faults.js";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { ridgeTop } from "../../../taskpane/budgets/samples/ridge-top.js";
import { mattersPlan } from "../../../taskpane/pictures/spread/matters-plan.js";
import { callFaults, nativeFaults } from "../../plans/plan-rules.js";
import { type OpenBudget, openBudget } from "../../budgets/open-budget.js";

const SHEET = "What matters";
const SECOND_HALF = 11;

describe("the sheet What matters", () => {
  let budget: OpenBudget;
  beforeAll(async () => {
    const plan = budgetPlan(ridgeTop);
    const places = {
      ranges: Object.fromEntries(
        plan.names.map(({ name, sheet, range }) => [
          name,
          { sheet: plan.sheets.find(({ key }) => key === sheet)!.name, address: range, values: [] },
        ]),
      ),
    };
    const matters = mattersPlan(places, "Ridge");
    assert.ok(matters);
    assert.deepEqual(planFaults(matters), []);
    assert.deepEqual([...callFaults(matters), ...nativeFaults(matters)], []);
    budget = await openBudget({ ...plan, sheets: [...plan.sheets, ...matters.sheets] });
  }, 60_000);
  afterAll(() => budget.workbook.dispose());

  const cellsOf = (part: string): CellTable =>
    budget
      .found()
      .ranges[part]!.values.map((row) =>
        row.map((value) => (value === "" ? null : (value as Cell))),
      );

  /** Rows below the headers, from the column on, as many as the function gives. */
  const assertShown = (
    id: string,
    anchor: number,
    left: number,
    asked: readonly (string | number | null)[],
  ) => {
    const [quantity, item, loads, supply] = asked;
    const samples = id === "CHAIN_UNCERTAINTY" ? [null, null] : [];
    const outcome = evaluate(id, [
      cellsOf("Feed"),
      quantity!,
      item!,
      cellsOf("Spread"),
      ...samples,
      loads!,
      supply!,
    ]);
    assert.ok(outcome.ok, JSON.stringify(outcome));
    const wanted = outcome.value as CellTable;
    const shown = budget
      .rows(SHEET)
      .slice(anchor, anchor + wanted.length)
      .map((row) => row.slice(left, left + wanted[0]!.length));
    assert.deepEqual(shown, wanted);
  };

  it("shows the spread and the tornado of the loss and of the least margin", () => {
    const nominal = ["nominal", "nominal"];
    assertShown("CHAIN_UNCERTAINTY", 10, 0, ["loss", null, ...nominal]);
    assertShown("CHAIN_TORNADO", 28, 0, ["loss", null, ...nominal]);
    assertShown("CHAIN_UNCERTAINTY", 10, SECOND_HALF, ["lowest margin", null, ...nominal]);
    assertShown("CHAIN_TORNADO", 28, SECOND_HALF, ["lowest margin", null, ...nominal]);
  });

  it("follows the feed, its Spread, and what is asked of it", async () => {
    const { workbook } = budget;
    const before = budget.rows(SHEET)[12]![1];
    const { address, values } = budget.found().ranges["Spread"]!;
    const { top, bottom } = rangePlace(address);
    const cell = (header: string, row: number) =>
      cellAddress({ row, column: values[0]!.indexOf(header) });
    const drives = values.findIndex(([item]) => item === "Dome and mount drives");
    await workbook.set("Types", cell("Tolerance", top + drives), "exact");
    // As its user inserts one: above the grey row that closes the block.
    await workbook.insertRow("Types", bottom + 1);
    await workbook.set("Types", cell("Spread", bottom), "5 V connector");
    await workbook.set("Types", cell("Column", bottom), "Resistance");
    await workbook.set("Types", cell("Tolerance", bottom), 0.3);
    await workbook.set(SHEET, "B5", "peak");
    await workbook.set(SHEET, "B6", "lowest");
    await workbook.set(SHEET, "B8", "output voltage");
    await workbook.set(SHEET, "B9", "Summit stage");
    const asked = ["output voltage", "Summit stage", "peak", "lowest"];
    assertShown("CHAIN_UNCERTAINTY", 10, 0, asked);
    assertShown("CHAIN_TORNADO", 28, 0, asked);
    assert.notEqual(budget.rows(SHEET)[12]![1], before);
    const inputs = budget.rows(SHEET).map(([name]) => name);
    assert.ok(inputs.includes("5 V connector · Resistance"));
    const drivesRow = budget.rows(SHEET).find(([name]) => name === "Dome and mount drives · Load");
    assert.equal(drivesRow?.[TORNADO_COLUMNS.indexOf("Note")], SLOPE_ONLY);
  });
});
