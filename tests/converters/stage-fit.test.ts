import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stageEfficiency } from "../../src/converters/stage-efficiency.js";
import { type MeasuredStage, type StageFit, stageFit } from "../../src/converters/stage-fit.js";
import { stageFitSteps, stageFitValues } from "../../src/converters/stage-fit-steps.js";
import { assertSteps } from "../helpers/assert-steps.js";

const figure = (least: number, most: number) =>
  fc.noBias(
    fc.integer({ min: 0, max: 10_000 }).map((part) => least + ((most - least) * part) / 10_000),
  );

const VOLTS = 48;
const CURRENTS = [2, 5, 10, 15, 20, 28, 35];

/** The points that a stage of known losses would have in its datasheet, each off by a part of its loss. */
function measured(a: number, b: number, c: number, off: readonly number[] = []): MeasuredStage {
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

function sumOfSquares(stage: MeasuredStage, a: number, b: number, c: number): number {
  return stage.loads.reduce((sum, load, at) => {
    const current = load / stage.outputVoltage;
    const loss = load * (1 / stage.efficiencies[at]! - 1);
    return sum + (a + b * current + c * current ** 2 - loss) ** 2;
  }, 0);
}

/** A second way to the same answer: coordinate by coordinate to its own best, never below 0, many times over. */
function byCoordinates(stage: MeasuredStage): [number, number, number] {
  const currents = stage.loads.map((load) => load / stage.outputVoltage);
  const losses = stage.loads.map((load, at) => load * (1 / stage.efficiencies[at]! - 1));
  const most = Math.max(...currents);
  const rows = currents.map((current) => [1, current / most, (current / most) ** 2] as const);
  const x: [number, number, number] = [0, 0, 0];
  // For this convex problem the walk ends at the least.
  for (let sweep = 0; sweep < 200_000; sweep++) {
    let moved = 0;
    for (const at of [0, 1, 2] as const) {
      let slope = 0;
      let curve = 0;
      rows.forEach((row, index) => {
        const left = row[0] * x[0] + row[1] * x[1] + row[2] * x[2] - losses[index]!;
        slope += row[at] * left;
        curve += row[at] ** 2;
      });
      const next = Math.max(0, x[at] - slope / curve);
      moved = Math.max(moved, Math.abs(next - x[at]));
      x[at] = next;
    }
    if (moved < 1e-15) break;
  }
  return [x[0], x[1] / most, x[2] / most ** 2];
}

/** Each coefficient as a loss at the greatest current, so that the three count alike. */
function atGreatest(
  [a, b, c]: readonly [number, number, number],
  { loads, outputVoltage }: MeasuredStage,
): readonly number[] {
  const most = Math.max(...loads) / outputVoltage;
  return [a, b * most, c * most ** 2];
}

function coefficients(fit: StageFit): [number, number, number] {
  return [fit.fixedLoss, fit.linearLoss, fit.quadraticLoss];
}

describe("stageFit", () => {
  it("recovers the coefficients of exact points to 1e-9, of any stage and in any order", () => {
    fc.assert(
      fc.property(
        fc.tuple(figure(0, 1), figure(0, 1), figure(0, 1)),
        fc.constantFrom(0.9, 5, 12, 48, 400, 6000),
        fc.constantFrom(0.01, 1, 100, 3000),
        fc.uniqueArray(fc.integer({ min: 1, max: 40 }), {
          minLength: 3,
          maxLength: 12,
        }),
        (weights, outputVoltage, most, places) => {
          fc.pre(Math.max(...weights) > 0.01);
          // Spread over their range: points side by side tell three coefficients apart badly.
          fc.pre(Math.min(...places) * 3 < Math.max(...places));
          const [x, y, z] = weights.map((weight) => 0.2 * outputVoltage * most * weight) as [
            number,
            number,
            number,
          ];
          const losses = [x, y / most, z / most ** 2] as const;
          const currents = places.map((place) => (place / 40) * most);
          const loads = currents.map((current) => outputVoltage * current);
          const stage: MeasuredStage = {
            outputVoltage,
            loads,
            efficiencies: currents.map((current, at) => {
              const loss = losses[0] + losses[1] * current + losses[2] * current ** 2;
              return loads[at]! / (loads[at]! + loss);
            }),
          };
          const fit = stageFit(stage);
          const found = atGreatest(coefficients(fit), stage);
          const wanted = atGreatest([...losses], stage);
          const scale = Math.max(...wanted);
          found.forEach((value, at) =>
            assert.ok(
              Math.abs(value - wanted[at]!) <= 1e-9 * scale,
              `${at}: ${value}, ${wanted[at]}`,
            ),
          );
          assert.ok(fit.worstMisfit <= 1e-12);
          // mathjs takes 0 and 2e-16 for equal in `max`; the misfits themselves are held.
          const steps = Object.fromEntries(
            Object.entries(stageFitSteps(stage, fit)).filter(([name]) => name !== "worstMisfit"),
          );
          assertSteps(steps, stageFitValues(stage, fit));
        },
      ),
      { numRuns: 300 },
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
        const ours = coefficients(stageFit(stage));
        const theirs = byCoordinates(stage);
        const [least, other] = [ours, theirs].map((three) => sumOfSquares(stage, ...three)) as [
          number,
          number,
        ];
        assert.ok(least <= other * (1 + 1e-9) + 1e-18, `${least} ${other}`);
        const wanted = atGreatest(theirs, stage);
        const scale = Math.max(...wanted);
        atGreatest(ours, stage).forEach((value, at) =>
          assert.ok(
            Math.abs(value - wanted[at]!) <= 1e-6 * scale,
            `${at}: ${value}, ${wanted[at]}`,
          ),
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
          for (const value of [fit.fixedLoss, fit.linearLoss, fit.quadraticLoss])
            assert.ok(value >= 0);
          const ours = sumOfSquares(stage, fit.fixedLoss, fit.linearLoss, fit.quadraticLoss);
          assert.ok(ours <= sumOfSquares(stage, x, y, z) * (1 + 1e-12));
        },
      ),
    );
  });

  it("shows equations that hold at the fit, and says which coefficients are held at 0", () => {
    let held = 0;
    fc.assert(
      fc.property(noisy, ([a, b, c, off]) => {
        const stage = measured(a, b, c, off);
        const fit = stageFit(stage);
        const steps = stageFitSteps(stage, fit);
        for (const name of ["fixedLoss", "linearLoss", "quadraticLoss"] as const) {
          const step = steps[name];
          assert.ok(step?.kind === "solved");
          assert.equal(/held at 0/.test(step.label), fit[name] === 0);
          assert.equal(step.residual.startsWith("min(0, "), fit[name] === 0);
          if (fit[name] === 0) held++;
        }
        assertSteps(steps, stageFitValues(stage, fit));
      }),
      // One seed: how often a coefficient is held is counted.
      { seed: 4 },
    );
    assert.ok(held > 10, `${held}`);
  });

  // The equations are 0 at no other three coefficients: a coefficient moved by a thousandth leaves one of them over.
  it("shows equations that no other coefficients solve", () => {
    fc.assert(
      fc.property(noisy, fc.integer({ min: 0, max: 2 }), ([a, b, c, off], at) => {
        const stage = measured(a, b, c, off);
        const fit = stageFit(stage);
        const moved = coefficients(fit);
        const most = Math.max(...CURRENTS);
        const share = Math.max(...atGreatest(moved, stage)) / 1000;
        moved[at]! += share / most ** at;
        const [fixedLoss, linearLoss, quadraticLoss] = moved;
        const other = { ...fit, fixedLoss, linearLoss, quadraticLoss };
        const steps = stageFitSteps(stage, other);
        const solved = Object.fromEntries(
          Object.entries(steps).filter(([, { kind }]) => kind === "solved"),
        );
        assert.throws(() => assertSteps(solved, stageFitValues(stage, other)));
      }),
      { numRuns: 50 },
    );
  });

  it("fits a stage without any loss, and notes it", () => {
    const stage = {
      outputVoltage: 10,
      loads: [10, 20, 30],
      efficiencies: [1, 1, 1],
    };
    const fit = stageFit(stage);
    assert.deepEqual([...coefficients(fit), fit.worstMisfit], [0, 0, 0, 0]);
    assert.ok(fit.caveats.some(({ text }) => text.startsWith("ideal")));
    assertSteps(stageFitSteps(stage, fit), stageFitValues(stage, fit));
  });

  // One efficiency at every load: all of the loss is in proportion to the current, 2 W for each A at 48 V and 96 %.
  it("says that no no-load loss was found, where the fixed loss comes out as 0", () => {
    const fit = stageFit({
      outputVoltage: 48,
      loads: [250, 500, 1000],
      efficiencies: [0.96, 0.96, 0.96],
    });
    assert.equal(fit.fixedLoss, 0);
    expect(fit.linearLoss).toBeCloseTo(2, 12);
    const caveat = fit.caveats.find(
      ({ field, text }) => field === "fixedLoss" && /no no-load loss found/.test(text),
    );
    assert.match(caveat?.text ?? "", /feed with this stage draws nothing/);
    for (const { text } of stageFit(measured(6, 0.1, 0.01)).caveats)
      assert.doesNotMatch(text, /no-load loss/);
  });

  it("says between which currents it holds, and a misfit above half a point", () => {
    const codes = (off: readonly number[]) =>
      stageFit(measured(6, 0.1, 0.01, off)).caveats.map(({ code }) => code);
    assert.deepEqual(codes([]), ["fitted-range"]);
    assert.deepEqual(codes([0.5]), ["fitted-range", "great-misfit"]);
    assert.match(stageFit(measured(6, 0.1, 0.01)).caveats[0]!.text, /from 2 to 35 A/);
  });

  it("says the worst misfit of efficiency, by the loss polynomial itself", () => {
    const stage = measured(6, 0.1, 0.01, [0.1, 0, -0.1, 0, 0.05, 0, 0]);
    const fit = stageFit(stage);
    const worst = Math.max(
      ...CURRENTS.map((outputCurrent, at) =>
        Math.abs(
          stageEfficiency({ outputVoltage: VOLTS, outputCurrent, ...fit }).efficiency -
            stage.efficiencies[at]!,
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
      () => stageFit({ ...stage, loads: [1, 2, 2], efficiencies: [0.9, 0.9, 0.9] }),
      /3 different loads or more/,
    );
    assert.throws(
      () => stageFit({ ...stage, efficiencies: stage.efficiencies.map(() => 95) }),
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
