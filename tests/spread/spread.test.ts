import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError, NoAnswerError } from "../../src/quantities/errors.js";
import { fieldsOf } from "../../src/quantities/formulas.js";
import { DISTRIBUTIONS } from "../../src/spread/distributions.js";
import { normalQuantile } from "../../src/spread/normal-quantile.js";
import { percentile, spread } from "../../src/spread/spread.js";
import { spreadGivens, spreadSteps, spreadValues } from "../../src/spread/spread-steps.js";
import type { UncertainFunction, UncertainInput } from "../../src/spread/uncertain-input.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { FEED_INPUTS, lossOf, voltageOf } from "./exact-feeds.js";

const FINE = { samples: 2 ** 18, seed: 1 };
const SHORT = { samples: 256, seed: 1 };

const flat = (name: string, value: number, halfWidth: number, group?: string): UncertainInput => ({
  name,
  value,
  halfWidth,
  distribution: "flat",
  group,
});

// Quadrature, 200 × 200 Gauss-Legendre; percentiles from a 4000 × 4000 grid of midpoints, ± 0.05 W and ± 0.005 V.
describe("a feed of 10 kW, supply 380 to 420 V, loop 1.8 to 2.2 Ω, both flat", () => {
  it("has the loss of the quadrature", () => {
    const loss = spread(lossOf, FEED_INPUTS, FINE);
    assertPrinted(loss.nominal, "1715.7287525");
    assertPrinted(loss.mean, "1729.413");
    expect(Math.abs(loss.uncertainty - 201.67783)).toBeLessThan(0.001);
    assertPrinted(loss.linear.uncertainty, "198.11529");
    assertPrinted(loss.linear.sensitivities[0]!, "-12.132034");
    assertPrinted(loss.linear.sensitivities[1]!, "1213.20344");
    expect(Math.abs(loss.p05 - 1419.64)).toBeLessThan(0.1);
    expect(Math.abs(loss.p50 - 1713.72)).toBeLessThan(0.1);
    expect(Math.abs(loss.p95 - 2094.09)).toBeLessThan(0.1);
    assertPrinted(loss.corners.lowest, "1303.84635");
    assertPrinted(loss.corners.highest, "2307.95458");
    expect(loss.corners.found).toBe("all");
    assertPrinted(loss.linear.rootSumSquare, "343.14575");
    // By hand: 12.132034 · 20 + 1213.20344 · 0.2.
    assertPrinted(loss.linear.worstCase, "485.2814");
  });

  it("has the load voltage of the quadrature", () => {
    const voltage = spread(voltageOf, FEED_INPUTS, FINE);
    assertPrinted(voltage.nominal, "341.4213562");
    assertPrinted(voltage.mean, "341.2423");
    assertPrinted(voltage.uncertainty, "14.554");
    assertPrinted(voltage.linear.uncertainty, "14.52403");
    assertPrinted(voltage.linear.sensitivities[0]!, "1.207107");
    assertPrinted(voltage.linear.sensitivities[1]!, "-35.35534");
    expect(Math.abs(voltage.p05 - 317.89)).toBeLessThan(0.01);
    expect(Math.abs(voltage.p50 - 341.42)).toBeLessThan(0.01);
    expect(Math.abs(voltage.p95 - 363.91)).toBeLessThan(0.01);
    assertPrinted(voltage.corners.lowest, "308.74342");
    assertPrinted(voltage.corners.highest, "371.55494");
    assertPrinted(voltage.linear.rootSumSquare, "25.15637");
  });

  // A monotone answer of one input: its percentile is the answer at the percentile of the input, 2.18 Ω.
  it("has the percentiles of the resistance where the supply is exactly 400 V", () => {
    const inputs = [flat("supply", 400, 0), FEED_INPUTS[1]!];
    const loss = spread(lossOf, inputs, FINE);
    expect(Math.abs(loss.p95 - 1943.6008014)).toBeLessThan(0.01);
    const voltage = spread(voltageOf, inputs, FINE);
    expect(Math.abs(voltage.p05 - 334.9073756)).toBeLessThan(0.0003);
  });

  it("depends on the seed by less than a watt at 4096 samples, and not at all on the recalculation", () => {
    const p95 = (seed: number) => spread(lossOf, FEED_INPUTS, { samples: 4096, seed }).p95;
    const seeds = [1, 2, 3, 4, 5].map(p95);
    expect(p95(1)).toBe(seeds[0]);
    expect(new Set(seeds).size).toBe(5);
    for (const found of seeds) expect(Math.abs(found - 2094.09)).toBeLessThan(1);
  });
});

