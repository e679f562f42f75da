import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import type { Argument } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";

function refused(id: string, ...args: readonly Argument[]) {
  const outcome = evaluate(id, args);
  assert.ok(!outcome.ok, JSON.stringify(outcome));
  return outcome;
}

function answered(id: string, ...args: readonly Argument[]) {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  return {
    value: Number(outcome.value),
    caveats: outcome.caveats.map(({ text }) => text).join("; "),
  };
}

describe("the supply functions in a cell", () => {
  it("say the limit where the voltage collapses, as not available", () => {
    const { code, message, argument } = refused("SUPPLY_VOLTAGE", 400, 4, 10001);
    expect(code).toBe("#N/A");
    expect(argument).toBe("load W");
    expect(message).toMatch(/at most V₀²\/4R = 10000 W/);
  });

  it("take their own limit back as a load", () => {
    const limit = answered("SUPPLY_LIMIT", 48.3, 0.37).value;
    const { value } = answered("SUPPLY_VOLTAGE", 48.3, 0.37, limit);
    expect(value).toBeCloseTo(48.3 / 2, 5);
  });

  it("take a resistance, load, charge or current of 0 and say so, and refuse a blank one by name", () => {
    expect(answered("SUPPLY_VOLTAGE", 400, 0, 5000)).toEqual({
      value: 400,
      caveats: "ideal: no resistance given",
    });
    expect(answered("SUPPLY_VOLTAGE", 400, 4, 0).caveats).toBe("at no load: no load given");
    // 100 cells at 2.5 V, less 50 A · 2 mΩ each.
    const empty = answered("SUPPLY_BATTERY", 100, 0, 50, 0.002);
    expect(empty.value).toBeCloseTo(240, 9);
    expect(empty.caveats).toMatch(/empty: the state of charge is 0/);
    expect(answered("SUPPLY_BATTERY", 100, 0.5, 0, 0.002).caveats).toMatch(
      /at rest: no current given/,
    );
    for (const blank of ["", null, undefined]) {
      const ofBattery = (charge: Argument, current: Argument) =>
        refused("SUPPLY_BATTERY", 100, charge, current, 0.002).message;
      expect(ofBattery(blank, 50)).toBe("state of charge must be given, got nothing");
      expect(ofBattery(0.5, blank)).toBe("current must be given, got nothing");
      expect(refused("SUPPLY_VOLTAGE", 400, blank, 5000).argument).toBe("resistance");
      expect(refused("SUPPLY_VOLTAGE", 400, 4, blank).argument).toBe("load W");
    }
  });

  it("know a cell by its chemistry, without case, and list what there is", () => {
    const nmc = answered("SUPPLY_BATTERY", 100, 0.5, 50, 0.002, "nmc", 2);
    // 3.7509 V less 25 A · 2 mΩ.
    expect(nmc.value).toBeCloseTo(370.09, 9);
    expect(refused("SUPPLY_BATTERY", 100, 0.5, 50, 0.002, "other").message).toBe(
      'chemistry must be "NMC", got "other"',
    );
  });

  it("refuse a battery whose current leaves no voltage, and charges in per cent", () => {
    const none = refused("SUPPLY_BATTERY", 1, 0.5, 500, 0.02);
    expect(none.code).toBe("#N/A");
    expect(none.argument).toBe("current");
    expect(refused("SUPPLY_BATTERY", 100, 50, 1, 0.002)).toMatchObject({
      code: "#VALUE!",
      argument: "state of charge",
    });
  });

  it("never take a tolerance that is not given for an exact one", () => {
    for (const blank of [0, "", null, undefined])
      expect(refused("SUPPLY_RECTIFIED", 230, blank)).toMatchObject({
        code: "#VALUE!",
        argument: "tolerance",
      });
    const exact = answered("SUPPLY_RECTIFIED", 230, "exact");
    expect(exact.value).toBeCloseTo(325.269, 3);
    expect(exact.caveats).toMatch(/no load and no drop in the rectifier/);
  });
});
