import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import { EXAMPLE_ANSWERS } from "../../functions/documents/examples.js";
import type { Argument } from "../../functions/cells.js";
import { transientEntries } from "../../functions/families/transient.js";
import { evaluate } from "../../functions/runner.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

function given(id: string, ...args: Argument[]): number {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
  return Number(outcome.value);
}

function refused(id: string, ...args: Argument[]): string {
  const outcome = evaluate(id, args);
  assert.ok(!outcome.ok, `${id} gave a value`);
  return `${outcome.code} ${outcome.argument}: ${outcome.message}`;
}

function noted(id: string, ...args: Argument[]): string[] {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok);
  return outcome.caveats.map(({ code }) => code);
}

const ARGUMENTS: Readonly<Record<string, readonly string[]>> = {
  HOLDUP_CAPACITANCE: ["power", "time", "start V", "end V", "efficiency"],
  HOLDUP_TIME: ["power", "capacitance", "start V", "end V", "efficiency"],
  PRECHARGE_RESISTANCE: ["capacitance", "time", "fraction reached"],
  PRECHARGE_ENERGY: ["capacitance", "V", "fraction reached"],
  LOAD_STEP_SAG: [
    "current step",
    "resistance",
    "inductance",
    "capacitance",
    "[capacitor series resistance]",
    "[bus V]",
  ],
  STABILITY_MARGIN: [
    "open-circuit V",
    "load W",
    "resistance",
    "inductance",
    "capacitance",
    "[capacitor series resistance]",
  ],
};

describe("the functions of transients", () => {
  it("have these arguments in this order", () => {
    const found = transientEntries.map(({ id, parameters }) => [
      id,
      Object.values(parameters).map(({ name, optional }) => (optional ? `[${name}]` : name)),
    ]);
    expect(Object.fromEntries(found)).toEqual(ARGUMENTS);
  });

  for (const { id, example } of transientEntries)
    it(`${id} gives its example, with steps that another engine follows`, () => {
      const outcome = evaluate(id, example.args);
      assert.ok(outcome.ok);
      assertPrinted(Number(outcome.value), String(EXAMPLE_ANSWERS[id]!.gives));
      const [told] = outcome.working();
      assert.ok(told);
      assertSteps(told.steps, told.values);
    });

  it("take a capacitor's series resistance of 0, a blank one and none alike", () => {
    for (const [id, ...args] of [
      ["LOAD_STEP_SAG", 10, 1, 1e-4, 1e-4],
      ["STABILITY_MARGIN", 28, 400, 0.05, 1e-5, 220e-6],
    ] as const)
      for (const blank of [0, "", null]) expect(given(id, ...args, blank)).toBe(given(id, ...args));
  });
});

