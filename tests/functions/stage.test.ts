import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { EXAMPLE_ANSWERS } from "../../functions/documents/examples.js";
import type { Argument, Cell } from "../../functions/cells.js";
import { stageEntries } from "../../functions/families/stage.js";
import { evaluate } from "../../functions/runner.js";
import { laidOut } from "../../functions/working/native/laid-out.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { callOverCells, placedResult } from "../helpers/call-trees.js";
import { ironCalc } from "../helpers/iron-calc.js";

function refused(...args: Argument[]): string {
  return refusedBy("STAGE_LOSS", args);
}

function refusedBy(id: string, args: Argument[]): string {
  const outcome = evaluate(id, args);
  assert.ok(!outcome.ok, `${id} gave a value`);
  return `${outcome.code} ${outcome.argument}: ${outcome.message}`;
}

describe("STAGE_LOSS", () => {
  it("has its arguments in this order, none of them optional", () => {
    const entry = stageEntries.find(({ id }) => id === "STAGE_LOSS");
    assert.ok(entry);
    assert.deepEqual(
      Object.values(entry.parameters).map(({ name, optional }) => [name, optional]),
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
      assertPrinted(Number(outcome.value), String(EXAMPLE_ANSWERS[id]!.gives));
      const [told] = outcome.working();
      assert.ok(told);
      assertSteps(told.steps, told.values);
    }
  });

  // J. Beerten, MatACDC results file (seen): 1.28876167 MW.
  it("gives the first converter loss of MatACDC", () => {
    const outcome = evaluate("STAGE_LOSS", [128.3044903913446, 1.103e6, 887, 4.371]);
    assert.ok(outcome.ok);
    assertPrinted(Number(outcome.value) / 1e6, "1.28876167");
  });

  it("takes 0 in every place, notes a stage without losses, and refuses a blank one by name", () => {
    const outcome = evaluate("STAGE_LOSS", [20, 0, 0, 0]);
    assert.ok(outcome.ok);
    assert.equal(outcome.value, 0);
    assert.deepEqual(
      outcome.caveats.map(({ text }) => text),
      ["ideal: no losses given"],
    );
    const idle = evaluate("STAGE_LOSS", [0, 6, 0.1, 0.01]);
    assert.ok(idle.ok && idle.value === 6);
    ["output current", "fixed", "linear", "quadratic"].forEach((name, at) => {
      for (const blank of ["", null]) {
        const args: Argument[] = [20, 6, 0.1, 0.01];
        args[at] = blank;
        assert.equal(refused(...args), `#VALUE! ${name}: ${name} must be given, got nothing`);
      }
    });
  });

  const bad: readonly (readonly [Argument[], string])[] = [
    [[-20, 6, 0.1, 0.01], "#VALUE! output current: output current must be 0 or more, got -20"],
    [[20, -6, 0.1, 0.01], "#VALUE! fixed: fixed must be 0 or more, got -6"],
    [[20, 6, "b", 0.01], '#VALUE! linear: linear must be a number, got "b"'],
    [[20, 6, 0.1, Number.NaN], "#VALUE! quadratic: quadratic must be a finite number, got NaN"],
    [
      [Infinity, 6, 0.1, 0.01],
      "#VALUE! output current: output current must be a finite number, got Infinity",
    ],
    [["", null], "#VALUE! output current: output current must be given, got nothing"],
    [[20, 6, 0.1, 0.01, 1], "#VALUE! arguments: arguments must be 4 at most, got 5"],
  ];
  for (const [args, message] of bad)
    it(message, () => {
      assert.equal(refused(...args), message);
    });
});

/** The argument names of a function in their order, an optional one with a question mark. */
function namesOf(id: string): string[] {
  const entry = stageEntries.find((one) => one.id === id);
  assert.ok(entry);
  return Object.values(entry.parameters).map(({ name, optional }) => name + (optional ? "?" : ""));
}

