import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { EXAMPLE_ANSWERS } from "../../functions/documents/examples.js";
import { isCellTable, type Argument, type Cell } from "../../functions/cells.js";
import { parallelEntries } from "../../functions/families/parallel.js";
import { evaluate } from "../../functions/runner.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

/** As a column of cells. */
const down = (...cells: Cell[]) => cells.map((cell) => [cell]);

function shared(...args: Argument[]) {
  const outcome = evaluate("PARALLEL_SHARE", args);
  assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
  assert.ok(isCellTable(outcome.value as Argument));
  return { outcome, table: outcome.value as readonly (readonly Cell[])[] };
}

function refused(...args: Argument[]): string {
  const outcome = evaluate("PARALLEL_SHARE", args);
  assert.ok(!outcome.ok, `gave ${JSON.stringify(outcome.ok && outcome.value)}`);
  return `${outcome.code} ${outcome.argument}: ${outcome.message}`;
}

// Kosow 7-3, as in tests/parallel.
const VOLTS = down(127, 120, 119);
const OHMS = down(0.1, 0.1, 0.1);

describe("PARALLEL_SHARE", () => {
  it("has its arguments in this order", () => {
    const [entry] = parallelEntries;
    assert.ok(entry);
    assert.deepEqual(
      Object.values(entry.parameters).map(({ name, optional }) => name + (optional ? "?" : "")),
      ["set voltages", "resistances", "load", "load kind?", "reverse flow?"],
    );
  });

  it("gives its example, with steps that another engine follows", () => {
    for (const { id, example } of parallelEntries.slice(0, 1)) {
      const { gives } = EXAMPLE_ANSWERS[id]!;
      const { table, outcome } = shared(...example.args);
      assert.ok(isCellTable(gives));
      gives.forEach((row, at) =>
        row.forEach((cell, column) => {
          const given = table[at]?.[column];
          if (typeof cell === "number") assertPrinted(Number(given), String(cell));
          else assert.equal(given, cell);
        }),
      );
      const [told] = outcome.working();
      assert.ok(told);
      assertSteps(told.steps, told.values);
    }
  });

  it("gives a row for each unit and the bus in the last, two columns wide", () => {
    const { table } = shared(VOLTS, OHMS, 2, "resistance", "allowed");
    assert.equal(table.length, 4);
    assert.ok(table.every((row) => row.length === 2));
    ["70.0", "0.0", "-10.0", "120.0"].forEach((printed, at) =>
      assertPrinted(Number(table[at]?.[0]), printed),
    );
    assertPrinted(Number(table[0]?.[1]), "1.1667");
    assert.equal(table[3]?.[1], "bus V");
  });

  it("shares a current with reverse flow blocked, however the blanks of its choices are written", () => {
    const wanted = shared(VOLTS, OHMS, 60, "Current", "BLOCKED").table;
    assert.deepEqual(wanted.slice(1, 3), [
      [0, 0],
      [0, 0],
    ]);
    for (const kind of ["", null, undefined])
      for (const flow of ["", null, undefined])
        assert.deepEqual(shared(VOLTS, OHMS, 60, kind, flow).table, wanted);
    assert.deepEqual(shared(VOLTS, OHMS, 60).table, wanted);
  });

  it("takes one unit as single cells, and lists that run across", () => {
    assert.deepEqual(shared(54, 0.01, 100).table, [
      [100, 1],
      [53, "bus V"],
    ]);
    assert.deepEqual(
      shared([[127, 120, 119]], [[0.1, 0.1, 0.1]], 60).table,
      shared(VOLTS, OHMS, 60).table,
    );
  });

  it("has no NaN where there is no load: the share is a dash", () => {
    const units = [down(12, 10), down(1, 3)] as const;
    const { table, outcome } = shared(...units, 0, "power", "allowed");
    assert.deepEqual(
      table.map(([, share]) => share),
      ["–", "–", "bus V"],
    );
    assertPrinted(Number(table[0]?.[0]), "0.50000000");
    assertPrinted(Number(table[1]?.[0]), "-0.50000000");
    assert.ok(outcome.caveats.some(({ code }) => code === "no-load"));
    assert.equal(refused(...units, null, "power"), "#VALUE! load: load must be given, got nothing");
  });

  it("passes over blanks below both lists", () => {
    for (const blank of ["", null])
      assert.deepEqual(
        shared(down(127, 120, 119, blank, blank), down(0.1, 0.1, 0.1, blank), 60).table,
        shared(VOLTS, OHMS, 60).table,
      );
  });

  const bad: readonly (readonly [Argument[], string])[] = [
    [
      [VOLTS, down(0.1, 0.1), 60],
      '#VALUE! resistances: resistances must be as many as the set voltages, 3, got "2 of them"',
    ],
    [
      [down(127, "", 119), down("", 0.1, 0.1), 60],
      "#VALUE! set voltages: set voltages must be given at place 2, got nothing",
    ],
    [
      [down(127, 0, 119), OHMS, 60],
      "#VALUE! set voltages: set voltages must be above 0 (unit 2), got 0",
    ],
    [
      [down(127, -120, 119), OHMS, 60],
      "#VALUE! set voltages: set voltages must be above 0 (unit 2), got -120",
    ],
    [
      [VOLTS, down(0.1, 0, 0.1), 60],
      "#VALUE! resistances: resistances must be above 0 (unit 2), got 0",
    ],
    [[down("", ""), OHMS, 60], "#VALUE! set voltages: set voltages must be given, got nothing"],
    [
      [down(127, "x", 119), OHMS, 60],
      '#VALUE! set voltages: set voltages must be a number, got "x"',
    ],
    [
      [down(127, Number.NaN, 119), OHMS, 60],
      "#VALUE! set voltages: set voltages must be a finite number, got NaN",
    ],
    [
      [VOLTS, down(0.1, { error: "#DIV/0!" }, 0.1), 60],
      "#DIV/0! resistances: resistances holds #DIV/0!",
    ],
    [[VOLTS, OHMS, -60], "#VALUE! load: load must be 0 or more, got -60"],
    [[VOLTS, OHMS, Infinity], "#VALUE! load: load must be a finite number, got Infinity"],
    [[VOLTS, OHMS, 0, "resistance"], "#VALUE! load: load must be above 0, got 0"],
    [
      [VOLTS, OHMS, 60, "watts"],
      '#VALUE! load kind: load kind must be "current" or "power" or "resistance", got "watts"',
    ],
    [
      [VOLTS, OHMS, 60, "current", "no"],
      '#VALUE! reverse flow: reverse flow must be "blocked" or "allowed", got "no"',
    ],
    [
      [400, 4, 10_001, "power"],
      "#N/A load: no operating point, the bus collapses: a load of 10001 W is 1 W more than the 10000 W that the units can deliver",
    ],
    [
      [down(50, 48), down(1, 0.5), 150],
      "#N/A load: no operating point: a load of 150 A is 4 A more than the 146 A that the units drive into a short circuit",
    ],
  ];
  for (const [args, message] of bad)
    it(message, () => {
      assert.equal(refused(...args), message);
    });
});

