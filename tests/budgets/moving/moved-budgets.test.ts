/** Budgets that 0.2 wrote, moved into schedules: the solved feed is the same, and what was left behind is told. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { cellPlace } from "../../../src/plans/addresses.js";
import { planFaults } from "../../../src/plans/plan-faults.js";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { movedBudget } from "../../../taskpane/budgets/moving/moved-budget.js";
import type { OldSheet } from "../../../taskpane/budgets/moving/old-inputs.js";
import type { HostValue } from "../../../taskpane/hosts/host.js";
import { type FrozenWorkbooks, thawedPlans } from "../frozen-release.js";
import { type OpenBudget, openBudget } from "../open-budget.js";
import workbooksOf02 from "../workbooks-of-0.2.json" with { type: "json" };

const plans = thawedPlans(workbooksOf02 as unknown as FrozenWorkbooks);
const LONGEST_MS = 180_000;

/** Sheets as a host reads them. */
function sheetsOf({ plan, rows, workbook }: OpenBudget): OldSheet[] {
  return plan.sheets.map(({ name, cells }) => {
    const values = rows(name);
    const formulas = values.map((row) => row.map(() => ""));
    for (const { at, formula } of cells) {
      if (formula === undefined) continue;
      const { row, column } = cellPlace(at);
      formulas[row]![column] = workbook.formula(name, at);
    }
    return { name, values, formulas };
  });
}

type Solved = Readonly<Record<string, HostValue>>;

function solvedOf({ found }: OpenBudget): Solved[] {
  const [headings = [], ...rows] = found().areas["Solved"]!.values;
  return rows
    .filter(([item]) => item !== "")
    .map((row) => Object.fromEntries(row.map((cell, at) => [String(headings[at]), cell])));
}

async function movedOf(budget: OpenBudget) {
  const moved = movedBudget(budget.found(), budget.plan.title, sheetsOf(budget));
  const plan = budgetPlan(moved.sample);
  assert.deepEqual(planFaults(plan), []);
  return { ...moved, budget: await openBudget(plan) };
}

describe.each(plans.map((plan) => [plan.id, plan] as const))("%s of 0.2", (id, plan) => {
  it(
    "is solved to the same figures after it was moved",
    async () => {
      const old = await openBudget(plan);
      const before = id === "blank-budget" ? [] : solvedOf(old);
      const { budget, lost } = await movedOf(old);
      try {
        const after = new Map(solvedOf(budget).map((row) => [row["Item"], row]));
        assert.equal(after.size, before.length);
        const apart = before.flatMap((row) => {
          const now = after.get(row["Item"]!);
          return Object.entries(row).flatMap(([heading, value]) => {
            if (heading === "Item" || heading === "Note") return [];
            const other = now?.[heading];
            const same =
              typeof value === "number" && typeof other === "number"
                ? Math.abs(value - other) <= 1e-12 * Math.max(Math.abs(value), Math.abs(other))
                : value === other;
            return same ? [] : [`${String(row["Item"])} ${heading}: ${String(value)} → ${String(other)}`];
          });
        });
        assert.deepEqual(apart, []);
        console.log(lost, JSON.stringify(budget.found().areas["Feed"]?.values.slice(1).map((r) => [r[0], r.at(-1)])));
      } finally {
        old.workbook.dispose();
        budget.workbook.dispose();
      }
    },
    LONGEST_MS,
  );
});
