/** For every argument that can be at either end: which end is worst, tried by calculation, and said beside the argument. */
import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../functions/catalogue.js";
import type { Argument, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import { assertPrinted } from "../helpers/assert-printed.js";

type Worse = "higher" | "lower";

type Cell = readonly [row: number, column: number];

interface Ends {
  readonly args: readonly Argument[];
  /** The worst result. */
  readonly worst: Worse;
  /** The cell of a table that is the result. */
  readonly cell?: Cell;
  /** By argument: the end that is worst, and a figure at which it is. */
  readonly ends: Readonly<Record<string, Worse>>;
}

const LEAST = /least|lowest|coldest|low end|fewest/;
const GREATEST = /greatest|highest|hottest|high end|top of/;

const CASES: Readonly<Record<string, readonly Ends[]>> = {
  STABILITY_MARGIN: [
    {
      args: [400, 1000, 0.6, 1e-3, 5e-4, 0.05],
      worst: "lower",
      ends: {
        "open-circuit V": "lower",
        "load W": "higher",
        resistance: "lower",
        inductance: "higher",
        capacitance: "lower",
        "capacitor series resistance": "lower",
      },
    },
    // Collapse limits.
    {
      args: [400, 1000, 2, 1e-6, 5e-3],
      worst: "lower",
      ends: { resistance: "higher" },
    },
  ],
  LOAD_STEP_SAG: [
    {
      args: [10, 0.1, 1e-4, 1e-4, 0.05],
      worst: "higher",
      ends: {
        "current step": "higher",
        inductance: "higher",
        capacitance: "lower",
        "capacitor series resistance": "lower",
      },
    },
    {
      args: [10, 3, 1e-4, 1e-4, 4],
      worst: "higher",
      ends: { "capacitor series resistance": "higher" },
    },
    // Hot at rest, and with a load that holds its power a low bus.
    {
      args: [10, 3, 1e-4, 1e-4, 0, 400],
      worst: "higher",
      ends: { resistance: "higher", "bus V": "lower" },
    },
  ],
  PARALLEL_WORST: [
    {
      args: [200, 4, 54, 0.001, 0.01, 0.1],
      worst: "higher",
      ends: {
        "load A": "higher",
        units: "lower",
        "set V": "higher",
        mismatch: "higher",
        "output resistance": "lower",
        "resistance mismatch": "higher",
      },
    },
  ],
  PARALLEL_UNITS: [
    {
      args: [2000, 70, 54, 0.001, 0.01, 0.1],
      worst: "higher",
      ends: {
        "load A": "higher",
        "unit rating A": "lower",
        "set V": "higher",
        mismatch: "higher",
        "output resistance": "lower",
        "resistance mismatch": "higher",
      },
    },
  ],
  FAULT_CURRENT: [
    {
      args: [400, 0.1, 0.9, undefined, "least"],
      worst: "lower",
      ends: {
        V: "lower",
        "supply resistance": "higher",
        "loop resistance": "higher",
      },
    },
    {
      args: [400, 0.1, 0.9, undefined, "greatest"],
      worst: "higher",
      ends: {
        V: "higher",
        "supply resistance": "lower",
        "loop resistance": "lower",
      },
    },
    {
      args: [400, 0.1, 0.9, 20],
      worst: "lower",
      ends: { "current limit": "lower" },
    },
  ],
  PROTECTED_LENGTH: [
    {
      args: [360, 0.3, 60, 4, 90],
      worst: "lower",
      ends: {
        V: "lower",
        "supply resistance": "higher",
        "current needed": "higher",
        temperature: "higher",
      },
    },
  ],
  HOLDUP_CAPACITANCE: [
    {
      args: [1000, 0.02, 400, 300, 0.9],
      worst: "higher",
      ends: {
        power: "higher",
        "start V": "lower",
        "end V": "higher",
        efficiency: "lower",
      },
    },
  ],
  HOLDUP_TIME: [
    {
      args: [1000, 0.00068, 400, 300, 0.9],
      worst: "lower",
      ends: {
        power: "higher",
        capacitance: "lower",
        "start V": "lower",
        "end V": "higher",
        efficiency: "lower",
      },
    },
  ],
  // The least resistance is what a given time asks for.
  PRECHARGE_RESISTANCE: [
    {
      args: [0.001, 0.3, 0.95],
      worst: "lower",
      ends: { capacitance: "higher" },
    },
  ],
  PRECHARGE_ENERGY: [
    {
      args: [0.001, 400, 0.95],
      worst: "higher",
      ends: { capacitance: "higher", V: "higher" },
    },
  ],
  SAFETY_DISCHARGE_TIME: [
    {
      args: [0.001, 400, 60, 2635.6],
      worst: "higher",
      ends: {
        capacitance: "higher",
        "start V": "higher",
        resistance: "higher",
      },
    },
  ],
  SUPPLY_VOLTAGE: [
    {
      args: [400, 4, 5000],
      worst: "lower",
      ends: {
        "open-circuit V": "lower",
        resistance: "higher",
        "load W": "higher",
      },
    },
  ],
  SUPPLY_LIMIT: [
    {
      args: [400, 4],
      worst: "lower",
      ends: { "open-circuit V": "lower", resistance: "higher" },
    },
  ],
  SUPPLY_BATTERY: [
    {
      args: [100, 0.5, 50, 0.002],
      worst: "lower",
      ends: {
        "state of charge": "lower",
        current: "higher",
        "cell resistance": "higher",
      },
    },
  ],
  SUPPLY_RECTIFIED: [{ args: [230, 0.1], worst: "higher", ends: { tolerance: "higher" } }],
  RATIO_OUTPUT: [
    { args: [384, 1 / 8, 40, 0.015], worst: "lower", ends: { "output resistance": "higher" } },
  ],
  RATIO_LOSS: [
    { args: [384, 1 / 8, 40, 0.015, 18], worst: "higher", ends: { "output resistance": "higher" } },
  ],
  // Of the first ratio that fits its highest output, and its lowest.
  RATIO_CHOICES: [
    {
      args: [504, 706, 33, 60, 0.009],
      worst: "higher",
      cell: [0, 2],
      ends: { tolerance: "higher" },
    },
    {
      args: [504, 706, 33, 60, 0.009, 40, 0.015],
      worst: "lower",
      cell: [0, 1],
      ends: { tolerance: "higher", "output resistance": "higher" },
    },
  ],
  SAFETY_WORST_VOLTAGE: [
    { args: [440, 0.125, 0.02], worst: "higher", ends: { tolerance: "higher" } },
  ],
  STAGE_DERATED: [{ args: [600, 70, 50, 90], worst: "lower", ends: { ambient: "higher" } }],
};

function valueOf(id: string, args: readonly Argument[], [row, column]: Cell = [0, 0]): number {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, JSON.stringify([id, args, outcome]));
  const { value } = outcome;
  const found = Array.isArray(value) ? (value as CellTable)[row]?.[column] : value;
  assert.ok(typeof found === "number", JSON.stringify([id, args, found]));
  return found;
}

