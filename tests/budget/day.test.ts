/** The ferry's day: energy, loss and heat by period, against the solver called for each and sums by hand. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import type { Cell, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import { budgets } from "../../src/budget/budgets.js";
import { type OpenBudget, openBudget } from "./open-budget.js";

let budget: OpenBudget;
beforeAll(async () => {
  budget = await openBudget(
    budgets.find(({ id }) => id === "river-ferry-hotel-loads")!,
  );
});
afterAll(() => budget.workbook.dispose());

function near(actual: unknown, expected: number, what = "") {
  assert.ok(
    typeof actual === "number" &&
      Math.abs(actual - expected) <= 1e-9 * Math.max(1, Math.abs(expected)),
    `${what}: ${String(actual)} is not ${expected}`,
  );
}

/** As the ferry's inputs have them. */
const PERIODS = [
  { name: "Night", hours: 8, loads: "light", supply: "highest" },
  { name: "Quay", hours: 5, loads: "peak", supply: "nominal" },
  { name: "Under way", hours: 11, loads: "nominal", supply: "nominal" },
] as const;

function losses(loads: string | number, supply: string): Map<string, number> {
  const feed = budget
    .found()
    .areas["Feed"]!.values.map((row) =>
      row.map((cell): Cell => (typeof cell === "object" ? null : cell)),
    );
  const outcome = evaluate("CHAIN_SOLVE", [feed, loads, supply]);
  assert.ok(outcome.ok);
  const [head = [], ...rows] = outcome.value as CellTable;
  const column = head.indexOf("Loss W");
  return new Map(rows.map((row) => [String(row[0]), Number(row[column])]));
}

const sum = (values: Iterable<number>) =>
  [...values].reduce((total, value) => total + value, 0);

function label(text: string) {
  return budget.rows("Day").find(([first]) => first === text)?.[1];
}

describe("the ferry's day", () => {
  it("has the periods of Inputs, and their powers", () => {
    const rows = budget.table("Day", "Period", "Hours (h)");
    // Light, peak and nominal loads with 15 % margin.
    const loads = [100 + 120 + 150, 1500 + 600 + 240, 900 + 420 + 180];
    PERIODS.forEach(({ name, hours, loads: drawn, supply }, index) => {
      const row = rows[index];
      assert.equal(row?.["Period"], name);
      assert.equal(row?.["Hours (h)"], hours);
      near(row?.["All loads (W)"], 1.15 * loads[index]!, name);
      near(row?.["All losses (W)"], sum(losses(drawn, supply).values()), name);
    });
    near(
      rows[3]?.["Energy to the loads (kWh)"],
      (1.15 * (370 * 8 + 2340 * 5 + 1500 * 11)) / 1000,
    );
  });

  it("loses what its periods lose, and costs 365 times that", () => {
    const rows = budget.table("Day", "Period", "Hours (h)");
    const lost = sum(
      PERIODS.map(
        ({ hours, loads, supply }) =>
          (sum(losses(loads, supply).values()) * hours) / 1000,
      ),
    );
    near(rows[3]?.["Energy lost (kWh)"], lost);
    near(rows[3]?.["All losses (W)"], (lost * 1000) / 24);
    near(label("Energy lost in a year of 365 such days"), lost * 365);
    near(
      label("Cost of it in a year, at the price of energy on Inputs"),
      lost * 365 * 0.28,
    );
    const cost = budget
      .rows("Day")
      .find(([first]) => String(first).startsWith("Cost of it"));
    assert.equal(cost?.[2], "EUR");
  });

  it("gives every stage's heat: mean, highest and energy", () => {
    const solved = PERIODS.map(({ loads, supply }) => losses(loads, supply));
    const heat = budget.table("Day", "Item", "Kind");
    assert.deepEqual(
      heat.map((row) => row["Kind"]),
      ["supply", "series", "run", "ratio", "regulated", "regulated"],
    );
    for (const row of heat) {
      const item = String(row["Item"]);
      const each = solved.map((one) => one.get(item)!);
      const wattHours = each[0]! * 8 + each[1]! * 5 + each[2]! * 11;
      near(row["Mean of the day (W)"], wattHours / 24, item);
      near(row["Highest (W)"], Math.max(...each), item);
      assert.equal(row["In the period"], "Quay");
      near(row["Heat in the day (Wh)"], wattHours, item);
    }
    const said = budget.rows("Day").map(([first]) => String(first));
    assert.ok(said.includes("✔ the heat of all items is the energy lost"));
  });

  it("takes a number for loads, and leaves out a period of no hours", async () => {
    await budget.enter("Loads in that time", 0.5, 1);
    await budget.enter("Hours", 0, 0);
    const rows = budget.table("Day", "Period", "Hours (h)");
    near(rows[1]?.["All loads (W)"], 0.5 * 1.15 * 1500);
    near(rows[1]?.["All losses (W)"], sum(losses(0.5, "nominal").values()));
    assert.equal(
      budget.workbook.value("Day", "A4"),
      "✖ The periods come to 16 h, not 24: what is said of a day is of so many hours.",
    );
    near(rows[0]?.["Energy lost (kWh)"], 0);
    near(
      rows[3]?.["Energy lost (kWh)"],
      (sum(losses(0.5, "nominal").values()) * 5 +
        sum(losses("nominal", "nominal").values()) * 11) /
        1000,
    );
    await budget.enter("Hours", 8, 0);
    await budget.enter("Loads in that time", "peak", 1);
    assert.equal(
      budget.workbook.value("Day", "A4"),
      "✔ The periods come to 24 h.",
    );
  });

  it("says of a period that cannot be solved that it is not, without an error", async () => {
    await budget.enter("Loads in that time", 100, 1);
    for (const cells of budget.rows("Day"))
      for (const cell of cells) assert.notEqual(typeof cell, "object");
    const rows = budget.table("Day", "Period", "Hours (h)");
    assert.equal(rows[1]?.["All losses (W)"], "not solved");
    assert.equal(rows[3]?.["Energy lost (kWh)"], "not solved");
    assert.equal(label("Energy lost in a year of 365 such days"), "–");
    await budget.enter("Loads in that time", "peak", 1);
  });
});
