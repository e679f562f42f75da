import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { Argument, CellTable } from "../../functions/cells.js";
import { conductorChoiceEntries } from "../../functions/families/conductor-choice.js";
import { conductorGeometryEntries } from "../../functions/families/conductor-geometry.js";
import { evaluate, type Refusal } from "../../functions/runner.js";
import { citations } from "../../src/quantities/citations.js";
import { fieldsOf } from "../../src/quantities/formulas.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

const entries = [...conductorChoiceEntries, ...conductorGeometryEntries];

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

/** The one spilled row of CONDUCTOR_SIZE. */
function sized(...args: Argument[]): readonly [string, number, number] {
  const outcome = evaluate("CONDUCTOR_SIZE", args);
  assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
  const rows = outcome.value as CellTable;
  assert.equal(rows.length, 1);
  assert.equal(rows[0]?.length, 3);
  const [name, drop, loss] = rows[0] ?? [];
  return [String(name), Number(drop), Number(loss)];
}

describe("the functions that choose a conductor and find its geometry", () => {
  it("have their arguments in this order", () => {
    const pair = ["length", "conductor diameter mm", "spacing mm"];
    assert.deepEqual(
      Object.fromEntries(
        entries.map(({ id, parameters }) => [
          id,
          Object.values(parameters).map(({ name, optional }) => name + (optional ? "?" : "")),
        ]),
      ),
      {
        CONDUCTOR_MASS: [
          "length",
          "size",
          "material?",
          "parallel?",
          "conductors?",
          "insulation kg/m?",
        ],
        CONDUCTOR_SIZE: [
          "current",
          "length",
          "largest drop V",
          "temperature",
          "series?",
          "material?",
          "build?",
          "parallel?",
          "conductors?",
        ],
        CONDUCTOR_WITHSTAND_TIME: ["fault current", "size", "start °C", "end °C", "material?"],
        CONDUCTOR_ECONOMIC_AREA: [
          "rms current",
          "hours a year",
          "price per kWh",
          "years",
          "discount rate",
          "price per m per mm²",
          "temperature",
          "material?",
          "conductors?",
          "yearly price rise?",
        ],
        CONDUCTOR_INDUCTANCE: pair,
        CONDUCTOR_CAPACITANCE: [...pair, "relative permittivity?"],
        CONDUCTOR_BUSBAR_AREA: ["width mm", "thickness mm"],
        CONDUCTOR_TRACE_CURRENT: ["width mm", "thickness µm", "temperature rise", "layer"],
      },
    );
  });

  it("cite works that are listed", () => {
    for (const entry of entries) for (const id of entry.citations) assert.ok(citations[id].work);
  });

  // By hand, what the notes of the examples say.
  it("have examples whose notes add up", () => {
    assertPrinted(2 * 1.5e-6 * 300 * 8890 + 0.05 * 300, "23.001");
    const hot = 1 + 0.00393 * 50;
    assertPrinted(3.08e-3 * 100 * hot, "0.36852");
    assertPrinted(10 * 4.61e-3 * 100 * hot, "5.516");
    assertPrinted(((114.84 * 1.5) / 200) ** 2, "0.7418");
    assertPrinted(Math.sqrt(0.6041246 / 0.2), "1.73799");
    assertPrinted(4e-4 * (Math.log(2000 / 6) + 0.25), "0.0024237");
    assertPrinted(5.5633e-9 / 2.99322, "0.0000000018586");
    assertPrinted(0.048 * 10 ** 0.44 * 16.275 ** 0.725, "0.999");
  });
});