describe("which end of an argument is worst", () => {
  for (const [id, cases] of Object.entries(CASES)) {
    const parameters = Object.values(catalogue.find((entry) => entry.id === id)?.parameters ?? {});
    for (const { args, worst, cell, ends } of cases)
      for (const [name, end] of Object.entries(ends))
        it(`${id}, ${name}: ${end}, and it says so`, () => {
          const index = parameters.findIndex((one) => one.name === name);
          const given = Number(args[index]);
          // Units are whole.
          const apart = name === "units" ? 1 : 0.1 * given;
          const at = (by: number) =>
            valueOf(
              id,
              args.map((one, place) => (place === index ? given + by : one)),
              cell,
            );
          const [low, high] = [at(-apart), at(apart)];
          const rises = worst === "higher" ? high > low : high < low;
          expect(rises ? "higher" : "lower").toBe(end);
          assert.notEqual(low, high);
          const meaning = parameters[index]?.meaning ?? "";
          assert.match(meaning, end === "higher" ? GREATEST : LEAST);
        });
  }

  // Copper at −20 °C has 0.705 of its resistance at 70 °C, 0.00393 per K: 0.42 Ω of 0.6 Ω. By hand without series
  // resistance: g = RC/L, V = 400/(1 + gR), P = gV².
  it("is the cold line for the damping of a bus: 34.5 hot, 28.4 cold", () => {
    const margin = (resistance: number) =>
      valueOf("STABILITY_MARGIN", [400, 1000, resistance, 1e-3, 5e-4]);
    assertPrinted(margin(0.6), "34.5");
    assertPrinted(margin(0.42), "28.4");
  });
});