describe("distributions", () => {
  // Computed by scipy 1.17.1, special.ndtri.
  it.each([
    [1e-10, -6.361340902404056],
    [0.001, -3.090232306167813],
    [0.025, -1.9599639845400545],
    [0.1, -1.2815515655446004],
    [0.3, -0.5244005127080409],
    [0.8, 0.8416212335729143],
  ])("put %f of a normal quantity below %f", (probability, deviation) => {
    expect(Math.abs(normalQuantile(probability) / deviation - 1)).toBeLessThan(4e-15);
  });

  // Midpoint sums of the quantile: ∫q dp = 0 and ∫q² dp = u², GUM 4.3.7 and 4.3.9.
  it.each([
    ["flat", 1 / 3, 1e-6],
    ["triangular", 1 / 6, 1e-4],
    ["normal", 1 / 9, 1e-4],
  ] as const)("have the standard uncertainty of their shape: %s", (name, variance, bound) => {
    const { quantile, squareOfDivisor } = DISTRIBUTIONS[name];
    const cells = 20000;
    let [sum, squares] = [0, 0];
    for (let cell = 0; cell < cells; cell++) {
      const deviation = quantile((cell + 0.5) / cells);
      sum += deviation / cells;
      squares += deviation ** 2 / cells;
    }
    expect(Math.abs(sum)).toBeLessThan(1e-12);
    expect(Math.abs(squares / variance - 1)).toBeLessThan(bound);
    expect(1 / squareOfDivisor).toBe(variance);
  });
});

describe("groups", () => {
  const sum: UncertainFunction = ([a = 0, b = 0]) => a + b;
  const difference: UncertainFunction = ([a = 0, b = 0]) => a - b;
  const shared = [flat("a", 5, 1, "batch"), flat("b", 7, 1, "batch")];

  it("vary together: tolerances of a sum add, those of a difference cancel", () => {
    const added = spread(sum, shared, SHORT);
    // A flat input of half-width 2.
    expect(added.linear.uncertainty).toBeCloseTo(2 / Math.sqrt(3), 12);
    expect(added.linear.rootSumSquare).toBeCloseTo(2, 12);
    expect(added.corners).toMatchObject({ lowest: 10, highest: 14 });
    const taken = spread(difference, shared, SHORT);
    expect(taken.linear.uncertainty).toBeCloseTo(0, 12);
    expect(taken.corners).toMatchObject({ lowest: -2, highest: -2 });
    expect(taken.highestSample - taken.lowestSample).toBeLessThan(1e-12);
  });

  it("are no input of the same name", () => {
    const inputs = [flat("a", 5, 1, "b"), flat("b", 7, 1)];
    expect(spread(sum, inputs, SHORT).linear.parts).toHaveLength(2);
  });
});

describe("what has no answer", () => {
  // Upper root of V² − 400 V + 10 kW·R: none above 4 Ω, three quarters of 3.5 to 5.5 Ω.
  it("is counted and told, in samples and corners", () => {
    const inputs = [flat("supply", 400, 0), flat("resistance", 3.9, 0.4)];
    const found = spread(voltageOf, inputs, { samples: 1024, seed: 3 });
    // 0.5 of 0.8 Ω lie below 4 Ω.
    expect(found.answered).toBeGreaterThanOrEqual(639);
    expect(found.answered).toBeLessThanOrEqual(641);
    expect(found.corners).toMatchObject({ unanswered: 1, found: "all" });
    expect(found.caveats.map(({ code }) => code)).toEqual([
      "samples-unanswered",
      "corners-unanswered",
    ]);
    expect(found.caveats[0]!.text).toMatch(new RegExp(`^${1024 - found.answered} samples `));
  });

  it("is no spread at the nominal inputs, of hardly any sample, and of exact inputs", () => {
    const none = (f: UncertainFunction, inputs: readonly UncertainInput[]) => () =>
      spread(f, inputs, SHORT);
    expect(none(() => Number.NaN, [flat("a", 1, 1)])).toThrow(NoAnswerError);
    expect(none(([a]) => (a === 1 ? 1 : Number.NaN), [flat("a", 1, 1)])).toThrow(
      /0 of 256 samples have an answer/,
    );
    expect(none(([a]) => a!, [flat("a", 1, 0)])).toThrow(/no input has a tolerance/);
  });

  it("is no first order either, where the answer ends at the nominal inputs", () => {
    const found = spread(([a]) => (a! <= 1 ? a! : Number.NaN), [flat("a", 1, 1)], SHORT);
    expect(found.linear.uncertainty).toBeNaN();
    expect(found.caveats.map(({ code }) => code)).toContain("no-first-order");
    expect(Object.keys(spreadSteps(found, [flat("a", 1, 1)], QUANTITIES))).not.toContain(
      "firstOrder",
    );
  });
});

