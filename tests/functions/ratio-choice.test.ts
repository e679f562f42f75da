import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import type { Argument } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";

function refused(id: string, ...args: readonly Argument[]) {
  const outcome = evaluate(id, args);
  assert.ok(!outcome.ok, JSON.stringify(outcome));
  return outcome;
}

function value(id: string, ...args: readonly Argument[]) {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  return outcome.value;
}

describe("the choice of a ratio in a cell", () => {
  it("spills one row for each ratio: ratio, lowest, highest, margin to either end", () => {
    // 360/8 = 45, less 20 A · 25 mΩ = 44.5 V; 400/8 = 50 V. (44.5 − 44)/44 and (55 − 50)/55.
    const spill = value("RATIO_CHOICES", 360, 400, 44, 55, "exact", 20, 0.025);
    assert.ok(Array.isArray(spill));
    expect(spill).toHaveLength(1);
    const [ratio, ...rest] = (spill as number[][])[0]!;
    expect(ratio).toBe(1 / 8);
    for (const [at, wanted] of [44.5, 50, 0.5 / 44, 5 / 55].entries())
      expect(rest[at]).toBeCloseTo(wanted, 12);
  });

  it("says which end the nearest ratio misses, and by how much", () => {
    // 1/8: 45 V less 0.5 V of droop and 50 V; the load takes 45 to 52 V.
    const low = refused("RATIO_CHOICES", 360, 400, 45, 52, "exact", 20, 0.025);
    expect(low.code).toBe("#N/A");
    expect(low.message).toMatch(/1\/8 comes nearest with 44.5 to 50 V, 0.5 V below its lowest$/);
    const high = refused("RATIO_CHOICES", 360, 400, 44, 49, "exact");
    expect(high.message).toMatch(/1\/8 comes nearest with 45 to 50 V, 1 V above its highest$/);
  });

  it("says how far it looked", () => {
    expect(refused("RATIO_CHOICES", 49e3, 50e3, 11, 14, "exact").message).toMatch(
      /^no whole ratio up to 1000 fits/,
    );
  });

  it("never takes a tolerance that is not given for an exact one", () => {
    for (const blank of [0, "", null, undefined])
      expect(refused("RATIO_CHOICES", 360, 400, 44, 55, blank)).toMatchObject({
        code: "#VALUE!",
        argument: "tolerance",
      });
  });

  it("refuses windows the wrong way round by name", () => {
    expect(refused("RATIO_CHOICES", 400, 360, 44, 55, "exact").argument).toBe("input highest V");
    expect(refused("RATIO_CHOICES", 360, 400, 55, 44, "exact").argument).toBe("load highest");
  });
});

describe("reflection in a cell", () => {
  it("takes the five quantities by name, through 1/8 by hand", () => {
    for (const [quantity, wanted] of [
      ["resistance", 1],
      ["Inductance", 1],
      ["CAPACITANCE", 4096],
      ["voltage", 8],
      ["current", 512],
    ] as const)
      expect(value("RATIO_REFLECTED", 64, 1 / 8, quantity)).toBe(wanted);
  });

  it("lists them where another is asked for, and refuses a value that is not given", () => {
    expect(refused("RATIO_REFLECTED", 64, 1 / 8, "power").message).toBe(
      'quantity must be "resistance" or "inductance" or "capacitance" or "voltage" or "current", got "power"',
    );
    expect(refused("RATIO_REFLECTED", null, 1 / 8, "voltage").argument).toBe("value");
  });
});
