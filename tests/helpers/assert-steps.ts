import assert from "node:assert/strict";
import { evaluate } from "mathjs";
import { rewritten } from "../../src/quantities/formulas.js";
import type { Steps } from "../../src/quantities/steps.js";

/** Every formula among the steps, run by mathjs, gives the value that the engine computed; every residual gives 0. */
export function assertSteps(steps: Steps, values: Readonly<Record<string, unknown>>): void {
  const scope = Object.fromEntries(
    Object.entries(values).filter(([, value]) => typeof value === "number"),
  );
  const inMathjs = (formula: string) =>
    Number(
      evaluate(
        rewritten(formula, ({ text }) => (text === "ln" ? "log" : text)),
        { ...scope },
      ),
    );
  for (const [field, step] of Object.entries(steps)) {
    const value = Number(values[field]);
    if (step.kind === "formula") {
      const independent = inMathjs(step.formula);
      assert.ok(
        Math.abs(independent - value) <= 1e-12 * Math.abs(value),
        `${field} = ${step.formula}: ${independent}, ${value}`,
      );
    } else if (step.kind === "solved") {
      assert.ok(
        Math.abs(inMathjs(step.residual)) <= 1e-9 * Math.max(1, Math.abs(value)),
        `${field}: ${step.residual}`,
      );
    }
  }
}
