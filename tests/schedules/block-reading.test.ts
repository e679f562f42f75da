/** Cells of blocks into figures and words: every unit converts, nothing that is typed is passed over. */
import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import { BLANKS_AS_ZERO } from "../../functions/arguments.js";
import type { Cell, CellTable } from "../../functions/cells.js";
import { blankReading, readBlocks } from "../../functions/reading/blocks.js";
import { HEADER_UNITS, type UnitQuantity } from "../../src/quantities/header-units.js";
import {
  TABLE_BLOCKS,
  type BlockColumn,
  type TableBlock,
  BLOCKS,
  headerText,
  ownUnitInSi,
  TABLE_COLUMNS,
  tablePlace,
} from "../../src/schedules/columns.js";
import { figureOf } from "../../src/schedules/schedule-row.js";
import { block } from "../feeds/typed-feed.js";
import {
  feedTableOf,
  number,
  refusalOf,
  spillCell,
  tableCell,
  tableFrom,
} from "../helpers/schedules.js";

const SUPPLY = block(["Supply", "Voltage (V)"], ["Bus", 48]);
const LOAD = block(["Load", "Fed from", "Kind", "Nominal"], ["Hut", "Run", "power", 10]);

function cable(headers: readonly string[], ...cells: readonly Cell[]): CellTable {
  return block(["Cable", "Fed from", ...headers], ["Run", "Bus", ...cells]);
}

function columnsWithUnits(): {
  block: TableBlock;
  column: BlockColumn;
  unit: string;
}[] {
  return TABLE_BLOCKS.flatMap((name) =>
    BLOCKS[name].flatMap((column) =>
      column.quantity in HEADER_UNITS && column.content.holds === "figure"
        ? Object.keys(HEADER_UNITS[column.quantity as UnitQuantity]).map((unit) => ({
            block: name,
            column,
            unit,
          }))
        : [],
    ),
  );
}

describe("headers of blocks", () => {
  it("convert every figure from every unit of its quantity", () => {
    const all = columnsWithUnits();
    assert.ok(all.length > 150, String(all.length));
    for (const { block: name, column, unit } of all) {
      const units: Readonly<Record<string, number>> = HEADER_UNITS[column.quantity as UnitQuantity];
      const toSi = units[unit]!;
      const isTolerance = column.content.holds === "figure" && column.content.bound === "tolerance";
      const typed = unit === "%" ? 7 : isTolerance ? 0.5 : 1;
      const kind = name === "Load" ? ["Kind"] : [];
      const read = readBlocks([
        block(
          [name, `${column.header} (${unit})`, ...kind],
          ["x", typed, ...kind.map(() => "power")],
        ),
      ]);
      const row = read.rows[name][0]!;
      const what = `${column.header} (${unit}) of ${name}`;
      assert.equal(row.refusal, undefined, what);
      const found = number(figureOf(row, column.field));
      assert.ok(Math.abs(found / (typed * toSi) - 1) < 1e-15, what);
    }
  });

  it("are read in the unit that they show when they leave it out, but never where another is likely", () => {
    for (const name of TABLE_BLOCKS)
      for (const column of BLOCKS[name]) {
        if (column.content.holds !== "figure") continue;
        const table = block([name, column.header], ["x", 1]);
        if (column.unit !== "" && ownUnitInSi(column) !== 1)
          expect(refusalOf([table])).toContain(`(${column.unit})`);
        else expect(() => readBlocks([table])).not.toThrow();
      }
  });

  it("that nobody knows are refused with the nearest, for every known one with a letter gone", () => {
    for (const name of TABLE_BLOCKS)
      for (const { header } of BLOCKS[name]) {
        const known = BLOCKS[name].map((column) => column.header.toLowerCase());
        const wrong = `${header.slice(0, 1)}${header.slice(2)}`;
        if (header.length < 5 || known.includes(wrong.toLowerCase())) continue;
        const message = refusalOf([block([name, wrong], ["x", 1])]);
        expect(message).toContain(`got "${wrong}"`);
        expect(message).toContain(`the nearest is "${header}`);
      }
  });

  it("with a unit that nobody knows, or of another quantity, are refused with those that are read", () => {
    for (const unit of ["mile", "MΩ", "V"])
      expect(refusalOf([SUPPLY, cable([`Length (${unit})`], 10)])).toContain(
        '"Length" names its unit as (m) or (km) or (ft) or (mm)',
      );
  });

  it("that begin with # are the user's own, and figures without a header are refused", () => {
    const own = cable(["Resistance (Ω)", "# rev", "#"], 1, "B", 7);
    expect(tableCell(feedTableOf([SUPPLY, own]), "Run", "resistance")).toBe(1);
    expect(refusalOf([SUPPLY, cable(["Resistance (Ω)", ""], 1, 3)])).toContain(
      "no header in column 4 of Cable",
    );
  });

  it("say that the load of a Load is called Nominal", () => {
    expect(refusalOf([block(["Load", "Load"], ["Hut", 5])])).toContain('called "Nominal"');
  });

  it("name the block, each column once", () => {
    expect(refusalOf([block(["Cabel"], ["x"])])).toContain('"Cable"');
    expect(refusalOf([block(["Cable", "Size", "size"], ["x", 4, 4])])).toContain(
      "each header of Cable once",
    );
  });
});

