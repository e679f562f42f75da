/** The Cases sheet of every worked budget: nine cases against the solver called nine times, the worst against a scan of all. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import type { Cell, CellTable } from "../../functions/cells.js";
import { feedTable } from "../../functions/reading/feed-table.js";
import { evaluate } from "../../functions/runner.js";
import { budgets } from "../../src/budget/budgets.js";
import { itemsOf } from "../../src/network/feed-columns.js";
import type { FeedItem } from "../../src/network/feed-item.js";
import { operatingPoint } from "../../src/network/operating-point.js";
import { type OpenBudget, openBudget } from "./open-budget.js";

const LOADS = ["light", "nominal", "peak"] as const;
const SUPPLIES = ["lowest", "nominal", "highest"] as const;
const worked = budgets.filter(({ id }) => id !== "blank-budget");

function near(actual: unknown, expected: number, what: string) {
  assert.ok(
    typeof actual === "number" &&
      Math.abs(actual - expected) <= 1e-9 * Math.max(1, Math.abs(expected)),
    `${what}: ${String(actual)} is not ${expected}`,
  );
}

describe.each(worked.map((plan) => [plan.title, plan] as const))(
  "the cases of %s",
  (_, plan) => {
    let budget: OpenBudget;
    beforeAll(async () => {
      budget = await openBudget(plan);
    });
    afterAll(() => budget.workbook.dispose());

    const feed = (): CellTable =>
      budget
        .found()
        .areas["Feed"]!.values.map((row) =>
          row.map((cell): Cell => (typeof cell === "object" ? null : cell)),
        );

    /** Rows of the solved table by their headings. */
    function solved(loads: string, supply: string) {
      const outcome = evaluate("CHAIN_SOLVE", [feed(), loads, supply]);
      assert.ok(outcome.ok);
      const [headings = [], ...rows] = outcome.value as CellTable;
      return rows.map((row) =>
        Object.fromEntries(
          headings.map((heading, column) => [String(heading), row[column]]),
        ),
      );
    }

    const sum = (values: readonly unknown[]) =>
      values.reduce<number>((total, value) => total + Number(value), 0);

    it("are nine operating points, each summed from its own solved rows", () => {
      const cases = budget.table("Cases", "Case", "Supply voltage (V)");
      assert.equal(cases.length, 9);
      const windows = budget.table("Budget", "Item", "Fed from");
      for (const supply of SUPPLIES)
        for (const loads of LOADS) {
          const name = `supply ${supply}, loads ${loads}`;
          const row = cases.find((one) => one["Case"] === name);
          const rows = solved(loads, supply);
          const load = sum(
            rows
              .filter((one) => one["Output V"] === "–")
              .map((one) => one["Input W"]),
          );
          const loss = sum(rows.map((one) => one["Loss W"]));
          near(row?.["Supply voltage (V)"], Number(rows[0]?.["Input V"]), name);
          near(row?.["Supply power (W)"], Number(rows[0]?.["Input W"]), name);
          near(row?.["All loads (W)"], load, name);
          near(row?.["All losses (W)"], loss, name);
          near(row?.["Efficiency"], load / (load + loss), name);
          const margins = rows.slice(1).flatMap((one, index) => {
            const { "Lowest V": low, "Highest V": high } = windows[index + 1]!;
            const volts = Number(one["Input V"]);
            return [
              ...(typeof low === "number" ? [(volts - low) / low] : []),
              ...(typeof high === "number" ? [(high - volts) / high] : []),
            ];
          });
          near(row?.["Lowest margin"], Math.min(...margins), name);
        }
    });

    it("have their worst named with the case that it stands in", () => {
      const cases = budget.table("Cases", "Case", "Supply voltage (V)");
      const extremes = budget.table("Cases", "Figure", "Worst");
      const found = (figure: string) =>
        extremes.find((one) => one["Figure"] === figure);
      for (const [figure, heading, extreme] of [
        ["Highest supply power", "Supply power (W)", Math.max],
        ["Highest loss", "All losses (W)", Math.max],
        ["Lowest efficiency", "Efficiency", Math.min],
        ["Lowest margin to a window", "Lowest margin", Math.min],
      ] as const) {
        const values = cases.map((one) => Number(one[heading]));
        const worst = found(figure);
        assert.equal(worst?.["Worst"], extreme(...values), figure);
        const at = cases.find((one) => one["Case"] === worst?.["In the case"]);
        assert.equal(at?.[heading], worst?.["Worst"], figure);
      }
      assert.equal(found("Cases without an operating point")?.["Worst"], 0);
    });

    it("have the least margin of all that a scan of every corner finds", () => {
      const { item, margin } = leastOfAll();
      const summary = budget.table("Cases", "Figure", "Value");
      const least = summary.find(
        (one) => one["Figure"] === "Least margin to a window",
      );
      near(least?.["Value"], margin, "least margin");
      assert.equal(least?.["Item"], item);
      const words = budget.rows("Cases").map(([first]) => String(first));
      const percent = Math.round(1000 * Math.abs(margin)) / 10;
      assert.ok(
        words.some((text) =>
          text.includes(`${percent} %, at ${item} (supply `),
        ),
      );
    });

    /** Supply × loads × every corner of the tolerances × one unit lost, solved one by one. */
    function leastOfAll() {
      const table = feedTable(feed());
      const items = itemsOf(table.feed);
      let least = { item: "", margin: Infinity };
      for (const corner of cornersOf(items))
        for (const supply of SUPPLIES)
          for (const loads of ["idle", "light", "nominal", "peak"] as const) {
            // Without load the stages may be off, too.
            const { rows } =
              loads === "idle"
                ? operatingPoint(
                    corner.map((item) => ({ ...item, fixedLoss: undefined })),
                    { supply, loads: "none" },
                  )
                : operatingPoint(corner, { supply, loads });
            for (const row of rows) {
              assert.equal(row.outcome, "solved");
              if (row.outcome !== "solved" || row.item.kind === "supply")
                continue;
              const { lowestVoltage, highestVoltage } = row.item;
              const volts = row.inputVoltage;
              const margin = Math.min(
                lowestVoltage === undefined
                  ? Infinity
                  : (volts - lowestVoltage) / lowestVoltage,
                highestVoltage === undefined
                  ? Infinity
                  : (highestVoltage - volts) / highestVoltage,
              );
              if (margin < least.margin - 1e-12)
                least = { item: row.item.item, margin };
            }
          }
      return least;
    }

    function cornersOf(items: readonly FeedItem[]): FeedItem[][] {
      let corners: FeedItem[][] = [[]];
      for (const item of items) {
        const { tolerance = 0 } = item;
        const each = tolerance > 0 ? [-tolerance, tolerance] : [0];
        corners = corners.flatMap((corner) =>
          each.map((share) => [...corner, shifted(item, share)]),
        );
      }
      return corners.flatMap((corner) => [
        corner,
        ...corner.flatMap((item, index) =>
          item.inParallel > 1 && lostToo()
            ? [
                corner.map((one, place) =>
                  place === index ? oneFewer(one) : one,
                ),
              ]
            : [],
        ),
      ]);
    }

    const oneFewer = (item: FeedItem): FeedItem => ({
      ...item,
      inParallel: item.inParallel - 1,
    });

    const lostToo = () =>
      budget
        .rows("Inputs")
        .some(
          ([label, , , value]) =>
            String(label).startsWith("Units lost") && value === 1,
        );

    function shifted(item: FeedItem, share: number): FeedItem {
      if (item.kind === "ratio")
        return { ...item, ratio: item.ratio! * (1 + share) };
      if (item.kind === "regulated")
        return { ...item, voltage: item.voltage! * (1 + share) };
      assert.equal(
        share,
        0,
        `${item.item}: no such tolerance in these budgets`,
      );
      return item;
    }

    it("have the headroom that brings the feed to collapse, and not before", () => {
      const summary = budget.table("Cases", "Figure", "Value");
      const times = Number(
        summary.find(
          (one) => one["Figure"] === "Times the loads at collapse",
        )?.["Value"],
      );
      // Nominal and peak loads both, the heavier ones collapse the feed first.
      const items = itemsOf(feedTable(feed()).feed);
      const solves = (multiple: number) =>
        (["nominal", "peak"] as const).every((loads) =>
          operatingPoint(items, {
            loads: { loads, times: multiple },
            supply: "lowest",
          }).rows.every(({ outcome }) => outcome === "solved"),
        );
      assert.ok(times > 2);
      assert.equal(solves(times * 0.999), true);
      assert.equal(solves(times * 1.001), false);
    });
  },
);