describe("PRECHARGE_RESISTANCE and PRECHARGE_ENERGY", () => {
  it("refuse all of the supply's voltage, which takes for ever, and none of it", () => {
    for (const [id, second] of [
      ["PRECHARGE_RESISTANCE", 0.3],
      ["PRECHARGE_ENERGY", 400],
    ] as const) {
      assert.match(refused(id, 0.001, second, 1), /^#VALUE! .*fraction.*takes for ever/);
      assert.match(refused(id, 0.001, second, 0), /^#VALUE! .*fraction/);
      assert.match(refused(id, 0.001, second, 95), /^#VALUE! .*fraction/);
    }
  });

  // Own figures by hand: 1 mF at 400 V holds 80 J; through a stage of ratio 1/8, 64 mF behind it count as 1 mF.
  it("give 79.992 J at 99 %, the same for 64 mF behind a ratio of 1/8", () => {
    assertPrinted(given("PRECHARGE_ENERGY", 0.001, 400, 0.99), "79.992");
    assertPrinted(given("PRECHARGE_ENERGY", 0.064 * (1 / 8) ** 2, 400, 0.99), "79.992");
  });
});

describe("LOAD_STEP_SAG", () => {
  it("has steps that work also where the capacitor has the wave resistance, where only its own jump counts", () => {
    const outcome = evaluate("LOAD_STEP_SAG", [10, 0.5, 1e-4, 1e-4, 1]);
    assert.ok(outcome.ok);
    expect(outcome.value).toBe(10);
    const [told] = outcome.working();
    assert.ok(told);
    assertSteps(told.steps, told.values);
    assert.match(told.steps["sag"]?.label ?? "", /at the step itself/);
  });

  it("says that a capacitor without series resistance is ideal", () => {
    expect(noted("LOAD_STEP_SAG", 10, 1, 1e-4, 1e-4)).toContain("ideal-capacitor");
    expect(noted("LOAD_STEP_SAG", 10, 1, 1e-4, 1e-4, 0.1)).not.toContain("ideal-capacitor");
  });
});

describe("STABILITY_MARGIN", () => {
  // Own figures, from trace and determinant in another program: 774.825 W.
  it("is 774.825 W over the load for 28 V, 50 mΩ, 10 µH and 220 µF", () => {
    const margin = (load: number) => given("STABILITY_MARGIN", 28, load, 0.05, 1e-5, 220e-6);
    assertPrinted(margin(1), "774.825");
    assertPrinted(margin(700) * 700, "774.825");
    expect(margin(700)).toBeGreaterThan(1);
    expect(margin(850)).toBeLessThan(1);
  });

  it("says that a disturbance grows, and that a margin is small", () => {
    const codes = (load: number) => noted("STABILITY_MARGIN", 28, load, 0.05, 1e-5, 220e-6);
    expect(codes(850)).toEqual(["grows", "one-side", "large-step"]);
    expect(codes(700)).toEqual(["small-margin", "one-side"]);
    expect(codes(100)).toEqual(["one-side"]);
  });

  // At a margin of 1.058 and 1.111 small disturbances die out, and all of the load at once collapses the bus; with a
  // capacitor of much resistance it does so at the step itself, at a margin far above 2.
  it("says where all of the load at once collapses the bus, whatever the margin", () => {
    const text = (...args: Argument[]) => {
      const outcome = evaluate("STABILITY_MARGIN", args);
      assert.ok(outcome.ok);
      return outcome.caveats.map((note) => note.text).join("\n");
    };
    const collapses = /all of the load at once: the bus collapses/;
    assert.match(text(400, 25e3, 0.5, 1e-3, 400e-6), collapses);
    assert.match(text(400, 20e3, 1, 1e-3, 200e-6), collapses);
    expect(given("STABILITY_MARGIN", 400, 21e3, 0.01, 1e-3, 1e-3, 2)).toBeGreaterThan(2);
    assert.match(text(400, 21e3, 0.01, 1e-3, 1e-3, 2), /at the step itself/);
    assert.doesNotMatch(text(400, 10e3, 0.5, 1e-3, 400e-6), /collapses/);
    assert.match(text(400, 14e3, 0.5, 1e-3, 400e-6), /large ones may not/);
  });

  it("has no answer where the load has no operating point, and says by how much", () => {
    assert.match(
      refused("STABILITY_MARGIN", 28, 4000, 0.05, 1e-5, 220e-6),
      /^#N\/A load.*3920 W.*80.* W less than the load.*collapses/,
    );
  });

  it("says in its steps which limit rules", () => {
    const rule = (...args: number[]) => {
      const outcome = evaluate("STABILITY_MARGIN", args);
      assert.ok(outcome.ok);
      return outcome.working()[0]?.steps["criticalConductance"]?.label ?? "";
    };
    assert.match(rule(28, 400, 0.05, 1e-5, 220e-6), /damping ends/);
    assert.match(rule(28, 400, 0.05, 1e-5, 1), /voltage collapses/);
    assert.match(rule(28, 400, 0.05, 1e-5, 220e-6, 0.5), /own resistance/);
  });
});