describe("the working of a chosen conductor", () => {
  const own: Argument = [[2e-8, 0.004]];
  const calls: readonly [string, Argument[], string, number?][] = [
    ["CONDUCTOR_MASS", [300, "4 mm²", "aluminium", 2, 1], "mass"],
    ["CONDUCTOR_MASS", [300, "250 kcmil", "hard copper", "", "", 2], "mass"],
    ["CONDUCTOR_WITHSTAND_TIME", [3000, "2/0 AWG", 90, 250], "time"],
    ["CONDUCTOR_WITHSTAND_TIME", [900, 10, 30, 300, "aluminium"], "time"],
    ["CONDUCTOR_ECONOMIC_AREA", [30, 5000, 0.2, 15, 0, 0.4, 60, own, 1], "area", 1e6],
    ["CONDUCTOR_ECONOMIC_AREA", [30, 5000, 0.2, 15, 0.08, 0.4, 60, "", "", 0.08], "area", 1e6],
    ["CONDUCTOR_INDUCTANCE", [250, 5, 12], "inductance"],
    ["CONDUCTOR_CAPACITANCE", [250, 5, 12, 2.3], "capacitance"],
    ["CONDUCTOR_BUSBAR_AREA", [40, 5], "area", 1e6],
    ["CONDUCTOR_TRACE_CURRENT", [2, 70, 20, "inner"], "current"],
  ];
  const spilled: readonly [string, Argument[], string][] = [
    ["CONDUCTOR_SIZE", [25, 400, 30, 60, "AWG"], "drop"],
    ["CONDUCTOR_SIZE", [300, 90, 8, 60, "AWG", own, "", 2, 1], "drop"],
    ["CONDUCTOR_SIZE", [25, 400, 30, 60, "", "", "class 5", 2], "drop"],
  ];
  for (const [id, args, field, perUnit = 1] of [...calls, ...spilled])
    it(`${id}(${JSON.stringify(args)}) ends in the cell's number, each step followed by another engine`, () => {
      const outcome = evaluate(id, args);
      assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
      const [working] = outcome.working();
      assert.ok(working);
      const { steps, values, givens } = working;
      assertSteps(steps, values);
      const known = new Set(Object.keys(givens));
      for (const [name, step] of Object.entries(steps)) {
        const read =
          step.kind === "formula"
            ? fieldsOf(step.formula)
            : step.kind === "lookup"
              ? [step.key]
              : [];
        for (const one of read) assert.ok(known.has(one), `${name}: ${one}`);
        known.add(name);
      }
      for (const name of known) assert.ok(values[name] !== undefined, `no value of ${name}`);
      const shown = id === "CONDUCTOR_SIZE" ? (outcome.value as CellTable)[0]?.[1] : outcome.value;
      assert.equal(Number(values[field]) * perUnit, shown);
    });
});

describe("CONDUCTOR_SIZE", () => {
  // By hand: 16 mm² of class 2 has 1.15 Ω/km; 10 A · 0.2 km · 1.15 = 2.3 V, 23 W.
  it("spills size, drop and loss, and takes a size whose drop is just what is allowed", () => {
    const [name, drop, loss] = sized(10, 100, 2.3, 20);
    assert.equal(name, "16 mm²");
    assertPrinted(drop, "2.300000");
    assertPrinted(loss, "23.00000");
    assert.equal(sized(10, 100, 2.2999, 20)[0], "25 mm²");
  });

  it("gives a size that the other functions read back to the same drop and loss", () => {
    for (const [series, ...run] of [
      ["metric", "aluminium", "class 1", 2, 1],
      ["AWG", "copper", "stranded", 1, 2],
      ["AWG", "aluminium", "", 3, 2],
    ] as const)
      for (const current of [4, 40, 400]) {
        const [name, drop, loss] = sized(current, 60, 9, 70, series, ...run);
        const rest = [60, name, 70, ...run] as const;
        assert.equal(given("CONDUCTOR_DROP", current, ...rest), drop);
        assert.equal(given("CONDUCTOR_LOSS", current, ...rest), loss);
      }
  });

  // One conductor of 1 km at 1 A and 20 °C drops what Wikibooks' and wp.1728.org's wire tables print as Ω/km; of 1000 ft at
  // 75 °C what NEC Chapter 9, Table 8 prints for uncoated copper, stranded from 4/0 on.
  it("takes the very size whose printed resistance is allowed", () => {
    for (const [name, ohms] of [
      ["30 AWG", 338.5],
      ["24 AWG", 84.2],
      ["20 AWG", 33.29],
      ["12 AWG", 5.21],
      ["10 AWG", 3.277],
      ["8 AWG", 2.061],
      ["4 AWG", 0.8152],
      ["1/0 AWG", 0.3224],
      ["4/0 AWG", 0.1608],
    ] as const) {
      const one = [1, 1000, ohms * 1.001, 20, "awg", "", "", 1, 1] as const;
      assert.equal(sized(...one)[0], name);
    }
    for (const [name, ohms] of [
      ["18 AWG", 7.95],
      ["3 AWG", 0.245],
      ["1 AWG", 0.154],
      ["3/0 AWG", 0.0766],
      ["250 kcmil", 0.0515],
      ["300 kcmil", 0.0429],
      ["400 kcmil", 0.0321],
      ["500 kcmil", 0.0258],
    ] as const) {
      const allowed = ohms * 1.005;
      assert.equal(sized(1, 304.8, allowed, 75, "AWG", "", "stranded", 1, 1)[0], name);
    }
  });

  it("answers #N/A with the size it would take when none is large enough", () => {
    // By hand: 1000 mm² has 0.0176 Ω/km; 1000 A · 1 km · 0.0176 = 17.6 V, so 4 V take 4400 mm²; 630 mm² of class 5
    // has 0.0287: 28.7 V, 4520 mm².
    const refusal = refused("CONDUCTOR_SIZE", 1000, 500, 4, 20);
    assert.deepEqual([refusal.code, refusal.argument], ["#N/A", "largest drop V"]);
    assert.equal(
      refusal.message,
      "no size is large enough: 1000 mm² drops 17.6 V; about 4400 mm² would drop 4 V: use cores in parallel",
    );
    assert.match(
      refused("CONDUCTOR_SIZE", 1000, 500, 4, 20, "", "", "class 5").message,
      /630 mm² drops 28.7 V; about 4520 mm² would drop 4 V/,
    );
    assert.match(refused("CONDUCTOR_SIZE", 1000, 500, 4, 20, "AWG").message, /2000 kcmil drops/);
  });

  it("notes what decided, and that it is not all", () => {
    assert.deepEqual(caveats("CONDUCTOR_SIZE", 10, 100, 3, 20, "AWG"), [
      "taken-as-solid",
      "drop-decides",
    ]);
    assert.deepEqual(caveats("CONDUCTOR_SIZE", 100, 0.1, 1, 70), ["heat-decides"]);
  });

  it("gives a size whose own current CONDUCTOR_AMPACITY gives, too", () => {
    const outcome = evaluate("CONDUCTOR_SIZE", [100, 0.1, 1, 70]);
    assert.ok(outcome.ok);
    assert.deepEqual((outcome.value as CellTable)[0]?.[0], "25 mm²");
    const [working] = outcome.working();
    const outer = 2 * (Math.sqrt(25 / Math.PI) + 0.8);
    const own = given("CONDUCTOR_AMPACITY", "25 mm²", 70, 30, outer, 1);
    const told = Number(working?.values["freeAirCurrent"]);
    assert.ok(Math.abs(own / told - 1) < 1e-12, `${own} ${told}`);
  });
});