describe("cases of a feed that collapses", () => {
  let budget: OpenBudget;
  beforeAll(async () => {
    budget = await openBudget(budgets[0]!);
  });
  afterAll(() => budget.workbook.dispose());

  it("say so in words, and leave the others as they are", async () => {
    // 400 V behind R carries at most 400² / 4 R: with 2500 m, some 1600 W.
    await budget.enter("Route length, one way", 2500);
    for (const cells of budget.rows("Cases"))
      for (const cell of cells) assert.notEqual(typeof cell, "object");
    const cases = budget.table("Cases", "Case", "Supply voltage (V)");
    const unsolved = cases.filter(
      (one) => one["Supply power (W)"] === "not solved",
    );
    assert.ok(unsolved.length > 0 && unsolved.length < 9);
    for (const row of unsolved) {
      assert.equal(row["Efficiency"], "not solved");
      assert.match(String(row["Check"]), /^✖ no operating point/);
    }
    const extremes = budget.table("Cases", "Figure", "Worst");
    assert.equal(extremes[5]?.["Worst"], unsolved.length);
    assert.equal(typeof extremes[0]?.["Worst"], "number");
    const words = budget.rows("Cases").map(([first]) => String(first));
    assert.ok(words.some((text) => text.startsWith("✖ In one of these cases")));
    await budget.enter("Route length, one way", 350);
  });
});
