import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { PURPOSES } from "../../functions/documents/purposes.js";
import { EXAMPLE_ANSWERS } from "../../functions/documents/examples.js";
import type { Argument } from "../../functions/cells.js";
import { ratioEntries } from "../../functions/families/ratio.js";
import { evaluate } from "../../functions/runner.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

function given(id: string, ...args: Argument[]) {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
  return outcome;
}

function refused(id: string, ...args: Argument[]): string {
  const outcome = evaluate(id, args);
  assert.ok(!outcome.ok, `${id} gave a value`);
  return `${outcome.code} ${outcome.argument}: ${outcome.message}`;
}

const caveats = (id: string, ...args: Argument[]) =>
  given(id, ...args).caveats.map(({ text }) => text);

const NOTHING: readonly Argument[] = ["", null, undefined];
/** Of an optional argument for which 0 is a value and the default. */
const BLANKS: readonly Argument[] = [0, ...NOTHING];

describe("the ratio functions of the catalogue", () => {
  it("have their arguments in this order", () => {
    assert.deepEqual(
      Object.fromEntries(
        ratioEntries.map(({ id, parameters }) => [
          id,
          Object.values(parameters).map(({ name, optional }) => name + (optional ? "?" : "")),
        ]),
      ),
      {
        RATIO_OUTPUT: ["input V", "ratio", "output current?", "output resistance?"],
        RATIO_INPUT_CURRENT: ["output current", "ratio", "input V?", "no-load W?"],
        RATIO_LOSS: ["input V", "ratio", "output current", "output resistance", "no-load W"],
      },
    );
  });

  for (const { id, example } of ratioEntries)
    it(`${id} gives its example, with steps that another engine follows`, () => {
      const { value, working } = given(id, ...example.args);
      assertPrinted(Number(value), String(EXAMPLE_ANSWERS[id]!.gives));
      const purpose = PURPOSES[id]!;
      assert.ok(purpose.length <= 255 && !purpose.includes("\n"));
      const [told] = working();
      assert.ok(told && Object.values(told.values).includes(value));
      assertSteps(told.steps, told.values);
    });
});

describe("RATIO_OUTPUT", () => {
  it("gives 48 V of 384 V through 1/8, at no load, however the blank is written", () => {
    for (const current of BLANKS)
      for (const resistance of BLANKS) {
        const call = [384, 1 / 8, current, resistance] as const;
        assert.equal(given("RATIO_OUTPUT", ...call).value, 48);
        assert.deepEqual(caveats("RATIO_OUTPUT", ...call), ["at no load: no output current given"]);
      }
    assert.equal(given("RATIO_OUTPUT", 384, 1 / 8).value, 48);
  });

  it("notes a current without a resistance, and nothing where both are there", () => {
    for (const resistance of BLANKS)
      assert.deepEqual(caveats("RATIO_OUTPUT", 384, 1 / 8, 40, resistance), [
        "ideal: no output resistance given",
      ]);
    assert.deepEqual(caveats("RATIO_OUTPUT", 384, 1 / 8, 40, 0.015), []);
  });

  it("says that there is no output, and by how much", () => {
    assert.equal(
      refused("RATIO_OUTPUT", 384, 1 / 8, 40, 2),
      "#N/A output current: no output voltage is left: 40 A through 2 Ω drops 80 V, 32 V more than the 48 V there is; the current must be below 24 A",
    );
  });

  const bad: readonly (readonly [Argument[], string])[] = [
    [["", 0.125], "#VALUE! input V: input V must be given, got nothing"],
    [[384, 0], "#VALUE! ratio: ratio must be above 0, got 0"],
    [["384 V", 0.125], '#VALUE! input V: input V must be a number, got "384 V"'],
    [[-384, 0.125], "#VALUE! input V: input V must be above 0, got -384"],
    [[384, -0.125], "#VALUE! ratio: ratio must be above 0, got -0.125"],
    [[384, 0.125, -1], "#VALUE! output current: output current must be 0 or more, got -1"],
    [[384, 0.125, 1, -1], "#VALUE! output resistance: output resistance must be 0 or more, got -1"],
    [[Number.NaN, 0.125], "#VALUE! input V: input V must be a finite number, got NaN"],
    [[384, Infinity], "#VALUE! ratio: ratio must be a finite number, got Infinity"],
    [[true, 0.125], "#VALUE! input V: input V must be a number, got true"],
    [[[[384, 385]], 0.125], '#VALUE! input V: input V must be one cell, got "1 rows × 2 columns"'],
    [[{ error: "#REF!" }, 0.125], "#REF! input V: input V holds #REF!"],
  ];
  for (const [args, message] of bad)
    it(message, () => {
      assert.equal(refused("RATIO_OUTPUT", ...args), message);
    });
});

