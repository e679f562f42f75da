import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Cell, type CellTable, isCellError } from "../../functions/cells.js";
import { SCHEDULE_COLUMNS } from "../../functions/families/chain-schedule.js";
import { SOLVED_COLUMNS } from "../../functions/families/chain.js";
import { evaluate } from "../../functions/runner.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { feedTableOf } from "../helpers/feed-cells.js";
import { randomFeed } from "../helpers/random-feed.js";

type Heading = (typeof SCHEDULE_COLUMNS)[number];

function answer(id: string, ...args: Parameters<typeof evaluate>[1]) {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  return outcome;
}

/** The list by item; headings to cells. */
function listed(table: CellTable) {
  const value = answer("CHAIN_SCHEDULE", table).value as CellTable;
  return new Map(
    value
      .slice(1)
      .map((row) => [
        String(row[1]),
        Object.fromEntries(
          SCHEDULE_COLUMNS.map((heading, index) => [heading, row[index]]),
        ) as Record<Heading, Cell>,
      ]),
  );
}

/** Columns beyond those that are solved in other units than the function's own. */
const TABLE: CellTable = [
  [
    ...["Item", "Fed from", "Kind", "Voltage (V)", "Resistance (Ω)", "Ratio"],
    ...["Load", "Peak load", "In parallel", "Lowest V", "Highest V"],
    ...["Rated A", "Length (km)", "Cores", "Size", "Volume (l)", "Mass (g)"],
    ...["Price", "Type", "Location", "Basis"],
  ],
  [
    ...["Bus", "", "supply", 400, "", "", "", "", "", 380, 420, "", "", "", ""],
    ...["", "", "", "", "", ""],
  ],
  [
    ...["Fuse", "Bus", "series", "", 0.1, "", "", "", "", "", "", 10, "", ""],
    ...["", "", "", 9, "", "", ""],
  ],
  [
    ...["Cable", "Fuse", "run", "", 2, "", "", "", "", "", "", 20, 0.22, 2],
    ...["4 mm²", "", 42000, 900, "", "Ridge", "quoted"],
  ],
  [
    ...["Units", "Cable", "ratio", "", "", 1 / 8, "", "", 2, "", "", 40, "", ""],
    ...["", 1.6, 5200, 1200, "Bus 8", "Summit", ""],
  ],
  [
    ...["Camp", "Units", "current load", "", "", "", 40, 64, "", "", "", "", ""],
    ...["", "", "", "", "", "", "", "", ""],
  ],
].map((row) => row.slice(0, 21));

