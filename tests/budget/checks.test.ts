/** The checks of the worked budgets, beside figures found by hand from their invented inputs. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgets } from "../../src/budget/budgets.js";
import { CHECK_KINDS } from "../../src/warnings/check-kinds.js";
import { warningsOf } from "../../src/warnings/warnings.js";
import { type OpenBudget, openBudget } from "./open-budget.js";

const opened = new Map<string, OpenBudget>();
beforeAll(async () => {
  for (const plan of budgets) opened.set(plan.stem, await openBudget(plan));
}, 60_000);
afterAll(() => {
  for (const { workbook } of opened.values()) workbook.dispose();
});

function found(stem: string, check: string): number {
  const row = opened
    .get(stem)
    ?.table("Checks", "Item", "Check")
    .find((one) => one["Check"] === check);
  assert.equal(typeof row?.["Found"], "number", check);
  return Number(row?.["Found"]);
}

function near(value: number, byHand: number, share: number): void {
  assert.ok(
    Math.abs(value - byHand) <= share * byHand,
    `${value}, by hand ${byHand}`,
  );
}

describe("the ridge-top observatory's checks", () => {
  // 4.61 Ω/km · 0.7 km · (1 + 0.00393 · 20) = 3.4806 Ω; with 0.3 and 0.02 Ω, 360/3.8006.
  it("find the current of a far-end fault", () => {
    near(found("Ridge", "Far-end fault blows the fuse"), 94.72, 1e-4);
  });

  // k = 226 · √ln(1 + (160 − 40)/(234.5 + 40)) = 136.1 A√s/mm² (IEC 60364-5-54 annex A); (136.1 · 4/1375)² s.
  it("find how long the cable withstands 440 V across 0.32 Ω", () => {
    near(found("Ridge", "Cable withstands a fault"), 0.1568, 5e-3);
  });

  // 6800 Ω · 330 µF · ln(440/60); ½ · 330 µF · 440².
  it("find discharge time and stored energy", () => {
    near(found("Ridge", "Discharge time"), 4.471, 1e-4);
    near(found("Ridge", "Stored energy"), 31.944, 1e-9);
  });

  // 360²/(4 · 3.8006) = 8525 W at the stage at most, at the pole between resistance and load.
  it("find a headroom that the largest power of supply and cable allows", () => {
    const budget = opened.get("Ridge");
    const stages = Number(budget?.balance("All loads"));
    const times = found("Ridge", "Headroom to collapse");
    assert.ok(times * stages < 8525, "above what the path can carry");
    assert.ok(times * stages > 0.6 * 8525, "far below what it can carry");
  });

  it("are one warning: what is stored is hazardous", () => {
    const budget = opened.get("Ridge");
    assert.ok(budget);
    const checks = warningsOf(budget.found()).filter(({ id }) =>
      id.startsWith("check "),
    );
    assert.deepEqual(
      checks.map(({ id }) => id),
      ["check Stored energy Summit stage"],
    );
    assert.match(checks[0]?.remedy ?? "", /verify by measurement/);
  });
});

describe("the crawler's checks", () => {
  // Of two units of 30 mΩ ± 10 %, 0.2 % apart in ratio: below the whole current, above its half.
  it("load the worst unit by more than its half, and the one left by all", () => {
    const [share, alone] = [
      found("Crawler", "Share of the worst unit"),
      found("Crawler", "One unit lost"),
    ];
    assert.ok(share > alone / 2 && share < alone);
  });

  // The supply gives 30 A into any fault, less than 840 V/0.46 Ω and than 760 V over all of the umbilical.
  it("hold the supply's limit for the current of a fault", () => {
    assert.equal(found("Crawler", "Far-end fault blows the fuse"), 30);
  });
});

describe("every budget's checks", () => {
  it("are of kinds that the pane knows, and none is without a number", () => {
    for (const [stem, budget] of opened) {
      const rows = budget.table("Checks", "Item", "Check");
      assert.ok(rows.length > 0, stem);
      for (const { Check, Found, Verdict } of rows) {
        assert.ok(Object.hasOwn(CHECK_KINDS, String(Check)), String(Check));
        if (Found !== "" && Found !== "–")
          assert.equal(typeof Found, "number", `${stem}, ${String(Check)}`);
        assert.doesNotMatch(String(Verdict), /not worked out/);
      }
    }
  });
});
