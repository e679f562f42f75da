/** What a row implies, against the scalar functions that are held against printed tables themselves. */
import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../functions/runner.js";
import type { Argument, Cell, CellTable } from "../../functions/cells.js";
import { block } from "../feeds/typed-feed.js";
import { feedTableOf, number, spillCell, tableCell, tableFrom } from "../helpers/schedules.js";

const SUPPLY = block(["Supply", "Voltage (V)"], ["Bus", 400]);
const PLACES = block(
  ["Location", "Coldest (°C)", "Hottest (°C)", "Altitude (m)", "Place", "Access", "Sun (W/m²)"],
  ["Hut", 5, 35, 500, "dry", "locked"],
  ["Mast", -20, 45, 1500, "wet", "open", 900],
  ["Cellar", 8, 20, null, "dry"],
);

function scalar(id: string, ...args: readonly Argument[]): number {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
  return number(outcome.value as Cell);
}

function cable(figures: Readonly<Record<string, Cell>>): CellTable {
  return block(
    ["Cable", "Fed from", ...Object.keys(figures)],
    ["Run", "Bus", ...Object.values(figures)],
  );
}

function assertSame(found: Cell, expected: number): void {
  const value = number(found);
  assert.ok(Math.abs(value / expected - 1) < 1e-12, `${value}, by the scalar function ${expected}`);
}

function without(
  figures: Readonly<Record<string, Cell>>,
  header: string,
): Readonly<Record<string, Cell>> {
  return Object.fromEntries(Object.entries(figures).filter(([own]) => own !== header));
}

const RUN = {
  "Length (m)": 120,
  Size: "4 mm²",
  Build: "class 5",
  "Conductor at most (°C)": 70,
  Location: "Hut; Mast",
};

