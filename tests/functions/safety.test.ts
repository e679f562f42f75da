import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { EXAMPLE_ANSWERS } from "../../functions/documents/examples.js";
import { catalogue } from "../../functions/catalogue.js";
import type { Argument } from "../../functions/cells.js";
import { evaluate, type Refusal } from "../../functions/runner.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

const SAFETY = catalogue.filter(({ family }) => family === "safety");

function valueOf(id: string, ...args: Argument[]): unknown {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  return outcome.value;
}

function refusalOf(id: string, ...args: Argument[]): Refusal {
  const outcome = evaluate(id, args);
  assert.ok(!outcome.ok, `${id} gave ${JSON.stringify(outcome)}`);
  return outcome;
}

const BLANKS = [undefined, null, ""] as const;

describe("the safety functions", () => {
  it("have the arguments that sheets are written with", () => {
    const signatures = SAFETY.map(({ id, parameters }) => {
      const names = Object.values(parameters).map(({ name, optional }) =>
        optional ? `[${name}]` : name,
      );
      return `${id}(${names.join(", ")})`;
    });
    assert.deepEqual(signatures, [
      "SAFETY_BAND(voltage, framework, condition, [kind], [ripple V rms], [ripple V peak])",
      "SAFETY_LIMIT(framework, band, condition, [kind])",
      "SAFETY_AFTER_FAULT(input V, output V, isolation, framework, condition, [trip V])",
      "SAFETY_WORST_VOLTAGE(supply highest V, ratio, tolerance)",
      "SAFETY_DISCHARGE_TIME(capacitance, start V, end V, resistance)",
      "SAFETY_STORED_ENERGY(capacitance, V)",
    ]);
  });

  it("give what their examples say", () => {
    for (const { id, example } of SAFETY) {
      const value = valueOf(id, ...example.args);
      const { gives } = EXAMPLE_ANSWERS[id]!;
      if (typeof gives === "number") assertPrinted(value as number, String(gives));
      else assert.equal(value, gives);
    }
  });

  it("refuse every required argument by its name when it is blank: nothing is assumed dry, isolated or exact", () => {
    for (const { id, parameters, example } of SAFETY)
      Object.values(parameters).forEach(({ name, optional }, index) => {
        if (optional) return;
        for (const blank of BLANKS) {
          const args = example.args.map((one, at) => (at === index ? blank : one));
          const { code, message, argument } = refusalOf(id, ...args);
          assert.equal(code, "#VALUE!");
          assert.equal(argument, name);
          assert.match(message, new RegExp(`^${name} must be given`));
        }
      });
  });

  it("take nothing, an empty text and an omitted optional argument alike", () => {
    for (const { id, parameters, example } of SAFETY) {
      const expected = valueOf(id, ...example.args);
      const required = example.args.length;
      const optional = Object.keys(parameters).length - required;
      for (const blank of BLANKS) {
        const args = [...example.args, ...Array.from({ length: optional }, () => blank)];
        assert.equal(valueOf(id, ...args), expected);
      }
    }
  });

  it("have a working whose formulas another evaluator repeats", () => {
    const calls: readonly (readonly [string, ...Argument[]])[] = [
      ...SAFETY.map(({ id, example }) => [id, ...example.args] as const),
      ["SAFETY_BAND", 57, "IEC 62368-1", "dry", "dc", 2],
      ["SAFETY_BAND", 57, "IEC 62368-1", "dry", "dc", 2, 5],
      ["SAFETY_BAND", 57, "IEC 60364-4-41", "dry", "dc", 2],
      ["SAFETY_BAND", 45, "US workplace", "dry", "dc", 2],
      ["SAFETY_BAND", 400, "IEC 60364-4-41", "wet"],
      ["SAFETY_AFTER_FAULT", 400, 48, "reinforced", "IEC 62368-1", "dry"],
    ];
    for (const [id, ...args] of calls) {
      const outcome = evaluate(id, args);
      assert.ok(outcome.ok);
      const workings = outcome.working();
      assert.ok(workings.length > 0);
      for (const { givens, steps, values } of workings) {
        assertSteps(steps, values);
        for (const field of [...Object.keys(givens), ...Object.keys(steps)])
          assert.equal(typeof values[field], "number", `${id}: ${field}`);
      }
    }
  });
});