describe("cells of blocks", () => {
  it("convert in the table: 20 mΩ in line, 1.5 kW, 100 ft", () => {
    const table = feedTableOf([
      SUPPLY,
      cable(["Length (ft)", "Size", "Conductor at most"], 100, "4 mm²", 20),
      block(["In line", "Fed from", "Kind", "Resistance (mΩ)"], ["Fuse", "Run", "fuse", 20]),
      block(["Load", "Fed from", "Kind", "Nominal (kW)"], ["Hut", "Fuse", "power", 1.5]),
    ]);
    expect(tableCell(table, "Fuse", "resistance")).toBe(0.02);
    expect(tableCell(table, "Hut", "load")).toBe(1500);
    expect(tableCell(table, "Run", "length")).toBeCloseTo(30.48, 12);
  });

  it("are refused in their row, which keeps its place, and the feed of another supply is solved", () => {
    const table = feedTableOf([
      block(["Supply", "Voltage (V)"], ["Bus", 48], ["Other bus", 48]),
      block(
        ["Cable", "Fed from", "Resistance (Ω)", "Cables"],
        ["Run", "Bus", 1, 1],
        ["Spur", "Other bus", 1, 1.5],
      ),
      LOAD,
    ]);
    const reason = "Cables of Cable row 2 must be a whole number, 1 or more, got 1.5";
    expect(tableCell(table, "Spur", "note")).toBe(reason);
    expect(tableCell(table, "Spur", "resistance")).toMatchObject({
      error: "#VALUE!",
    });
    const solved = tableFrom("CHAIN_SOLVE", [table]);
    assert.ok(typeof spillCell(solved, "Hut", "Input V") === "number");
    // A feed with a row that cannot be is not solved as if the row drew nothing.
    expect(spillCell(solved, "Other bus", "Note")).toBe(`"Spur": ${reason}`);
  });

  it("of a row that is refused are told by CHAIN_SOLVE in the row's own words", () => {
    const table = feedTableOf([
      SUPPLY,
      cable(["Size", "Length", "Conductor at most"], "5 mm²", 10, 40),
      LOAD,
    ]);
    const solved = tableFrom("CHAIN_SOLVE", [table]);
    expect(spillCell(solved, "Bus", "Note")).toContain("Size of Cable row 1");
    expect(spillCell(solved, "Run", "Note")).toContain("5 mm² is not an IEC");
    expect(spillCell(solved, "Run", "Note")).not.toContain("Resistance must");
  });

  it("are told word for word, though a word in the reason is a column of the feed table", () => {
    const table = feedTableOf([
      SUPPLY,
      block(["Load", "Fed from", "Kind", "Nominal"], ["Heat", "Bus", "heater", 100]),
    ]);
    expect(spillCell(tableFrom("CHAIN_SOLVE", [table]), "Heat", "Note")).toBe(
      tableCell(table, "Heat", "note"),
    );
  });

  it("with figures and no name are refused where they stand", () => {
    const table = feedTableOf([
      SUPPLY,
      block(
        ["Load", "Fed from", "Kind", "Nominal"],
        ["Hut", "Bus", "power", 10],
        [null, "Bus", "power", 10],
      ),
    ]);
    expect(table.at(-1)?.[tablePlace("note")]).toContain(
      "Name of Load row 2 must be given: the row has figures and no name",
    );
    expect(refusalOf([block(["Location", "Hottest (°C)"], [null, 40])])).toContain(
      "row 1 of Location with figures and no name",
    );
  });

  it("with an error are refused by name, and blank blocks and rows are none", () => {
    const table = feedTableOf([
      SUPPLY,
      block(["Stage", "Type"]),
      [
        [null, null],
        [null, null],
      ],
      cable(["Resistance (Ω)"], { error: "#DIV/0!" }),
    ]);
    expect(table.length).toBe(3);
    expect(tableCell(table, "Run", "note")).toBe(
      'Resistance of Cable row 1 must be without an error, got "#DIV/0!"',
    );
  });

  it("below a unit of power are those of power and heater only", () => {
    const table = feedTableOf([
      SUPPLY,
      block(
        ["Load", "Fed from", "Kind", "Rated V", "Nominal (kW)"],
        ["Heat", "Bus", "heater", 48, 0.1],
        ["String", "Bus", "current", null, 2],
      ),
    ]);
    expect(number(tableCell(table, "Heat", "load"))).toBeCloseTo(23.04, 10);
    expect(tableCell(table, "String", "note")).toContain("Nominal of Load row 2");
  });

  it("in per cent are no parts of one, and a margin of more than all is one in per cent", () => {
    const loads = (header: string, value: number) =>
      feedTableOf([
        SUPPLY,
        block(["Load", "Fed from", "Kind", "Nominal", header], ["Hut", "Bus", "power", 10, value]),
      ]);
    expect(tableCell(loads("Margin (%)", 20), "Hut", "load")).toBe(12);
    expect(tableCell(loads("Margin (%)", 0.2), "Hut", "note")).toContain(
      "take % out of the header",
    );
    expect(tableCell(loads("Margin", 20), "Hut", "note")).toContain("a part of 1, 0.2 for 20 %");
  });
});

