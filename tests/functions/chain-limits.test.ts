import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import type { Cell, CellTable } from "../../functions/cells.js";
import { WORST_COLUMNS } from "../../functions/families/chain-limits.js";
import { evaluate } from "../../functions/runner.js";
import { assertSteps } from "../helpers/assert-steps.js";

const HEADER = [
  "Item",
  "Fed from",
  "Kind",
  "Voltage",
  "Resistance",
  "Ratio",
  "Load",
  "Lowest V",
  "Highest V",
  "Rated A",
  "Tolerance",
  "In parallel",
];

/** 800 V, 6 Ω of cable, two 1/16 stages of 30 mΩ and 70 A, 2400 W at the end. */
const CRAWLER: CellTable = [
  HEADER,
  ["Quay", "", "supply", 800, "", "", "", 760, 840, "", "", ""],
  ["Cable", "Quay", "run", "", 6, "", "", "", "", 10, 0.05, ""],
  ["Units", "Cable", "ratio", "", 0.03, 1 / 16, "", 600, 850, 70, 0.01, 2],
  ["Thrusters", "Units", "power load", "", "", "", 2400, 36, 58, "", "exact", ""],
];

function answer(id: string, ...args: Parameters<typeof evaluate>[1]) {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  return outcome;
}

function withCell(row: readonly Cell[], column: number, cell: Cell): Cell[] {
  return row.map((other, index) => (index === column ? cell : other));
}

describe("CHAIN_HEADROOM", () => {
  it("equals the closed form of one chain seen from the load", () => {
    // Seen from the load: 50 V behind 6/256 + 0.03/2 Ω; the most that arrives is V²/4R.
    const resistance = 6 / 256 + 0.015;
    const { value } = answer("CHAIN_HEADROOM", CRAWLER);
    const [[multiple, item] = []] = value as CellTable;
    assert.ok(typeof multiple === "number");
    assert.ok(Math.abs(multiple / (50 ** 2 / (4 * resistance * 2400)) - 1) < 1e-6);
    expect(item).toBe("Thrusters");
  });

  it("names the first item that leaves its window or exceeds its rating", () => {
    // 140 A out of both units are 8.75 A in the cable, still below its 10 A; 36 V at the thrusters comes later.
    const { value } = answer("CHAIN_HEADROOM", CRAWLER);
    const [[, , limit, item] = []] = value as CellTable;
    expect(item).toBe("Units");
    expect(limit).toBeCloseTo((140 * ((800 - 6 * 8.75) / 16 - 140 * 0.015)) / 2400, 9);
  });

  it("shows equations that hold at both multiples", () => {
    const working = answer("CHAIN_HEADROOM", CRAWLER).working();
    expect(working.map(({ title }) => title)).toEqual([
      'Collapse at "Thrusters"',
      "Quay, at the collapse",
      "Cable, at the collapse",
      "Units, at the collapse",
      "Thrusters, at the collapse",
      'First limit at "Units"',
      "Quay, at the first limit",
      "Cable, at the first limit",
      "Units, at the first limit",
      "Thrusters, at the first limit",
    ]);
    for (const { steps, values } of working) assertSteps(steps, values as Record<string, number>);
  });

  it("passes on why a row is refused, and refuses one voltage for two supplies", () => {
    const bad = CRAWLER.map((row) => (row[0] === "Cable" ? withCell(row, 4, "") : row));
    const refused = evaluate("CHAIN_HEADROOM", [bad]);
    assert.ok(!refused.ok);
    expect(refused.message).toMatch(/"Cable".*Resistance/);
    const two = [...CRAWLER, ["Ship", "", "supply", 48, "", "", "", "", "", "", "", ""]];
    const outcome = evaluate("CHAIN_HEADROOM", [two, 700]);
    assert.ok(!outcome.ok && outcome.argument === "supply");
  });
});

describe("CHAIN_WORST", () => {
  const table = (lost?: number) => answer("CHAIN_WORST", CRAWLER, lost).value as CellTable;
  const rowOf = (name: string, lost?: number) => {
    const row = table(lost).find(([item]) => item === name);
    assert.ok(row);
    return Object.fromEntries(WORST_COLUMNS.map((column, index) => [column, row[index]]));
  };

  it("gives one row for each item under frozen headers", () => {
    expect(table()[0]).toEqual([
      "Item",
      "Lowest input V",
      "Highest input V",
      "Highest input A",
      "Highest loss W",
      "Loading",
      "Least margin",
      "Where it happens",
      "Note",
    ]);
    expect(
      table()
        .slice(1)
        .map(([item]) => item),
    ).toEqual(["Quay", "Cable", "Units", "Thrusters"]);
  });

  it("puts the highest voltage at 840/16 and +1 %, the lowest at 760 V, −1 %, the longest cable", () => {
    const thrusters = rowOf("Thrusters");
    expect(thrusters["Highest input V"]).toBeCloseTo((840 / 16) * 1.01, 12);
    const ratio = 0.99 / 16;
    const resistance = 6.3 * ratio ** 2 + 0.015;
    const open = 760 * ratio;
    const lowest = (open + Math.sqrt(open ** 2 - 4 * resistance * 2400)) / 2;
    expect(thrusters["Lowest input V"]).toBeCloseTo(lowest, 9);
  });

  it("doubles the loading of the units when one of two is lost", () => {
    expect(Number(rowOf("Units", 1).Loading)).toBeGreaterThan(1.9 * Number(rowOf("Units").Loading));
  });

  it("says so where no tolerance is given, and refuses other counts than 0 and 1", () => {
    const open = CRAWLER.map((row) => (row[0] === "Thrusters" ? withCell(row, 10, "") : row));
    const value = answer("CHAIN_WORST", open).value as CellTable;
    expect(value.at(-1)?.at(-1)).toMatch(/no tolerance given/);
    const refused = evaluate("CHAIN_WORST", [CRAWLER, 2]);
    assert.ok(!refused.ok && refused.argument === "units lost");
  });

  it("shows equations that hold in the case that is worst for each row", () => {
    const working = answer("CHAIN_WORST", CRAWLER, 1).working();
    // Of each of four rows the figures, and its equations in one case.
    expect(working.length).toBe(8);
    for (const { steps, values } of working) assertSteps(steps, values as Record<string, number>);
  });
});
