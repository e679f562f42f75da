/** A candidate inserted as a budget, calculated by the workbench's engine with the real cell functions. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { tradeSearch } from "../../src/tradeoffs/trade-search.js";
import { tradeCandidate } from "../../src/tradeoffs/trade-space.js";
import { warningsOf } from "../../taskpane/budgets/warnings/warnings.js";
import { candidatePlan } from "../../taskpane/tradeoffs/candidate-sample.js";
import {
  startTexts,
  tradeRequest,
} from "../../taskpane/tradeoffs/trade-fields.js";
import { type OpenBudget, openBudget } from "../budgets/open-budget.js";

/** Three places of the front, its ends and its middle. */
function chosenFrom(texts: readonly (readonly [string, string])[]) {
  const request = tradeRequest(new Map([...startTexts, ...texts]));
  const search = tradeSearch(request);
  search.advance(Infinity);
  const { front } = search.findings();
  assert.ok(front.length >= 3);
  return [front[0]!, front[front.length >> 1]!, front.at(-1)!].map((point) => ({
    request,
    point,
    candidate: tradeCandidate(search.space, point.index),
  }));
}

/** Only one workbook calculates at a time, so it is put away whatever happens. */
async function inBudget(
  { request, candidate }: ReturnType<typeof chosenFrom>[number],
  look: (budget: OpenBudget) => unknown,
): Promise<void> {
  const place = { framework: "IEC 62368-1", condition: "dry" } as const;
  const plan = candidatePlan(request, candidate, place, "A candidate");
  const budget = await openBudget(plan);
  try {
    await look(budget);
  } finally {
    budget.workbook.dispose();
  }
}

function near(actual: unknown, expected: number, what: string) {
  assert.ok(
    Math.abs(Number(actual) - expected) <= 1e-9 * Math.abs(expected),
    `${what}: ${String(actual)} is not ${expected}`,
  );
}

const SEARCHES = {
  "one stage": [["stages", "1"]],
  "two stages in line, exact to their ratio": [
    ["stages", "2"],
    ["mostSteps", "8"],
    ["tolerance", "0"],
  ],
  "aluminium and class 5 copper of other insulation": [
    ["build", "class 1"],
    ["aluminiumSizes", "10 16 25"],
    ["sizes", "1.5"],
    ["insulation", "XLPE"],
    ["hot", "90"],
  ],
} as const;

for (const [what, texts] of Object.entries(SEARCHES))
  describe(`budgets of ${what}`, () => {
    for (const chosen of chosenFrom(texts)) {
      const { point, candidate } = chosen;
      const { arrangement, cable, supply } = candidate;
      it(`solve to what the search found: ${supply.voltage} V, ${cable.size}, ${arrangement.join(" and ")} to 1`, () =>
        inBudget(chosen, (budget) => {
          const { loss, mass, cost } = point;
          near(budget.balance("All losses, given off as heat"), loss, "loss");
          near(budget.balance("Mass of cables and stages"), mass, "mass");
          assert.equal(budget.balance("Closing check"), "✔ closes");
          const answers = budget.table("Answers", "Figure", "Value");
          const total = answers.find(({ Figure }) => Figure === "Together");
          near(total?.["Value"], cost, "cost");
          const feed = budget.table("Budget", "Item", "Fed from");
          const run = feed.find(({ Item }) => Item === "Cable");
          near(run?.["Rated A"], cable.ampacity, "rated current");
          for (const { Figure, "By hand": byHand, Solved } of budget.table(
            "Budget",
            "Figure",
            "By hand",
          ))
            near(byHand, Number(Solved), String(Figure));
        }));
    }
  });

describe("the budget of a candidate", () => {
  const [chosen] = chosenFrom([]);
  assert.ok(chosen);

  it("keeps at peak load on the lowest supply what the search held there", () =>
    inBudget(chosen, async (budget) => {
      await budget.enter("Loads", "peak");
      await budget.enter("Supply voltage", "lowest");
      assert.equal(budget.balance("Rows with a warning below"), 0);
      assert.equal(budget.balance("Closing check"), "✔ closes");
    }));

  it("warns of a fault while no isolation is entered, and no more when it is reinforced", () =>
    inBudget(chosen, async (budget) => {
      const dangers = () =>
        warningsOf(budget.found()).filter(
          ({ severity, text }) => severity === "danger" && /fault/.test(text),
        );
      assert.ok(dangers().length > 0);
      await budget.enter("Isolation, input to output", "reinforced");
      assert.deepEqual(dangers(), []);
    }));
});