describe("a cable", () => {
  it("has the resistance of CONDUCTOR_RESISTANCE, hot at its limit and cold in the coldest of its places", () => {
    const table = feedTableOf([SUPPLY, cable(RUN), PLACES]);
    const at = (temperature: number) =>
      scalar("CONDUCTOR_RESISTANCE", 120, "4 mm²", temperature, null, "class 5");
    assertSame(tableCell(table, "Run", "resistance"), at(70));
    assertSame(tableCell(table, "Run", "leastResistance"), at(-20));
  });

  it("of several cores and cables is one loop each, side by side", () => {
    const of = (cables: number, cores: number) => {
      const table = feedTableOf([
        SUPPLY,
        cable({ ...RUN, Cables: cables, Cores: cores }),
        block(["Load", "Fed from", "Kind", "Nominal"], ["Hut", "Run", "current", 10]),
      ]);
      const solved = tableFrom("CHAIN_SOLVE", [table]);
      return 400 - number(spillCell(solved, "Hut", "Input V"));
    };
    const loop = (parallel: number) =>
      10 * scalar("CONDUCTOR_RESISTANCE", 120, "4 mm²", 70, null, "class 5", parallel);
    expect(of(1, 2)).toBeCloseTo(loop(1), 9);
    expect(of(2, 4)).toBeCloseTo(loop(4), 9);
    // Two cables of one core, one out and one back; six of three cores.
    expect(of(2, 1)).toBeCloseTo(loop(1), 9);
    expect(of(6, 3)).toBeCloseTo(loop(9), 9);
  });

  it("is refused at a conductor that is at most colder than the coldest air where it lies", () => {
    const at = (conductorC: number) =>
      feedTableOf([
        SUPPLY,
        cable({
          Location: "Oven",
          "Length (m)": 50,
          Size: "10 mm²",
          "Conductor at most (°C)": conductorC,
        }),
        block(["Location", "Coldest (°C)"], ["Oven", 60]),
      ]);
    expect(tableCell(at(59), "Run", "note")).toContain(
      "Conductor at most of Cable row 1 must be at least 60 °C, the coldest air where it lies, got 59",
    );
    expect(tableCell(at(60), "Run", "resistance")).toBe(
      tableCell(at(60), "Run", "leastResistance"),
    );
  });

  it("of an odd count of cores all in all has no way back and is refused", () => {
    const table = feedTableOf([SUPPLY, cable({ ...RUN, Cores: 1 })]);
    expect(tableCell(table, "Run", "note")).toContain("Cores of Cable row 1");
  });

  it("by ohms per kilometre from its maker wins over its size, a measured loop over both", () => {
    const perKm = feedTableOf([SUPPLY, cable({ ...RUN, "Core Ω/km at 20 °C": 5 }), PLACES]);
    assertSame(tableCell(perKm, "Run", "resistance"), 0.005 * 240 * (1 + 0.00393 * 50));
    const loop = feedTableOf([
      SUPPLY,
      cable({
        ...RUN,
        "Core Ω/km at 20 °C": 5,
        "Resistance (Ω)": 0.5,
        Cables: 2,
      }),
      PLACES,
    ]);
    // Of both cables together, so that one of them has twice as much.
    expect(tableCell(loop, "Run", "resistance")).toBe(1);
    expect(tableCell(loop, "Run", "leastResistance")).toBe(1);
    expect(tableCell(loop, "Run", "note")).toContain("not by Size");
  });

  it("is at the limit of its insulation where no temperature is typed, and refused without either", () => {
    const cold = without(RUN, "Conductor at most (°C)");
    const table = feedTableOf([SUPPLY, cable({ ...cold, Insulation: "XLPE" })]);
    expect(tableCell(table, "Run", "conductorC")).toBe(90);
    expect(tableCell(table, "Run", "note")).toContain("at 90 °C, the usual limit of XLPE");
    const none = feedTableOf([SUPPLY, cable(cold)]);
    expect(tableCell(none, "Run", "note")).toContain("enter Conductor at most of Cable row 1");
    const tooCold = feedTableOf([SUPPLY, cable({ ...RUN, "Conductor at most (°C)": 40 }), PLACES]);
    expect(tableCell(tooCold, "Run", "note")).toContain("at least 45 °C");
  });

  it("has the rating of CONDUCTOR_AMPACITY in the hottest, thinnest air and the most sun of its places", () => {
    const table = feedTableOf([
      SUPPLY,
      cable({
        ...RUN,
        "Outer diameter (mm)": 12,
        Insulation: "PVC",
        Grouping: 0.8,
        Cores: 4,
      }),
      PLACES,
    ]);
    assertSame(
      tableCell(table, "Run", "ratedCurrent"),
      2 *
        scalar(
          "CONDUCTOR_AMPACITY",
          "4 mm²",
          70,
          45,
          12,
          4,
          "PVC",
          0.8,
          1500,
          900,
          null,
          "class 5",
        ),
    );
    expect(tableCell(table, "Run", "note")).toContain("Rated A from its heat balance");
    expect(tableCell(table, "Run", "ratedBy")).toBe("heat balance");
  });

  it("keeps a rating that was typed, and has none without its diameter, its air or elsewhere than in air", () => {
    const full = { ...RUN, "Outer diameter (mm)": 12, Insulation: "PVC" };
    const withoutDiameter = without(full, "Outer diameter (mm)");
    const ratingOf = (figures: Readonly<Record<string, Cell>>, places = PLACES) =>
      tableCell(feedTableOf([SUPPLY, cable(figures), places]), "Run", "ratedCurrent");
    const typed = feedTableOf([SUPPLY, cable({ ...full, "Rated A": 30 }), PLACES]);
    expect(tableCell(typed, "Run", "ratedCurrent")).toBe(30);
    expect(tableCell(typed, "Run", "ratedBy")).toBe("");
    expect(ratingOf(withoutDiameter)).toBe("");
    expect(ratingOf({ ...full, Surroundings: "duct" })).toBe("");
    expect(ratingOf(full, block(["Location"]))).toBe("");
    assert.ok(typeof ratingOf(full) === "number");
  });

  it("takes a bare number of a standard size as that size, which has more resistance than so much metal", () => {
    const sized = feedTableOf([SUPPLY, cable({ ...RUN, Size: 4 })]);
    expect(tableCell(sized, "Run", "size")).toBe("4 mm²");
    const says = 'Size 4 is read as the standard size "4 mm²"';
    assert.ok(String(tableCell(sized, "Run", "note")).includes(says));
    const named = feedTableOf([SUPPLY, cable({ ...RUN, Size: "4 mm²" })]);
    assert.ok(!String(tableCell(named, "Run", "note")).includes("is read as"));
    assertSame(
      tableCell(sized, "Run", "resistance"),
      scalar("CONDUCTOR_RESISTANCE", 120, "4 mm²", 70, null, "class 5"),
    );
    const metal = feedTableOf([SUPPLY, cable({ ...RUN, Size: 4, Build: "geometric" })]);
    assert.ok(!String(tableCell(metal, "Run", "note")).includes("is read as"));
    assertSame(
      tableCell(metal, "Run", "resistance"),
      scalar("CONDUCTOR_RESISTANCE", 120, 4, 70, null, "geometric"),
    );
  });

  it("has inductance, mass and price of its length", () => {
    const table = feedTableOf([
      SUPPLY,
      cable({ ...RUN, Cables: 2, "Core spacing (mm)": 4, "Price per m": 3 }),
    ]);
    const diameter = 2 * Math.sqrt(4 / Math.PI);
    assertSame(
      tableCell(table, "Run", "inductance"),
      scalar("CONDUCTOR_INDUCTANCE", 120, diameter, 4) * scaleOf("CONDUCTOR_INDUCTANCE"),
    );
    assertSame(tableCell(table, "Run", "mass"), scalar("CONDUCTOR_MASS", 120, "4 mm²", null, 2));
    expect(tableCell(table, "Run", "price")).toBe(720);
    const typed = feedTableOf([
      SUPPLY,
      cable({
        ...RUN,
        Cables: 2,
        "Inductance (µH/m)": 0.6,
        "Mass (kg/m)": 0.2,
      }),
    ]);
    expect(number(tableCell(typed, "Run", "inductance"))).toBeCloseTo(72, 9);
    expect(tableCell(typed, "Run", "mass")).toBe(48);
  });
});

