import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { PURPOSES } from "../../functions/documents/purposes.js";
import { EXAMPLE_ANSWERS } from "../../functions/documents/examples.js";
import type { Argument } from "../../functions/cells.js";
import type { Entry } from "../../functions/entry.js";
import { conductorEntries } from "../../functions/families/conductor.js";
import { evaluate, type Refusal } from "../../functions/runner.js";
import { citations } from "../../src/quantities/citations.js";
import { fieldsOf } from "../../src/quantities/formulas.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

function given(id: string, ...args: Argument[]): number {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
  assert.equal(typeof outcome.value, "number");
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

describe("the conductor functions of the catalogue", () => {
  it("have their arguments in this order", () => {
    const names = (entry: Entry) =>
      Object.values(entry.parameters).map(({ name, optional }) => name + (optional ? "?" : ""));
    const run = ["material?", "build?", "parallel?", "conductors?"];
    const place = ["length", "size", "temperature"];
    assert.deepEqual(
      Object.fromEntries(conductorEntries.map((entry) => [entry.id, names(entry)])),
      {
        CONDUCTOR_AREA: ["size"],
        CONDUCTOR_RESISTANCE: [...place, ...run],
        CONDUCTOR_DROP: ["current", ...place, ...run],
        CONDUCTOR_DROP_DISTRIBUTED: [
          "current per metre",
          ...place,
          "near voltage?",
          "far voltage?",
          "at?",
          ...run,
        ],
        CONDUCTOR_LOSS: ["current", ...place, ...run],
      },
    );
  });

  for (const entry of conductorEntries) {
    it(`${entry.id} gives its example and cites works that are listed`, () => {
      const { args } = entry.example;
      const { gives } = EXAMPLE_ANSWERS[entry.id]!;
      assertPrinted(given(entry.id, ...args), String(gives));
      for (const id of entry.citations) assert.ok(citations[id].work);
      assert.ok(PURPOSES[entry.id]!.length <= 255 && !PURPOSES[entry.id]!.includes("\n"));
    });
  }
});

describe("the working of a conductor cell", () => {
  const calls: readonly [string, Argument[]][] = [
    ["CONDUCTOR_AREA", [2.5]],
    ["CONDUCTOR_AREA", ["2,5 mm²"]],
    ["CONDUCTOR_AREA", ["4/0 AWG"]],
    ["CONDUCTOR_AREA", ["250 kcmil"]],
    ["CONDUCTOR_RESISTANCE", [350, "4 mm²", 40]],
    ["CONDUCTOR_RESISTANCE", [350, "AWG 12", 40, "aluminium", "stranded"]],
    ["CONDUCTOR_DROP", [10, 50, "500 kcmil", 70, [[2e-8, 0.004]]]],
    ["CONDUCTOR_DROP_DISTRIBUTED", [0.1, 200, "10 mm²", 70]],
    ["CONDUCTOR_DROP_DISTRIBUTED", [0.1, 200, "10 mm²", 70, 230, 228]],
    ["CONDUCTOR_DROP_DISTRIBUTED", [0.1, 200, "10 mm²", 70, 230, 228, 150, "aluminium"]],
    ["CONDUCTOR_LOSS", [10, 50, 10, -40, "hard copper", "", 3, 1]],
  ];
  for (const [id, args] of calls) {
    it(`${id}(${JSON.stringify(args)}) ends in the cell's number, each step followed by another engine`, () => {
      const outcome = evaluate(id, args);
      assert.ok(outcome.ok);
      const [working] = outcome.working();
      assert.ok(working);
      assertSteps(working.steps, working.values);
      const known = new Set(Object.keys(working.givens));
      for (const [field, step] of Object.entries(working.steps)) {
        const read =
          step.kind === "formula"
            ? fieldsOf(step.formula)
            : step.kind === "lookup"
              ? [step.key]
              : [];
        for (const name of read) assert.ok(known.has(name), `${field}: ${name}`);
        known.add(field);
      }
      for (const name of known)
        assert.ok(working.values[name] !== undefined, `no value of ${name}`);
      const field = {
        CONDUCTOR_AREA: "area",
        CONDUCTOR_RESISTANCE: "resistance",
        CONDUCTOR_DROP: "drop",
        CONDUCTOR_DROP_DISTRIBUTED: "drop",
        CONDUCTOR_LOSS: "loss",
      }[id];
      const shown = Number(working.values[field ?? ""]);
      const perUnit = id === "CONDUCTOR_AREA" ? 1e6 : 1;
      assert.equal(shown * perUnit, outcome.value);
    });
  }
});

describe("CONDUCTOR_DROP_DISTRIBUTED", () => {
  const refusal = (...args: Argument[]) => {
    const outcome = evaluate("CONDUCTOR_DROP_DISTRIBUTED", [0.1, 200, "10 mm²", 70, ...args]);
    assert.ok(!outcome.ok);
    return outcome.message;
  };
  it("asks for both voltages of a run that is fed from both ends", () => {
    assert.match(refusal(230), /^far voltage must be given where the near end's voltage is/);
    assert.match(refusal(undefined, 230), /^near voltage must be given where the far end's/);
  });
  it("refuses a place that is not on the run", () => {
    assert.match(refusal(undefined, undefined, 201), /^at must be at most the length, 200 m/);
    assert.match(refusal(undefined, undefined, -1), /^at must be above 0/);
  });
});

describe("CONDUCTOR_AREA", () => {
  it("gives mm²", () => {
    assert.equal(given("CONDUCTOR_AREA", 2.5), 2.5);
    assertPrinted(given("CONDUCTOR_AREA", "2.5 mm2"), "2.5000000");
    // en.wikibooks.org, Engineering Tables, American Wire Gauge: 10 AWG is 5.26 mm².
    assertPrinted(given("CONDUCTOR_AREA", "10 AWG"), "5.26");
  });

  it("finds the size that Kuphaldt chooses: 2/0 is the first AWG size of at least 116,035 cmil", () => {
    const needed = 116035 * 5.067075e-4;
    assert.ok(given("CONDUCTOR_AREA", "2/0 AWG") > needed);
    assert.ok(given("CONDUCTOR_AREA", "1/0 AWG") < needed);
  });
});

describe("the shared optional arguments", () => {
  const drop = (...run: Argument[]) => given("CONDUCTOR_DROP", 10, 100, "16 mm²", 20, ...run);

  // By hand: IEC 60228 16 mm²: class 2 1.15, class 5 1.21, aluminium 1.91 Ω/km; 0.2 km; 10 A.
  it("default to annealed copper, class 2, one core, out and back", () => {
    assertPrinted(drop(), "2.300000");
    assertPrinted(drop("copper", "class 2", 1, 2), "2.300000");
  });

  it("are each heeded", () => {
    assertPrinted(drop("aluminium"), "3.820000");
    assertPrinted(drop(null, "class 5"), "2.420000");
    assertPrinted(drop(null, null, 2), "1.150000");
    assertPrinted(drop(null, null, null, 1), "1.150000");
  });

  it("are matched without case, with either spelling and spacing", () => {
    assert.equal(drop("ALUMINUM"), drop("aluminium"));
    assert.equal(drop("Copper", " Class  5 TINNED "), drop("", "class 5 tinned"));
    assert.equal(
      drop("copper-clad aluminium 10%", "solid"),
      drop("Copper-clad aluminum 10 %", "solid"),
    );
  });

  it("take resistivity and coefficient as a row or a column of two cells", () => {
    const hot = (material: Argument) =>
      given("CONDUCTOR_RESISTANCE", 1, 1, 70, material, null, null, 1);
    // By hand: 2e-8 Ω·m over 1 mm² is 0.02 Ω; 1 + 0.004 · 50 = 1.2
    assertPrinted(hot([[2e-8, 0.004]]), "0.0240000");
    assertPrinted(hot([[2e-8], [0.004]]), "0.0240000");
    assertPrinted(hot([[2e-8, 0]]), "0.0200000");
  });

  const fixed: Readonly<Record<string, Argument[]>> = {
    CONDUCTOR_RESISTANCE: [100, "AWG 12", 50],
    CONDUCTOR_DROP: [10, 100, "AWG 12", 50],
    CONDUCTOR_LOSS: [10, 100, "AWG 12", 50],
  };
  for (const [id, args] of Object.entries(fixed)) {
    it(`${id} takes "", null and nothing for one thing: not given`, () => {
      const expected = given(id, ...args);
      for (let at = 0; at < 4; at++) {
        for (const blank of ["", null, undefined, "  ", [[null]]]) {
          const run: Argument[] = [undefined, undefined, undefined, undefined];
          run[at] = blank;
          assert.equal(given(id, ...args, ...run), expected);
          assert.deepEqual(caveats(id, ...args, ...run), ["taken-as-solid"]);
        }
      }
    });
  }
});

describe("what the conductor functions refuse", () => {
  const GOOD = {
    current: 10,
    "current per metre": 0.1,
    length: 100,
    size: "10 mm²",
    temperature: 50,
  };
  const NEEDED = ["current", "length", "size", "temperature"] as const;

  /** CONDUCTOR_LOSS with one argument changed. */
  function loss(argument: (typeof NEEDED)[number], value: Argument, ...run: Argument[]): Refusal {
    const args = { ...GOOD, [argument]: value };
    return refused("CONDUCTOR_LOSS", ...NEEDED.map((name) => args[name]), ...run);
  }

  it("names a required argument that was not given, in every function", () => {
    for (const { id, parameters } of conductorEntries) {
      const names = Object.values(parameters)
        .filter(({ optional }) => !optional)
        .map(({ name }) => name as keyof typeof GOOD);
      for (const name of names) {
        for (const blank of ["", null, undefined, " "]) {
          const args = { ...GOOD, [name]: blank };
          const refusal = refused(id, ...names.map((one) => args[one]));
          assert.equal(refusal.code, "#VALUE!");
          assert.equal(refusal.argument, name);
          assert.equal(refusal.message, `${name} must be given, got nothing`);
        }
      }
    }
  });

  it("takes 0 °C: the resistance at 20 °C is 1.085 times as high", () => {
    // IEC 60228, factors from 0 °C to 20 °C for copper, 254.5 / 234.5 (from memory: 1.085).
    const at = (temperature: number) => given("CONDUCTOR_RESISTANCE", 100, "10 mm²", temperature);
    assertPrinted(at(20) / at(0), "1.085");
    assert.ok(Math.abs(at(0) - at(0.001)) < 1e-5 * at(0));
  });

  it("holds a 0 against the bounds", () => {
    assert.equal(loss("length", 0).message, "length must be above 0, got 0");
    assert.equal(loss("current", 0).message, "current must be above 0, got 0");
    assert.match(loss("size", 0).message, /^size must be above 0 mm²/);
  });

  it("names argument, value and bound of a number that cannot be", () => {
    const messages = [
      [loss("current", -5), "current must be above 0, got -5"],
      [loss("length", -5), "length must be above 0, got -5"],
      [loss("temperature", -300), "temperature must be above -273.15, got -300"],
      [
        loss("temperature", -250),
        "temperature must be above -234.5 °C, where the straight-line law gives copper no resistance, got -250",
      ],
      [
        loss("size", -2.5),
        'size must be above 0 mm² of metal, or text like "2.5 mm²", "12 AWG" or "250 kcmil", got -2.5',
      ],
    ] as const;
    for (const [{ code, message }, expected] of messages) {
      assert.equal(code, "#VALUE!");
      assert.equal(message, expected);
    }
  });

  it("names argument and value of what is no number", () => {
    for (const name of ["current", "length", "temperature"] as const) {
      assert.equal(loss(name, "ten").message, `${name} must be a number, got "ten"`);
      assert.equal(loss(name, true).message, `${name} must be a number, got true`);
      for (const odd of [Number.NaN, Number.POSITIVE_INFINITY]) {
        const message = `${name} must be a finite number, got ${odd}`;
        assert.equal(loss(name, odd).message, message);
      }
    }
    assert.equal(loss("size", Number.NaN).message, "size must be a finite number, got NaN");
    assert.match(loss("size", "thick").message, /^size must be .*got "thick"$/);
    assert.match(loss("size", [[1, 2]]).message, /^size must be one cell/);
  });

  it("answers #N/A to a size that no list has", () => {
    for (const [size, part] of [
      ["3 mm²", "nearest are 2.5 and 4 mm²"],
      ["2000 mm²", "largest is 1000 mm²"],
      ["5/0 AWG", "ASTM B258"],
      ["AWG 57", "1 to 56"],
    ] as const) {
      const { code, message, argument } = loss("size", size);
      assert.deepEqual([code, argument], ["#N/A", "size"]);
      assert.match(message, /^size "?(3 mm²|2000 mm²|5\/0 AWG|AWG 57)/);
      assert.ok(message.includes(part), message);
    }
    const missing = loss("size", "4 mm²", "aluminium");
    assert.deepEqual([missing.code, missing.argument], ["#N/A", "size"]);
  });

  it("names what is wrong with an optional argument", () => {
    const optional = (...run: Argument[]) => loss("size", "16 mm²", ...run);
    const expected = [
      [optional("gold"), "material", /"copper" or .*, got "gold"$/],
      [optional(5), "material", /must be text, got 5$/],
      [optional([[0, 0.004]]), "material", /above 0, got 0$/],
      [optional([[-1e-8, 0.004]]), "material", /above 0, got -1e-8$/],
      [optional([[1e-8, "x"]]), "material", /a number, got "x"$/],
      [optional([[1e-8, null]]), "material", /a number, got nothing$/],
      [optional([[1e-8, 4e-3, 20]]), "material", /two cells.*"3 cells"$/],
      [optional(null, "class 3"), "build", /"class 5 tinned" or.*"class 3"$/],
      [optional("hard copper"), "build", /"geometric".*, got nothing$/],
      [optional(null, null, 1.5), "parallel", /whole number, 1 or more, got 1/],
      [optional(null, null, -1), "parallel", /whole number, 1 or more, got -1/],
      [optional(null, null, "two"), "parallel", /a number, got "two"$/],
      [optional(null, null, 1, 3), "conductors", /1 or 2, got 3$/],
      [optional(null, null, 1, -1), "conductors", /1 or 2, got -1$/],
      [loss("size", 16, null, "class 2"), "build", /as text, "16 mm²"/],
      [loss("size", "AWG 6", null, "class 2"), "build", /AWG or kcmil/],
      [loss("size", "1,000 mm²"), "size", /comma before three digits/],
    ] as const;
    for (const [{ code, message, argument }, name, pattern] of expected) {
      assert.equal(code, "#VALUE!", message);
      assert.equal(argument, name, message);
      assert.ok(message.startsWith(`${name} must be `), message);
      assert.match(message, pattern);
    }
  });

  it("passes on an error that an argument holds", () => {
    const { code, argument } = loss("length", { error: "#DIV/0!" });
    assert.deepEqual([code, argument], ["#DIV/0!", "length"]);
  });

  it("gives a finite number or a refusal that blames an argument, whatever numbers come", () => {
    const numbers = fc.oneof(fc.double(), fc.integer({ min: -5, max: 500 }));
    const sizes = fc.oneof(
      numbers,
      fc.constantFrom("AWG 12", "2.5 mm²", "1000 mm²", "250 kcmil", "7 mm²"),
    );
    fc.assert(
      fc.property(
        fc.tuple(numbers, numbers, sizes, numbers),
        fc.tuple(numbers, numbers),
        (needed, [resistivity, coefficient]) => {
          for (const material of [null, [[resistivity, coefficient]]]) {
            const outcome = evaluate("CONDUCTOR_LOSS", [...needed, material]);
            if (outcome.ok) assert.ok(Number.isFinite(outcome.value));
            else assert.ok(outcome.argument !== undefined, outcome.message);
          }
        },
      ),
      { numRuns: 2000 },
    );
  });
});
