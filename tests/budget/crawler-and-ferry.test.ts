/** The crawler's and the ferry's budgets, calculated by the workbench's engine with the real cell functions. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgets } from "../../src/budget/budgets.js";
import { type OpenBudget, openBudget } from "./open-budget.js";

function near(actual: unknown, expected: number, share: number) {
  assert.ok(
    Math.abs(Number(actual) - expected) <= share * Math.abs(expected),
    `${String(actual)} is not within ${share} of ${expected}`,
  );
}

for (const id of ["harbour-survey-crawler", "river-ferry-hotel-loads"]) {
  const plan = budgets.find((one) => one.id === id);
  assert.ok(plan);
  describe(plan.title, () => {
    let budget: OpenBudget;
    beforeAll(async () => {
      budget = await openBudget(plan);
    });
    afterAll(() => budget.workbook.dispose());

    it("holds no error, closes its power and agrees with every check by hand, in all nine cases", async () => {
      for (const loads of ["light", "nominal", "peak"])
        for (const supply of ["lowest", "nominal", "highest"]) {
          await budget.enter("Loads", loads);
          await budget.enter("Supply voltage", supply);
          for (const { name } of plan.sheets)
            for (const [row, cells] of budget.rows(name).entries())
              for (const cell of cells)
                assert.notEqual(
                  typeof cell,
                  "object",
                  `${name}, row ${row + 1}`,
                );
          assert.equal(budget.balance("Closing check"), "✔ closes");
          for (const { Figure, "By hand": byHand, Solved } of budget.table(
            "Budget",
            "Figure",
            "By hand",
          ))
            assert.ok(
              Math.abs(Number(byHand) - Number(Solved)) <=
                1e-9 * Math.abs(Number(Solved)),
              String(Figure),
            );
        }
      await budget.enter("Loads", "nominal");
      await budget.enter("Supply voltage", "nominal");
    });

    const answers = (first: string, second: string) =>
      budget.table("Answers", first, second);
    if (id === "harbour-survey-crawler") {
      // By hand: 300 m · (2 · 1.5e-6 m² · 8890 kg/m³ + 0.115 kg/m) = 42.5 kg; at 45 °C 1 + 0.00393 · 25 = 1.09825.
      it("weighs four umbilicals and says their drop and loss at the solved current", () => {
        const [, second] = answers("Size", "Mass (kg)");
        near(second?.["Mass (kg)"], 300 * (2 * 1.5e-6 * 8890 + 0.115), 1e-12);
        const umbilical = budget
          .table("Budget", "Item", "Check")
          .find((row) => row["Item"] === "Umbilical");
        near(second?.["Loss (W)"], Number(umbilical?.["Loss (W)"]), 1e-9);
        near(
          umbilical?.["Drop (V)"],
          Number(umbilical?.["Input (A)"]) * 0.6 * 13.3 * 1.09825,
          1e-9,
        );
      });

      // ½ · 1025 · 0.4² · 1.2 · 0.0125 · 300 = 369 N.
      it("pulls with 369 N", () => {
        const [pull] = answers("Figure", "Value");
        near(pull?.["Value"], 369, 1e-12);
      });

      it("leaves one unit the whole current when the other is lost, and shares unevenly before", () => {
        const [all, fewer] = answers("Units left", "Worst unit (A)");
        const total = Number(
          budget
            .table("Budget", "Item", "Check")
            .find((row) => row["Item"] === "Ratio units")?.["Output (A)"],
        );
        near(fewer?.["Worst unit (A)"], total, 1e-12);
        assert.ok(Number(all?.["Worst unit (A)"]) > total / 2);
      });

      it("has a worst case with a unit lost for every row, and says which loading it comes to", () => {
        const worst = budget.table("Cases", "Item", "Lowest input V");
        assert.equal(worst.length, 8);
        const units = worst.find((row) => row["Item"] === "Ratio units");
        assert.ok(
          Number(units?.["Loading"]) > 0.95 && Number(units?.["Loading"]) < 1.1,
        );
        const said = budget.rows("Cases").map(([first]) => String(first));
        assert.ok(
          said.some((text) =>
            /^▲ Above the largest loading .* at Ratio units\.$/.test(text),
          ),
        );
      });

      it("has the worst case without a lost unit where Inputs says so", async () => {
        const label = "Units lost of those in parallel, in the worst case";
        await budget.enter(label, 0);
        const worst = budget.table("Cases", "Item", "Lowest input V");
        const units = worst.find((row) => row["Item"] === "Ratio units");
        assert.ok(Number(units?.["Loading"]) < 0.6);
        assert.ok(
          worst.every(
            (row) => !String(row["Where it happens"]).includes("lost"),
          ),
        );
        await budget.enter(label, 1);
      });
    } else {
      // 706/12 · 1.01 = 59.42 V; 706/14 · 1.01 = 50.93 V.
      it("comes within a volt of 60 V through 1/12, and leaves nine through 1/14", () => {
        const [tight, out] = answers("Ratio", "Lowest (V)");
        near(tight?.["Highest (V)"], (706 / 12) * 1.01, 1e-12);
        near(out?.["Highest (V)"], (706 / 14) * 1.01, 1e-12);
        near(out?.["Room above (V)"], 60 - (706 / 14) * 1.01, 1e-9);
        assert.ok(Number(out?.["Room below (V)"]) > 0);
      });

      // 4.236 V rms, 0.6 % of 706 V, is 0.357 V through 1/12 · 1.01: 59.42 V are then above ES1 (sum 1.005).
      it("leaves the band asked for where its ripple is entered", async () => {
        const bus = () =>
          budget
            .table("Bands", "Item", "In service V")
            .find((row) => Number(row["In service V"]) < 100);
        const ripples = budget
          .rows("Inputs")
          .flatMap(([label, , , value], row) =>
            /^Ripple of /.test(String(label)) ? [{ row: row + 1, value }] : [],
          );
        for (const { row } of ripples)
          await budget.workbook.clear("Inputs", `D${row}`);
        await budget.enter("Framework of the voltage bands", "IEC 62368-1");
        const before = budget.read("Place where people can touch");
        await budget.enter("Place where people can touch", "dry");
        near(bus()?.["In service V"], (706 / 12) * 1.01, 1e-12);
        assert.equal(bus()?.["Band in service"], "ES1");
        assert.match(String(bus()?.["Note"]), /no ripple counted/);
        await budget.workbook.set("Inputs", `D${ripples[0]!.row}`, 4.236);
        assert.equal(bus()?.["Band in service"], "ES2");
        const sum =
          ((706 / 12) * 1.01) / 60 +
          ((4.236 / 12) * 1.01 * Math.sqrt(3)) / 42.4;
        near(-Number(bus()?.["Margin in service"]), sum - 1, 1e-9);
        for (const { row, value } of ripples)
          await budget.workbook.set("Inputs", `D${row}`, value as number);
        await budget.enter("Place where people can touch", String(before));
      });

      it("finds 1/12, 1/13 and 1/14 for the galley", () => {
        const rows = budget.rows("Answers");
        const at = rows.findIndex(
          ([one]) => one === "Whole ratios that fit the galley's window",
        );
        const ratios = [3, 4, 5].map((below) => rows[at + below]?.[0]);
        [12, 13, 14].forEach((steps, index) =>
          near(ratios[index], 1 / steps, 1e-12),
        );
        // The same two ratios in the table above it.
        const [tight, out] = answers("Ratio", "Lowest (V)");
        near(tight?.["Lowest (V)"], Number(rows[at + 3]?.[1]), 1e-12);
        near(out?.["Lowest (V)"], Number(rows[at + 5]?.[1]), 1e-12);
      });

      // 1600 Ω · 1.2 mF · ln(706/60) = 4.733 s; ½ · 1.2 mF · 706² = 299 J.
      it("is down to 60 V within 5 s", () => {
        const rows = budget.rows("Answers");
        const value = (label: string) =>
          rows.find(([one]) => one === label)?.[1];
        near(value("Time to 60 V"), 1.92 * Math.log(706 / 60), 1e-12);
        assert.ok(Number(value("Time to 60 V")) < 5);
        near(value("Energy before it"), 0.0006 * 706 ** 2, 1e-12);
      });
    }
  });
}
