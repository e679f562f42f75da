/**
 * Two feeds typed as their schedules stand, against every figure that their author printed from a solver of his own.
 */
import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import type { Cell, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import {
  trackside,
  TRACKSIDE_COLD,
  TRACKSIDE_HEADROOM,
  TRACKSIDE_LOOPS,
  TRACKSIDE_PRINTED,
  TRACKSIDE_THICKER,
} from "../feeds/trackside.js";
import {
  umbilical,
  UMBILICAL_AT_WORST,
  UMBILICAL_LOOPS,
  UMBILICAL_PRINTED,
} from "../feeds/umbilical.js";
import type { PrintedCase } from "../feeds/typed-feed.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { feedTableOfFeed, number, spillCell, tableCell, tableFrom } from "../helpers/schedules.js";

function assertCases(table: CellTable, cases: readonly PrintedCase[]): void {
  for (const { loads, supply, supplyPower, loadPower, items } of cases) {
    assertPrinted(totalOf(table, "supply power", loads, supply), supplyPower);
    assertPrinted(totalOf(table, "load power", loads, supply), loadPower);
    const solved = tableFrom("CHAIN_SOLVE", [table, loads, supply]);
    for (const [item, column, printed] of items)
      assertPrinted(number(spillCell(solved, item, column)), printed);
  }
}

function totalOf(table: CellTable, quantity: string, loads: string, supply: string): number {
  const outcome = evaluate("CHAIN_TOTAL", [table, quantity, loads, supply]);
  assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
  return number(outcome.value as Cell);
}

function headroomOf(table: CellTable, loads: "peak", supply: "lowest"): number {
  // All loads at peak grow together: Load is what CHAIN_HEADROOM multiplies.
  const place = table[0]!.indexOf("Load");
  const peak = table[0]!.indexOf("Peak load");
  expect(loads).toBe("peak");
  const atPeak = table.map((row, at) =>
    row.map((cell, column) => (at > 0 && column === place && row[peak] !== "" ? row[peak]! : cell)),
  );
  return number(tableFrom("CHAIN_HEADROOM", [atPeak, supply])[0]?.[0]);
}

describe("a trackside cabinet", () => {
  const table = feedTableOfFeed(trackside());

  it("has the loops that are printed", () => {
    for (const [item, printed] of Object.entries(TRACKSIDE_LOOPS))
      assertPrinted(number(tableCell(table, item, "resistance")), printed);
  });

  it("has every solved figure as printed", () => {
    assertCases(table, TRACKSIDE_PRINTED);
    assertCases(feedTableOfFeed(trackside({ heater: "on" })), TRACKSIDE_COLD);
  });

  it("has the headroom that is printed, points moving at the lowest supply", () => {
    assertPrinted(headroomOf(table, "peak", "lowest"), TRACKSIDE_HEADROOM);
  });

  it("has the figures of a thicker point cable, and no operating point with all machines at once", () => {
    const solvedOf = (pointMachines: number, pointSize: string) => {
      const own = feedTableOfFeed(trackside({ pointMachines, pointSize }));
      return { own, solved: tableFrom("CHAIN_SOLVE", [own, "peak", "lowest"]) };
    };
    const two = TRACKSIDE_THICKER["two at once, 16 mm²"];
    const thick = solvedOf(2, "16 mm²");
    assertPrinted(number(spillCell(thick.solved, "Point machines", "Input V")), two.machines);
    assertPrinted(headroomOf(thick.own, "peak", "lowest"), two.headroom);
    for (const [size, printed] of [
      ["10 mm²", TRACKSIDE_THICKER["four at once, 10 mm²"].machines],
      ["16 mm²", TRACKSIDE_THICKER["four at once, 16 mm²"].machines],
    ] as const)
      assertPrinted(
        number(spillCell(solvedOf(4, size).solved, "Point machines", "Input V")),
        printed,
      );
    const none = solvedOf(4, "6 mm²").solved;
    expect(spillCell(none, "Point machines", "Input V")).toMatchObject({
      error: "#N/A",
    });
  });

  it("keeps what the table has no column for and says where each row was typed", () => {
    expect(tableCell(table, "Traction tap", "basis")).toContain("1000 V");
    expect(tableCell(table, "Point cable", "block")).toBe("Cable");
    expect(tableCell(table, "Point cable", "row")).toBe(2);
    expect(tableCell(table, "Trackside cable", "locations")).toBe("Hut; Track; Cabinet");
    expect(tableCell(table, "Trackside cable", "access")).toBe("enclosed");
    expect(tableCell(table, "Cabinet heater", "load")).toBe("none");
  });
});

describe("an umbilical with two stages one behind the other", () => {
  const table = feedTableOfFeed(umbilical());

  it("has the loops that are printed", () => {
    for (const [item, printed] of Object.entries(UMBILICAL_LOOPS))
      assertPrinted(number(tableCell(table, item, "resistance")), printed);
  });

  it("has every solved figure as printed", () => {
    assertCases(table, UMBILICAL_PRINTED);
  });

  it("has its figures at peak and lowest supply as printed", () => {
    const solved = tableFrom("CHAIN_SOLVE", [table, "peak", "lowest"]);
    const at = (item: string, column: string) => number(spillCell(solved, item, column));
    const printed = UMBILICAL_AT_WORST;
    assertPrinted(at("Topside supply", "Output A"), printed.supplyCurrent);
    assertPrinted(at("Main stage", "Output V"), printed.mainOutputVoltage);
    assertPrinted(at("Frame 24 V", "Output A"), printed.frameCurrent);
    assertPrinted(at("Node 24 V", "Output A"), printed.nodeCurrent);
    assertPrinted(headroomOf(table, "peak", "lowest"), printed.headroom);
  });

  it("has its figures with one main unit lost as printed", () => {
    const one = feedTableOfFeed(umbilical({ mainUnits: 1 }));
    const { oneLost } = UMBILICAL_AT_WORST;
    const power = totalOf(one, "supply power", "peak", "lowest");
    assertPrinted(power, oneLost.supplyPower);
    const solved = tableFrom("CHAIN_SOLVE", [one, "peak", "lowest"]);
    assertPrinted(number(spillCell(solved, "Main stage", "Output V")), oneLost.mainOutputVoltage);
    assertPrinted(number(spillCell(solved, "Main stage", "Output A")), oneLost.mainOutputCurrent);
  });

  it("says once that a stage of one efficiency loses nothing at no load", () => {
    expect(tableCell(table, "Node 24 V", "note")).toBe(
      "one Efficiency at any load: no loss at no load is counted",
    );
    const outcome = evaluate("CHAIN_SOLVE", [table]);
    assert.ok(outcome.ok);
    const told = outcome.caveats.filter(({ text }) => text.includes("one Efficiency"));
    expect(told).toHaveLength(1);
  });
});
