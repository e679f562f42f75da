import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stageEfficiency } from "../../src/converters/stage-efficiency.js";
import {
  type MeasuredStage,
  stageFit,
} from "../../src/converters/stage-fit.js";
import {
  stageFitSteps,
  stageFitValues,
} from "../../src/converters/stage-fit-steps.js";
import { assertSteps } from "../helpers/assert-steps.js";

const figure = (least: number, most: number) =>
  fc.noBias(
    fc
      .integer({ min: 0, max: 10_000 })
      .map((part) => least + ((most - least) * part) / 10_000),
  );

const VOLTS = 48;
const CURRENTS = [2, 5, 10, 15, 20, 28, 35];

/** The points that a stage of known losses would have in its datasheet, each off by a part of its loss. */
function measured(
  a: number,
  b: number,
  c: number,
  off: readonly number[] = [],
): MeasuredStage {
  const loads = CURRENTS.map((current) => VOLTS * current);
  return {
    outputVoltage: VOLTS,
    loads,
    efficiencies: CURRENTS.map((current, at) => {
      const loss = (a + b * current + c * current ** 2) * (1 + (off[at] ?? 0));
      return loads[at]! / (loads[at]! + loss);
    }),
  };
}

function sumOfSquares(
  stage: MeasuredStage,
  a: number,
  b: number,
  c: number,
): number {
  return stage.loads.reduce((sum, load, at) => {
    const current = load / stage.outputVoltage;
    const loss = load * (1 / stage.efficiencies[at]! - 1);
    return sum + (a + b * current + c * current ** 2 - loss) ** 2;
  }, 0);
}

/** A second way to the same answer: projected gradient steps on the scaled problem, many of them. */
function byProjectedGradient(stage: MeasuredStage): [number, number, number] {
  const currents = stage.loads.map((load) => load / stage.outputVoltage);
  const losses = stage.loads.map(
    (load, at) => load * (1 / stage.efficiencies[at]! - 1),
  );
  const most = Math.max(...currents);
  const rows = currents.map(
    (current) => [1, current / most, (current / most) ** 2] as const,
  );
  const x: [number, number, number] = [0, 0, 0];
  // Coordinate by coordinate to its own best, never below 0: for this convex problem that ends at the least.
  for (let sweep = 0; sweep < 200_000; sweep++) {
    let moved = 0;
    for (const at of [0, 1, 2] as const) {
      let slope = 0;
      let curve = 0;
      rows.forEach((row, index) => {
        const left =
          row[0] * x[0] + row[1] * x[1] + row[2] * x[2] - losses[index]!;
        slope += row[at] * left;
        curve += row[at] ** 2;
      });
      const next = Math.max(0, x[at] - slope / curve);
      moved = Math.max(moved, Math.abs(next - x[at]));
      x[at] = next;
    }
    if (moved < 1e-14) break;
  }
  return [x[0], x[1] / most, x[2] / most ** 2];
}

