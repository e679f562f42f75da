import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Argument, Cell, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";

const HEADERS = [
  "Item",
  "Fed from",
  "Kind",
  "Voltage",
  "Resistance",
  "Load",
  "Light load",
  "Lowest V",
  "Highest V",
];

/** A supply, a run and a load; rows and cells are replaced by the tests. */
function feed(changes: Readonly<Record<string, Cell>> = {}): Cell[][] {
  const rows: Cell[][] = [
    HEADERS,
    ["Bus", "", "supply", 400, 0.5, "", "", 360, 440],
    ["Cable", "Bus", "run", "", 4, "", "", "", ""],
    ["Camp", "Cable", "power load", "", "", 2000, 100, 300, 450],
  ].map((row) => [...row]);
  for (const [at, value] of Object.entries(changes)) {
    const [item, header] = at.split("/");
    const row = rows.find(([name]) => name === item);
    assert.ok(row && header);
    row[HEADERS.indexOf(header)] = value;
  }
  return rows;
}

function solved(...args: Argument[]): CellTable {
  const outcome = evaluate("CHAIN_SOLVE", args);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  return outcome.value as CellTable;
}

function refusal(id: string, ...args: Argument[]): string {
  const outcome = evaluate(id, args);
  assert.ok(!outcome.ok, `${id} gave ${JSON.stringify(outcome.ok && outcome.value)}`);
  return `${outcome.code} ${outcome.message}`;
}

const noteOf = (table: CellTable, item: string) =>
  String(table.find(([name]) => name === item)?.at(-1));
const cellOf = (table: CellTable, item: string, column: string) =>
  table.find(([name]) => name === item)?.[(table[0] ?? []).indexOf(column)];