describe("CHAIN_SCHEDULE", () => {
  it("has cables, then stages, under frozen headers, and nothing else", () => {
    const value = answer("CHAIN_SCHEDULE", TABLE).value as CellTable;
    expect(value[0]).toEqual([
      "List",
      "Item",
      "Fed from",
      "Location",
      "In parallel",
      "Length (m)",
      "Cores",
      "Size",
      "Material",
      "Build",
      "Type",
      "Highest A",
      "Rated A",
      "Highest drop V",
      "Highest loss W",
      "Highest output W",
      "Output per litre (W/l)",
      "Mass (kg)",
      "Volume (l)",
      "Price",
      "Basis",
      "Note",
    ]);
    expect(value.slice(1).map(([list, item]) => [list, item])).toEqual([
      ["Cable", "Cable"],
      ["Stage", "Units"],
    ]);
  });

  it("takes what the table says, whatever its units", () => {
    const rows = listed(TABLE);
    expect(rows.get("Cable")).toMatchObject({
      "Length (m)": 220,
      Cores: 2,
      Size: "4 mm²",
      "Mass (kg)": 42,
      Price: 900,
      Location: "Ridge",
      Basis: "quoted",
      "Rated A": 20,
      "Volume (l)": "–",
    });
    const units = rows.get("Units")!;
    expect(units).toMatchObject({ Type: "Bus 8", "Rated A": 80, Price: 1200 });
    expect(units["Volume (l)"]).toBeCloseTo(3.2, 12);
    // 420 V less 8 A · 2.1 Ω, an eighth of it, times 64 A, out of 2 · 1.6 l.
    const output = ((420 - 8 * 2.1) / 8) * 64;
    expect(units["Highest output W"]).toBeCloseTo(output, 9);
    expect(units["Output per litre (W/l)"]).toBeCloseTo(output / 3.2, 9);
  });

  it("refuses a header with a unit that is none of its figures'", () => {
    const [headers = [], ...rows] = TABLE;
    const wrong = headers.map((text) => (text === "Volume (l)" ? "Volume (kg)" : text));
    const outcome = evaluate("CHAIN_SCHEDULE", [[wrong, ...rows]]);
    assert.ok(!outcome.ok);
    expect(outcome.message).toMatch(/"Volume".*\(cm³\), got "Volume \(kg\)"/);
  });

  it("says nothing of what a plain feed table lacks", () => {
    const rows = listed(TABLE.map((row) => row.slice(0, 12)));
    expect(rows.get("Units")).toMatchObject({
      "Output per litre (W/l)": "–",
      "Mass (kg)": "–",
      "Volume (l)": "–",
      Price: "–",
      Note: "",
    });
  });

  it("passes over cases without an answer and says which, and refuses where there is none", () => {
    const change = (item: string, heading: string, cell: Cell) =>
      TABLE.map((row) =>
        row[0] === item ? row.map((old, at) => (TABLE[0]![at] === heading ? cell : old)) : row,
      );
    const some = listed(change("Bus", "Lowest V", "")).get("Cable")!;
    expect(some["Highest A"]).toBe(8);
    expect(some.Note).toMatch(
      /^3 of 9 cases without an answer, supply lowest, loads light the first: "Bus".*Lowest V/,
    );
    const none = listed(change("Cable", "Resistance (Ω)", "")).get("Cable")!;
    assert.ok(isCellError(none["Highest A"]));
    expect(none.Note).toMatch(/^"Cable": Resistance must be given/);
    expect(none["Length (m)"]).toBe(220);
  });

  it("shows equations that hold in the case that it lists", () => {
    const working = answer("CHAIN_SCHEDULE", TABLE).working();
    expect(working.map(({ title }) => title)).toEqual([
      expect.stringMatching(/^Cable, supply .*, loads peak$/) as string,
      "Units, supply highest, loads peak",
    ]);
    for (const { steps, values } of working) assertSteps(steps, values as Record<string, number>);
  });

  it("lists the highest of the nine cases as CHAIN_SOLVE has them", () => {
    const at = (heading: (typeof SOLVED_COLUMNS)[number]) => SOLVED_COLUMNS.indexOf(heading);
    fc.assert(
      fc.property(randomFeed, (items) => {
        const table = feedTableOf(
          items.map((item) =>
            item.kind === "supply" && item.voltage !== undefined
              ? {
                  ...item,
                  lowestVoltage: item.voltage * 0.95,
                  highestVoltage: item.voltage * 1.05,
                }
              : item,
          ),
        );
        const cases = ["lowest", "nominal", "highest"].flatMap((supply) =>
          ["light", "nominal", "peak"].map(
            (loads) => answer("CHAIN_SOLVE", table, loads, supply).value as CellTable,
          ),
        );
        const solved = cases.filter((value) =>
          value.slice(1).every((row) => typeof row[1] === "number"),
        );
        if (solved.length === 0) return;
        const numbers = (item: string, heading: (typeof SOLVED_COLUMNS)[number]) =>
          solved.map((value) => Number(value.find(([name]) => name === item)![at(heading)]));
        const rows = listed(table);
        expect([...rows.keys()].sort()).toEqual(
          items
            .filter(({ kind }) => ["run", "ratio", "regulated"].includes(kind))
            .map(({ item }) => item)
            .sort(),
        );
        for (const [item, row] of rows) {
          for (const [heading, name] of [
            ["Highest A", "Output A"],
            ["Highest loss W", "Loss W"],
            ["Highest output W", "Output W"],
          ] as const)
            expect(row[heading]).toBe(Math.max(...numbers(item, name)));
          if (row.List !== "Cable") continue;
          const outputs = numbers(item, "Output V");
          const drops = numbers(item, "Input V").map((input, index) => input - outputs[index]!);
          expect(row["Highest drop V"]).toBe(Math.max(...drops));
        }
      }),
      { numRuns: 25 },
    );
  });
});