describe("SAFETY_BAND", () => {
  it("takes a ripple of 0 V for none, and refuses a peak of 0 V beside one", () => {
    const band = (...ripple: Argument[]) =>
      valueOf("SAFETY_BAND", 57, "IEC 62368-1", "dry", "dc", ...ripple);
    assert.equal(band(0), band());
    assert.equal(band(0, 0), band());
    assert.equal(band(null, 0), band());
    assert.notEqual(band(2), band());
    assert.equal(
      refusalOf("SAFETY_BAND", 57, "IEC 62368-1", "dry", "dc", 2, 0).argument,
      "ripple V peak",
    );
  });

  it("reads framework and condition without case and extra spaces", () => {
    assert.match(
      String(valueOf("SAFETY_BAND", 24, " iec  60364-4-41", "WET")),
      /^bare · 24\.0 V ≤ 30 V dc wet · /,
    );
  });

  it("names argument, value and bound of a bad input", () => {
    const cases: readonly (readonly [Argument[], string])[] = [
      [[-48, "IEC 62368-1", "dry"], "voltage must be above 0, got -48"],
      [["48 V", "IEC 62368-1", "dry"], 'voltage must be a number, got "48 V"'],
      [[Number.NaN, "IEC 62368-1", "dry"], "voltage must be a finite number, got NaN"],
      [[Infinity, "IEC 62368-1", "dry"], "voltage must be a finite number, got Infinity"],
      [
        [48, "IEC 60950-1", "dry"],
        'framework must be "IEC 62368-1" or "IEC 60364-4-41" or "ISO 6469-3" or "US workplace", got "IEC 60950-1"',
      ],
      [[48, "IEC 62368-1", "damp"], 'condition must be "dry" or "wet", got "damp"'],
      [[48, "IEC 62368-1", "dry", "ac"], 'kind must be "dc" or "ac rms", got "ac"'],
      [[48, "IEC 62368-1", "dry", "ac rms", 1], "ripple V rms must be blank for ac rms, got 1"],
      [[48, "IEC 62368-1", "dry", "dc", -1], "ripple V rms must be above 0, got -1"],
      [
        [48, "IEC 62368-1", "dry", "dc", "", 3],
        "ripple V peak must be left out where no ripple rms is given, got 3",
      ],
      [[48, "IEC 62368-1", "dry", "dc", 4, 3], "ripple V peak must be 4 (rms) or more, got 3"],
    ];
    for (const [args, message] of cases)
      assert.equal(refusalOf("SAFETY_BAND", ...args).message, message);
  });

  it("passes an error of a cell on unchanged", () => {
    const { code, argument } = refusalOf("SAFETY_BAND", { error: "#DIV/0!" }, "IEC 62368-1", "dry");
    assert.equal(code, "#DIV/0!");
    assert.equal(argument, "voltage");
  });

  it("carries its notes out", () => {
    const outcome = evaluate("SAFETY_BAND", [48, "IEC 62368-1", "dry", "", 2]);
    assert.ok(outcome.ok);
    assert.deepEqual(
      outcome.caveats.map(({ code }) => code),
      ["ripple-peak-assumed"],
    );
  });
});

describe("SAFETY_LIMIT", () => {
  it("gives the limits of touch-bands.test.ts", () => {
    assert.equal(valueOf("SAFETY_LIMIT", "IEC 62368-1", "es1", "dry"), 60);
    assert.equal(valueOf("SAFETY_LIMIT", "ISO 6469-3", "b", "dry"), 1500);
    assert.equal(valueOf("SAFETY_LIMIT", "IEC 60364-4-41", "bare", "dry", "ac rms"), 25);
  });

  it("is not available for a band without a limit, or for wet where none is published", () => {
    const noLimit = refusalOf("SAFETY_LIMIT", "IEC 62368-1", "ES3", "dry");
    assert.equal(noLimit.code, "#N/A");
    assert.equal(noLimit.argument, "band");
    const noWet = refusalOf("SAFETY_LIMIT", "US workplace", "below 50 V", "wet");
    assert.equal(noWet.code, "#N/A");
    assert.equal(noWet.argument, "condition");
  });

  it("refuses another framework's band", () => {
    assert.equal(
      refusalOf("SAFETY_LIMIT", "IEC 62368-1", "bare", "dry").message,
      'band must be "ES1" or "ES2" or "ES3" in IEC 62368-1, got "bare"',
    );
  });
});

describe("SAFETY_AFTER_FAULT", () => {
  it("names argument, value and bound of a bad input", () => {
    assert.equal(
      refusalOf("SAFETY_AFTER_FAULT", 400, -1, "none", "ISO 6469-3", "dry").message,
      "output V must be above 0, got -1",
    );
    assert.equal(
      refusalOf("SAFETY_AFTER_FAULT", 400, 48, "double", "ISO 6469-3", "dry").message,
      'isolation must be "none" or "functional" or "basic" or "reinforced", got "double"',
    );
  });
});

describe("SAFETY_WORST_VOLTAGE", () => {
  it("takes an exact ratio by the word, never by a 0", () => {
    assert.equal(valueOf("SAFETY_WORST_VOLTAGE", 440, 0.125, "Exact"), 55);
    assert.equal(
      refusalOf("SAFETY_WORST_VOLTAGE", 440, 0.125, 0).message,
      'tolerance must be above 0, or "exact" for none, got 0',
    );
  });

  it("refuses a tolerance in per cent, below nothing, or in other words", () => {
    assert.equal(
      refusalOf("SAFETY_WORST_VOLTAGE", 440, 0.125, 2).message,
      'tolerance must be a fraction below 1 (0.02 for 2 %) or "exact", got 2',
    );
    assert.equal(refusalOf("SAFETY_WORST_VOLTAGE", 440, 0.125, -0.02).argument, "tolerance");
    assert.equal(
      refusalOf("SAFETY_WORST_VOLTAGE", 440, 0.125, "none").message,
      'tolerance must be "exact", got "none"',
    );
  });
});
