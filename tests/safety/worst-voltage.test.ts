import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { InputError } from "../../src/quantities/errors.js";
import { worstVoltage, worstVoltageSteps } from "../../src/safety/worst-voltage.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

// Figures by hand.
describe("worstVoltage", () => {
  it("440 V × 1/8 × 1.02 = 56.1 V; 706 V × 1/12 × 1.01 = 59.4 V", () => {
    assertPrinted(at(440, 1 / 8, 0.02), "56.1");
    assertPrinted(at(706, 1 / 12, 0.01), "59.4");
    assert.equal(at(440, 1 / 8, 0), 55);
  });

  // Computed, rounded down as a limit is: 60 V at 2 % leaves 58.8 V / ratio for the supply.
  it("keeps to 60 V at 2 % up to a supply of 470 V (1/8), 411 V (1/7) and 235 V (1/4), and no volt more", () => {
    for (const [ratio, highest] of [
      [1 / 8, 470],
      [1 / 7, 411],
      [1 / 4, 235],
    ] as const) {
      assert.ok(at(highest, ratio, 0.02) <= 60);
      assert.ok(at(highest + 1, ratio, 0.02) > 60);
    }
  });

  it("prints steps that an independent evaluator computes to the same numbers", () => {
    const path = { supplyHighest: 706, ratio: 1 / 12, tolerance: 0.01 };
    assertSteps(worstVoltageSteps, { ...path, ...worstVoltage(path) });
  });

  it("names field, value and bound of an impossible input", () => {
    assert.throws(() => at(0, 1, 0), new InputError("supplyHighest", 0, "above 0"));
    assert.throws(() => at(1, -1, 0), new InputError("ratio", -1, "above 0"));
    for (const tolerance of [-0.1, 1, 2, Number.NaN])
      assert.throws(
        () => at(1, 1, tolerance),
        new InputError("tolerance", tolerance, 'a fraction below 1 (0.02 for 2 %) or "exact"'),
      );
  });

  function at(supplyHighest: number, ratio: number, tolerance: number) {
    return worstVoltage({ supplyHighest, ratio, tolerance }).voltage;
  }
});
