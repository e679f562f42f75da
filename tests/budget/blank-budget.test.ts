/** The blank budget: empty it says what to enter and shows no error; filled, it agrees with figures by hand and with another budget. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { typedColumns } from "../../src/budget/budget-columns.js";
import { budgets } from "../../src/budget/budgets.js";
import { columnLetters } from "../../src/plans/addresses.js";
import { warningsOf } from "../../src/warnings/warnings.js";
import { type OpenBudget, openBudget } from "./open-budget.js";

const blank = budgets.find(({ id }) => id === "blank-budget")!;
const ferry = budgets.find(({ id }) => id === "river-ferry-hotel-loads")!;
const LOADS = ["light", "nominal", "peak"] as const;
const SUPPLIES = ["lowest", "nominal", "highest"] as const;

function near(actual: unknown, expected: number, what = "", share = 1e-9) {
  assert.ok(
    typeof actual === "number" &&
      Math.abs(actual - expected) <= share * Math.max(1, Math.abs(expected)),
    `${what}: ${String(actual)} is not ${expected}`,
  );
}

function noErrors(budget: OpenBudget) {
  for (const { name } of budget.plan.sheets)
    budget.rows(name).forEach((cells, row) =>
      cells.forEach((cell, column) => {
        const at = `${name}!${columnLetters(column)}${row + 1}`;
        assert.notEqual(typeof cell, "object", `${at} ${JSON.stringify(cell)}`);
      }),
    );
}

/** By the label in its first column, also where it is empty; `value` counts the cells of its block from the left. */
async function enter(
  budget: OpenBudget,
  label: string,
  content: string | number,
  column = "D",
) {
  const row = budget.rows("Inputs").findIndex(([first]) => first === label);
  assert.ok(row >= 0, label);
  await budget.workbook.set("Inputs", `${column}${row + 1}`, content);
}

function feedHead(budget: OpenBudget): number {
  const feed = budget.plan.names.find(({ name }) => name === "Feed");
  return Number(/\d+/.exec(feed?.area ?? "")?.[0]);
}

type Row = Readonly<Record<string, string | number>>;

/** @param place Row of the feed table, from 0. */
async function type(budget: OpenBudget, place: number, row: Row) {
  for (const [key, content] of Object.entries(row)) {
    const column = typedColumns.findIndex((one) => one.key === key);
    assert.ok(column >= 0, key);
    const at = `${columnLetters(column)}${feedHead(budget) + 1 + place}`;
    await budget.workbook.set("Budget", at, content);
  }
}

const REQUIREMENTS: readonly (readonly [string, string | number])[] = [
  ["Framework of the voltage bands", "IEC 62368-1"],
  ["Margin for growth and ageing, on each load", 0.1],
  ["Largest drop of a run", 0.2],
  ["Largest loading of anything with a rating", 1],
  ["Altitude of the highest equipment", 0],
];

describe("the blank budget, empty", () => {
  let budget: OpenBudget;
  beforeAll(async () => {
    budget = await openBudget(blank);
  });
  afterAll(() => budget.workbook.dispose());

  it("holds no error and no number that nobody entered", () => {
    noErrors(budget);
    for (const sheet of ["Budget", "Bands", "Cases"]) {
      const numbers = budget
        .rows(sheet)
        .flat()
        .filter((cell) => typeof cell === "number");
      // The altitude up to which IEC 60664-1 prints its clearances.
      assert.deepEqual(numbers, sheet === "Budget" ? [2000] : []);
    }
    const day = budget.rows("Day").flat();
    assert.ok(day.every((cell) => typeof cell !== "number" || cell === 0));
  });

  it("has one note, which says what to enter first", () => {
    const [note, ...more] = warningsOf(budget.found());
    assert.deepEqual(more, []);
    assert.equal(note?.severity, "note");
    assert.match(note?.text ?? "", /^Enter the framework/);
    assert.equal(
      budget.workbook.value(note!.at.sheet, note!.at.address),
      note?.text,
    );
  });

  it("asks for one thing after the other, and solves nothing before the last", async () => {
    const asked = [/framework/, /margin/, /drop/, /loading/, /altitude/];
    for (const [index, [label, content]] of REQUIREMENTS.entries()) {
      const line = String(budget.workbook.value("Budget", "A3"));
      assert.match(line, asked[index]!);
      for (const sheet of ["Bands", "Cases", "Day"])
        assert.equal(budget.workbook.value(sheet, "A2"), line);
      await enter(budget, label, content);
    }
    const last = String(budget.workbook.value("Budget", "A3"));
    assert.match(last, /^Enter a supply in the feed table/);
    assert.equal(warningsOf(budget.found()).length, 1);
    noErrors(budget);
  });
});

/**
 * 100 V (90 to 110) behind 1 Ω, 1 Ω of cable, and at its end a current I and a resistance R, each with 10 % more load:
 * V = (V₀ − 2 I) / (1 + 2/R).
 */