/** µH of the table for one of the function's unit. */
function scaleOf(id: string): number {
  const outcome = evaluate(id, [100, 2, 4]);
  assert.ok(outcome.ok);
  const { inductance } = outcome.record as { readonly inductance: number };
  return (1e6 * inductance) / number(outcome.value as Cell);
}

const TYPE = ["Stage type", "Kind", "Steps down by", "Voltage (V)", "Lowest V", "Highest V"];
const POINTS = [1, 2, 3, 4].flatMap((at) => [`Load ${at} W`, `Efficiency ${at}`]);
const MEASURED = [60, 0.9, 120, 0.93, 240, 0.94, 360, 0.93];

function stage(
  type: Readonly<Record<string, Cell>>,
  own: Readonly<Record<string, Cell>> = {},
): CellTable {
  return feedTableOf([
    SUPPLY,
    block(
      ["Stage", "Fed from", "Type", ...Object.keys(own)],
      ["Down", "Bus", "one", ...Object.values(own)],
    ),
    block(["Stage type", ...Object.keys(type)], ["One", ...Object.values(type)]),
  ]);
}

const REGULATED = {
  Kind: "regulated",
  "Voltage (V)": 24,
  "Lowest V": 300,
  "Highest V": 450,
};
const WITH_POINTS = {
  ...REGULATED,
  ...Object.fromEntries(POINTS.map((header, at) => [header, MEASURED[at]!])),
};