describe("what these functions refuse", () => {
  it("names the argument and what may be given instead", () => {
    const own: Argument = [[1e-7, 0.004]];
    const cases: readonly [string, Argument[], string, RegExp][] = [
      [
        "CONDUCTOR_MASS",
        [10, 4, own],
        "material",
        /^material must be copper or .*: a resistivity tells no density \(take one of these and scale by the densities\), got "own resistivity"$/,
      ],
      ["CONDUCTOR_MASS", [10, 4, "", "", "", -1], "insulation kg/m", /must be 0 or more, got -1$/],
      [
        "CONDUCTOR_WITHSTAND_TIME",
        [200, 4, 70, 160, own],
        "material",
        /^material must be copper or aluminium: for others there are no adiabatic constants here \(take k of their own standard/,
      ],
      [
        "CONDUCTOR_WITHSTAND_TIME",
        [200, 4, 160, 70],
        "end °C",
        /^end °C must be above the start, 160 °C, got 70$/,
      ],
      [
        "CONDUCTOR_SIZE",
        [10, 50, 4, 70, "imperial"],
        "series",
        /^series must be "metric" or "AWG", got "imperial"$/,
      ],
      [
        "CONDUCTOR_SIZE",
        [10, 50, 4, 70, "AWG", "", "class 5"],
        "build",
        /with an AWG or kcmil size/,
      ],
      [
        "CONDUCTOR_SIZE",
        [10, 50, 4, 70, "", "hard copper"],
        "build",
        /with hard copper \(a metric size is class 2 unless told otherwise\)/,
      ],
      [
        "CONDUCTOR_ECONOMIC_AREA",
        [10, 8760, 0.2, 10, -0.1, 0.2, 20],
        "discount rate",
        /must be 0 or more, got -0.1$/,
      ],
      [
        "CONDUCTOR_ECONOMIC_AREA",
        [10, 8760, 0.2, 10, 0, 0.2, -250],
        "temperature",
        /gives it a resistance, got -250$/,
      ],
      [
        "CONDUCTOR_INDUCTANCE",
        [10, 2.3, 2.2],
        "spacing mm",
        /^spacing mm must be above the diameter, 2.3 mm, got 2.2$/,
      ],
      [
        "CONDUCTOR_CAPACITANCE",
        [10, 2.3, 2.3],
        "spacing mm",
        /^spacing mm must be above the diameter, 2.3 mm, got 2.3$/,
      ],
      [
        "CONDUCTOR_TRACE_CURRENT",
        [1, 35, 10, "middle"],
        "layer",
        /^layer must be "outer" or "inner", got "middle"$/,
      ],
    ];
    for (const [id, args, argument, message] of cases) {
      const refusal = refused(id, ...args);
      assert.deepEqual([refusal.code, refusal.argument], ["#VALUE!", argument]);
      assert.match(refusal.message, message);
    }
  });
});
