import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../functions/runner.js";
import { assertPrinted } from "../helpers/assert-printed.js";

function value(id: string, ...args: Parameters<typeof evaluate>[1]): number {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  return Number(outcome.value);
}

describe("published figures that span several rooms", () => {
  // OpenStax, College Physics 2e, m42714: 100 MW at 480 V through 1.00 Ω would take 2.08e5 A and lose 4.33e4 MW, more than
  // is sent: it cannot be.
  it("refuses OpenStax's 100 MW at 480 V through 1.00 Ω, saying what arrives at most", () => {
    assertPrinted(100e6 / 480 / 1e5, "2.08");
    // It goes on from the rounded current.
    assertPrinted((2.08e5 ** 2 * 1.0) / 1e10, "4.33");
    const outcome = evaluate("SUPPLY_VOLTAGE", [480, 1.0, 100e6]);
    assert.ok(!outcome.ok);
    expect(outcome.code).toBe("#N/A");
    expect(outcome.message).toMatch(/at most V₀²\/4R = 57600 W arrive/);
  });

  // A page on d.c. drop of a cable seller: 2 × route × current × resistance per metre. By hand: 2 · 80 m · 20 A · 7.4 mΩ/m.
  it("drops twice the route times current times the resistance of a metre, 23.68 V", () => {
    const drop = value("CONDUCTOR_DROP", 20, 80, 1, 20, [[7.4e-9, 0]]);
    assertPrinted(drop, "23.68");
  });

  // CDA Inc., table of bars in service: emissivity 0.4 for a copper bus after 60 days in industrial air.
  it("takes 0.4 for bare copper in service", () => {
    const outcome = evaluate("CONDUCTOR_TEMPERATURE", [100, 50, 30, 8.5, 1, "none"]);
    assert.ok(outcome.ok, JSON.stringify(outcome));
    const values = Object.assign(
      {},
      ...outcome.working().map((working) => working.values),
    ) as Record<string, unknown>;
    expect(values["emissivity"]).toBe(0.4);
  });
});
