import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../functions/runner.js";
import { ratioChoices, type RatioWindows } from "../../src/converters/ratio-choices.js";
import { ratioChoiceSteps } from "../../src/converters/ratio-choices-steps.js";
import {
  ratioReflected,
  REFLECTED_QUANTITIES,
  reflectedSteps,
} from "../../src/converters/ratio-reflected.js";
import { NoAnswerError } from "../../src/quantities/errors.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { operatingPoint as ngspice, NGSPICE_OPTIONS } from "../helpers/ngspice.js";

const figure = (least: number, most: number) =>
  fc.noBias(
    fc.integer({ min: 0, max: 10_000 }).map((part) => least + ((most - least) * part) / 10_000),
  );

const windows: fc.Arbitrary<RatioWindows> = fc
  .tuple(
    figure(20, 900),
    figure(0, 0.6),
    figure(2, 400),
    figure(0.1, 1.5),
    figure(0, 0.05),
    figure(0, 50),
    figure(0, 0.05),
  )
  .map(
    ([
      inputLowest,
      inputSpan,
      loadLowest,
      loadSpan,
      tolerance,
      outputCurrent,
      outputResistance,
    ]) => ({
      inputLowest,
      inputHighest: inputLowest * (1 + inputSpan),
      loadLowest,
      loadHighest: loadLowest * (1 + loadSpan),
      tolerance,
      outputCurrent,
      outputResistance,
    }),
  );

/** Output by the cell function, corner by corner. */
function output(input: number, ratio: number, current: number, resistance: number) {
  const outcome = evaluate("RATIO_OUTPUT", [input, ratio, current, resistance]);
  return outcome.ok ? Number(outcome.value) : -Infinity;
}

describe("ratioChoices", () => {
  it("finds what a loop over every whole ratio and every corner finds", () => {
    fc.assert(
      fc.property(windows, (asked) => {
        const { inputLowest, inputHighest, loadLowest, loadHighest, tolerance } = asked;
        const ratios = Array.from({ length: 400 }, (_, index) => index + 1).flatMap((step) =>
          step === 1 ? [1] : [step, 1 / step],
        );
        const fitting = ratios.filter((ratio) => {
          const corners = [inputLowest, inputHighest].flatMap((input) =>
            [1 - tolerance, 1 + tolerance].flatMap((factor) =>
              [0, asked.outputCurrent].map((current) =>
                output(input, ratio * factor, current, asked.outputResistance),
              ),
            ),
          );
          return corners.every(
            (volts) => volts >= loadLowest * (1 - 1e-12) && volts <= loadHighest * (1 + 1e-12),
          );
        });
        let found: readonly number[];
        try {
          found = ratioChoices(asked).choices.map(({ ratio }) => ratio);
        } catch (error) {
          assert.ok(error instanceof NoAnswerError);
          found = [];
        }
        expect(found.filter((ratio) => ratio <= 400 && ratio >= 1 / 400)).toEqual(
          fitting.sort((one, other) => other - one),
        );
      }),
      { numRuns: 60 },
    );
  });

  it("shows steps that recompute, and margins of 0 or more", () => {
    fc.assert(
      fc.property(windows, (asked) => {
        let choices;
        try {
          ({ choices } = ratioChoices(asked));
        } catch {
          return;
        }
        for (const choice of choices) {
          assert.ok(choice.lowerMargin >= 0 && choice.upperMargin >= 0);
          assertSteps(ratioChoiceSteps(choice), { ...asked, ...choice });
        }
      }),
    );
  });

  it("steps up where the load is above the supply", () => {
    const { choices } = ratioChoices({
      inputLowest: 44,
      inputHighest: 56,
      loadLowest: 170,
      loadHighest: 230,
      tolerance: 0,
      outputCurrent: 0,
      outputResistance: 0,
    });
    expect(choices.map(({ name }) => name)).toEqual(["4/1"]);
  });

  it("loses no ratio to rounding where it reaches an end of the window exactly", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1000 }),
        fc.integer({ min: 1, max: 60 }),
        fc.boolean(),
        (step, volts, up) => {
          const [input, load] = up ? [volts, volts * step] : [volts * step, volts];
          const { choices } = ratioChoices({
            inputLowest: input,
            inputHighest: input,
            loadLowest: load,
            loadHighest: load + 0.5,
            tolerance: 0,
            outputCurrent: 0,
            outputResistance: 0,
          });
          const found = choices.find(({ lowestOutput }) => lowestOutput === load);
          expect(found?.name).toBe(up && step > 1 ? `${step}/1` : `1/${step}`);
          expect(found?.lowerMargin).toBe(0);
        },
      ),
    );
  });

  it("notes that droop is left out where current or resistance is not given", () => {
    const texts = (outputCurrent: number, outputResistance: number) =>
      ratioChoices({
        inputLowest: 360,
        inputHighest: 400,
        loadLowest: 40,
        loadHighest: 60,
        tolerance: 0.01,
        outputCurrent,
        outputResistance,
      }).caveats.map(({ text }) => text);
    expect(texts(10, 0.01)).toEqual([]);
    expect(texts(10, 0)).toEqual(["without droop: no output resistance given"]);
    expect(texts(0, 0)).toEqual([
      "without droop: no output current and no output resistance given",
    ]);
  });

  it("says by how much the nearest ratio misses, and at which end", () => {
    const asked = {
      inputLowest: 300,
      inputHighest: 600,
      loadLowest: 40,
      loadHighest: 57,
      tolerance: 0.01,
      outputCurrent: 0,
      outputResistance: 0,
    };
    assert.throws(
      () => ratioChoices(asked),
      /no whole ratio up to 1000 fits the load's 40 to 57 V: 1\/9 comes nearest with 33 to 67.33 V, 7 V below its lowest and 10.33 V above its highest/,
    );
  });
});

