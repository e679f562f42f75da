import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import type { CellTable } from "../../functions/cells.js";
import {
  withAllItFeeds,
  feedOutline,
  typedItems,
} from "../../taskpane/budgets/reading/feed-outline.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { budgetOf } from "../helpers/budget-of-feed.js";
import { feedTableOf, number, spillCell, tableCell, tableFrom } from "../helpers/schedules.js";

/** B. L. Theraja, A. K. Theraja, A Textbook of Electrical Technology III, example 40.19 with its link, typed as schedules. */
const RING: readonly CellTable[] = [
  [
    ["Supply", "Voltage (V)"],
    ["A", 220],
  ],
  [
    ["Cable", "Fed from", "Length (m)", "Resistance (Ω)"],
    ["AB", "A", 100, 0.1],
    ["BC", "AB", 50, 0.05],
    ["CD", "BC", 10, 0.01],
    ["AE", "A", 75, 0.075],
    ["DE", "CD; AE", 25, 0.025],
    ["CE", "BC;AE", 50, 0.05],
  ],
  [
    ["Load", "Fed from", "Kind", "Nominal"],
    ["at B", "AB", "current", 10],
    ["at C", "BC", "current", 20],
    ["at D", "CD", "current", 30],
    ["at E", "AE", "current", 10],
  ],
];

/** Two supplies through a diode each on one bus, which feeds a load that only one of them can feed alone. */
const TWO_FEEDS: readonly CellTable[] = [
  [
    ["Supply", "Voltage (V)", "Resistance (Ω)"],
    ["North", 400, 0.1],
    ["South", 380, 0.1],
  ],
  [
    ["In line", "Fed from", "Kind", "Resistance (mΩ)", "Drop (V)"],
    ["Diode N", "North", "diode", 10, 0.8],
    ["Diode S", "South", "diode", 10, 0.8],
    ["Bus", "Diode N; Diode S", "bus", "", ""],
  ],
  [
    ["Load", "Fed from", "Kind", "Nominal"],
    ["Pumps", "Bus", "current", 20],
  ],
];

describe("a ring typed as schedules", () => {
  const table = feedTableOf(RING);

  it("has ties where a cable has two ends to hang on", () => {
    expect(["AB", "DE", "CE"].map((item) => tableCell(table, item, "kind"))).toEqual([
      "run",
      "tie",
      "tie",
    ]);
  });

  it("gives the printed voltages and currents", () => {
    const solved = tableFrom("CHAIN_SOLVE", [table]);
    const at = (item: string, column: string) => number(spillCell(solved, item, column));
    assertPrinted(at("AB", "Output V"), "217.23");
    assertPrinted(at("BC", "Output V"), "216.34");
    assertPrinted(at("AE", "Output V"), "216.83");
    assertPrinted(at("AB", "Output A"), "27.72");
    assertPrinted(at("AE", "Output A"), "42.28");
    assertPrinted(at("CE", "Output A"), "-9.76");
  });
});

describe("two feeds typed as schedules", () => {
  const table = feedTableOf(TWO_FEEDS);

  it("share by the diodes: the lower supply gives nothing while the higher one holds the bus", () => {
    const solved = tableFrom("CHAIN_SOLVE", [table]);
    const at = (item: string, column: string) => number(spillCell(solved, item, column));
    // 400 − 20 A · 0.11 Ω − 0.8 V.
    assertPrinted(at("Bus", "Output V"), "397.0");
    expect(at("South", "Output A")).toBe(0);
    const outage = tableFrom("CHAIN_OUTAGE", [table]);
    // 380 − 20 A · 0.11 Ω − 0.8 V.
    assertPrinted(number(spillCell(outage, "North", "Lowest V")), "377.0");
    expect(spillCell(outage, "North", "Dark")).toBe(0);
    const circulating = tableFrom("CHAIN_CIRCULATING", [table]);
    expect(circulating[1]?.[0]).toBe("nothing circulates");
  });

  it("refuses a bus with a resistance of its own by its cell", () => {
    const [supply, line, load] = TWO_FEEDS as [CellTable, CellTable, CellTable];
    const typed = line.map((row) => (row[0] === "Bus" ? [...row.slice(0, 3), 5, ""] : row));
    const solved = tableFrom("CHAIN_SOLVE", [feedTableOf([supply, typed, load])]);
    expect(String(spillCell(solved, "Bus", "Note"))).toMatch(/Resistance must be blank of a bus/);
  });

  it("stand in the outline with the bus once, below the first that feeds it", () => {
    const budget = budgetOf({ blocks: TWO_FEEDS, askedFor: [["Asked for", "Value"]] } as never);
    const outline = feedOutline(budget);
    expect(outline.map(({ name, depth }) => [name, depth])).toEqual([
      ["North", 0],
      ["Diode N", 1],
      ["Bus", 2],
      ["Pumps", 3],
      ["South", 0],
      ["Diode S", 1],
    ]);
    const items = typedItems(budget);
    const named = (name: string) => items.find((item) => item.name === name)!;
    // What South feeds alone goes with it; the bus has another feeder.
    assert.deepEqual(
      withAllItFeeds(named("South"), items).map(({ name }) => name),
      ["South", "Diode S"],
    );
  });
});