describe("stageFit", () => {
  it("recovers the coefficients of exact points to 1e-9", () => {
    fc.assert(
      fc.property(figure(0, 30), figure(0, 0.6), figure(0, 0.05), (a, b, c) => {
        fc.pre(a + b + c > 0);
        const fit = stageFit(measured(a, b, c));
        const scale = Math.max(a, b * 35, c * 35 ** 2);
        assert.ok(
          Math.abs(fit.fixedLoss - a) <= 1e-9 * scale,
          `a ${fit.fixedLoss} ${a}`,
        );
        assert.ok(
          Math.abs(fit.linearLoss - b) * 35 <= 1e-9 * scale,
          `b ${fit.linearLoss} ${b}`,
        );
        assert.ok(
          Math.abs(fit.quadraticLoss - c) * 35 ** 2 <= 1e-9 * scale,
          `c ${fit.quadraticLoss} ${c}`,
        );
        assert.ok(fit.worstMisfit <= 1e-12);
      }),
    );
  });

  const noisy = fc
    .tuple(
      figure(0, 10),
      figure(0, 0.4),
      figure(0, 0.03),
      fc.array(figure(-0.15, 0.15), { minLength: 7, maxLength: 7 }),
    )
    .filter(([a, b, c]) => a + b + c > 0.01);

  it("equals another method on points that lie off any curve", () => {
    fc.assert(
      fc.property(noisy, ([a, b, c, off]) => {
        const stage = measured(a, b, c, off);
        const { fixedLoss, linearLoss, quadraticLoss } = stageFit(stage);
        const other = byProjectedGradient(stage);
        const ours = sumOfSquares(stage, fixedLoss, linearLoss, quadraticLoss);
        const theirs = sumOfSquares(stage, ...other);
        assert.ok(ours <= theirs * (1 + 1e-9) + 1e-18, `${ours} ${theirs}`);
        assert.ok(
          Math.abs(fixedLoss - other[0]) <= 1e-3 * (1 + other[0]),
          `${fixedLoss} ${other[0]}`,
        );
      }),
      { numRuns: 25 },
    );
  });

  it("is never beaten by other coefficients of 0 and more", () => {
    fc.assert(
      fc.property(
        noisy,
        figure(0, 12),
        figure(0, 0.5),
        figure(0, 0.04),
        ([a, b, c, off], x, y, z) => {
          const stage = measured(a, b, c, off);
          const fit = stageFit(stage);
          for (const value of [
            fit.fixedLoss,
            fit.linearLoss,
            fit.quadraticLoss,
          ])
            assert.ok(value >= 0);
          const ours = sumOfSquares(
            stage,
            fit.fixedLoss,
            fit.linearLoss,
            fit.quadraticLoss,
          );
          assert.ok(ours <= sumOfSquares(stage, x, y, z) * (1 + 1e-12));
        },
      ),
    );
  });

  it("shows equations that hold at the fit, coefficients held at 0 among them", () => {
    let held = 0;
    fc.assert(
      fc.property(noisy, ([a, b, c, off]) => {
        const stage = measured(a, b, c, off);
        const fit = stageFit(stage);
        if (
          fit.linearLoss === 0 ||
          fit.fixedLoss === 0 ||
          fit.quadraticLoss === 0
        )
          held++;
        const steps = stageFitSteps(stage, fit);
        // A misfit is a difference of near equals: held by its terms.
        const kept = Object.fromEntries(
          Object.entries(steps).filter(([name]) => !/isfit/.test(name)),
        );
        assertSteps(kept, stageFitValues(stage, fit));
      }),
    );
    assert.ok(held > 5);
  });

  it("says the worst misfit of efficiency, by the loss polynomial itself", () => {
    const stage = measured(6, 0.1, 0.01, [0.1, 0, -0.1, 0, 0.05, 0, 0]);
    const fit = stageFit(stage);
    const worst = Math.max(
      ...CURRENTS.map((outputCurrent, at) =>
        Math.abs(
          stageEfficiency({ outputVoltage: VOLTS, outputCurrent, ...fit })
            .efficiency - stage.efficiencies[at]!,
        ),
      ),
    );
    expect(fit.worstMisfit).toBeCloseTo(worst, 14);
  });

  it("refuses lists of unequal length, fewer than three loads, and per cents", () => {
    const stage = measured(6, 0.1, 0.01);
    assert.throws(
      () => stageFit({ ...stage, efficiencies: [0.9] }),
      /efficiencies must be as many as the loads, 7/,
    );
    assert.throws(
      () =>
        stageFit({ ...stage, loads: [1, 2, 2], efficiencies: [0.9, 0.9, 0.9] }),
      /3 different loads or more/,
    );
    assert.throws(
      () =>
        stageFit({ ...stage, efficiencies: stage.efficiencies.map(() => 95) }),
      /type 0.95, not 95/,
    );
  });

  it("keeps its longest equation within a spreadsheet cell for 40 points", () => {
    const loads = Array.from({ length: 40 }, (_, index) => 10 * (index + 1));
    const stage = {
      outputVoltage: 12,
      loads,
      efficiencies: loads.map(() => 0.9),
    };
    for (const step of Object.values(stageFitSteps(stage, stageFit(stage))))
      if (step.kind === "solved") assert.ok(step.residual.length < 8192);
  });
});
