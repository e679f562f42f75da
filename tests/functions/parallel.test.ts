import assert from "node:assert/strict";
import { describe, it } from "vitest";
import {
  isCellTable,
  type Argument,
  type Cell,
} from "../../functions/cells.js";
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
  return { ...outcome, table: outcome.value as readonly (readonly Cell[])[] };
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
      Object.values(entry.parameters).map(
        ({ name, optional }) => name + (optional ? "?" : ""),
      ),
      ["set voltages", "resistances", "load", "load kind?", "reverse flow?"],
    );
  });

  it("gives its example, with steps that another engine follows", () => {
    for (const { example } of parallelEntries.slice(0, 1)) {
      const { table, working } = shared(...example.args);
      assert.ok(isCellTable(example.gives));
      example.gives.forEach((row, at) =>
        row.forEach((cell, column) => {
          const given = table[at]?.[column];
          if (typeof cell === "number")
            assertPrinted(Number(given), String(cell));
          else assert.equal(given, cell);
        }),
      );
      const [told] = working();
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
    for (const kind of [0, "", null, undefined])
      for (const flow of [0, "", null, undefined])
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
    for (const load of [0, "", null]) {
      const { table, notes } = shared(
        down(12, 10),
        down(1, 3),
        load,
        "power",
        "allowed",
      );
      assert.deepEqual(
        table.map(([, share]) => share),
        ["–", "–", "bus V"],
      );
      assertPrinted(Number(table[0]?.[0]), "0.50000000");
      assertPrinted(Number(table[1]?.[0]), "-0.50000000");
      assert.ok(notes.some(({ code }) => code === "no-load"));
    }
  });

  it("passes over blanks below both lists", () => {
    for (const blank of ["", null, 0])
      assert.deepEqual(
        shared(
          down(127, 120, 119, blank, blank),
          down(0.1, 0.1, 0.1, blank),
          60,
        ).table,
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
    [
      [down("", ""), OHMS, 60],
      "#VALUE! set voltages: set voltages must be given (a blank cell may be read as 0), got nothing",
    ],
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
    [
      [VOLTS, OHMS, Infinity],
      "#VALUE! load: load must be a finite number, got Infinity",
    ],
    [
      [VOLTS, OHMS, 0, "resistance"],
      "#VALUE! load: load must be above 0, got 0",
    ],
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