describe("STAGE_FIT, STAGE_EFFICIENCY, STAGE_PEAK and STAGE_DERATED", () => {
  it("have their arguments in this order", () => {
    const losses = ["fixed", "linear", "quadratic"];
    assert.deepEqual(namesOf("STAGE_FIT"), ["output V", "loads W", "efficiencies"]);
    assert.deepEqual(namesOf("STAGE_EFFICIENCY"), ["output V", "output current", ...losses]);
    assert.deepEqual(namesOf("STAGE_PEAK"), ["output V", ...losses]);
    assert.deepEqual(namesOf("STAGE_DERATED"), ["rated W", "ambient", "knee °C", "zero °C"]);
  });

  // By hand: 10, 20 and 30 W at 10 V lose 1 + 0.5 · I + 0.25 · I²: 1.75, 3 and 4.75 W.
  const EFFICIENCIES = [10 / 11.75, 20 / 23, 30 / 34.75];

  it("fit points that stand in a row or a column, blanks behind them passed over", () => {
    const down = (cells: readonly Cell[]) => cells.map((cell) => [cell]);
    for (const args of [
      [10, [[10, 20, 30]], [EFFICIENCIES]],
      [10, down([10, 20, 30]), down(EFFICIENCIES)],
      [10, down([10, 20, 30, "", null]), down([...EFFICIENCIES, null, ""])],
    ] as Argument[][]) {
      const outcome = evaluate("STAGE_FIT", args);
      assert.ok(outcome.ok, JSON.stringify(outcome));
      const [row] = outcome.value as number[][];
      ["1.000000", "0.500000", "0.250000", "0.000000"].forEach((printed, at) =>
        assertPrinted(row?.[at] ?? Number.NaN, printed),
      );
    }
  });

  it("put a fit into the efficiency, and come back to its points", () => {
    const fit = evaluate("STAGE_FIT", [10, [[10, 20, 30]], [EFFICIENCIES]]);
    assert.ok(fit.ok);
    const [row] = fit.value as number[][];
    EFFICIENCIES.forEach((wanted, at) => {
      const outcome = evaluate("STAGE_EFFICIENCY", [10, at + 1, ...row!.slice(0, 3)]);
      assert.ok(outcome.ok);
      assert.ok(Math.abs(Number(outcome.value) - wanted) <= 1e-12);
    });
  });

  it("give 0 W at the zero and above, with a note", () => {
    for (const ambient of [90, 120]) {
      const outcome = evaluate("STAGE_DERATED", [600, ambient, 50, 90]);
      assert.ok(outcome.ok);
      assert.equal(outcome.value, 0);
      assert.deepEqual(
        outcome.caveats.map(({ text }) => text),
        ["too warm to give any power"],
      );
    }
  });

  const points = [[10, 20, 30]];
  const wrong: readonly (readonly [string, Argument[], string])[] = [
    [
      "STAGE_FIT",
      [10, points, [[95, 96, 96]]],
      "#VALUE! efficiencies: efficiencies must be above 0 and at most 1: type 0.95, not 95, got 95",
    ],
    [
      "STAGE_FIT",
      [10, points, [[0.9, 0.92]]],
      '#VALUE! efficiencies: efficiencies must be as many as the loads, 3, got "2 cells"',
    ],
    [
      "STAGE_FIT",
      [10, [[10, 20, 20]], [[0.9, 0.92, 0.92]]],
      '#VALUE! loads W: loads W must be 3 different loads or more, for three coefficients, got "2 different loads"',
    ],
    [
      "STAGE_FIT",
      [10, [[10, -20, 30]], [[0.9, 0.92, 0.92]]],
      "#VALUE! loads W: loads W must be above 0, got -20",
    ],
    [
      "STAGE_FIT",
      [-10, points, [[0.9, 0.92, 0.92]]],
      "#VALUE! output V: output V must be above 0, got -10",
    ],
    [
      "STAGE_EFFICIENCY",
      [48, 0, 6, 0.1, 0.01],
      "#VALUE! output current: output current must be above 0, got 0",
    ],
    [
      "STAGE_EFFICIENCY",
      [48, 20, 6, -0.1, 0.01],
      "#VALUE! linear: linear must be 0 or more, got -0.1",
    ],
    [
      "STAGE_PEAK",
      [48, 20, 0.5, 0],
      "#N/A quadratic: there is no peak: without quadratic loss the efficiency only rises as the current grows",
    ],
    [
      "STAGE_PEAK",
      [48, 0, 0.5, 0.02],
      "#N/A fixed: there is no peak: without fixed loss the efficiency only falls as the current grows",
    ],
    [
      "STAGE_DERATED",
      [600, 20, 50, 50],
      "#VALUE! zero °C: zero °C must be above the knee, 50 °C, got 50",
    ],
    ["STAGE_DERATED", [-600, 20, 50, 90], "#VALUE! rated W: rated W must be above 0, got -600"],
  ];
  for (const [id, args, message] of wrong)
    it(`${id}: ${message}`, () => {
      assert.equal(refusedBy(id, args), message);
    });

  // Made-up points, off any curve by a few per mille: 6 + 0.1 · I + 0.01 · I² W at 12 V.
  it("lay out a fit of 40 points as formulas that a spreadsheet takes and that hold there", () => {
    const currents = Array.from({ length: 40 }, (_, at) => at + 1);
    const args: Argument[] = [
      12,
      currents.map((current) => [12 * current]),
      currents.map((current, at) => {
        const loss = 6 + 0.1 * current + 0.01 * current ** 2;
        return [(12 * current) / (12 * current + loss) - (at % 5) * 0.001];
      }),
    ];
    const laid = laidOut(callOverCells("STAGE_FIT", args).tree);
    assert.ok(laid.ok);
    const longest = Math.max(...laid.cells.map(({ formula }) => formula?.length ?? 0));
    assert.ok(longest > 1000 && longest <= 8192, `${longest}`);
    const working = new Map(
      laid.cells.flatMap(({ at, value, formula }) => {
        const content = formula === undefined ? value : `=${formula}`;
        return content === undefined ? [] : [[at, content] as const];
      }),
    );
    const shown = ironCalc({
      Inputs: callOverCells("STAGE_FIT", args).inputs,
      Results: placedResult("STAGE_FIT", args),
      Working: working,
    });
    assert.equal(shown("Working", laid.sameAt), "yes");
    const texts = [...working.keys()].map((at) => shown("Working", at));
    assert.ok(!texts.includes("no"));
  });
});
