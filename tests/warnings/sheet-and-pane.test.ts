/** A budget's own Check cells and the pane's warnings flag the same rows, whatever is typed into the inputs. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgets } from "../../src/budget/budgets.js";
import type { Warning } from "../../src/warnings/warning.js";
import { warningsOf } from "../../src/warnings/warnings.js";
import { type OpenBudget, openBudget } from "../budget/open-budget.js";

/** Small linear congruential generator: the same inputs on every run. */
function drawer(seed: number) {
  let state = seed;
  return <T>(choices: readonly T[]): T => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return choices[Math.floor((state / 2 ** 32) * choices.length)]!;
  };
}

/** Label, which of its values, and what is typed there. */
const TYPED: readonly (readonly [
  string,
  number,
  readonly (string | number)[],
])[] = [
  ["Loads", 0, ["light", "nominal", "peak"]],
  ["Supply voltage", 0, ["lowest", "nominal", "highest"]],
  [
    "Framework of the voltage bands",
    0,
    ["IEC 62368-1", "IEC 60364-4-41", "ISO 6469-3", "US workplace"],
  ],
  ["Place where people can touch", 0, ["dry", "wet", "dry"]],
  ["Largest drop of a run", 0, [0.01, 0.03, 0.05, 0.1]],
  ["Largest loading of anything with a rating", 0, [0.5, 0.8, 1]],
  ["Valley bus, open circuit", 2, [440, 475, 520]],
  ["Route length, one way", 0, [100, 350, 900, 1500, 4000]],
  ["Steps the voltage down by", 0, [6, 7, 8, 9, 10, 12]],
  ["Highest input", 0, [400, 460, 500]],
  ["Tolerance of the ratio", 0, [0.01, 0.02, 0.05]],
  ["Isolation, input to output", 0, ["reinforced", "basic", "none"]],
  ["Output stopped at, regulation lost", 0, [28, 70]],
  ["Dome and mount drives", 1, [400, 960, 2500]],
  ["5 V connector, both poles", 0, [0.005, 0.05]],
];

const SYMBOLS: Readonly<Record<string, string>> = {
  "✔": "nothing",
  "●": "note",
  "▲": "warning",
  "◇": "undetermined",
  "✖": "danger",
};

let budget: OpenBudget;
beforeAll(async () => {
  budget = await openBudget(budgets[0]!);
});
afterAll(() => budget.workbook.dispose());

/** The worst of an item's warnings, in the words of the symbols. */
function worst(warnings: readonly Warning[]): string {
  for (const severity of ["danger", "warning", "note"] as const) {
    const found = warnings.find((warning) => warning.severity === severity);
    if (!found) continue;
    return found.id.startsWith("band-undetermined") ? "undetermined" : severity;
  }
  return "nothing";
}

function shown(sheet: string): ReadonlyMap<string, string> {
  return new Map(
    budget
      .table(sheet, "Item", "Check")
      .map(({ Item, Check }) => [
        String(Item),
        SYMBOLS[String(Check).slice(0, 1)] ?? `? ${JSON.stringify(Check)}`,
      ]),
  );
}

describe("sheet and pane", () => {
  it("flag the same rows over drawn inputs, and every kind of row is among them", async () => {
    const draw = drawer(2026);
    const seen = { Budget: new Set<string>(), Bands: new Set<string>() };
    for (let round = 0; round < 40; round += 1) {
      for (let count = 0; count < 3; count += 1) {
        const [label, value, choices] = draw(TYPED);
        const content = draw(choices);
        if (budget.read(label, value) !== content)
          await budget.enter(label, content, value);
      }
      const warnings = warningsOf(budget.found());
      for (const sheet of ["Budget", "Bands"] as const) {
        for (const [item, symbol] of shown(sheet)) {
          const own = warnings.filter(
            (warning) =>
              warning.item === item &&
              warning.id.startsWith("band-") === (sheet === "Bands"),
          );
          assert.equal(symbol, worst(own), `${sheet}, ${item}, ${round}`);
          seen[sheet].add(symbol);
        }
      }
      const counted = [...shown("Budget").values()].filter(
        (symbol) => symbol !== "nothing" && symbol !== "note",
      ).length;
      assert.equal(budget.balance("Rows with a warning below"), counted);
    }
    assert.deepEqual([...seen.Budget].sort(), [
      "danger",
      "note",
      "nothing",
      "warning",
    ]);
    assert.deepEqual([...seen.Bands].sort(), [
      "danger",
      "nothing",
      "undetermined",
      "warning",
    ]);
  }, 90_000);

  it("agree on the closing check, also where nothing is solved", async () => {
    for (const length of [100, 50_000]) {
      await budget.enter("Route length, one way", length);
      const closes = !warningsOf(budget.found()).some(({ id }) =>
        id.startsWith("closing"),
      );
      assert.equal(budget.balance("Closing check") === "✔ closes", closes);
    }
  });

  it("point to cells that show what the warnings say", () => {
    const found = warningsOf(budget.found());
    assert.ok(found.length > 10);
    for (const { at, value, unit } of found) {
      if (value === undefined || unit !== "V") continue;
      assert.equal(budget.workbook.value(at.sheet, at.address), value);
    }
  });
});
