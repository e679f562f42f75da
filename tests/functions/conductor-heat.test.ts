import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { PURPOSES } from "../../functions/documents/purposes.js";
import { EXAMPLE_ANSWERS } from "../../functions/documents/examples.js";
import type { Argument } from "../../functions/cells.js";
import { conductorHeatEntries } from "../../functions/families/conductor-heat.js";
import { evaluate, type Refusal } from "../../functions/runner.js";
import { citations } from "../../src/quantities/citations.js";
import { fieldsOf } from "../../src/quantities/formulas.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

const TEMPERATURE = "CONDUCTOR_TEMPERATURE";
const AMPACITY = "CONDUCTOR_AMPACITY";

function given(id: string, ...args: Argument[]): number {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
  return Number(outcome.value);
}

function refused(id: string, ...args: Argument[]): Refusal {
  const outcome = evaluate(id, args);
  assert.ok(!outcome.ok, `${id} gave ${outcome.ok ? outcome.value : ""}`);
  return outcome;
}

function caveats(id: string, ...args: Argument[]): string[] {
  const outcome = evaluate(id, args);
  return outcome.ok ? outcome.caveats.map(({ code }) => code) : [];
}

describe("the functions of a cable in still air", () => {
  it("have their arguments in this order", () => {
    const cable = [
      "ambient",
      "outer diameter mm",
      "loaded cores",
      "insulation?",
      "grouping?",
      "altitude m?",
      "sun W/m²?",
      "material?",
      "build?",
    ];
    assert.deepEqual(
      conductorHeatEntries.map(({ id, parameters }) => [
        id,
        ...Object.values(parameters).map(({ name, optional }) => name + (optional ? "?" : "")),
      ]),
      [
        [TEMPERATURE, "current", "size", ...cable],
        [AMPACITY, "size", "temperature limit", ...cable],
      ],
    );
  });

  for (const entry of conductorHeatEntries) {
    it(`${entry.id} gives its example and cites works that are listed`, () => {
      const { args } = entry.example;
      const { gives } = EXAMPLE_ANSWERS[entry.id]!;
      assertPrinted(given(entry.id, ...args), String(gives));
      for (const id of entry.citations) assert.ok(citations[id].work);
      assert.ok(PURPOSES[entry.id]!.length <= 255 && !PURPOSES[entry.id]!.includes("\n"));
    });
  }

  // By hand, from the temperatures that the notes of the examples state: 4.61 mΩ/m at 20 °C.
  it("have examples whose notes add up", () => {
    const hot = 4.61e-3 * (1 + 0.00393 * 32.9);
    assertPrinted(hot * 1e3, "5.21");
    assertPrinted(2 * 25 ** 2 * hot, "6.51");
    assertPrinted(3.4 + 3.11, "6.51");
    assertPrinted(43.4 + 6.51 * 1.452, "52.9");
    // (ln(12 / 3.192) + ½) / (2π · 0.2)
    assertPrinted((Math.log(12 / 3.192) + 0.5) / (0.4 * Math.PI), "1.452");
    assertPrinted(52.7 + 11.93 * 1.452, "70.0");
    assertPrinted(Math.sqrt(11.93 / (2 * 5.516e-3)), "32.9");
  });
});

describe("the working of a cable in still air", () => {
  const calls: readonly [string, Argument[]][] = [
    [TEMPERATURE, [25, "4 mm²", 30, 12, 2]],
    [TEMPERATURE, [10, "AWG 14", 20, 1.63, 1, "none"]],
    [TEMPERATURE, [10, 2, 20, 1.63, 1, "none", 1, 0, 0, [[2e-8, 0.004]]]],
    [TEMPERATURE, [30, "10 mm²", -20, 9, 1, "XLPE", 0.8, 2500, 700]],
    [TEMPERATURE, [90, "250 kcmil", 40, 20, 1, "silicone", "", 15000]],
    [AMPACITY, ["4 mm²", 70, 30, 12, 2]],
    [AMPACITY, ["16 mm²", 60, 40, 5, 1, "none", "", "", "", "aluminium"]],
    [AMPACITY, [2.08, 200, 50, 2.3, 1, "PTFE", 1, 0, 0, [[3.6e-8, 0]]]],
    [AMPACITY, ["AWG 8", 90, 35, 15, 4, "XLPE", 0.65, 1800, 500]],
    [AMPACITY, ["2.5 mm²", 70, 30, 11, 3, "", "", "", "", "", "class 5"]],
  ];
  for (const [id, args] of calls) {
    it(`${id}(${JSON.stringify(args)}) ends in the cell's number, each step followed by another engine`, () => {
      const outcome = evaluate(id, args);
      assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
      const [working] = outcome.working();
      assert.ok(working);
      const { steps, values, givens } = working;
      assertSteps(steps, values);
      const known = new Set(Object.keys(givens));
      for (const [field, step] of Object.entries(steps)) {
        // An equation may read what is computed from its solution.
        const read =
          step.kind === "formula"
            ? fieldsOf(step.formula)
            : step.kind === "lookup"
              ? [step.key]
              : [];
        for (const name of read) assert.ok(known.has(name), `${field}: ${name}`);
        known.add(field);
      }
      for (const name of known) assert.ok(values[name] !== undefined, `no value of ${name}`);
      const shown = id === AMPACITY ? "current" : "conductorTemperatureC";
      assert.equal(values[shown], outcome.value);
      assert.equal(Object.values(steps).filter(({ kind }) => kind === "solved").length, 1);
    });
  }
});