describe("inputs", () => {
  it.each([
    [[flat("a", Number.NaN, 1)], /a must be a number/],
    [[flat("a", 1, -1)], /a must be 0 or more/],
    [[flat("a", 1, 1), flat("a", 2, 1)], /inputs must be named once/],
  ])("are refused where they cannot be", (inputs, message) => {
    expect(() => spread(([a]) => a!, inputs, SHORT)).toThrow(InputError);
    expect(() => spread(([a]) => a!, inputs, SHORT)).toThrow(message);
  });

  it("bring as many sensitivities as they are", () => {
    expect(() => spread(lossOf, FEED_INPUTS, { ...SHORT, sensitivities: [1] })).toThrow(InputError);
  });
});

describe("extremes", () => {
  // A plane: its extremes are the nominal answer and the sum of |S|·T, whichever way they are found.
  it("of a plane are at the sum of |S|·T, by all corners and by signs", () => {
    const coefficients = fc.array(fc.double({ min: -5, max: 5, noNaN: true }), {
      minLength: 1,
      maxLength: 20,
    });
    fc.assert(
      fc.property(coefficients, (slopes) => {
        const inputs = slopes.map((_, index) => flat(`x${index}`, index, 1 + index));
        const f: UncertainFunction = (values) =>
          slopes.reduce((sum, slope, index) => sum + slope * values[index]!, 0);
        const reach = slopes.reduce((sum, slope, index) => sum + Math.abs(slope) * (1 + index), 0);
        const { nominal, corners } = spread(f, inputs, { samples: 16, seed: 1 });
        expect(corners.found).toBe(slopes.length <= 12 ? "all" : "signs");
        expect(corners.highest - nominal).toBeCloseTo(reach, 6);
        expect(nominal - corners.lowest).toBeCloseTo(reach, 6);
      }),
      { numRuns: 50 },
    );
  });

  it("are those that the caller knows", () => {
    const extremes = { lowest: 1, highest: 9 };
    const { corners } = spread(lossOf, FEED_INPUTS, { ...SHORT, extremes });
    expect(corners).toEqual({ ...extremes, found: "given", unanswered: 0 });
  });

  it("of a hill are within its corners: at the middle, which is told beside them", () => {
    const hill: UncertainFunction = ([x]) => 4 - x! ** 2;
    const { corners, inside } = spread(hill, [flat("x", 0, 1)], { samples: 64, seed: 1 });
    expect([corners.lowest, corners.highest]).toEqual([3, 3]);
    expect(inside.highest).toBe(4);
    expect(inside.lowest).toBeGreaterThanOrEqual(3);
  });

  it("count no sample of a normal input that lies beyond its tolerance", () => {
    const inputs: UncertainInput[] = [
      { name: "a", value: 0, halfWidth: 3, distribution: "normal" },
      flat("b", 0, 1),
    ];
    const found = spread(([a]) => a!, inputs, { samples: 4096, seed: 1 });
    expect(found.highestSample).toBeGreaterThan(3);
    expect(found.inside.highest).toBeLessThanOrEqual(3);
    expect(found.inside.highest).toBeGreaterThan(2.5);
  });

  it("may be passed by samples of a normal input, and say so", () => {
    const inputs: UncertainInput[] = [
      { name: "a", value: 0, halfWidth: 3, distribution: "normal" },
    ];
    const found = spread(([a]) => a!, inputs, { samples: 4096, seed: 1 });
    expect(found.highestSample).toBeGreaterThan(found.corners.highest);
    expect(found.caveats.map(({ code }) => code)).toEqual(["normal-beyond"]);
  });
});

const QUANTITIES = {
  answer: { label: "Loss", symbol: "P", unit: "W" },
  inputs: [
    { label: "Supply", symbol: "V", unit: "V" },
    { label: "Resistance", symbol: "R", unit: "Ω" },
  ],
};

describe("the working of a spread", () => {
  it.each([
    ["apart", undefined],
    ["in one group", "batch"],
  ])("gives every figure again, inputs %s", (_, group) => {
    const inputs = FEED_INPUTS.map((input) => ({ ...input, group }));
    const found = spread(lossOf, inputs, { samples: 1000, seed: 5 });
    const steps = spreadSteps(found, inputs, QUANTITIES);
    const values = spreadValues(found, inputs);
    assertSteps(steps, values);
    const known = new Set(Object.keys(spreadGivens(found, inputs, QUANTITIES)));
    for (const [field, step] of Object.entries(steps)) {
      expect(step.kind).toBe("formula");
      if (step.kind === "formula")
        for (const read of fieldsOf(step.formula))
          expect(known, `${field}: ${read}`).toContain(read);
      known.add(field);
    }
    expect([...known].sort()).toEqual(Object.keys(values).sort());
  });

  // By hand: of 1 to 10, 5 % lie below the first (0.05 · 10 − 0.5 = 0), half below 5.5.
  it("takes a percentile straight between two answers", () => {
    const sorted = Float64Array.from({ length: 10 }, (_, index) => index + 1);
    expect([0.05, 0.5, 0.95].map((part) => percentile(sorted, part))).toEqual([1, 5.5, 10]);
  });
});
