/** What does not compile: an entry that says it shows what its record or its steps do not have. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { defineEntry } from "../../functions/entry.js";
import type { Step } from "../../src/quantities/steps.js";

const drop: Step = {
  label: "Drop",
  symbol: "ΔU",
  unit: "V",
  kind: "formula",
  formula: "current * resistance",
  cite: "ohm-joule",
};

const told = {
  id: "TRIAL_DROP",
  family: "conductor",
  relation: "ΔU = I · R",
  parameters: {
    current: { name: "I", unit: "A", meaning: "a current", kind: "number" },
    resistance: {
      name: "R",
      unit: "Ω",
      meaning: "a resistance",
      kind: "number",
    },
  },
  example: { args: [2, 3], gives: 6 },
  citations: [],
  caveats: () => [],
} as const;

interface Run {
  readonly current: number;
  readonly resistance: number;
}

const calculate = ({ current, resistance }: Run) => ({
  drop: current * resistance,
  loss: current ** 2 * resistance,
  name: "copper",
});

const working = () => [{ title: "Drop", givens: {}, steps: { drop }, values: {} }];

const result = { shape: "number", unit: "V", meaning: "drop" } as const;
const row = { ...result, shape: "row" } as const;
const read = (values: Run) => values;

const number = defineEntry({
  ...{ ...told, result, read, calculate, working },
  shows: "drop",
});
const ofRow = defineEntry({
  ...{ ...told, result: { ...row, perUnit: 1000 }, read, calculate, working },
  shows: ["name", "drop"],
});

// A number of the record that no step of the working gives.
defineEntry({
  ...{ ...told, result, read, calculate },
  shows: "loss",
  // @ts-expect-error: does not compile
  working: () => working(),
});
defineEntry({
  ...{ ...told, result: row, read, calculate },
  shows: ["drop", "loss"],
  // @ts-expect-error: does not compile
  working: () => working(),
});
// No field of the record.
defineEntry({
  ...{ ...told, result, read, calculate, working },
  // @ts-expect-error: does not compile
  shows: "voltage",
});
// Both a field and cells made of the record.
// @ts-expect-error: does not compile
defineEntry({
  ...{ ...told, result, read, calculate, working },
  shows: "drop",
  cells: () => 1,
});

describe("defineEntry", () => {
  const values = { current: 2, resistance: 3 };

  it("shows the field, and knows its step", () => {
    const { value, record } = number.answer(values);
    assert.equal(value, 6);
    assert.deepEqual(number.cellOf(record, 0, 0), { working: 0, step: "drop" });
  });

  it("shows the fields of a row in their order, numbers in the cell's unit", () => {
    assert.deepEqual(ofRow.answer(values).value, [["copper", 6000]]);
    assert.deepEqual(ofRow.cellOf({}, 0, 1), { working: 0, step: "drop" });
  });
});
