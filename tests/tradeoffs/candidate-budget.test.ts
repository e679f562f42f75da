/** A candidate inserted as a budget, calculated by the workbench's engine with the real cell functions. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { tradeSearch } from "../../src/tradeoffs/trade-search.js";
import { tradeCandidate } from "../../src/tradeoffs/trade-space.js";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import { Places } from "../../taskpane/budgets/places.js";
import type { BudgetSample } from "../../taskpane/budgets/sample.js";
import { candidateSample } from "../../taskpane/tradeoffs/candidate-sample.js";
import { startTexts, tradeRequest } from "../../taskpane/tradeoffs/trade-fields.js";
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

type Chosen = Pick<ReturnType<typeof chosenFrom>[number], "request" | "candidate">;

function sampleOf({ request, candidate }: Chosen): BudgetSample {
  const place = { framework: "IEC 62368-1", condition: "dry" } as const;
  return candidateSample(request, candidate, place, "A candidate");
}

/** Only one workbook calculates at a time, so it is put away whatever happens. */
async function inBudget(chosen: Chosen, look: (budget: OpenBudget) => unknown): Promise<void> {
  const budget = await openBudget(budgetPlan(sampleOf(chosen)));
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
          near(budget.balance("Mass"), mass, "mass");
          const answers = budget.table("Answers", "Figure", "Value");
          const total = answers.find(({ Figure }) => Figure === "Together");
          near(total?.["Value"], cost, "cost");
          const feed = budget.table("Table", "Item", "Fed from");
          const run = feed.find(({ Item }) => Item === "Cable");
          near(run?.["Rated A"], cable.ampacity, "rated current");
        }));
    }
  });

describe("the budget of a candidate", () => {
  const [chosen] = chosenFrom([]);
  assert.ok(chosen);

  it("fails no check of what the search held, in any case", () =>
    inBudget(chosen, (budget) => {
      const held = ["Drop", "Loading", "Conductor temperature"];
      const checks = budget
        .table("Checks", "Item", "Check")
        .filter(({ Check }) => held.includes(String(Check)));
      assert.ok(checks.some(({ Verdict }) => Verdict === "holds"));
      assert.deepEqual(
        checks.filter(({ Verdict }) => Verdict === "fails"),
        [],
      );
    }));

  it("lets a fault bring the whole supply to the load while no isolation is entered, and no more when it is reinforced", () =>
    inBudget(chosen, async (budget) => {
      const faulted = () => {
        const bands = budget.table("Bands", "Item", "In service V");
        const load = bands.find(({ Item }) => Item === "Load");
        return Number(load?.["After one fault V"]);
      };
      const supplied = Math.max(
        ...budget
          .table("Table", "Item", "Fed from")
          .map((row) => Number(row["Highest V (V)"] ?? row["Highest V"])),
      );
      assert.equal(faulted(), supplied);
      const cell = new Places(sampleOf(chosen)).block("Stage").cell("Converter", "Isolation");
      await budget.workbook.set("Feed", cell.replace(/.*!|\$/g, ""), "reinforced");
      assert.ok(faulted() < supplied / 4);
    }));
});
