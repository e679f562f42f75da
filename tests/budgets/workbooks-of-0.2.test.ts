/**
 * Workbooks that 0.2 wrote, opened now: they keep calculating, with its numbers unless a rule has changed since. Not a
 * proof that a number is right: that is held against sources and other engines elsewhere.
 */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { type Change, changesSince02 } from "./changes-since-0.2.js";
import { type FrozenWorkbooks, thawedPlans } from "./frozen-release.js";
import {
  type Case,
  type CaseFigures,
  CASES,
  type Figure,
  figuresInCases,
} from "./numbers-by-label.js";
import { openBudget } from "./open-budget.js";
import numbersOf02 from "./numbers-of-0.2.json" with { type: "json" };
import workbooksOf02 from "./workbooks-of-0.2.json" with { type: "json" };

const frozen = numbersOf02 as unknown as Readonly<Record<string, CaseFigures>>;
const workbooks = workbooksOf02 as unknown as FrozenWorkbooks;

/** Solving a budget nine times over takes its time. */
const LONGEST_MS = 180_000;

interface Difference {
  readonly budget: string;
  readonly figure: string;
  readonly told: string;
}

/** Changes that were met, so that one that explains nothing is found. */
const met = new Set<Change>();

/** As it is written, and where the feed is strained most. */
const TWO_CASES = CASES.filter(
  ({ loads, supply }) =>
    `${loads} ${supply}` === "nominal nominal" || `${loads} ${supply}` === "peak lowest",
);

describe("budgets as 0.2 wrote them, opened now, in two cases", () => {
  it.each(thawedPlans(workbooks).map((plan) => [plan.id, plan] as const))(
    "have the numbers of 0.2: %s",
    async (_, plan) => {
      const differences = await differencesFrom02(plan, TWO_CASES);
      const unexpected = differences.filter(({ budget, figure }) => {
        const change = changesSince02.find(
          ({ budgets, figures, shows }) =>
            shows === "in both" && (budgets?.includes(budget) ?? true) && figures.test(figure),
        );
        if (change) met.add(change);
        return change === undefined;
      });
      const told = unexpected.map(({ figure, told }) => `${figure}: ${told}`);
      assert.deepEqual(told, []);
    },
    LONGEST_MS,
  );
});

it("each change that is told of changes a number", () => {
  const idle = changesSince02.filter((change) => change.shows === "in both" && !met.has(change));
  assert.deepEqual(
    idle.map(({ reason }) => reason),
    [],
  );
});

it("0.2 had numbers in all of them", () => {
  assert.deepEqual(
    Object.entries(frozen).map(([id, figures]) => [id, Object.keys(figures).length]),
    [
      ["ridge-top-observatory", 652],
      ["harbour-survey-crawler", 503],
      ["river-ferry-hotel-loads", 820],
      ["blank-budget", 22],
      ["filled-blank", 241],
    ],
  );
});

/** A figure that is new since is none: nothing that 0.2 said has changed by it. */
async function differencesFrom02(
  plan: WorkbookPlan,
  cases: readonly Case[],
): Promise<Difference[]> {
  const before = frozen[plan.id];
  assert.ok(before, `nothing is kept of ${plan.id}`);
  const budget = await openBudget(plan);
  try {
    const solved = await figuresInCases(budget, cases);
    return Object.entries(before).flatMap(([figure, kept]) => {
      // The first case in which the two differ tells enough.
      for (const [index, of] of cases.entries()) {
        const old = typeof kept === "object" ? kept[CASES.indexOf(of)]! : kept;
        const now = solved[index]?.[figure] ?? "none";
        if (areEqual(figure, old, now)) continue;
        const told = `${old} → ${now} (loads ${of.loads}, supply ${of.supply})`;
        return [{ budget: plan.id, figure, told }];
      }
      return [];
    });
  } finally {
    budget.workbook.dispose();
  }
}

/** What is left of a difference of nearly equal numbers is rounding, in W, V or A. */
const RESIDUE = /› (Closing error|Difference)( |$)/;

function areEqual(figure: string, old: Figure, now: Figure): boolean {
  if (typeof old === "string" || typeof now === "string") return old === now;
  const apart = Math.abs(old - now);
  return RESIDUE.test(figure)
    ? apart <= 1e-8
    : apart <= 1e-12 * Math.max(Math.abs(old), Math.abs(now));
}
