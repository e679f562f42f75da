/** Rules that every worked budget keeps, before anything is calculated. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import {
  plainHeader,
  FEED_COLUMNS,
} from "../../functions/reading/feed-columns.js";
import { SOLVED_COLUMNS } from "../../functions/families/chain.js";
import { feedColumns, solvedColumns } from "../../src/budget/budget-columns.js";
import { budgetPlan } from "../../src/budget/budget-sheets.js";
import type { BudgetScenario } from "../../src/budget/budget-scenario.js";
import { budgets } from "../../src/budget/budgets.js";
import { ridgeTopObservatory } from "../../src/budget/ridge-top-observatory.js";
import { areaPlace, cellPlace } from "../../src/plans/addresses.js";
import { planFaults } from "../../src/plans/plan-faults.js";
import { candidateShapes } from "../../taskpane/tradeoffs/candidate-shapes.js";
import {
  callFaults,
  lengthFaults,
  nativeFaults,
  spareFaults,
  typedNumbers,
} from "../plans/plan-rules.js";

const candidates = candidateShapes.map(
  (plan, index) => [`${plan.title}, stages ${index + 1}`, plan] as const,
);

/** Sheets only of a scenario that has a day, or is asked something beside its budget. */
const WHERE_ASKED = new Set(["Answers", "Day"]);

describe.each([
  ...budgets.map((plan) => [plan.title, plan] as const),
  ...candidates,
])("%s", (_, plan) => {
  it("can be written by every host", () => {
    assert.deepEqual(planFaults(plan), []);
  });

  it("calls cell functions as the catalogue has them, and plain native ones", () => {
    assert.deepEqual(callFaults(plan), []);
    assert.deepEqual(nativeFaults(plan), []);
  });

  it("leaves room below its spill and keeps to the lengths of Excel", () => {
    assert.deepEqual(spareFaults(plan), []);
    assert.deepEqual(lengthFaults(plan), []);
  });

  it("types numbers into inputs only", () => {
    assert.deepEqual(typedNumbers(plan), []);
  });

  it("solves once, and once for each period of its day", () => {
    for (const { key, cells } of plan.sheets) {
      const solves = cells.filter(({ formula }) =>
        formula?.includes("CHAIN_SOLVE("),
      );
      const expected = key === "budget" ? 1 : key === "day" ? 3 : 0;
      assert.equal(solves.length, expected, key);
    }
  });

  it("has the sheets and names that a budget is found by", () => {
    assert.deepEqual(
      plan.sheets
        .map(({ name }) => name)
        .filter((name) => !WHERE_ASKED.has(name)),
      ["Inputs", "Budget", "Bands", "Cases", "Checks", "Notes"],
    );
    assert.deepEqual(
      plan.names
        .map(({ name }) => name)
        .filter((name) => !WHERE_ASKED.has(name)),
      [
        "Feed",
        "Solved",
        "Bands",
        "Cases",
        "Closing",
        "Limits",
        "Checks",
        "Accepted",
        "About",
      ],
    );
  });

  it("uses every input", () => {
    const formulas = plan.sheets
      .flatMap(({ cells }) => cells)
      .map(({ formula }) => formula ?? "")
      .join(" ");
    // A cell by itself, or within a range.
    const named = /\{inputs\}!(\$[A-Z]+\$\d+(?::\$[A-Z]+\$\d+)?)/g;
    const used = [...formulas.matchAll(named)].map(([, address = ""]) =>
      areaPlace(address.replaceAll("$", "")),
    );
    const [inputs] = plan.sheets;
    const unused = (inputs?.cells ?? [])
      .filter(({ style }) => style === "input" || style === "inputText")
      .map(({ at }) => at)
      .filter((at) => {
        const { row, column } = cellPlace(at);
        return !used.some(
          ({ top, left, bottom, right }) =>
            row >= top && row <= bottom && column >= left && column <= right,
        );
      });
    assert.deepEqual(unused, []);
  });

  it("checks every number that is typed into an input", () => {
    const [inputs] = plan.sheets;
    const unchecked = (inputs?.cells ?? [])
      .filter(({ style }) => style === "input")
      .filter(({ at }) => {
        const { row, column } = cellPlace(at);
        return !inputs?.validations
          .map(({ area }) => areaPlace(area))
          .some(
            ({ top, left, bottom, right }) =>
              row >= top && row <= bottom && column >= left && column <= right,
          );
      });
    assert.deepEqual(unchecked, []);
  });

  it("says that its data are invented, or whose they are, and calls nothing safe", () => {
    const texts = plan.sheets.flatMap(({ cells }) =>
      cells.map(({ value }) => String(value ?? "")),
    );
    const told = texts.filter((text) =>
      /All data invented for this example|Figures as entered in the trade-off/.test(
        text,
      ),
    );
    // The blank budget has none of its own.
    if (plan.id === "blank-budget") assert.deepEqual(told, []);
    else assert.ok(told.length >= 3);
    for (const text of texts)
      assert.doesNotMatch(text, /\bis safe\b|\bis SELV\b/i);
  });
});

describe("the columns of a budget", () => {
  it("are all that a feed table knows, with headings that it reads", () => {
    assert.deepEqual(
      feedColumns.map(({ heading }) => plainHeader(heading)).sort(),
      Object.values(FEED_COLUMNS).map(plainHeader).sort(),
    );
  });

  it("are those that CHAIN_SOLVE spills, in its order", () => {
    assert.deepEqual(
      solvedColumns.map(({ heading }) => heading),
      SOLVED_COLUMNS,
    );
  });

  it("are all used by the feed of the ridge-top observatory", () => {
    const plan = budgetPlan(ridgeTopObservatory);
    const cells = plan.sheets.find(({ key }) => key === "budget")?.cells ?? [];
    const head = cells.find(({ value }) => value === "Fed from");
    const row = Number(head?.at.slice(1));
    feedColumns.forEach(({ heading }, column) => {
      const letter = String.fromCharCode(65 + column);
      const filled = cells.filter(
        ({ at, value, formula }) =>
          at.startsWith(letter) &&
          Number(at.slice(1)) > row &&
          Number(at.slice(1)) <= row + 13 &&
          (value !== undefined || formula !== undefined),
      );
      assert.ok(filled.length > 0, heading);
    });
  });
});

describe("budgetPlan", () => {
  it("makes another budget of another scenario", () => {
    const two: BudgetScenario = {
      ...ridgeTopObservatory,
      id: "two-items",
      feed: (reach) => ridgeTopObservatory.feed(reach).slice(0, 2),
      handChecks: () => [],
      checks: () => [],
    };
    const plan = budgetPlan(two);
    assert.deepEqual(planFaults(plan), []);
    assert.deepEqual(spareFaults(plan), []);
    assert.equal(plan.id, "two-items");
  });

  it("refuses a feed that asks for an input that the scenario does not have", () => {
    const wrong: BudgetScenario = {
      ...ridgeTopObservatory,
      feed: ({ given }) => [
        { item: "Bus", kind: "supply", figures: { voltage: given("nothing") } },
      ],
    };
    assert.throws(() => budgetPlan(wrong), /has no input nothing/);
  });
});
