import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import {
  ratioInputCurrent,
  ratioInputCurrentSteps,
} from "../../src/converters/ratio-input-current.js";
import {
  type RatioFeed,
  ratioOutput,
  ratioOutputSteps,
} from "../../src/converters/ratio-output.js";
import { ratioOperation, ratioStageSteps } from "../../src/converters/ratio-stage.js";
import { InputError, NoAnswerError } from "../../src/quantities/errors.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";
import chain from "../reference/chain_mixed_A.json" with { type: "json" };

const unloaded = (inputVoltage: number, ratio: number) =>
  ratioOutput({ inputVoltage, ratio, outputCurrent: 0, outputResistance: 0 });

/** A 384 V bus stepped down by 8, worked by hand: 48 V less 0.6 V of droop. */
const stage = {
  inputVoltage: 384,
  ratio: 1 / 8,
  outputCurrent: 40,
  outputResistance: 0.015,
  noLoadPower: 18,
};

// Common practice, no source: what a ratio of small whole numbers makes of the usual bus voltages.
describe("ratioOutput by the rules of the trade", () => {
  const facts: readonly (readonly [number, number, string])[] = [
    [384, 1 / 8, "48"],
    [48, 1 / 4, "12"],
    [380, 1 / 8, "47.5"],
    [400, 1 / 8, "50"],
    [12, 4, "48"],
    [48, 8, "384"],
  ];
  for (const [input, ratio, output] of facts)
    it(`makes ${output} V of ${input} V through a ratio of ${ratio}`, () => {
      assertPrinted(unloaded(input, ratio).outputVoltage, output);
    });
});

// Common practice, no source: current goes by the inverse of the voltage, power stays.
describe("ratioInputCurrent by the rules of the trade", () => {
  it("draws a quarter of the current that comes out at a quarter of the voltage", () => {
    const { inputCurrent } = ratioInputCurrent({
      outputCurrent: 100,
      ratio: 1 / 4,
      noLoad: undefined,
    });
    assertPrinted(inputCurrent, "25");
  });

  it("draws four times the current that comes out at four times the voltage", () => {
    const { inputCurrent } = ratioInputCurrent({
      outputCurrent: 25,
      ratio: 4,
      noLoad: undefined,
    });
    assertPrinted(inputCurrent, "100");
  });
});

// Own mixed chain, solved by Newton in Python and by ngspice, which agree to 6e-13 V; its ratio stage has a linear loss
// too, drawn at the input like a no-load power of a + bI, and as quadratic loss just its output resistance.
describe("a ratio stage in the mixed chain", () => {
  const { hv, lv } = chain.computed_by_us.node_V;
  const [current = 0] = chain.computed_by_us.converter_Iout_A;
  const [loss = 0] = chain.computed_by_us.converter_loss_W;
  const [inChain] = chain.network.converters;
  assert.ok(inChain?.ratio && inChain.Rout_ohm);
  const operation = ratioOperation({
    inputVoltage: hv,
    ratio: inChain.ratio,
    outputCurrent: current,
    outputResistance: inChain.Rout_ohm,
    noLoadPower: inChain.a_W + inChain.b_V * current,
  });

  it("has the chain's output voltage and loss", () => {
    assert.ok(Math.abs(operation.outputVoltage / lv - 1) < 1e-9);
    assert.ok(Math.abs(operation.loss / loss - 1) < 1e-9);
  });

  it("draws what the chain's supply feeds past the loads before it", () => {
    const [supply = 0] = chain.computed_by_us.source_I_A;
    const before = 500 / hv + hv / 800;
    assert.ok(Math.abs(operation.inputCurrent - (supply - before)) < 1e-8);
  });
});

describe("ratioOperation", () => {
  it("matches the figures done by hand", () => {
    const operation = ratioOperation(stage);
    assertPrinted(operation.outputVoltage, "47.4");
    assertPrinted(operation.inputCurrent, "5.046875");
    assertPrinted(operation.loss, "42");
    assertPrinted(operation.inputPower, "1938");
    assertPrinted(operation.outputPower, "1896");
    assert.deepEqual(operation.caveats, []);
  });

  const numbers = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const stages = fc.record({
    inputVoltage: numbers(1, 1500),
    ratio: numbers(0.01, 16),
    outputCurrent: numbers(0, 500),
    outputResistance: numbers(0, 1),
    noLoadPower: numbers(0, 100),
  });

  it("loses what goes in and does not come out", () => {
    fc.assert(
      fc.property(stages, (drawn) => {
        fc.pre(drawn.ratio * drawn.inputVoltage > droopOf(drawn));
        const { inputPower, outputPower, loss } = ratioOperation(drawn);
        assert.ok(Math.abs(inputPower - outputPower - loss) <= 1e-12 * Math.max(inputPower, 1e-6));
      }),
    );
  });

  it("refuses a droop that takes the whole output, and nothing less", () => {
    fc.assert(
      fc.property(stages, (drawn) => {
        const carries = drawn.ratio * drawn.inputVoltage > droopOf(drawn);
        if (carries) assert.ok(ratioOperation(drawn).outputVoltage > 0);
        else assert.throws(() => ratioOperation(drawn), NoAnswerError);
      }),
    );
  });

  it("says by how much the output is missed", () => {
    const short: RatioFeed = { ...stage, outputResistance: 2 };
    assert.throws(
      () => ratioOutput(short),
      new NoAnswerError(
        "outputCurrent",
        "no output voltage is left: 40 A through 2 Ω drops 80 V, 32 V more than the 48 V there is; the current must be below 24 A",
      ),
    );
    assert.throws(() => ratioOutput({ ...stage, outputResistance: 1.2 }), /drops 48 V, 0 V more/);
  });

  it("notes a loss that rests on parts not given", () => {
    const { caveats } = ratioOperation({
      ...stage,
      outputResistance: 0,
      noLoadPower: 0,
    });
    assert.deepEqual(
      caveats.map(({ text }) => text),
      ["ideal: no output resistance and no no-load power given"],
    );
  });

  const refused: readonly (readonly [keyof typeof stage, number, string])[] = [
    ["inputVoltage", 0, "above 0"],
    ["ratio", -1, "above 0"],
    ["outputCurrent", -1, "0 or more"],
    ["outputResistance", Number.NaN, "0 or more"],
    ["noLoadPower", Infinity, "0 or more"],
  ];
  for (const [field, value, bound] of refused)
    it(`refuses ${field} of ${value}`, () => {
      assert.throws(
        () => ratioOperation({ ...stage, [field]: value }),
        new InputError(field, value, bound),
      );
    });
});

describe("the steps of a ratio stage", () => {
  it("are followed by another engine", () => {
    assertSteps(ratioStageSteps, { ...stage, ...ratioOperation(stage) });
    assertSteps(ratioOutputSteps, { ...stage, ...ratioOutput(stage) });
    const noLoad = { inputVoltage: 384, noLoadPower: 18 };
    assertSteps(ratioInputCurrentSteps, {
      ...stage,
      ...ratioInputCurrent({ ...stage, noLoad }),
    });
  });
});

function droopOf({ outputCurrent, outputResistance }: RatioFeed): number {
  return outputCurrent * outputResistance;
}
