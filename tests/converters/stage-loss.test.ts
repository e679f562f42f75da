import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { stageEfficiency, stageEfficiencySteps } from "../../src/converters/stage-efficiency.js";
import { stageLoss, stageLossSteps } from "../../src/converters/stage-loss.js";
import { InputError } from "../../src/quantities/errors.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";
import chain from "../reference/chain_mixed_A.json" with { type: "json" };
import matacdc from "../reference/matacdc_losses.json" with { type: "json" };

// J. Beerten, D. Van Hertem, R. Belmans: MatACDC, its MATLAB results file as reproduced in a public repository
// (github.com/slazar394/acdc-power-flow, commit b3eb0c47; seen). Losses in MW, in its order.
describe("stageLoss against the loss polynomials of MatACDC", () => {
  const printed = ["1.28876167", "1.13706205", "1.16522244"];
  matacdc.inputs.points.forEach(({ I_A, a_W, b_V, c_ohm }, index) => {
    it(`gives ${printed[index]} MW at ${I_A} A`, () => {
      const { loss } = stageLoss({
        outputCurrent: I_A,
        fixedLoss: a_W,
        linearLoss: b_V,
        quadraticLoss: c_ohm,
      });
      assertPrinted(loss / 1e6, printed[index] ?? "");
      // All that the file prints, up to what its iteration left over.
      const inFull = matacdc.published.loss_W[index] ?? Number.NaN;
      assert.ok(Math.abs(loss / inFull - 1) <= 1e-12);
    });
  });
});

// Own mixed chain, solved by Newton in Python and by ngspice: loss of each converter from its own output current.
describe("stageLoss in the mixed chain", () => {
  chain.network.converters.forEach(({ type, a_W, b_V, c_ohm }, index) => {
    it(`is the loss of its ${type} stage`, () => {
      const { loss } = stageLoss({
        outputCurrent: chain.computed_by_us.converter_Iout_A[index] ?? 0,
        fixedLoss: a_W,
        linearLoss: b_V,
        quadraticLoss: c_ohm,
      });
      const expected = chain.computed_by_us.converter_loss_W[index] ?? 0;
      assert.ok(Math.abs(loss / expected - 1) < 1e-9);
    });
  });
});

// J. Bird, Electrical Circuit Theory and Technology, as computed in a public companion notebook (the page not seen).
// Transformers, but the same polynomial: one kVA is taken as one A at 1000 V, of which the power factor is delivered.
describe("stageEfficiency against Bird", () => {
  it("gives example 20.19's 98.34 % at 395.28 kVA, the peak, where fixed and quadratic loss are equal", () => {
    const at = (kilovoltAmperes: number) =>
      stageEfficiency({
        outputVoltage: 0.75 * 1000,
        outputCurrent: kilovoltAmperes,
        fixedLoss: 2500,
        linearLoss: 0,
        quadraticLoss: 4000 / 500 ** 2,
      });
    assertPrinted(at(395.28).efficiency * 100, "98.34");
    assertPrinted(at(395.28).quadraticPart / 1000, "2.5");
    assert.ok(at(395.28).efficiency > at(380).efficiency);
    assert.ok(at(395.28).efficiency > at(410).efficiency);
  });

  it("gives example 20.17's 98.41 % at half load", () => {
    const { efficiency } = stageEfficiency({
      outputVoltage: 0.85 * 1000,
      outputCurrent: 100,
      fixedLoss: 1000,
      linearLoss: 0,
      quadraticLoss: 1500 / 200 ** 2,
    });
    assertPrinted(efficiency * 100, "98.41");
  });
});

/** Worked by hand: 6 + 2 + 4 W; 240 W out of 252 W. */
const stage = {
  outputVoltage: 12,
  outputCurrent: 20,
  fixedLoss: 6,
  linearLoss: 0.1,
  quadraticLoss: 0.01,
};

describe("stageLoss and stageEfficiency", () => {
  it("match the figures done by hand", () => {
    assertPrinted(stageLoss(stage).loss, "12");
    assertPrinted(stageEfficiency(stage).inputPower, "252");
    assertPrinted(stageEfficiency(stage).efficiency, "0.952380952");
  });

  it("lose the fixed part alone at no current", () => {
    assert.equal(stageLoss({ ...stage, outputCurrent: 0 }).loss, 6);
  });

  it("note a stage without any loss", () => {
    const ideal = { fixedLoss: 0, linearLoss: 0, quadraticLoss: 0 };
    assert.equal(stageLoss({ ...stage, ...ideal }).loss, 0);
    assert.deepEqual(
      stageLoss({ ...stage, ...ideal }).caveats.map(({ text }) => text),
      ["ideal: no losses given"],
    );
    assert.deepEqual(stageLoss(stage).caveats, []);
  });

  it("peak where fixed and quadratic loss are equal, whatever the linear one", () => {
    const positive = fc.double({ min: 0.01, max: 50, noNaN: true });
    fc.assert(
      fc.property(positive, positive, positive, (fixedLoss, linearLoss, quadraticLoss) => {
        const losses = { fixedLoss, linearLoss, quadraticLoss };
        const peak = Math.sqrt(fixedLoss / quadraticLoss);
        const at = (outputCurrent: number) =>
          stageEfficiency({ outputVoltage: 48, outputCurrent, ...losses }).efficiency;
        assert.ok(at(peak) > at(peak * 0.99));
        assert.ok(at(peak) > at(peak * 1.01));
      }),
    );
  });

  const refused: readonly (readonly [keyof typeof stage, number, string])[] = [
    ["outputVoltage", 0, "above 0"],
    ["outputCurrent", 0, "above 0"],
    ["fixedLoss", -1, "0 or more"],
    ["linearLoss", Number.NaN, "0 or more"],
    ["quadraticLoss", Infinity, "0 or more"],
  ];
  for (const [field, value, bound] of refused)
    it(`refuse ${field} of ${value} for an efficiency`, () => {
      assert.throws(
        () => stageEfficiency({ ...stage, [field]: value }),
        new InputError(field, value, bound),
      );
    });

  it("have steps that another engine follows", () => {
    assertSteps(stageLossSteps, { ...stage, ...stageLoss(stage) });
    assertSteps(stageEfficiencySteps, { ...stage, ...stageEfficiency(stage) });
  });
});
