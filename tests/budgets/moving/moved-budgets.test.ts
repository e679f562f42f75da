/** Budgets that 0.2 wrote, moved into schedules: the solved feed is the same, and what was left behind is told. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { cellPlace } from "../../../src/plans/addresses.js";
import { planFaults } from "../../../src/plans/plan-faults.js";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { movedBudget } from "../../../taskpane/budgets/moving/moved-budget.js";
import type { OldSheet } from "../../../taskpane/budgets/moving/old-inputs.js";
import type { HostValue } from "../../../taskpane/hosts/host.js";
import { thawedPlan } from "../frozen-plan.js";
import { type FrozenWorkbooks, thawedPlans } from "../frozen-release.js";
import { type OpenBudget, openBudget } from "../open-budget.js";
import workbooksOf02 from "../workbooks-of-0.2.json" with { type: "json" };

const workbooks = workbooksOf02 as unknown as FrozenWorkbooks;
const LONGEST_MS = 180_000;

const UMBILICAL = "Inputs: Umbilical from quay to crawler";
const DATASHEET = "Inputs: Datasheet of the sonar's stage";
const HEAT = "Inputs: How warm that cable gets, Its insulation lasts up to";
const DIAMETER = "Inputs: Charge, discharge and stability, Diameter of one conductor";
const ANSWERS = "Answers: its own questions; they stay on the old sheets";

const LOST: Readonly<Record<string, readonly string[]>> = {
  "ridge-top-observatory": [`${HEAT}: 70 °C (D44)`, `${DIAMETER}: 2.55 mm (D74)`],
  "harbour-survey-crawler": [
    "Deck fuse and slip ring: its fuse is rated 6.3 A; give it a row of its own",
    `${UMBILICAL}, Mass of all that is not power conductor: 0.115 kg/m (D36)`,
    `${UMBILICAL}, Outer diameter: 12.5 mm (D38)`,
    `${UMBILICAL}, Speed of the water across it: 0.4 m/s (D39)`,
    `${UMBILICAL}, Drag factor of a cylinder: 1.2 (D40)`,
    `${UMBILICAL}, Density of sea water: 1025 kg/m³ (D41)`,
    `${HEAT}: 90 °C (D48)`,
    ...[0.9, 0.937, 0.953, 0.955, 0.954].flatMap((efficiency, at) => [
      `${DATASHEET}, Point ${at + 1}: ${efficiency} W, – (D${90 + at})`,
      `${DATASHEET}, Point ${at + 1}: ${[24, 48, 96, 144, 192][at]!} W, – (C${90 + at})`,
    ]),
    `${DIAMETER}: 1.6 mm (D103)`,
    ANSWERS,
  ],
  "river-ferry-hotel-loads": [
    "Inputs: Pack and its fuse, Discharge resistor, switched in when the contactor opens: 1600 Ω (D28)",
    `${HEAT}: 90 °C (D44)`,
    `${DIAMETER}: 2.6 mm (D60)`,
    "Inputs: Fixed-ratio stage in the hotel room, Another ratio to set beside it, steps down by: 14 to 1 (D67)",
    ANSWERS,
  ],
  "blank-budget": [],
  "typed by hand": [
    "Bus: 2 in parallel are one row, with their resistance and rating together",
    "Connectors: 2 in parallel are one row, with their resistance and rating together",
    "Tail: its length and size; its resistance is carried as a measured loop",
    "12 V: no loss was given, and 0 W is typed; enter its losses",
  ],
  "filled-blank": ["Cable: its length and size; its resistance is carried as a measured loop"],
};

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
  const [headings = [], ...rows] = found().ranges["Solved"]!.values;
  return rows
    .filter(([item]) => item !== "")
    .map((row) => Object.fromEntries(row.map((cell, at) => [String(headings[at]), cell])));
}

async function movedOf(budget: OpenBudget) {
  const moved = movedBudget(budget.found(), sheetsOf(budget));
  const plan = budgetPlan(moved.sample);
  assert.deepEqual(planFaults(plan), []);
  return { ...moved, budget: await openBudget(plan) };
}

/** Of every kind and in parallel, with and without figures that may be left out, as somebody typed them. */
const TYPED: readonly (readonly [
  name: string,
  cells: Readonly<Record<string, string | number>>,
])[] = [
  ["Bus", { C: "supply", D: 800, E: 0.6, N: 2, O: 760, P: 840, Q: 6 }],
  ["Connectors", { B: "Bus", C: "series", E: 0.04, N: 2, Q: 8, R: 0.5 }],
  ["Tail", { B: "Connectors", C: "run", E: 3, N: 3, Q: 9 }],
  ["Diode", { B: "Tail", C: "series", D: 0.8, Q: 20 }],
  ["Ratio", { B: "Diode", C: "ratio", E: 0.03, F: 1 / 16, G: 11, I: 0.05, N: 2, O: 620, P: 880 }],
  ["Lamps", { B: "Ratio", C: "current load", K: 1, L: 2, M: 3, N: 4, O: 36, P: 58, R: 0.1 }],
  ["Heater", { B: "Ratio", C: "resistance load", L: 12 }],
  ["12 V", { B: "Ratio", C: "regulated", D: 12, E: 0.01, O: 36, P: 60, Q: 20, R: 0.02, T: 14 }],
  ["Radio", { B: "12 V", C: "power load", K: 5, L: 20, M: 40, O: 11, P: 13 }],
];

const typedByHand = thawedPlan(
  workbooks.budgets.find(({ id }) => id === "blank-budget")!,
  {
    inputs: { D10: "ISO 6469-3", D12: 0.15, D13: 0.1, D14: 1, D15: 10, B25: 24 },
    budget: Object.fromEntries(
      TYPED.flatMap(([name, cells], at) =>
        Object.entries({ A: name, ...cells }).map(([column, value]) => [
          `${column}${38 + at}`,
          value,
        ]),
      ),
    ),
  },
);

const plans = [...thawedPlans(workbooks), { ...typedByHand, id: "typed by hand" }];

describe.each(plans.map((plan) => [plan.id, plan] as const))("%s of 0.2", (id, plan) => {
  it(
    "is solved to the same figures after it was moved",
    async () => {
      const old = await openBudget(plan);
      const before = id === "blank-budget" ? [] : solvedOf(old);
      const { budget, lost } = await movedOf(old);
      try {
        const after = new Map(solvedOf(budget).map((row) => [row["Item"], row]));
        assert.equal(after.size, id === "blank-budget" ? 1 : before.length);
        const apart = before.flatMap((row) => {
          const now = after.get(row["Item"]!);
          return Object.entries(row).flatMap(([heading, value]) => {
            if (heading === "Item" || heading === "Note") return [];
            const other = now?.[heading];
            const same =
              typeof value === "number" && typeof other === "number"
                ? Math.abs(value - other) <= 1e-12 * Math.max(Math.abs(value), Math.abs(other))
                : value === other;
            return same
              ? []
              : [`${String(row["Item"])} ${heading}: ${String(value)} → ${String(other)}`];
          });
        });
        assert.deepEqual(apart, []);
        assert.deepEqual(lost, LOST[id]);
        const notes = budget.rows("Notes").map(([text]) => text);
        for (const line of lost) assert.ok(notes.includes(`Not carried: ${line}.`), line);
      } finally {
        old.workbook.dispose();
        budget.workbook.dispose();
      }
    },
    LONGEST_MS,
  );
});