function refusedBy(id: string, args: Argument[]): string {
  const outcome = evaluate(id, args);
  assert.ok(!outcome.ok, `${id} gave a value`);
  return `${outcome.code} ${outcome.argument}: ${outcome.message}`;
}

function number(id: string, ...args: Argument[]): number {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
  return Number(outcome.value);
}

describe("PARALLEL_UNITS and PARALLEL_WORST", () => {
  it("have their arguments in this order", () => {
    const namesOf = (id: string) =>
      Object.values(parallelEntries.find((entry) => entry.id === id)!.parameters).map(
        ({ name, optional }) => name + (optional ? "?" : ""),
      );
    const like = ["set V", "mismatch", "output resistance", "resistance mismatch"];
    assert.deepEqual(namesOf("PARALLEL_UNITS"), [
      "load A",
      "unit rating A",
      ...like,
      "spare units?",
    ]);
    assert.deepEqual(namesOf("PARALLEL_WORST"), ["load A", "units", ...like, "reverse flow?"]);
  });

  // By hand: 200/4 + 8.1 A; three of four carry 200/3 + 2 · 0.001 · 54 · 2/(3 · 0.01) = 73.87 A, more than 70 A.
  it("agree: four units keep 70 A, three do not, and the fifth is a spare", () => {
    const like = [54, 0.001, 0.01, 0];
    assertPrinted(number("PARALLEL_WORST", 200, 4, ...like), "58.1");
    assertPrinted(number("PARALLEL_WORST", 200, 3, ...like), "73.87");
    assert.equal(number("PARALLEL_UNITS", 200, 70, ...like), 4);
    assert.equal(number("PARALLEL_UNITS", 200, 70, ...like, 1), 5);
  });

  it("give what PARALLEL_SHARE gives for the same set of units", () => {
    const { table } = shared(down(54.054, 53.946, 53.946), down(0.009, 0.011, 0.011), 200);
    const worst = number("PARALLEL_WORST", 200, 3, 54, 0.001, 0.01, 0.1);
    assert.ok(Math.abs(Number(table[0]?.[0]) - worst) <= 1e-9 * worst);
  });

  it("block reverse flow unless told otherwise", () => {
    const asked: Argument[] = [1, 2, 54, 0.02, 0.01, 0.3];
    assert.equal(number("PARALLEL_WORST", ...asked), 1);
    assert.equal(number("PARALLEL_WORST", ...asked, "blocked"), 1);
    assertPrinted(number("PARALLEL_WORST", ...asked, "Allowed"), "154.79");
  });

  it("take a mismatch of 0, and refuse a blank one by name", () => {
    assert.equal(number("PARALLEL_WORST", 200, 4, 54, 0, 0.01, 0), 50);
    for (const blank of ["", null]) {
      assert.equal(
        refusedBy("PARALLEL_WORST", [200, 4, 54, blank, 0.01, 0]),
        "#VALUE! mismatch: mismatch must be given, got nothing",
      );
      assert.equal(
        refusedBy("PARALLEL_WORST", [200, 4, 54, 0, 0.01, blank]),
        "#VALUE! resistance mismatch: resistance mismatch must be given, got nothing",
      );
    }
  });

  const wrong: readonly (readonly [string, Argument[], string])[] = [
    [
      "PARALLEL_UNITS",
      [200, 10, 54, 0.001, 0.01, 0],
      "#N/A mismatch: no number of units is enough: set voltages that differ by 0.108 V drive 10.8 A through 0.01 Ω, the unit's rating of 10 A or more",
    ],
    [
      "PARALLEL_UNITS",
      [1000, 1000, 48, 0, 1, 0],
      "#N/A unit rating A: no operating point: rated for 1000 A the load asks for 1, which leaves no voltage on the bus: 48 V through 1 Ω drive 48 A at most",
    ],
    [
      "PARALLEL_UNITS",
      [200, 70, 54, 0.001, 0.01, 0, 1.5],
      "#VALUE! spare units: spare units must be a whole number, 1 or more, got 1.5",
    ],
    [
      "PARALLEL_WORST",
      [200, 4, 54, 1, 0.01, 0],
      "#VALUE! mismatch: mismatch must be below 1: 0.01 for 1 %, got 1",
    ],
    [
      "PARALLEL_WORST",
      [200, 4.5, 54, 0.001, 0.01, 0],
      "#VALUE! units: units must be a whole number, 1 or more, got 4.5",
    ],
    [
      "PARALLEL_WORST",
      [1000, 2, 48, 0, 1, 0],
      "#N/A load A: no operating point: 1000 A leave no voltage on the bus of 2 units",
    ],
    [
      "PARALLEL_WORST",
      [200, 4, 54, 0.001, 0.01, -0.1],
      "#VALUE! resistance mismatch: resistance mismatch must be 0 or more, got -0.1",
    ],
  ];
  for (const [id, args, message] of wrong)
    it(`${id}: ${message}`, () => {
      assert.equal(refusedBy(id, args), message);
    });
});
