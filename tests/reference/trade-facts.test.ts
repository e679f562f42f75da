import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../functions/runner.js";

/** What people of the trade know by heart: common practice, no source. Each is put to the cell functions. */
function value(id: string, ...args: Parameters<typeof evaluate>[1]): number {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  return Number(outcome.value);
}

function text(id: string, ...args: Parameters<typeof evaluate>[1]): string {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  return String(outcome.value);
}

describe("facts of the trade (common practice, no source)", () => {
  it("100 W sent at 100 V instead of 1 V lose 1/10 000 as much in the same resistance", () => {
    const loss = (current: number) => value("CONDUCTOR_LOSS", current, 10, 4, 20);
    expect(loss(1) / loss(100)).toBeCloseTo(1 / 10_000, 15);
  });

  it("power is V·I, and loss I²R", () => {
    const resistance = value("CONDUCTOR_RESISTANCE", 25, 6, 40);
    const drop = value("CONDUCTOR_DROP", 12, 25, 6, 40);
    const loss = value("CONDUCTOR_LOSS", 12, 25, 6, 40);
    expect(loss).toBeCloseTo(drop * 12, 12);
    expect(loss).toBeCloseTo(12 ** 2 * resistance, 12);
  });

  it("384 V through 1/8 are 48 V, and 48 V through 1/4 are 12 V, with the current multiplied by the inverse", () => {
    expect(value("RATIO_OUTPUT", 384, 1 / 8)).toBe(48);
    expect(value("RATIO_OUTPUT", 48, 1 / 4)).toBe(12);
    expect(value("RATIO_INPUT_CURRENT", 8, 1 / 8)).toBe(1);
    expect(value("RATIO_INPUT_CURRENT", 4, 1 / 4)).toBe(1);
  });

  it("380 V through 1/8 are 47.5 V", () => {
    expect(value("RATIO_OUTPUT", 380, 1 / 8)).toBe(47.5);
  });

  it("a ratio of 4/1 multiplies where 1/4 divides", () => {
    expect(value("RATIO_OUTPUT", 12, 4)).toBe(48);
    expect(value("RATIO_OUTPUT", 12, 1 / 4)).toBe(3);
  });

  it("dc above about 60 V is not treated as safe to touch", () => {
    for (const framework of ["IEC 62368-1", "IEC 60364-4-41", "ISO 6469-3"]) {
      const band = (volts: number) => text("SAFETY_BAND", volts, framework, "dry").split(" · ")[0];
      expect(band(60), framework).not.toBe(band(60.1));
    }
  });

  it("the common extra-low-voltage buses, 12, 24 and 48 V, lie below it in every framework when dry", () => {
    for (const volts of [12, 24, 48]) {
      expect(text("SAFETY_BAND", volts, "IEC 62368-1", "dry")).toMatch(/^ES1 · /);
      expect(text("SAFETY_BAND", volts, "IEC 60364-4-41", "dry")).toMatch(/^bare · /);
      expect(text("SAFETY_BAND", volts, "ISO 6469-3", "dry")).toMatch(/^A · /);
      expect(text("SAFETY_BAND", volts, "US workplace", "dry")).toMatch(/^below 50 V · /);
    }
  });

  it("doubling the distribution voltage quarters the loss, or the conductor for the same loss", () => {
    const loss = (volts: number, size: number) =>
      value("CONDUCTOR_LOSS", 2000 / volts, 100, size, 60);
    expect(loss(800, 10) / loss(400, 10)).toBeCloseTo(1 / 4, 14);
    expect(loss(800, 2.5)).toBeCloseTo(loss(400, 10), 12);
  });
});