describe("RATIO_INPUT_CURRENT", () => {
  // Common practice, no source: current goes by the inverse of the voltage.
  it("divides the current where the ratio divides the voltage, however the blanks are written", () => {
    for (const input of NOTHING)
      for (const noLoad of NOTHING) {
        const call = [100, 1 / 4, input, noLoad] as const;
        const { value, working } = given("RATIO_INPUT_CURRENT", ...call);
        assert.equal(value, 25);
        const [told] = working();
        assert.ok(told);
        assertSteps(told.steps, told.values);
        assert.deepEqual(caveats("RATIO_INPUT_CURRENT", ...call), [
          "ideal: no no-load power given",
        ]);
      }
    assert.equal(given("RATIO_INPUT_CURRENT", 25, 4).value, 100);
  });

  it("gives the current at no load, and says so", () => {
    const call = [0, 1 / 8, 400, 18] as const;
    assertPrinted(Number(given("RATIO_INPUT_CURRENT", ...call).value), "0.045");
    assert.deepEqual(caveats("RATIO_INPUT_CURRENT", ...call), [
      "at no load: no output current given",
    ]);
    assert.equal(
      refused("RATIO_INPUT_CURRENT", "", 1 / 8, 400, 18),
      "#VALUE! output current: output current must be given, got nothing",
    );
  });

  it("takes input V and no-load W both or neither", () => {
    for (const blank of NOTHING) {
      assert.equal(
        refused("RATIO_INPUT_CURRENT", 40, 0.125, blank, 18),
        "#VALUE! input V: input V must be given where no-load W is, got nothing",
      );
      assert.equal(
        refused("RATIO_INPUT_CURRENT", 40, 0.125, 384, blank),
        "#VALUE! no-load W: no-load W must be given and above 0 where input V is (leave both out for a stage that draws nothing at no load), got nothing",
      );
    }
    assert.equal(given("RATIO_INPUT_CURRENT", 40, 0.125, 384, 0).value, 5);
  });

  const bad: readonly (readonly [Argument[], string])[] = [
    [[-1, 0.125], "#VALUE! output current: output current must be 0 or more, got -1"],
    [[40, ""], "#VALUE! ratio: ratio must be given, got nothing"],
    [[40, 0.125, -384, 18], "#VALUE! input V: input V must be above 0, got -384"],
    [[40, 0.125, 384, -18], "#VALUE! no-load W: no-load W must be 0 or more, got -18"],
    [["40", 0.125], '#VALUE! output current: output current must be a number, got "40"'],
  ];
  for (const [args, message] of bad)
    it(message, () => {
      assert.equal(refused("RATIO_INPUT_CURRENT", ...args), message);
    });
});

describe("RATIO_LOSS", () => {
  it("takes 0 as a value in its last three arguments, and notes an ideal stage", () => {
    assert.equal(given("RATIO_LOSS", 384, 1 / 8, 0, 0.015, 18).value, 18);
    assert.deepEqual(caveats("RATIO_LOSS", 384, 1 / 8, 0, 0.015, 18), []);
    assert.deepEqual(caveats("RATIO_LOSS", 384, 1 / 8, 40, 0, 18), [
      "ideal: no output resistance given",
    ]);
    assert.deepEqual(caveats("RATIO_LOSS", 384, 1 / 8, 40, 0.015, 0), [
      "ideal: no no-load power given",
    ]);
    for (const blank of ["", null])
      assert.equal(
        refused("RATIO_LOSS", 384, 1 / 8, 40, 0.015, blank),
        "#VALUE! no-load W: no-load W must be given, got nothing",
      );
  });

  const bad: readonly (readonly [Argument[], string])[] = [
    [
      [384, 0.125, 40, 2, 18],
      "#N/A output current: no output voltage is left: 40 A through 2 Ω drops 80 V, 32 V more than the 48 V there is; the current must be below 24 A",
    ],
    [[384, 0.125, 40, 0.015, -1], "#VALUE! no-load W: no-load W must be 0 or more, got -1"],
    [
      [384, 0.125, 40, "cold", 18],
      '#VALUE! output resistance: output resistance must be a number, got "cold"',
    ],
    [[null, 0.125, 40, 0.015, 18], "#VALUE! input V: input V must be given, got nothing"],
  ];
  for (const [args, message] of bad)
    it(message, () => {
      assert.equal(refused("RATIO_LOSS", ...args), message);
    });
});