describe("a stage", () => {
  it("has the losses that STAGE_FIT makes of its type's points, with the misfit told", () => {
    const table = stage(WITH_POINTS);
    const fit = tableFrom("STAGE_FIT", [24, [[60, 120, 240, 360]], [[0.9, 0.93, 0.94, 0.93]]]);
    const [fixed, linear, quadratic, misfit] = fit[0]!.map(number);
    assertSame(tableCell(table, "Down", "fixedLoss"), fixed!);
    expect(tableCell(table, "Down", "linearLoss")).toBe(linear);
    assertSame(tableCell(table, "Down", "quadraticLoss"), quadratic!);
    expect(tableCell(table, "Down", "note")).toContain(
      `fitted to 4 points, at most ${Number((100 * misfit!).toPrecision(2))} % of efficiency off`,
    );
  });

  it("lets losses win over points, and points over one efficiency, each with a note", () => {
    const losses = stage({
      ...WITH_POINTS,
      "Fixed loss (W)": 5,
      "Quadratic loss (W/A²)": 0.08,
    });
    expect(tableCell(losses, "Down", "fixedLoss")).toBe(5);
    expect(tableCell(losses, "Down", "linearLoss")).toBe("");
    // 360 W: 15 A, 5 + 18 = 23 W, 360/383 = 0.93995; typed 0.93. 60 W: 2.5 A, 5.5 W, 0.91603 − 0.9.
    expect(tableCell(losses, "Down", "note")).toContain("at most 1.6 % of efficiency off");
    const points = stage({ ...WITH_POINTS, Efficiency: 0.9 });
    expect(tableCell(points, "Down", "efficiency")).toBe("");
    expect(tableCell(points, "Down", "note")).toContain("Efficiency of its type passed over");
    expect(tableCell(stage(REGULATED), "Down", "note")).toContain(
      "enter Efficiency of Stage type row 1",
    );
  });

  it("of a type that steps down by 16 has the ratio 1/16, and no voltage of its own", () => {
    const type = {
      Kind: "ratio",
      "Steps down by": 16,
      "Resistance (mΩ)": 20,
      "Fixed loss (W)": 8,
    };
    expect(tableCell(stage(type), "Down", "ratio")).toBe(1 / 16);
    expect(tableCell(stage(type, { "Voltage (V)": 24 }), "Down", "note")).toContain(
      "Voltage of Stage row 1 must be left empty",
    );
  });

  it("keeps its own voltage and isolation over its type's and says so", () => {
    const table = stage(
      { ...REGULATED, Efficiency: 0.9, Isolation: "basic" },
      { "Voltage (V)": 23, Isolation: "reinforced" },
    );
    expect(tableCell(table, "Down", "voltage")).toBe(23);
    expect(tableCell(table, "Down", "isolation")).toBe("reinforced");
    expect(tableCell(table, "Down", "note")).toContain("not 24 V of its type");
    expect(tableCell(table, "Down", "note")).toContain("not basic of its type");
  });

  it("without a type that is listed is refused, with those that are", () => {
    const table = feedTableOf([
      SUPPLY,
      block(["Stage", "Fed from", "Type"], ["Down", "Bus", "other"]),
      block(TYPE, ["24 V", "regulated", null, 24, 300, 450]),
    ]);
    expect(tableCell(table, "Down", "note")).toContain(
      'Type of Stage row 1 must be a name of Stage type, "24 V", got "other"',
    );
  });

  it("has the mass and price of all its units, and volume of one", () => {
    const table = stage(
      {
        ...REGULATED,
        Efficiency: 0.9,
        "Mass (kg)": 0.4,
        Price: 90,
        "Volume (cm³)": 300,
      },
      { "In parallel": 3, "Units needed": 2 },
    );
    assertSame(tableCell(table, "Down", "mass"), 1.2);
    expect(tableCell(table, "Down", "price")).toBe(270);
    expect(number(tableCell(table, "Down", "volume"))).toBeCloseTo(300, 9);
    const many = stage({ ...REGULATED, Efficiency: 0.9 }, { "Units needed": 2 });
    expect(tableCell(many, "Down", "note")).toContain("Units needed of Stage row 1");
  });
});

describe("a load", () => {
  const loads = (margin: Cell, row: readonly Cell[], own: Cell = null) =>
    feedTableOf([
      SUPPLY,
      block(
        ["Load", "Fed from", "Kind", "Rated V", "Quantity", "Nominal", "Margin"],
        ["Hut", "Bus", ...row, own],
      ),
      block(["Asked for", "Value"], ["Load margin", margin]),
    ]);

  it("is so many with their margin: watts and amperes more, ohms less", () => {
    const of = (row: readonly Cell[]) => number(tableCell(loads(0.25, row), "Hut", "load"));
    expect(of(["power", null, 3, 100])).toBe(375);
    expect(of(["current", null, 3, 2])).toBe(7.5);
    expect(of(["resistance", null, 3, 100])).toBeCloseTo(100 / 3.75, 12);
    // 200 W at 48 V are 11.52 Ω; a quarter more watts, three of them.
    expect(of(["heater", 48, 3, 200])).toBeCloseTo(11.52 / 3.75, 12);
  });

  it("takes its own margin over the one asked for, and says where there is none", () => {
    expect(tableCell(loads(0.25, ["power", null, 1, 100], 0.5), "Hut", "load")).toBe(150);
    expect(tableCell(loads(null, ["power", null, 1, 100]), "Hut", "note")).toBe(
      "no margin: enter Load margin in Asked for",
    );
    expect(tableCell(loads("not asked", ["power", null, 1, 100]), "Hut", "note")).toBe("");
    expect(tableCell(loads("not asked", ["power", null, 1, 100]), "Hut", "load")).toBe(100);
  });

  it("without its kind, its figure or a heater's voltage is refused", () => {
    const note = (row: readonly Cell[]) => tableCell(loads(0, row), "Hut", "note");
    expect(note([null, null, 1, 100])).toContain("Kind of Load row 1");
    expect(note(["power", null, 1, null])).toContain("enter Nominal of Load row 1");
    expect(note(["heater", null, 1, 100])).toContain("enter Rated V of Load row 1");
  });
});

