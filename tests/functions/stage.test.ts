import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { Argument } from "../../functions/cells.js";
import { stageEntries } from "../../functions/families/stage.js";
import { evaluate } from "../../functions/runner.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

function refused(...args: Argument[]): string {
  const outcome = evaluate("STAGE_LOSS", args);
  assert.ok(!outcome.ok, "STAGE_LOSS gave a value");
  return `${outcome.code} ${outcome.argument}: ${outcome.message}`;
}

describe("STAGE_LOSS", () => {
  it("has its arguments in this order, none of them optional", () => {
    const entry = stageEntries.find(({ id }) => id === "STAGE_LOSS");
    assert.ok(entry);
    assert.deepEqual(
      Object.values(entry.parameters).map(({ name, optional }) => [
        name,
        optional,
      ]),
      [
        ["output current", undefined],
        ["fixed", undefined],
        ["linear", undefined],
        ["quadratic", undefined],
      ],
    );
  });

  it("gives its example, with steps that another engine follows", () => {
    for (const { id, example } of stageEntries) {
      if (id !== "STAGE_LOSS") continue;
      const outcome = evaluate(id, example.args);
      assert.ok(outcome.ok);
      assertPrinted(Number(outcome.value), String(example.gives));
      const [told] = outcome.working();
      assert.ok(told);
      assertSteps(told.steps, told.values);
    }
  });

  // J. Beerten, MatACDC results file (seen): 1.28876167 MW.
  it("gives the first converter loss of MatACDC", () => {
    const outcome = evaluate(
      "STAGE_LOSS",
      [128.3044903913446, 1.103e6, 887, 4.371],
    );
    assert.ok(outcome.ok);
    assertPrinted(Number(outcome.value) / 1e6, "1.28876167");
  });

  it("takes 0 and a blank alike in every place, and notes a stage without losses", () => {
    for (const blank of [0, "", null]) {
      const outcome = evaluate("STAGE_LOSS", [20, blank, blank, blank]);
      assert.ok(outcome.ok);
      assert.equal(outcome.value, 0);
      assert.deepEqual(
        outcome.notes.map(({ text }) => text),
        ["ideal: no losses given"],
      );
      const idle = evaluate("STAGE_LOSS", [blank, 6, 0.1, 0.01]);
      assert.ok(idle.ok && idle.value === 6);
    }
  });

  const bad: readonly (readonly [Argument[], string])[] = [
    [
      [-20, 6, 0.1, 0.01],
      "#VALUE! output current: output current must be 0 or more, got -20",
    ],
    [[20, -6, 0.1, 0.01], "#VALUE! fixed: fixed must be 0 or more, got -6"],
    [[20, 6, "b", 0.01], '#VALUE! linear: linear must be a number, got "b"'],
    [
      [20, 6, 0.1, Number.NaN],
      "#VALUE! quadratic: quadratic must be a finite number, got NaN",
    ],
    [
      [Infinity, 6, 0.1, 0.01],
      "#VALUE! output current: output current must be a finite number, got Infinity",
    ],
    [
      ["", null],
      "#VALUE! output current: output current must be given (a blank cell may be read as 0), got nothing",
    ],
    [
      [20, 6, 0.1, 0.01, 1],
      "#VALUE! arguments: arguments must be 4 at most, got 5",
    ],
  ];
  for (const [args, message] of bad)
    it(message, () => {
      assert.equal(refused(...args), message);
    });
});