describe("ratioReflected", () => {
  it("there and back again is where it started", () => {
    fc.assert(
      fc.property(
        figure(0.001, 1000),
        figure(0.01, 20),
        fc.constantFrom(...REFLECTED_QUANTITIES),
        (value, ratio, quantity) => {
          const reflection = { value, ratio, quantity };
          const there = ratioReflected(reflection);
          const back = ratioReflected({
            value: there.reflected,
            ratio: 1 / ratio,
            quantity,
          });
          assert.ok(Math.abs(back.reflected / value - 1) <= 1e-12);
          assertSteps(reflectedSteps(reflection), { ...reflection, ...there });
        },
      ),
    );
  });

  it("keeps power, and every time constant of the side that it leaves", () => {
    fc.assert(
      fc.property(figure(0.01, 20), (ratio) => {
        const at = (quantity: (typeof REFLECTED_QUANTITIES)[number]) =>
          ratioReflected({ value: 3, ratio, quantity }).reflected;
        assert.ok(Math.abs((at("voltage") * at("current")) / 9 - 1) <= 1e-12);
        assert.ok(Math.abs((at("resistance") * at("capacitance")) / 9 - 1) <= 1e-12);
        assert.ok(Math.abs((at("inductance") * at("capacitance")) / 9 - 1) <= 1e-12);
        // Ohm's law on the other side; with the power kept it tells voltage from current.
        assert.ok(Math.abs(at("voltage") / at("current") / (at("resistance") / 3) - 1) <= 1e-12);
      }),
    );
  });

  it("is what ngspice sees behind an ideal stage: the sag of a supply's resistance", async () => {
    for (const [volts, resistance, ratio, current] of fc.sample(
      fc.tuple(figure(100, 900), figure(0.1, 10), figure(0.05, 3), figure(0.5, 5)),
      { numRuns: 15, seed: 5 },
    )) {
      // Input current is ratio · output current; the output stands at ratio · input voltage.
      const circuit = await ngspice(
        `v1 a 0 ${volts}\nr1 a b ${resistance}\ne1 o 0 b 0 ${ratio}\nvs o q 0\nf1 b 0 vs ${ratio}\ni1 q 0 ${current}\n${NGSPICE_OPTIONS}`,
      );
      const seen = ratioReflected({
        value: resistance,
        ratio,
        quantity: "resistance",
      }).reflected;
      const wanted = volts * ratio - current * seen;
      assert.ok(Math.abs(circuit["v(q)"]! - wanted) <= 1e-9 * volts);
    }
  });
});