describe("places", () => {
  const at = (location: Cell, places = PLACES) =>
    feedTableOf([SUPPLY, cable({ ...RUN, Location: location }), places]);

  it("give the worse of each figure, and leave open what one of them lacks", () => {
    const table = at("Hut; Mast");
    expect(tableCell(table, "Run", "place")).toBe("wet");
    expect(tableCell(table, "Run", "access")).toBe("open");
    expect(tableCell(table, "Run", "altitude")).toBe(1500);
    expect(tableCell(table, "Run", "sun")).toBe(900);
    const cellar = at("Hut; Cellar");
    expect(tableCell(cellar, "Run", "altitude")).toBe("");
    expect(tableCell(cellar, "Run", "access")).toBe("");
    expect(tableCell(cellar, "Run", "place")).toBe("dry");
    expect(tableCell(cellar, "Run", "coldestC")).toBe(5);
  });

  it("that are not listed are refused with those that are; without a list there is one", () => {
    expect(tableCell(at("Hutt"), "Run", "note")).toContain(
      'a name of Location, "Hut" or "Mast" or "Cellar", got "Hutt"',
    );
    const none = feedTableOf([SUPPLY, cable({ ...RUN, Location: null })]);
    expect(tableCell(none, "Run", "locations")).toBe("Everywhere");
    expect(tableCell(none, "Run", "coldestC")).toBe("");
    const everywhere = at(
      null,
      block(["Location", "Coldest (°C)", "Hottest (°C)"], ["Everywhere", -5, 30], ["Hut", 0, 40]),
    );
    expect(tableCell(everywhere, "Run", "hottestC")).toBe(30);
  });
});

describe("links", () => {
  const load = (rows: readonly (readonly Cell[])[]) =>
    feedTableOf([
      SUPPLY,
      block(
        ["In line", "Fed from", "Kind", "Resistance (mΩ)"],
        ["A", "B", "fuse", 1],
        ["B", "A", "fuse", 1],
      ),
      block(["Load", "Fed from", "Kind", "Nominal"], ...rows),
    ]);

  it("that lead nowhere stand last, say why, and leave the rest solved", () => {
    const table = load([
      ["Spare", null, "power", 10],
      ["Lost", "Buss", "power", 10],
      ["Hut", "Bus", "power", 10],
    ]);
    expect(table.map(([name]) => name)).toEqual(["Item", "Bus", "Hut", "A", "B", "Spare", "Lost"]);
    expect(tableCell(table, "Spare", "note")).toContain(
      "enter Fed from of Load row 1, the name of the item that feeds this one",
    );
    expect(tableCell(table, "Lost", "note")).toContain('got "Buss"');
    expect(tableCell(table, "A", "note")).toMatch(/closes a loop: "A", "B"/);
    const solved = tableFrom("CHAIN_SOLVE", [table]);
    expect(number(spillCell(solved, "Hut", "Input V"))).toBe(400);
    expect(spillCell(solved, "Spare", "Note")).toContain("Fed from of Load row 1");
  });

  it("of two rows with one name are refused for both", () => {
    const table = load([
      ["Hut", "Bus", "power", 10],
      ["hut", "Bus", "power", 10],
    ]);
    const notes = table.slice(1).map((row) => row.at(-1));
    expect(
      notes.filter((note) => String(note).includes("a name that no other row has")),
    ).toHaveLength(2);
  });
});