describe("blanks and zeros", () => {
  const LOCATION = ["Location", "Coldest (°C)", "Hottest (°C)"];
  const told = [
    SUPPLY,
    cable(["Length (m)", "Size", "Conductor at most (°C)", "Location"], 100, "4 mm²", 40, "Hut"),
    block(
      ["Load", "Fed from", "Kind", "Light", "Nominal", "Peak"],
      ["Hut", "Run", "power", 0, 10, 0],
    ),
    block(LOCATION, ["Hut", 0, 30]),
  ];
  /** As a host that makes 0 of blank cells hands it over. */
  const asZeros = (blocks: readonly CellTable[]) =>
    blocks.map((table) => table.map((row) => row.map((cell) => cell ?? 0)));

  it("are told apart by the closing row", () => {
    expect(blankReading(SUPPLY).told).toBe(true);
    expect(blankReading(asZeros([SUPPLY])[0]!).told).toBe(false);
  });

  it("where they are, 0 is a figure: 0 °C, no load, not 0 in parallel", () => {
    const table = feedTableOf(told);
    expect(tableCell(table, "Run", "coldestC")).toBe(0);
    // 4.61 Ω/km · 0.2 km · (1 − 0.00393 · 20)
    expect(number(tableCell(table, "Run", "leastResistance"))).toBeCloseTo(0.922 * (1 - 0.0786), 9);
    expect(tableCell(table, "Hut", "peakLoad")).toBe("none");
    const parallel = feedTableOf([SUPPLY, cable(["Resistance (Ω)", "Cables"], 1, 0)]);
    expect(tableCell(parallel, "Run", "note")).toContain("got 0");
  });

  it("where they are not, 0 is not given, and what is missing shows", () => {
    const table = feedTableOf(asZeros(told), BLANKS_AS_ZERO);
    expect(tableCell(table, "Run", "coldestC")).toBe("");
    expect(tableCell(table, "Run", "leastResistance")).toBe("");
    expect(tableCell(table, "Hut", "peakLoad")).toBe("");
    const nothing = feedTableOf(
      asZeros([SUPPLY, block(["Load", "Fed from", "Kind", "Nominal"], ["Hut", "Bus", "power"])]),
      BLANKS_AS_ZERO,
    );
    expect(tableCell(nothing, "Hut", "note")).toContain(
      "(none for a load that draws nothing then)",
    );
  });

  it("say no load by its word in every host", () => {
    const word = [
      SUPPLY,
      block(
        ["Load", "Fed from", "Kind", "Rated V", "Nominal", "Peak"],
        ["Hut", "Bus", "power", null, 10, "none"],
        ["Heat", "Bus", "heater", 48, "none", 10],
      ),
    ];
    for (const blocks of [word, asZeros(word)]) {
      const table = feedTableOf(blocks, BLANKS_AS_ZERO);
      expect(tableCell(table, "Hut", "peakLoad")).toBe("none");
      expect(tableCell(table, "Heat", "load")).toBe("none");
      const solved = tableFrom("CHAIN_SOLVE", [table, "peak"]);
      expect(spillCell(solved, "Hut", "Input A")).toBe(0);
    }
  });
});

describe("the columns of the feed table", () => {
  it("are those that are frozen, each once, the first 20 as the budgets have them", () => {
    const headers = TABLE_COLUMNS.map(headerText);
    expect(headers).toHaveLength(73);
    expect(new Set(headers).size).toBe(73);
    expect(headers.slice(0, 20)).toEqual([
      "Item",
      "Fed from",
      "Kind",
      "Voltage (V)",
      "Resistance (Ω)",
      "Ratio",
      "Fixed loss (W)",
      "Linear loss (W/A)",
      "Quadratic loss (W/A²)",
      "Efficiency",
      "Light load",
      "Load",
      "Peak load",
      "In parallel",
      "Lowest V",
      "Highest V",
      "Rated A",
      "Tolerance",
      "Isolation",
      "Trip V",
    ]);
  });

  it("are all left alone by a feed table's reading, though some are near others", () => {
    const table = feedTableOf([SUPPLY, cable(["Resistance (Ω)"], 1), LOAD]);
    assert.ok(typeof tableFrom("CHAIN_SOLVE", [table])[1]?.[1] === "number");
  });
});
