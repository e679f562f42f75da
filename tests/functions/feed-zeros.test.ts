import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import type { Argument, Cell, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";

// What a 0, a blank and the word for no load are in a feed table. Figures by Ohm's law.

const HEADERS = [
  "Item",
  "Fed from",
  "Kind",
  "Voltage",
  "Ratio",
  "Resistance",
  "Load",
  "Peak load",
  "In parallel",
  "Rated A",
] as const;

type Figures = Partial<Record<(typeof HEADERS)[number], Cell>>;

/** @param blank What the host hands a blank cell over as. */
function feed(stage: Figures, load: Figures, blank: Cell = ""): CellTable {
  const row = (figures: Figures) => HEADERS.map((header) => figures[header] ?? blank);
  return [
    [...HEADERS],
    row({ Item: "S", Kind: "supply", Voltage: 400 }),
    row({
      Item: "X",
      "Fed from": "S",
      Kind: "ratio",
      Ratio: 0.25,
      Resistance: 0.01,
      "Rated A": 10,
      ...stage,
    }),
    row({ Item: "L", "Fed from": "X", Kind: "power load", Load: 100, ...load }),
  ];
}

function solved(table: CellTable, loads?: Argument) {
  const outcome = evaluate("CHAIN_SOLVE", [table, loads]);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  const cells = outcome.value as CellTable;
  return (item: string, column: string): Cell | undefined =>
    cells.find(([name]) => name === item)?.[(cells[0] ?? []).indexOf(column)];
}

describe("a 0 in a feed table", () => {
  it("is no unit in parallel, and refused", () => {
    const at = solved(feed({ "In parallel": 0 }, {}));
    expect(at("X", "Note")).toBe("In parallel must be a whole number, 1 or more, got 0");
    expect(at("X", "Input V")).toMatchObject({ error: "#VALUE!" });
  });

  it("is no load at peak, where a blank is the nominal load", () => {
    expect(solved(feed({}, { "Peak load": 0 }), "peak")("L", "Input W")).toBe(0);
    expect(solved(feed({}, {}), "peak")("L", "Input W")).toBe(100);
  });

  it("of a rating is told and taken as not given", () => {
    const at = solved(feed({ "Rated A": 0 }, {}));
    expect(at("X", "Loading")).toBe("–");
    expect(at("X", "Note")).toMatch(/Rated A is 0 and taken as not given/);
  });

  it("may be a blank where the host hands blanks over as 0, and the word none is no load there too", () => {
    const blanks = feed({}, {}, 0);
    expect(solved(blanks, "peak")("L", "Input W")).toBe(100);
    expect(solved(blanks)("X", "Loading")).toBeCloseTo(0.1, 3);
    expect(solved(blanks)("X", "Note")).not.toMatch(/is 0/);
    for (const blank of ["", 0, null])
      expect(solved(feed({}, { "Peak load": "None" }, blank), "peak")("L", "Input W")).toBe(0);
  });
});

describe("a header with a unit", () => {
  it("converts: 20 mΩ are not 20 Ω, 1.5 kW not 1.5 W", () => {
    const [, ...rows] = feed({}, { Load: 1.5 });
    const headers: Cell[] = HEADERS.map((header) => (header === "Load" ? "Load (kW)" : header));
    expect(solved([headers, ...rows])("L", "Input W")).toBeCloseTo(1500, 9);
  });

  it("is refused where it is misspelt", () => {
    const [, ...rows] = feed({}, {});
    const headers: Cell[] = HEADERS.map((header) =>
      header === "Resistance" ? "Resistence (Ω)" : header,
    );
    const outcome = evaluate("CHAIN_SOLVE", [[headers, ...rows]]);
    assert.ok(!outcome.ok);
    expect(outcome.message).toMatch(/"Resistance"/);
  });
});

describe("a loop in Fed from", () => {
  it("names all of its items", () => {
    const names = Array.from({ length: 9 }, (_, index) => `run ${index}`);
    const table: CellTable = [
      ["Item", "Fed from", "Kind", "Resistance"],
      ...names.map((name, index) => [name, names[(index + 1) % names.length]!, "run", 1]),
    ];
    const note = String(solved(table)("run 0", "Note"));
    for (const name of names) expect(note).toContain(`"${name}"`);
  });
});