describe("CHAIN_SOLVE", () => {
  it("has the frozen columns and one row for each item, in the table's order, names as typed", () => {
    const table = solved(feed());
    expect(table[0]).toEqual([
      "Item",
      "Input V",
      "Input A",
      "Input W",
      "Output V",
      "Output A",
      "Output W",
      "Loss W",
      "Efficiency",
      "Share of losses",
      "Loading",
      "Note",
    ]);
    expect(table.slice(1).map(([item]) => item)).toEqual(["Bus", "Cable", "Camp"]);
  });

  // By hand: 400 V behind 0.5 + 4 Ω and 2 kW: V = (400 + √(160000 − 4·4.5·2000))/2 = 376.05648… V.
  it("gives hand figures for one run", () => {
    const table = solved(feed());
    const voltage = (400 + Math.sqrt(160_000 - 36_000)) / 2;
    expect(cellOf(table, "Camp", "Input V")).toBeCloseTo(voltage, 9);
    expect(cellOf(table, "Bus", "Loss W")).toBeCloseTo(0.5 * (2000 / voltage) ** 2, 9);
    expect(cellOf(table, "Cable", "Loss W")).toBeCloseTo(4 * (2000 / voltage) ** 2, 9);
    expect(cellOf(table, "Cable", "Share of losses")).toBeCloseTo(4 / 4.5, 12);
    expect(cellOf(table, "Camp", "Output V")).toBe("–");
    expect(cellOf(table, "Camp", "Efficiency")).toBe("–");
    expect(cellOf(table, "Camp", "Loss W")).toBe(0);
  });

  it("takes loads as light, nominal, peak (Load by default) or a multiple, and the supply by its window or in volts", () => {
    const power = (loads: Argument, supply?: Argument) =>
      cellOf(solved(feed(), loads, supply), "Camp", "Input W");
    expect(power("light")).toBeCloseTo(100, 9);
    expect(power("Nominal")).toBeCloseTo(2000, 9);
    expect(power("peak")).toBeCloseTo(2000, 9);
    expect(power(0.5)).toBeCloseTo(1000, 9);
    const open = (supply: Argument) => cellOf(solved(feed(), undefined, supply), "Bus", "Input V");
    expect([open("lowest"), open("nominal"), open("highest"), open(410)]).toEqual([
      360, 400, 440, 410,
    ]);
  });

  it("reads nothing and a blank alike for every optional argument", () => {
    const expected = JSON.stringify(solved(feed()));
    for (const blank of ["", null, undefined]) {
      expect(JSON.stringify(solved(feed(), blank, blank))).toBe(expected);
    }
  });

  // Without current there is no drop: every item sits at the open-circuit voltage (Ohm's law).
  it("solves loads of 0 as no load, says so at every load, and finds what is above its window", () => {
    const table: Cell[][] = [
      HEADERS,
      ["Bus", "", "supply", 48, 1, "", "", 40, 57],
      ["Motor", "Bus", "power load", "", "", 200, "", "", 55],
      ["Heater", "Bus", "resistance load", "", "", 24, "", "", 60],
      ["Lamp", "Bus", "current load", "", "", 2, "", "", 60],
    ].map((row) => [...row]);
    for (const item of ["Motor", "Heater", "Lamp"]) {
      const found = solved(table, 0, "highest");
      expect(cellOf(found, item, "Input V")).toBe(57);
      expect(cellOf(found, item, "Input A")).toBe(0);
      expect(noteOf(found, item)).toMatch(/no load: loads is 0/);
    }
    expect(noteOf(solved(table, 0, "highest"), "Motor")).toMatch(/^2 V above its window/);
    expect(noteOf(solved(table, 1, "highest"), "Motor")).not.toMatch(/no load/);
    const total = evaluate("CHAIN_TOTAL", [table, "supply power", 0]);
    assert.ok(total.ok && total.value === 0);
    assert.equal(total.caveats.filter(({ code }) => code === "no-load").length, 3);
  });

  it("finds columns by header in any order, without case and spaces, and leaves others alone", () => {
    const table = feed().map((row) => [...row].reverse());
    table[0] = table[0]!.map((header) => `  ${String(header).toUpperCase()}  `);
    const withOthers = table.map((row, index) => ["mine", ...row, index === 0 ? "Colour" : "blue"]);
    expect(solved(withOthers)).toEqual(solved(feed()));
  });

  it("passes over blank rows, wherever they stand, and takes a child above its parent", () => {
    const [headers, bus, cable, camp] = feed();
    const blank = HEADERS.map(() => "");
    const table = solved([headers!, camp!, blank, cable!, blank, bus!, HEADERS.map(() => 0)]);
    expect(table.slice(1).map(([item]) => item)).toEqual(["Camp", "Cable", "Bus"]);
    expect(cellOf(table, "Camp", "Input V")).toBe(cellOf(solved(feed()), "Camp", "Input V"));
  });

  it("matches names without case", () => {
    expect(cellOf(solved(feed({ "Cable/Fed from": " BUS " })), "Camp", "Input W")).toBeCloseTo(
      2000,
      9,
    );
  });

  it("says what is outside its window and stays on", () => {
    const low = solved(feed({ "Camp/Lowest V": 380 }));
    expect(noteOf(low, "Camp")).toMatch(/^3\.932 V below its window: would switch off$/);
    expect(cellOf(low, "Camp", "Input W")).toBeCloseTo(2000, 9);
    expect(noteOf(solved(feed({ "Camp/Highest V": 370 })), "Camp")).toMatch(/V above its window/);
    expect(noteOf(solved(feed({ "Bus/Resistance": 0 })), "Bus")).toBe("ideal: no resistance given");
  });

  it("shows error elements and the reason in Note for a refused row and its whole tree, and solves other trees", () => {
    const rows = [
      ...feed({ "Cable/Resistance": -1 }),
      ["Other bus", "", "supply", 48, 0.01, "", "", "", ""],
      ["Lamp", "Other bus", "resistance load", "", "", 48, "", "", ""],
    ];
    const table = solved(rows);
    expect(noteOf(table, "Cable")).toBe("Resistance must be above 0, got -1");
    expect(noteOf(table, "Bus")).toBe('"Cable": Resistance must be above 0, got -1');
    for (const item of ["Bus", "Cable", "Camp"]) {
      expect(cellOf(table, item, "Loss W")).toMatchObject({ error: "#VALUE!" });
    }
    expect(cellOf(table, "Lamp", "Input A")).toBeCloseTo(48 / 48.01, 9);
  });

  it.each<[string, Readonly<Record<string, Cell>>, string, RegExp]>([
    [
      "blank",
      { "Cable/Resistance": "" },
      "Cable",
      /Resistance must be above 0|Resistance must be given for a run row, got nothing/,
    ],
    ["text", { "Cable/Resistance": "thick" }, "Cable", /Resistance must be a number, got "thick"/],
    ["negative", { "Cable/Resistance": -4 }, "Cable", /Resistance must be above 0, got -4/],
    [
      "NaN",
      { "Cable/Resistance": Number.NaN },
      "Cable",
      /Resistance must be a finite number, got NaN/,
    ],
    ["Infinity", { "Camp/Load": Infinity }, "Camp", /Load must be a finite number, got Infinity/],
    ["truth", { "Camp/Load": true }, "Camp", /Load must be a number, got true/],
    [
      "error in a cell",
      { "Camp/Load": { error: "#REF!" } },
      "Camp",
      /Load must be without an error, got "#REF!"/,
    ],
    [
      "negative current",
      { "Camp/Load": -5, "Camp/Kind": "current load" },
      "Camp",
      /Load must be 0 or more \(a load of kind "power load" may give power back\), got -5/,
    ],
    [
      "unknown kind",
      { "Cable/Kind": "wire" },
      "Cable",
      /Kind must be "supply" or "run" or .*, got "wire"/,
    ],
    [
      "unknown feed",
      { "Cable/Fed from": "Nowhere" },
      "Cable",
      /Fed from must be the name of an item in this table, got "Nowhere"/,
    ],
    [
      "two of one name",
      { "Camp/Item": "cable" },
      "Cable",
      /Item must be a name that no other row has, got "Cable"/,
    ],
    [
      "fed by a load",
      { "Cable/Fed from": "Camp" },
      "Cable",
      /Fed from must be an item that feeds others, not a load, got "Camp"/,
    ],
    [
      "supply with a feed",
      { "Bus/Fed from": "Cable" },
      "Bus",
      /Fed from must be blank for a supply/,
    ],
    [
      "no feed",
      { "Cable/Fed from": "" },
      "Cable",
      /Fed from must be the name of the item that feeds this one, got nothing/,
    ],
    [
      "no voltage",
      { "Bus/Voltage": 0 },
      "Bus",
      /Voltage must be given for a supply row, got nothing/,
    ],
    [
      "window upside down",
      { "Camp/Highest V": 200 },
      "Camp",
      /Highest V must be above 300, got 200/,
    ],
  ])("refuses %s by column, value and bound", (_, changes, item, message) => {
    const table = solved(feed(changes));
    expect(noteOf(table, item)).toMatch(message);
    for (const row of table.slice(1))
      expect(row.some((cell) => typeof cell === "number" && !Number.isFinite(cell))).toBe(false);
  });

  it("names a loop and what closes a ring", () => {
    const rows = [
      ...feed(),
      ["A", "C", "run", "", 1, "", "", "", ""],
      ["B", "A", "run", "", 1, "", "", "", ""],
      ["C", "B", "run", "", 1, "", "", "", ""],
    ];
    const table = solved(rows);
    expect(noteOf(table, "B")).toMatch(/closes a loop: "A", "C", "B"/);
    expect(noteOf(table, "B")).toMatch(/a ring is closed by a row of kind "tie"/);
    expect(cellOf(table, "Camp", "Input W")).toBeCloseTo(2000, 9);
  });

  it("names the column that is missing and the row that needs it", () => {
    const table = feed().map((row) => row.filter((_, column) => HEADERS[column] !== "Resistance"));
    expect(noteOf(solved(table), "Cable")).toBe(
      'the table has no column "Resistance", which "Cable" needs',
    );
  });

  it("gives one error for a fault of the table itself", () => {
    expect(refusal("CHAIN_SOLVE", [["Item", "Kind"]])).toMatch(
      /^#VALUE! feed table must be a range whose first row holds the header "Fed from"/,
    );
    expect(refusal("CHAIN_SOLVE", [HEADERS])).toMatch(/a header row with one row or more below it/);
    expect(refusal("CHAIN_SOLVE", [[...HEADERS, "load (kW)"], ...feed().slice(1)])).toMatch(
      /each header once, got "Load"/,
    );
    expect(refusal("CHAIN_SOLVE", "text")).toMatch(
      /feed table must be a range of cells, got "text"/,
    );
    expect(refusal("CHAIN_SOLVE", undefined)).toMatch(/feed table must be given/);
    expect(refusal("CHAIN_SOLVE", feed(), "most")).toMatch(
      /loads must be "light" or "nominal" or "peak", got "most"/,
    );
    expect(refusal("CHAIN_SOLVE", feed(), -1)).toMatch(/loads must be 0 or more, got -1/);
    expect(refusal("CHAIN_SOLVE", feed(), "nominal", -400)).toMatch(
      /supply must be above 0, got -400/,
    );
    const twoSupplies = [...feed(), ["Second", "", "supply", 48, 1, "", "", "", ""]];
    expect(refusal("CHAIN_SOLVE", twoSupplies, "nominal", 400)).toMatch(
      /supply must be .* for a table with 2 supplies, got 400/,
    );
  });

  it("says by how much a load is too big to carry, as #N/A", () => {
    const table = solved(feed({ "Camp/Load": 20_000 }));
    expect(cellOf(table, "Camp", "Input V")).toMatchObject({ error: "#N/A" });
    expect(noteOf(table, "Camp")).toMatch(
      /no operating point that is reached from no load: the feed can supply at most 0\.444\d times these loads/,
    );
    expect(refusal("CHAIN_TOTAL", feed({ "Camp/Load": 20_000 }), "loss")).toMatch(
      /^#N\/A no operating point/,
    );
  });

  it("gives a number, text or error in every cell, never NaN, an infinity or nothing, for any table", () => {
    const cell = fc.oneof(
      fc.double(),
      fc.constantFrom<Cell[]>(
        0,
        -1,
        1e308,
        1e-308,
        "",
        null,
        true,
        "run",
        "supply",
        "power load",
        "A",
        "B",
        "exact",
        { error: "#DIV/0!" },
      ),
      fc.string({ maxLength: 4 }),
    );
    const row = fc.tuple(
      fc.constantFrom<Cell[]>("A", "B", "C", "D", "", 7),
      fc.constantFrom<Cell[]>("", "A", "B", "C", "Z"),
      fc.constantFrom<Cell[]>(
        "supply",
        "run",
        "series",
        "ratio",
        "regulated",
        "power load",
        "current load",
        "resistance load",
        "x",
      ),
      ...Array.from({ length: 17 }, () =>
        fc.oneof(
          { weight: 3, arbitrary: fc.constant<Cell>("") },
          {
            weight: 2,
            arbitrary: fc.double({ min: 0.01, max: 500, noNaN: true }),
          },
          { weight: 1, arbitrary: cell },
        ),
      ),
    );
    const headers = [
      "Item",
      "Fed from",
      "Kind",
      "Voltage",
      "Resistance",
      "Ratio",
      "Fixed loss",
      "Linear loss",
      "Quadratic loss",
      "Efficiency",
      "Load",
      "Light load",
      "Peak load",
      "In parallel",
      "Lowest V",
      "Highest V",
      "Rated A",
      "Tolerance",
      "Isolation",
      "Trip V",
    ];
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 1, maxLength: 6 }),
        fc.constantFrom("light", "nominal", "peak", 2),
        (rows, loads) => {
          const outcome = evaluate("CHAIN_SOLVE", [[headers, ...(rows as Cell[][])], loads]);
          if (!outcome.ok) {
            assert.ok(!outcome.message.startsWith("fault in Downfeed"), outcome.message);
            return;
          }
          const table = outcome.value as CellTable;
          for (const cells of table) {
            assert.equal(cells.length, 12);
            for (const value of cells)
              assert.ok(value !== null && value !== undefined && !Number.isNaN(value));
          }
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe("CHAIN_TOTAL", () => {
  it("closes: supply power is loads and losses", () => {
    const total = (quantity: string) => {
      const outcome = evaluate("CHAIN_TOTAL", [feed(), quantity]);
      assert.ok(outcome.ok);
      return outcome.value as number;
    };
    const supply = total("supply power");
    expect(total("load power")).toBeCloseTo(2000, 9);
    assert.ok(Math.abs(total("closing error")) <= 1e-9 * supply);
    assert.ok(Math.abs(supply - total("load power") - total("loss")) <= 1e-9 * supply);
    expect(total("efficiency")).toBeCloseTo(2000 / supply, 12);
  });

  // By hand: 376.056… V in a window of 300 to 450 V: (450 − 376.056)/450 = 0.164… is the less.
  it("gives the least margin over stages and loads with a window", () => {
    const outcome = evaluate("CHAIN_TOTAL", [feed(), "lowest margin"]);
    assert.ok(outcome.ok);
    const voltage = (400 + Math.sqrt(160_000 - 36_000)) / 2;
    expect(outcome.value).toBeCloseTo((450 - voltage) / 450, 9);
  });

  it("gives one error where a row is refused, and says which quantities there are", () => {
    expect(refusal("CHAIN_TOTAL", feed({ "Cable/Resistance": -1 }), "loss")).toMatch(
      /^#VALUE! .*"Cable".*Resistance must be above 0, got -1/,
    );
    expect(refusal("CHAIN_TOTAL", feed(), "heat")).toMatch(
      /quantity must be "supply power" or .*, got "heat"/,
    );
    expect(refusal("CHAIN_TOTAL", feed({ "Camp/Load": 0 }), "efficiency")).toMatch(
      /there is no efficiency: the supply gives no power/,
    );
  });
});

describe("CHAIN_EFFICIENCY", () => {
  it("multiplies numbers and ranges and passes over blanks", () => {
    const outcome = evaluate("CHAIN_EFFICIENCY", [
      0.97,
      [
        [0.95, ""],
        [null, 0.98],
      ],
    ]);
    assert.ok(outcome.ok);
    expect(outcome.value).toBeCloseTo(0.97 * 0.95 * 0.98, 14);
  });

  it.each<[string, Argument, RegExp]>([
    [
      "0",
      0,
      /efficiency must be above 0 and at most 1 \(the spreadsheet may pass a blank cell as 0\), got 0/,
    ],
    ["above 1", 97, /efficiency must be above 0 and at most 1, got 97/],
    ["negative", -0.9, /got -0\.9/],
    ["text", "high", /efficiency must be a number, got "high"/],
    ["NaN", Number.NaN, /efficiency must be a finite number, got NaN/],
    ["nothing", "", /efficiency must be given/],
  ])("refuses %s", (_, argument, message) => {
    expect(refusal("CHAIN_EFFICIENCY", argument)).toMatch(message);
  });

  it("passes an error on unchanged", () => {
    expect(refusal("CHAIN_EFFICIENCY", 0.9, [[{ error: "#DIV/0!" }]])).toMatch(/^#DIV\/0! /);
  });
});