const CURRENT = { light: 5.5, nominal: 11, peak: 22 } as const;
const OHMS = { light: 40, nominal: 20, peak: 10 } as const;
const VOLTS = { lowest: 90, nominal: 100, highest: 110 } as const;

function byHand(
  loads: (typeof LOADS)[number],
  supply: (typeof SUPPLIES)[number],
) {
  const [open, amperes, ohms] = [VOLTS[supply], CURRENT[loads], OHMS[loads]];
  const end = (open - 2 * amperes) / (1 + 2 / ohms);
  const current = amperes + end / ohms;
  const margin = Math.min((end - 40) / 40, (120 - end) / 120);
  return {
    open,
    end,
    supplyPower: open * current,
    loss: 2 * current ** 2,
    loadPower: end * current,
    runLoss: current ** 2,
    margin,
  };
}

describe("the blank budget with a small feed typed into it", () => {
  let budget: OpenBudget;
  beforeAll(async () => {
    budget = await openBudget(blank);
    for (const [label, content] of REQUIREMENTS)
      await enter(budget, label, content);
    await type(budget, 0, {
      item: "Bus",
      kind: "supply",
      voltage: 100,
      resistance: 1,
      lowest: 90,
      highest: 110,
      mass: 2,
    });
    // A row is left empty on purpose.
    await type(budget, 2, {
      item: "Cable",
      fedFrom: "Bus",
      kind: "run",
      resistance: 1,
      rated: 50,
      mass: 3,
      cost: 40,
    });
    const window = { lowest: 40, highest: 120 };
    await type(budget, 3, {
      item: "Winch",
      fedFrom: "Cable",
      kind: "current load",
      lightBefore: 5,
      loadBefore: 10,
      peakBefore: 20,
      ...window,
    });
    await type(budget, 5, {
      item: "Heater",
      fedFrom: "Cable",
      kind: "resistance load",
      lightBefore: 44,
      loadBefore: 22,
      peakBefore: 11,
      ...window,
    });
  }, 120_000);
  afterAll(() => budget.workbook.dispose());

  it("agrees with the figures by hand in every row and in the balance", () => {
    const { supplyPower, loss, loadPower, end } = byHand("nominal", "nominal");
    near(budget.balance("Supply voltage, open circuit"), 100);
    near(budget.balance("Supply power"), supplyPower, "supply");
    near(budget.balance("All loads"), loadPower, "loads");
    near(budget.balance("All losses, given off as heat"), loss, "loss");
    assert.equal(budget.balance("Closing check"), "✔ closes");
    near(budget.balance("Mass of cables and stages"), 5);
    near(budget.balance("Cost of cables and stages"), 40);
    const shown = budget
      .rows("Budget")
      .filter(([item]) => item === "Winch" || item === "Heater");
    // In the results, the feed table and the solved rows.
    assert.equal(shown.length, 6);
    for (const row of shown.slice(0, 2)) near(row[3], end, String(row[0]));
  });

  it("has the cases that nine calculations by hand give, and the worst of them", () => {
    const cases = budget.table("Cases", "Case", "Supply voltage (V)");
    assert.equal(cases.length, 9);
    for (const supply of SUPPLIES)
      for (const loads of LOADS) {
        const name = `supply ${supply}, loads ${loads}`;
        const found = cases.find((one) => one["Case"] === name);
        const hand = byHand(loads, supply);
        near(found?.["Supply voltage (V)"], hand.open, name);
        near(found?.["Supply power (W)"], hand.supplyPower, name);
        near(found?.["All loads (W)"], hand.loadPower, name);
        near(found?.["All losses (W)"], hand.loss, name);
        near(found?.["Efficiency"], hand.loadPower / hand.supplyPower, name);
        near(found?.["Lowest margin"], hand.margin, name);
      }
    const worst = budget.table("Cases", "Figure", "Worst");
    const { loss, margin } = byHand("peak", "lowest");
    near(worst[2]?.["Worst"], byHand("peak", "highest").loss);
    assert.ok(byHand("peak", "highest").loss > loss);
    assert.equal(worst[2]?.["In the case"], "supply highest, loads peak");
    near(worst[4]?.["Worst"], margin);
    assert.equal(worst[4]?.["In the case"], "supply lowest, loads peak");
  });

  it("judges the bands of the typed rows and leaves the others empty", () => {
    const bands = budget
      .table("Bands", "Item", "In service V")
      .filter(({ Item }) => Item !== "");
    assert.deepEqual(
      bands.map(({ Item }) => Item),
      ["Bus", "Cable", "Winch", "Heater"],
    );
    for (const band of bands) assert.equal(band["In service V"], 110);
  });

  it("solves a day of two periods, and gives its heat by item", async () => {
    await enter(budget, "Hours", 10, "B");
    await enter(budget, "Loads in that time", "light", "B");
    await enter(budget, "Hours", 14, "C");
    await enter(budget, "Supply voltage in that time", "highest", "C");
    const night = byHand("light", "nominal");
    const day = byHand("nominal", "highest");
    const rows = budget.table("Day", "Period", "Hours (h)");
    near(rows[0]?.["Energy lost (kWh)"], night.loss / 100);
    near(rows[3]?.["Hours (h)"], 24);
    near(
      rows[3]?.["Energy to the loads (kWh)"],
      (night.loadPower * 10 + day.loadPower * 14) / 1000,
    );
    near(
      rows[3]?.["Energy lost (kWh)"],
      (night.loss * 10 + day.loss * 14) / 1000,
    );
    assert.equal(
      budget.workbook.value("Day", "A4"),
      "✔ The periods come to 24 h.",
    );
    const heat = budget
      .rows("Day")
      .find(([item, kind]) => item === "Cable" && kind === "run");
    near(heat?.[2], night.runLoss);
    near(heat?.[3], day.runLoss);
    near(heat?.[5], (night.runLoss * 10 + day.runLoss * 14) / 24);
    near(heat?.[6], day.runLoss);
    assert.equal(heat?.[7], "period 2");
    near(heat?.[8], night.runLoss * 10 + day.runLoss * 14);
    noErrors(budget);
  });

  it("forgets a row that is emptied", async () => {
    for (const [column, { key }] of typedColumns.entries()) {
      if (["lightLoad", "load", "peakLoad"].includes(key)) continue;
      const at = `${columnLetters(column)}${feedHead(budget) + 1 + 5}`;
      if (budget.workbook.value("Budget", at) !== "")
        await budget.workbook.clear("Budget", at);
    }
    // 11 A through 2 Ω.
    near(budget.balance("All losses, given off as heat"), 242);
    near(budget.balance("All loads"), 11 * 78);
    assert.equal(budget.balance("Closing check"), "✔ closes");
    noErrors(budget);
  });

  it("shows its warnings as any other budget does", () => {
    const found = warningsOf(budget.found());
    assert.ok(found.every(({ id }) => id !== "unfinished"));
    assert.ok(found.some(({ item }) => item === "Bus"));
  });
});

