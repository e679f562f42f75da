import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { Cell, CellTable } from "../../functions/cells.js";
import { askedFor, block, type TypedFeed } from "../feeds/typed-feed.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { changed, found, judged, judgedFeed, number, tableOf } from "./judged.js";

// Every current here by hand: highest voltage over the resistances on the way. That a greatest fault asks for the least
// resistance is common practice, no source.

interface Own {
  readonly least?: Cell;
  readonly coldest?: Cell;
  readonly breaks?: number;
}

/** 440 V at most behind 0.5 Ω, a fuse of 20 mΩ, 50 m of 10 mm². */
function feed({ least = null, coldest = null, breaks = 1000 }: Own): TypedFeed {
  return {
    blocks: [
      block(
        [
          "Supply",
          "Lowest V",
          "Voltage (V)",
          "Highest V",
          "Resistance (Ω)",
          "Least resistance (Ω)",
        ],
        ["Bus", 380, 400, 440, 0.5, least],
      ),
      block(
        ["In line", "Fed from", "Kind", "Resistance (mΩ)", "Breaks A", "Clears near end s"],
        ["Fuse", "Bus", "fuse", 20, breaks, 0.01],
      ),
      block(
        ["Cable", "Fed from", "Location", "Length (m)", "Size", "Conductor at most (°C)"],
        ["Line", "Fuse", "Yard", 50, "10 mm²", 70],
      ),
      block(["Load", "Fed from", "Kind", "Nominal"], ["Lamp", "Line", "current", 5]),
      block(["Location", "Coldest (°C)"], ["Yard", coldest]),
    ],
    askedFor: askedFor({ Place: "dry", "Load margin": 0, "Conductor at the end of a fault": 160 }),
  };
}

const breaking = (own: Own) => found(judgedFeed(feed(own)), "Fuse", "Fuse breaks the fault");
const withstanding = (own: Own) => found(judgedFeed(feed(own)), "Line", "Cable withstands a fault");

describe("the greatest fault of a supply whose least resistance is not given", () => {
  it.each([null, -20])(
    "is not called broken, whatever the cables are at: coldest %s",
    (coldest) => {
      const row = breaking({ coldest });
      assert.deepEqual(
        [row["Verdict"], row["Found"], row["Cause"], row["Column"], row["Enter or try"]],
        ["not determined", "–", "Bus", "Least resistance (Ω)", "enter Least resistance of Bus"],
      );
    },
  );

  it("fails where it fails already with the greatest resistance, and says which it is", () => {
    const row = breaking({ breaks: 800, coldest: -20 });
    assert.deepEqual(
      [row["Verdict"], row["Column"], row["Enter or try"]],
      ["fails", "Least resistance (Ω)", "enter Least resistance of Bus"],
    );
    // 440 V ÷ 0.52 Ω.
    assertPrinted(number(row, "Limit"), "846.15");
    assert.equal(
      row["Worst in"],
      "fault right behind it, highest supply, Least resistance of Bus not given, no current limit; capacitors add to it",
    );
  });

  it("is that of the least resistance where it is given", () => {
    const row = breaking({ least: 0.25 });
    // 440 V ÷ 0.27 Ω.
    assertPrinted(number(row, "Limit"), "1629.6");
    assert.deepEqual([row["Verdict"], row["Found"]], ["fails", 1000]);
    assert.match(String(row["Worst in"]), /highest supply, cold, no current limit/);
    assert.equal(breaking({ least: 0.25, breaks: 1630 })["Verdict"], "holds");
    // One that is the same at its least is as little cold as hot.
    const same = breaking({ least: 0.5, coldest: -20 });
    assert.equal(same["Verdict"], "holds");
    assert.match(String(same["Worst in"]), /highest supply, no current limit/);
  });

  it("is not called withstood by a cable", () => {
    const row = withstanding({});
    assert.deepEqual(
      [row["Verdict"], row["Enter or try"]],
      ["not determined", "enter Least resistance of Bus"],
    );
    const known = withstanding({ least: 0.25 });
    assert.equal(known["Verdict"], "holds");
    assert.match(String(known["Worst in"]), /^1630 A, fault at its near end, highest supply, cold/);
  });
});

