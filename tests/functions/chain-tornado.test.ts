import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import { SLOPE_ONLY, TORNADO_COLUMNS } from "../../functions/families/chain-tornado.js";
import type { Argument, Cell, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import { SPREAD_COLUMNS } from "../../functions/reading/spread/spread-block.js";

const HEADERS = [
  "Item",
  "Fed from",
  "Kind",
  "Voltage",
  "Resistance",
  "Ratio",
  "Fixed loss",
  "Load",
  "In parallel",
  "Lowest V",
  "Highest V",
  "Rated A",
  "Tolerance",
];

/** 400 V, two cables of 2 Ω in a row, a fixed ratio and a load of 5 kW. */
const FEED: CellTable = [
  HEADERS,
  ["Bus", "", "supply", 400, "", "", "", "", "", 380, 420, "", ""],
  ["Near", "Bus", "run", "", 1, "", "", "", "", "", "", 40, 0.1],
  ["Far", "Near", "run", "", 1, "", "", "", "", "", "", "", 0.1],
  ["Box", "Far", "ratio", "", 0.01, 0.25, 20, "", "", 200, 450, "", 0.01],
  ["Camp", "Box", "power load", "", "", "", "", 5000, 1, 60, 110, "", "exact"],
];

function withCell(table: CellTable, item: string, header: string, cell: Cell): CellTable {
  const column = HEADERS.indexOf(header);
  return table.map((row) =>
    row[0] === item ? row.map((own, place) => (place === column ? cell : own)) : row,
  );
}

function rowsOf(...args: readonly Argument[]): Record<string, Cell>[] {
  const outcome = evaluate("CHAIN_TORNADO", args);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  const [headers, ...rows] = outcome.value as CellTable;
  assert.deepEqual(headers, [...TORNADO_COLUMNS]);
  return rows.map((row) => Object.fromEntries(row.map((cell, at) => [TORNADO_COLUMNS[at]!, cell])));
}

/** Those that vary: the rest has slopes only. */
function varying(rows: readonly Record<string, Cell>[]) {
  return rows.filter(({ Note }) => Note !== SLOPE_ONLY);
}

function refusal(...args: readonly Argument[]): string {
  const outcome = evaluate("CHAIN_TORNADO", args);
  assert.ok(!outcome.ok);
  return outcome.message;
}

const spread = (...rows: readonly (readonly Cell[])[]): CellTable => [[...SPREAD_COLUMNS], ...rows];

describe("CHAIN_TORNADO", () => {
  it("gives at each end what the table gives with that end typed into it", () => {
    const rows = rowsOf(FEED, "loss");
    const total = (table: CellTable) => {
      const outcome = evaluate("CHAIN_TOTAL", [table, "loss"]);
      assert.ok(outcome.ok);
      return outcome.value;
    };
    expect(rows[0]).toMatchObject({ Input: "as entered", Unit: "W", "Low gives": total(FEED) });
    const typed = [
      ["Bus · Voltage", "Bus", "Voltage", "V"],
      ["Near · Resistance", "Near", "Resistance", "Ω"],
      ["Far · Resistance", "Far", "Resistance", "Ω"],
      ["Box · Ratio", "Box", "Ratio", "1"],
    ] as const;
    expect(
      varying(rows)
        .slice(1)
        .map(({ Input }) => Input)
        .sort(),
    ).toEqual(typed.map(([name]) => name).sort());
    for (const [name, item, header, unit] of typed) {
      const row = rows.find(({ Input }) => Input === name)!;
      expect(row["Unit"]).toBe(unit);
      expect(row["Low gives"]).toBeCloseTo(
        Number(total(withCell(FEED, item, header, row["Low"]!))),
        9,
      );
      expect(row["High gives"]).toBeCloseTo(
        Number(total(withCell(FEED, item, header, row["High"]!))),
        9,
      );
    }
  });

  // Computed here: V = (E + √(E² − 4RP))/2, loss P·(E/V − 1).
  it("is of the loads and the supply that are asked for: the closed form of one cable and one load", () => {
    const table: CellTable = [
      [...HEADERS, "Light load", "Peak load"],
      ["Bus", "", "supply", 400, "", "", "", "", "", 380, 420, "", "", "", ""],
      ["Cable", "Bus", "run", "", 2, "", "", "", "", "", "", "", 0.1, "", ""],
      ["Camp", "Cable", "power load", "", "", "", "", 10_000, "", "", "", "", 0.05, 2000, 12_000],
    ];
    const loss = (open: number, resistance: number, power: number) => {
      const voltage = (open + Math.sqrt(open ** 2 - 4 * resistance * power)) / 2;
      return power * (open / voltage - 1);
    };
    const cases = [
      ["light", "highest", 420, 2000],
      ["peak", "lowest", 380, 12_000],
      ["", "lowest", 380, 10_000],
      [0.5, 390, 390, 5000],
    ] as const;
    for (const [loads, supply, open, power] of cases) {
      const [entered, ...lines] = varying(rowsOf(table, "loss", "", "", loads, supply));
      expect(entered!["Low gives"]).toBeCloseTo(loss(open, 2, power), 8);
      // A supply that stands at one voltage is no input.
      const wanted = new Map([
        ["Cable · Resistance", [loss(open, 1.8, power), loss(open, 2.2, power)]],
        ["Camp · Load", [loss(open, 2, 0.95 * power), loss(open, 2, 1.05 * power)]],
      ]);
      assert.deepEqual(new Set(lines.map(({ Input }) => Input)), new Set(wanted.keys()));
      for (const line of lines) {
        const [low, high] = wanted.get(String(line["Input"]))!;
        expect(line["Low gives"]).toBeCloseTo(low!, 8);
        expect(line["High gives"]).toBeCloseTo(high!, 8);
      }
    }
    expect(rowsOf(table, "loss", "", "", "peak", "lowest")[0]!["Note"]).toContain(
      "supply lowest, loads peak",
    );
    assert.deepEqual(rowsOf(table, "loss", "", "", "nominal", "nominal"), rowsOf(table, "loss"));
    // What Spread says of a voltage is about the one that is asked for.
    const about = spread(["Bus", "Voltage", 0.01, "", ""]);
    const bus = rowsOf(table, "loss", "", about, "peak", "lowest").find(
      ({ Input }) => Input === "Bus · Voltage",
    )!;
    expect(bus["Low"]).toBeCloseTo(376.2, 9);
    expect(bus["Low gives"]).toBeCloseTo(loss(376.2, 2, 12_000), 8);
    // A load that is none at light load does not vary there, and is refused nowhere.
    const none = rowsOf(FEED, "loss", "", spread(["Camp", "Load", 0.1, "", ""]), "light");
    assert.ok(none.every(({ Input }) => Input !== "Camp · Load"));
    expect(refusal(FEED, "loss", "", "", "heavy")).toMatch(/loads must be/);
  });

  it("reads the block Spread of a budget: its name in front, places without a header, a Basis", () => {
    const block: CellTable = [
      ["Spread", "", "", "Column", "Tolerance (%)", "Distribution", "Group", "Basis"],
      ["Camp", "", "", "Load", 10, "", "", "a guess"],
      ["Near", "", "", "Resistance", "", "normal", "batch", "assumed"],
      ["Far", "", "", "Resistance", "", "normal", "batch", "assumed"],
      ["", "", "", "", "", "", "", ""],
    ];
    const plain = spread(
      ["Camp", "Load", 0.1, "", ""],
      ["Near", "Resistance", "", "normal", "batch"],
      ["Far", "Resistance", "", "normal", "batch"],
    );
    const rows = rowsOf(FEED, "loss", "", plain);
    assert.deepEqual(rowsOf(FEED, "loss", "", block), rows);
    assert.ok(rows.some(({ Input }) => Input === "Group batch"));
    // As a spreadsheet hands over cells that were left blank.
    const zeros = block.map((row) => row.map((cell) => (cell === "" ? 0 : cell)));
    assert.deepEqual(rowsOf(FEED, "loss", "", zeros), rows);
    const exact = block.map((row) =>
      row.map((cell, place) => (place === 4 && row[0] === "Near" ? 0 : cell)),
    );
    expect(refusal(FEED, "loss", "", exact)).toMatch(/in its row 2 .*or "exact"/);
  });

  it("puts the widest swing first", () => {
    const swings = varying(rowsOf(FEED, "input voltage", "Camp"))
      .slice(1)
      .map(({ Swing }) => Number(Swing));
    assert.deepEqual(
      swings,
      [...swings].sort((one, other) => other - one),
    );
    assert.ok(swings.length === 4 && swings[0]! > swings[3]!);
  });

  it("counts the result as entered in the swing: a margin may be less at both ends", () => {
    // By hand: 400 V between 370 and 430 V has 30/430, 380 V 10/370 and 420 V 10/430.
    const table: CellTable = [
      ["Item", "Fed from", "Kind", "Voltage", "Lowest V", "Highest V", "Load"],
      ["Bus", "", "supply", 400, 380, 420, ""],
      ["Lamp", "Bus", "current load", "", 370, 430, 1],
    ];
    const [entered, bus] = rowsOf(table, "lowest margin");
    assert.ok(Math.abs(Number(entered!["Low gives"]) - 30 / 430) <= 1e-12);
    assert.ok(Math.abs(Number(bus!.Swing) - (30 / 430 - 10 / 430)) <= 1e-12, String(bus!.Swing));
  });

  it("names a collapse at an end, first of all inputs, and gives no number there", () => {
    // 400² / (4 · 3.96 Ω) is 10.1 kW, 350² / (4 · 3.96 Ω) is 7.7 kW; the box's 0.01 Ω counts sixteenfold.
    const heavy = [
      ["Near", "Resistance", 1.9],
      ["Far", "Resistance", 1.9],
      ["Camp", "Load", 9800],
      ["Camp", "Lowest V", ""],
      ["Box", "Lowest V", ""],
      ["Bus", "Lowest V", 350],
    ] as const;
    const table = heavy.reduce<CellTable>(
      (changed, [item, header, cell]) => withCell(changed, item, header, cell),
      FEED,
    );
    const [, first] = rowsOf(table, "loss");
    expect(first).toMatchObject({
      Input: "Bus · Voltage",
      "Low gives": "–",
      Swing: "–",
      Note: "no operating point, or no loss, at the low end",
    });
    expect(typeof first!["High gives"]).toBe("number");
  });

  it("moves those of one group together, and takes a blank Tolerance from the table", () => {
    const grouped = spread(
      ["Near", "Resistance", "", "normal", "Heat"],
      ["far", "Resistance (Ω)", "", "", "Heat"],
    );
    const rows = rowsOf(FEED, "loss", "", grouped);
    const group = rows.find(({ Input }) => Input === "Group Heat")!;
    const both = withCell(withCell(FEED, "Near", "Resistance", 1.1), "Far", "Resistance", 1.1);
    const outcome = evaluate("CHAIN_TOTAL", [both, "loss"]);
    assert.ok(outcome.ok);
    expect(group["High gives"]).toBeCloseTo(Number(outcome.value), 9);
    expect(group).toMatchObject({
      Slope: "–",
      Note: "moved together: Near · Resistance, Far · Resistance",
    });
    expect(rows.some(({ Input }) => Input === "Near · Resistance")).toBe(false);
  });

  it("takes a row of spread in place of the table's Tolerance, also below a header in %", () => {
    const own = [
      ["Item", "Column", "Tolerance (%)"],
      ["Near", "Resistance", 20],
      ["Camp", "Load", 5],
    ];
    const rows = rowsOf(FEED, "loss", "", own);
    expect(rows.find(({ Input }) => Input === "Near · Resistance")).toMatchObject({
      Low: 0.8,
      High: 1.2,
    });
    expect(rows.find(({ Input }) => Input === "Camp · Load")).toMatchObject({
      Unit: "W",
      Low: 4750,
      High: 5250,
    });
    const fixed = rowsOf(FEED, "loss", "", spread(["Near", "Resistance", "exact", "", ""]));
    expect(varying(fixed).some(({ Input }) => Input === "Near · Resistance")).toBe(false);
  });

  it("knows the limit's own part in a margin and a loading", () => {
    const [nominal, ...rows] = rowsOf(
      FEED,
      "highest loading",
      "Near",
      spread(["Near", "Rated A", 0.1, "", ""]),
    );
    const rated = rows.find(({ Input }) => Input === "Near · Rated A")!;
    expect(Number(rated["Slope"])).toBeCloseTo(-Number(nominal!["Low gives"]) / 40, 12);
    expect(Number(rated["Low gives"])).toBeCloseTo(Number(nominal!["Low gives"]) / 0.9, 12);
  });

  it("says that nothing varies", () => {
    const stiff = FEED.map((row) =>
      row.map((cell, at) => (at >= 9 && row !== HEADERS ? "" : cell)),
    );
    const rows = rowsOf([HEADERS, ...stiff.slice(1)], "loss");
    expect(varying(rows)).toHaveLength(1);
    expect(rows[0]!["Note"]).toBe(
      "nothing varies: no row has a Tolerance, no supply a window, and no spread is given",
    );
  });

  it("names the row of spread that cannot be read", () => {
    const message = (...row: readonly Cell[]) =>
      refusal(FEED, "loss", "", spread(["", "", "", "", ""], row));
    const start = "spread must be a range that holds in its row 2 ";
    expect(message("Caml", "Load", 0.1, "", "")).toBe(
      `${start}an item of the feed table, "Camp" is the nearest, got "Caml"`,
    );
    expect(message("Near", "Voltage", 0.1, "", "")).toBe(
      `${start}a column in which "Near" has a figure: "Resistance" or "Rated A", got "Voltage"`,
    );
    expect(message("Near", "Rated A", "", "", "")).toBe(
      `${start}a Tolerance: the feed table says none of this figure, got nothing`,
    );
    expect(message("Camp", "Load", 1.5, "", "")).toBe(
      `${start}a Tolerance above 0 and below 1 (0.02 for 2 %), or "exact", got 1.5`,
    );
    expect(message("Camp", "Load", 0.1, "round", "")).toBe(
      `${start}a Distribution, "flat" or "triangular" or "normal", got "round"`,
    );
    const twice = ["Camp", "Load", 0.1, "", ""];
    expect(refusal(FEED, "loss", "", spread(twice, twice))).toBe(
      `${start}a figure that no other row names, got "Load"`,
    );
    expect(refusal(FEED, "loss", "", [["Item", "Column", "Tolerence"]])).toContain(
      "a range with each of the headers Item, Column, Tolerance, Distribution, Group once",
    );
    expect(refusal(FEED, "loss", "", [["Item", "Column"]])).toContain(
      'holds the header "Tolerance"',
    );
  });

  it("asks for the item that a voltage is of, and refuses one that has no such number", () => {
    expect(refusal(FEED, "input voltage")).toBe(
      "item must be given: input voltage is that of one item, got nothing",
    );
    expect(refusal(FEED, "output voltage", "Camp")).toContain(
      "an item that feeds others, not a load",
    );
    expect(refusal(FEED, "supply power", "Camp")).toContain(
      "blank: supply power is that of the whole feed",
    );
    expect(refusal(FEED, "loss", "Cable")).toContain("an item of the feed table");
    expect(refusal(FEED, "highest loading", "Far")).toContain("an item with Rated A");
  });

  it("gives the slope of every other figure that was entered and moves the result", () => {
    const total = (table: CellTable) => {
      const outcome = evaluate("CHAIN_TOTAL", [table, "loss"]);
      assert.ok(outcome.ok);
      return Number(outcome.value);
    };
    const others = rowsOf(FEED, "loss").filter(({ Note }) => Note === SLOPE_ONLY);
    // Windows and ratings move no loss.
    const typed = { "Camp · Load": 5000, "Box · Fixed loss": 20, "Box · Resistance": 0.01 };
    assert.deepEqual(new Set(others.map(({ Input }) => Input)), new Set(Object.keys(typed)));
    for (const { Input, Low, High, Swing, Slope } of others) {
      const [item, header] = String(Input).split(" · ");
      const figure = typed[Input as keyof typeof typed];
      const at = (part: number) =>
        total(withCell(FEED, item!, header!, (1 + part) * figure)) / (2e-4 * figure);
      expect(Number(Slope)).toBeCloseTo(at(1e-4) - at(-1e-4), 5);
      assert.deepEqual([Low, High, Swing], ["–", "–", "–"]);
    }
    const moved = others.map(({ Input, Slope }) =>
      Math.abs(Number(Slope) * typed[Input as keyof typeof typed]),
    );
    assert.deepEqual(
      moved,
      [...moved].sort((one, other) => other - one),
    );
  });
});

describe("CHAIN_TORNADO of more than voltages and currents", () => {
  const HEAT: CellTable = [
    [
      ...["Item", "Fed from", "Kind", "Voltage", "Resistance", "Load", "In parallel", "Tolerance"],
      ...["Mass (kg)", "Price", "Size", "Cores", "Insulation", "Outer diameter (mm)"],
      ...["Hottest (°C)", "Grouping", "Altitude (m)", "Sun (W/m²)"],
      ...["Lowest V", "Highest V"],
    ],
    ["Bus", "", "supply", 400, "", "", "", "", "", 900, "", "", "", "", "", "", "", "", "", ""],
    [
      ...["Cable", "Bus", "run", "", 0.4, "", 2, 0.1],
      ...[30, 250, "4 mm²", 2, "PVC", 11, 40, 0.8, 1500, 200, "", ""],
    ],
    [
      ...["Box", "Cable", "regulated", 48, "", "", "", "", 5, ""],
      ...["", "", "", "", "", "", "", "", 200, 450],
    ],
    [
      ...["Camp", "Box", "current load", "", "", 300, "", 0.05, 99, 99],
      ...["", "", "", "", "", "", "", "", "", ""],
    ],
  ];
  const headers = HEAT[0]!;
  const table = (item: string, header: string, cell: Cell): CellTable =>
    HEAT.map((row) =>
      row[0] === item ? row.map((own, at) => (headers[at] === header ? cell : own)) : row,
    );
  const nominalOf = (cells: CellTable, ...asked: readonly Argument[]) =>
    Number(rowsOf(cells, ...asked)[0]!["Low gives"]);

  it("adds up mass and price of the rows that have them, and names those that have none", () => {
    const [mass, ...masses] = rowsOf(HEAT, "mass");
    // Nobody asks a load's.
    expect(mass).toMatchObject({ Unit: "kg", "Low gives": 35 });
    assert.deepEqual(
      masses.map(({ Input, Slope, "Slope unit": unit }) => [Input, Slope, unit]),
      [
        ["Cable · Resistance", 0, "kg/Ω"],
        ["Camp · Load", 0, "kg/A"],
        ["Cable · Mass", 1, "kg/kg"],
        ["Box · Mass", 1, "kg/kg"],
      ],
    );
    const [price, , , , ...prices] = rowsOf(
      HEAT,
      "price",
      "",
      spread(["Bus", "Price", 0.2, "", ""]),
    );
    expect(price!["Low gives"]).toBe(1150);
    expect(price!["Note"]).toContain("no price given, so left out: Box");
    expect(price!["Note"]).toContain("no row of spread, so taken as exact: Cable");
    expect(prices[0]).toMatchObject({ Input: "Cable · Price", Slope: 1 });
    const bus = rowsOf(HEAT, "price", "", spread(["Bus", "Price", 0.2, "", ""]))[1];
    expect(bus).toMatchObject({ Input: "Bus · Price", "Low gives": 970, "High gives": 1330 });
    expect(nominalOf(HEAT, "price", "Cable")).toBe(250);
    expect(refusal(HEAT, "price", "Box")).toContain("an item with a price");
    const still = HEAT.map((row, at) =>
      at === 0 ? row : row.map((own, to) => (headers[to] === "Tolerance" ? "" : own)),
    );
    expect(rowsOf(still, "price")[0]!["Note"]).toMatch(
      /^nothing varies: .*; no price given, so left out: Box$/,
    );
    const bare = HEAT.map((row) => row.map((cell, at) => (headers[at] === "Price" ? "" : cell)));
    bare[0] = [...headers];
    expect(refusal(bare, "price")).toContain("there is no price of this feed as entered");
  });

  it("gives the temperature that CONDUCTOR_TEMPERATURE gives at the current of the case", () => {
    const current = nominalOf(HEAT, "current", "Cable") / 2;
    const alone = evaluate("CONDUCTOR_TEMPERATURE", [
      ...[current, "4 mm²", 40, 11, 2, "PVC", 0.8, 1500, 200],
    ]);
    assert.ok(alone.ok, JSON.stringify(alone));
    const rows = rowsOf(HEAT, "conductor temperature", "Cable");
    expect(rows[0]!["Low gives"]).toBeCloseTo(Number(alone.value), 9);
    const slopes = new Map(rows.map(({ Input, Slope }) => [Input, Number(Slope)]));
    for (const [item, header, typed, toSi] of [
      ["Cable", "Outer diameter (mm)", 11, 1e-3],
      ["Cable", "Hottest (°C)", 40, 1],
      ["Cable", "Grouping", 0.8, 1],
      ["Cable", "Altitude (m)", 1500, 1],
      ["Cable", "Sun (W/m²)", 200, 1],
      ["Cable", "Resistance", 0.4, 1],
      ["Bus", "Voltage", 400, 1],
      ["Box", "Voltage", 48, 1],
      ["Camp", "Load", 300, 1],
    ] as const) {
      const at = (part: number) =>
        nominalOf(table(item, header, (1 + part) * typed), "conductor temperature", "Cable");
      const wanted = (at(1e-3) - at(-1e-3)) / (2e-3 * typed * toSi);
      const name = `${item} · ${header.replace(/ \(.*/, "")}`;
      const found = slopes.get(name)!;
      assert.ok(Math.abs(found - wanted) <= 1e-5 * Math.abs(wanted), `${name} ${found} ${wanted}`);
    }
    const spreads = spread(["Cable", "Grouping", 0.1, "", ""], ["Cable", "Altitude", 0.3, "", ""]);
    const grouped = rowsOf(HEAT, "conductor temperature", "Cable", spreads);
    const line = grouped.find(({ Input }) => Input === "Cable · Grouping")!;
    for (const [end, part] of [
      ["Low gives", 0.9],
      ["High gives", 1.1],
    ] as const)
      expect(line[end]).toBeCloseTo(
        nominalOf(table("Cable", "Grouping", part * 0.8), "conductor temperature", "Cable"),
        9,
      );
  });

  it("refuses an end that its heat balance may not have, and names what a balance lacks", () => {
    const beyond = spread(["Cable", "Grouping", 0.3, "", ""]);
    expect(refusal(HEAT, "conductor temperature", "Cable", beyond)).toMatch(
      /grouping must be .*at every end of what "Cable" varies by, got 1\.04/,
    );
    // A part of a temperature in °C means nothing.
    const part = spread(["Cable", "Hottest", 0.1, "", ""]);
    expect(refusal(HEAT, "loss", "", part)).toContain('a column in which "Cable" has a figure');
    const lacking = table("Cable", "Outer diameter (mm)", "");
    expect(refusal(lacking, "conductor temperature", "Cable")).toContain(
      "a cable with Outer diameter (mm)",
    );
    expect(refusal(HEAT, "conductor temperature", "Box")).toContain("a cable");
    expect(refusal(HEAT, "conductor temperature")).toContain("that of one item");
    // 1 000 times the load: no balance, and said so.
    expect(refusal(table("Camp", "Load", 1500), "conductor temperature", "Cable")).toMatch(
      /Cable: thermal runaway/,
    );
  });

  it("spreads like any other result", () => {
    const spreads = spread(["Cable", "Mass", 0.1, "", ""], ["Box", "Mass", 0.1, "", ""]);
    const outcome = evaluate("CHAIN_UNCERTAINTY", [HEAT, "mass", "", spreads]);
    assert.ok(outcome.ok, JSON.stringify(outcome));
    const figures = new Map((outcome.value as CellTable).map((row) => [row[0], Number(row[1])]));
    // Flat: T/√3 of each, squared and added.
    expect(figures.get("Standard uncertainty")).toBeCloseTo(Math.hypot(3, 0.5) / Math.sqrt(3), 2);
    expect(figures.get("Highest extreme")).toBeCloseTo(38.5, 9);
    const shares = evaluate("CHAIN_SHARES", [HEAT, "mass", "", spreads]);
    assert.ok(shares.ok);
    const [, first] = shares.value as CellTable;
    assert.equal(first![0], "Cable · Mass");
    expect(Number(first![1])).toBeCloseTo(9 / 9.25, 2);
  });
});