describe("the blank budget with the ferry's feed typed into it", () => {
  let one: OpenBudget;
  let other: OpenBudget;
  beforeAll(async () => {
    other = await openBudget(ferry);
    one = await openBudget(blank);
    for (const label of REQUIREMENTS.map(([name]) => name))
      await enter(one, label, other.read(label) as string | number);
    await enter(one, "Place where people can touch", "dry");
    const margin = Number(other.read(REQUIREMENTS[1]![0]));
    for (const [place, row] of other
      .table("Budget", "Item", "Fed from")
      .entries())
      await type(one, place, typedRow(row, margin));
  }, 240_000);
  afterAll(() => {
    one.workbook.dispose();
    other.workbook.dispose();
  });

  const TYPED_AS: Readonly<Record<string, string>> = {
    "Light load (W)": "lightBefore",
    "Load (W)": "loadBefore",
    "Peak load (W)": "peakBefore",
  };

  function typedRow(
    row: Readonly<Record<string, unknown>>,
    margin: number,
  ): Row {
    const typed: Record<string, string | number> = {};
    for (const [heading, value] of Object.entries(row)) {
      if (value === "") continue;
      const load = TYPED_AS[heading];
      if (load !== undefined) typed[load] = Number(value) / (1 + margin);
      else {
        const key = typedColumns.find((c) => c.heading === heading)?.key;
        assert.ok(key !== undefined, heading);
        typed[key] = value as string | number;
      }
    }
    return typed;
  }

  function assertSame(sheet: string, first: string, second: string) {
    const [mine, theirs] = [one, other].map((budget) =>
      budget.table(sheet, first, second),
    );
    assert.ok(theirs!.length > 0);
    theirs!.forEach((row, index) => {
      for (const [heading, value] of Object.entries(row)) {
        // Mass and cost were not typed.
        if (/^(Mass|Cost)/.test(heading)) continue;
        // The same in several cases but for rounding.
        if (row["Figure"] === "Highest load power" && heading !== "Worst")
          continue;
        const found = mine![index]?.[heading];
        const what = `${sheet}, ${String(row[first])}, ${heading}`;
        if (typeof value === "number") near(found, value, what);
        else assert.equal(found, value, what);
      }
    });
  }

  it("has the same results, bands, cases and worst case", () => {
    assertSame("Budget", "Item", "Check");
    assertSame("Bands", "Item", "In service V");
    assertSame("Cases", "Case", "Supply voltage (V)");
    assertSame("Cases", "Figure", "Worst");
    assertSame("Cases", "Figure", "Value");
    assertSame("Cases", "Item", "Lowest input V");
    for (const label of ["Supply power", "All loads", "Closing check"]) {
      const expected = other.balance(label);
      if (typeof expected === "number") near(one.balance(label), expected);
      else assert.equal(one.balance(label), expected);
    }
  });
});