describe("a least resistance above the greatest", () => {
  it("is refused by its cell in the schedules, of a supply and of a stage's type", () => {
    const bus = tableOf(feed({ least: 0.6 }));
    const told = (table: CellTable, item: string) =>
      table.find(([name]) => name === item)?.[table[0]!.indexOf("Note")];
    assert.match(
      String(told(bus, "Bus")),
      /Least resistance of Supply row 1 must be at most its Resistance, which is the greatest, got 0.6/,
    );
    const stage = (least: Cell) =>
      tableOf({
        blocks: [
          block(["Supply", "Voltage (V)"], ["Bus", 400]),
          block(["Stage", "Fed from", "Type"], ["Down", "Bus", "16 to 1"]),
          block(
            ["Stage type", "Kind", "Steps down by", "Resistance (mΩ)", "Least resistance (Ω)"],
            ["16 to 1", "ratio", 16, 700, least],
          ),
        ],
        askedFor: askedFor({}),
      });
    assert.match(
      String(told(stage(0.71), "Down")),
      /Least resistance of Stage type row 1 must be at most its Resistance/,
    );
    // 700 mΩ is 0.7 Ω, whatever the last digit of the conversion.
    assert.doesNotMatch(String(told(stage(0.7), "Down")), /Least resistance/);
  });

  it("is refused where the greatest is not given, which would be counted as none", () => {
    const typed = (resistance: Cell) =>
      tableOf({
        blocks: [
          block(
            ["Supply", "Voltage (V)", "Resistance (Ω)", "Least resistance (Ω)"],
            ["Bus", 400, resistance, 0.5],
          ),
        ],
        askedFor: askedFor({}),
      });
    const note = ([headers, bus]: CellTable) => String(bus![headers!.indexOf("Note")]);
    assert.match(note(typed("")), /Least resistance of Supply row 1 must be at most its Resist/);
    assert.doesNotMatch(note(typed(0.5)), /Least resistance/);
  });

  it("is refused in a feed table, and nothing of its tree is judged", () => {
    const table = (least: Cell): CellTable => [
      [
        "Item",
        "Fed from",
        "Kind",
        "Voltage (V)",
        "Resistance (Ω)",
        "Least resistance (mΩ)",
        "Load",
      ],
      ["Bus", "", "supply", 400, 0.1, 100, ""],
      ["Line", "Bus", "run", "", 0.9, least, ""],
      ["Lamp", "Line", "current load", "", "", "", 5],
    ];
    const rows = judged(table(901), [["Framework"]]);
    const point = found(rows, "Bus", "Operating point");
    assert.deepEqual([point["Verdict"], point["Cause"]], ["not determined", "Line"]);
    assert.match(
      JSON.stringify(point),
      /Least resistance[^"]* must be at most its Resistance, which is the greatest, got 0.901/,
    );
    const own = rows.filter(({ Item }) => Item !== "Whole feed" && Item !== "Bus");
    assert.deepEqual(own, []);
    assert.ok(judged(table(900), [["Framework"]]).some(({ Item }) => Item === "Line"));
  });
});

describe("the greatest fault behind a cable", () => {
  const HEADERS =
    "Item|Fed from|Kind|Voltage (V)|Resistance (Ω)|Least resistance (Ω)|Load|In line kind|Breaks A|Lowest V|Highest V|Current limit A";
  const table: CellTable = [
    HEADERS.split("|"),
    ["Bus", "", "supply", 400, 0.1, 0.1, "", "", "", 380, 440, ""],
    ["Line", "Bus", "run", "", 0.9, "", "", "", "", "", "", ""],
    ["Fuse", "Line", "series", "", 0.02, "", "", "fuse", 500, "", "", ""],
    ["Lamp", "Fuse", "current load", "", "", "", 5, "", "", "", "", ""],
  ];
  const ASKED: CellTable = [["Framework"]];
  const row = (own: Readonly<Record<string, Cell>>) =>
    found(judged(changed(table, "Line", own), ASKED), "Fuse", "Fuse breaks the fault");

  it("asks for the least resistance of a cable that is given by its ohms alone", () => {
    const open = row({});
    assert.deepEqual(
      [open["Verdict"], open["Cause"], open["Enter or try"]],
      ["not determined", "Line", "enter Least resistance of Line"],
    );
    // 440 V ÷ (0.1 + 0.7 + 0.02) Ω and ÷ (0.1 + 0.9 + 0.02) Ω.
    const cold = row({ "Least resistance (Ω)": 0.7 });
    assertPrinted(number(cold, "Limit"), "536.59");
    assert.equal(cold["Verdict"], "fails");
    assert.equal(row({ "Least resistance (Ω)": 0.9 })["Verdict"], "holds");
    // A fuse that is new has the resistance that is typed.
    assertPrinted(number(row({ "Least resistance (Ω)": 0.9 }), "Limit"), "431.37");
  });

  it("asks for all that is missing at once", () => {
    const two = changed(table, "Bus", { "Least resistance (Ω)": "" });
    assert.equal(
      found(judged(two, ASKED), "Fuse", "Fuse breaks the fault")["Enter or try"],
      "enter Least resistance of Bus and Least resistance of Line",
    );
  });

  it("asks for the coldest air of a cable that is given by its size", () => {
    const { blocks, askedFor: asked } = feed({ least: 0.25 });
    const rows = judgedFeed({
      blocks: [
        ...blocks,
        block(["In line", "Fed from", "Kind", "Breaks A"], ["Far fuse", "Line", "fuse", 2000]),
      ],
      askedFor: asked,
    });
    assert.equal(
      found(rows, "Far fuse", "Fuse breaks the fault")["Enter or try"],
      "enter Coldest (°C) of Line",
    );
  });

  it("is what a stage gives where its limit holds it, whatever its resistance", () => {
    const stage = (limit: number): CellTable => [
      [...HEADERS.split("|"), "Ratio"],
      ["Bus", "", "supply", 400, "", "", "", "", "", 380, 440, "", ""],
      ["Down", "Bus", "ratio", "", 0.05, "", "", "", "", "", "", limit, 1 / 8],
      ["Fuse", "Down", "series", "", 0.02, "", "", "fuse", 1000, "", "", "", ""],
      ["Lamp", "Fuse", "current load", "", "", "", 5, "", "", "", "", "", ""],
    ];
    const at = (limit: number) =>
      found(judged(stage(limit), ASKED), "Fuse", "Fuse breaks the fault");
    // 55 V ÷ 0.07 Ω = 786 A.
    assert.deepEqual([at(90)["Verdict"], at(90)["Limit"]], ["holds", 90]);
    assert.match(String(at(90)["Worst in"]), /current limit of Down/);
    assert.deepEqual(
      [at(900)["Verdict"], at(900)["Enter or try"]],
      ["not determined", "enter Least resistance of Down"],
    );
  });
});

describe("what a least resistance makes worse", () => {
  const cable = (least: Cell): TypedFeed => ({
    blocks: [
      block(
        [
          "Supply",
          "Lowest V",
          "Voltage (V)",
          "Highest V",
          "Resistance (Ω)",
          "Least resistance (Ω)",
        ],
        ["Bus", 380, 400, 440, 0.5, least],
      ),
      block(
        [
          "Cable",
          "Fed from",
          "Location",
          "Length (m)",
          "Size",
          "Conductor at most (°C)",
          "Core spacing (mm)",
        ],
        ["Line", "Bus", "Yard", 50, "10 mm²", 70, 6],
      ),
      block(
        [
          "Stage",
          "Fed from",
          "Type",
          "In parallel",
          "Tolerance",
          "Set-point spread",
          "Resistance spread",
        ],
        ["Down", "Line", "8 to 1", 2, "exact", 0.002, 0.1],
      ),
      block(
        [
          "Stage type",
          "Kind",
          "Steps down by",
          "Lowest V",
          "Highest V",
          "Rated A",
          "Resistance (mΩ)",
          "Least resistance (mΩ)",
          "Input capacitance (µF)",
        ],
        ["8 to 1", "ratio", 8, 300, 480, 20, 30, least, 200],
      ),
      block(["Load", "Fed from", "Kind", "Nominal"], ["Lamp", "Down", "current", 10]),
      block(["Location", "Coldest (°C)"], ["Yard", -20]),
    ],
    askedFor: askedFor({ Place: "dry", "Load margin": 0, "Units lost": 0 }),
  });
  it.each([
    ["Stability margin", "Least resistance of Bus not given"],
    ["Share of the worst unit", "Least resistance of Down not given"],
  ] as const)("is said of %s where it is not given", (check, words) => {
    const text = (least: Cell) =>
      String(
        found(judged(tableOf(cable(least)), cable(least).askedFor), "Down", check)["Worst in"],
      );
    assert.ok(text(null).endsWith(`, ${words}`), text(null));
    assert.ok(!text(0.3).includes("not given"), text(0.3));
  });
});