describe("CONDUCTOR_AMPACITY and CONDUCTOR_TEMPERATURE", () => {
  it("are each other's inverse through the cells", () => {
    const rest = [40, 12, 2, "XLPE", 0.8, 1500, 300] as const;
    const current = given(AMPACITY, "6 mm²", 85, ...rest);
    const back = given(TEMPERATURE, current, "6 mm²", ...rest);
    assert.ok(Math.abs(back - 85) < 1e-9);
  });

  it("take PVC, no grouping, sea level and shade where nothing is given, with notes", () => {
    const bare = ["4 mm²", 70, 30, 12, 2] as const;
    const expected = given(AMPACITY, ...bare);
    assert.equal(given(AMPACITY, ...bare, "pvc", 1), expected);
    for (const blank of ["", null, undefined]) {
      const args = [...bare, blank, blank, blank, blank, blank, blank];
      assert.equal(given(AMPACITY, ...args), expected);
      assert.deepEqual(caveats(AMPACITY, ...args), [
        "several-cores",
        "below-tables",
        "still-air",
        "local-code",
        "no-sun",
        "alone",
        "sea-level",
      ]);
    }
  });

  it("say which way they err where published figures differ", () => {
    const texts = (...args: Argument[]) => {
      const outcome = evaluate(AMPACITY, args);
      assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
      return outcome.caveats.map(({ text }) => text).join("\n");
    };
    assert.match(
      texts("4 mm²", 70, 30, 12, 2),
      /on the safe side for two cores .*: 7 to 24 % less current/,
    );
    assert.match(
      texts(1963.5, 90, 40, 50, 1, "none"),
      /on the unsafe side for thick bare bars: .* 11 % more current/,
    );
    assert.match(
      texts("AWG 14", 200, 50, 2.3, 1, "PTFE", "", 6096),
      /on the unsafe side for thin wires: .*0\.93 .*0\.91/,
    );
    const none = texts("AWG 14", 200, 50, 2.3, 1, "PTFE", "", 1500);
    assert.doesNotMatch(none, /on the (un)?safe side/);
    assert.doesNotMatch(texts("AWG 14", 90, 30, 1.63, 1, "none"), /on the (un)?safe side/);
  });

  it("say that a drum is not still air, and that the local code governs", () => {
    for (const { id, example } of conductorHeatEntries) {
      const outcome = evaluate(id, example.args);
      assert.ok(outcome.ok);
      const texts = outcome.caveats.map(({ text }) => text).join("\n");
      assert.match(texts, /on a drum/);
      assert.match(texts, /installation tables of the local code govern/);
    }
  });
});

describe("what the functions of a cable in still air refuse", () => {
  it("answers #N/A to thermal runaway and to limits that no current keeps", () => {
    const runaway = refused(TEMPERATURE, 500, "4 mm²", 30, 12, 2);
    assert.deepEqual([runaway.code, runaway.argument], ["#N/A", "current"]);
    assert.match(runaway.message, /^thermal runaway: at 500 A per core/);
    const cold = refused(AMPACITY, "4 mm²", 30, 40, 12, 2);
    assert.deepEqual([cold.code, cold.argument], ["#N/A", "temperature limit"]);
    const sun = refused(AMPACITY, "4 mm²", 40, 30, 12, 2, "", "", "", 1000);
    assert.deepEqual([sun.code, sun.argument], ["#N/A", "sun W/m²"]);
  });

  it("names argument, value and bound, in the unit of the cell", () => {
    const at = (...rest: Argument[]) => refused(TEMPERATURE, 10, "4 mm²", ...rest).message;
    for (const [message, expected] of [
      [at(30, 3, 2), /^outer diameter mm must be above the 3.192 mm .*, got 3$/],
      [at(30, 12, 1.5), /^loaded cores must be a whole number, 1 or more, got/],
      [at(30, 12, 2, "rubber"), /^insulation must be "none" or .*"rubber"$/],
      [at(30, 12, 2, "", 1.5), /^grouping must be above 0 and at most 1, got/],
      [at(30, 12, 2, "", "", 3e4), /^altitude m must be -5000 to 20000 m, got/],
      [at(30, 12, 2, "", "", "", -5), /^sun W\/m² must be 0 or more, got -5$/],
      [at("", 12, 2), /^ambient must be given, got nothing$/],
    ] as const)
      assert.match(message, expected);
  });
});
