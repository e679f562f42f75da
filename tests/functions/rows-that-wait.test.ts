/** A feed that is typed bit by bit: what a row waits for is asked for by name, and nothing is refused for it. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { Cell, CellTable } from "../../functions/cells.js";
import { isCellError } from "../../functions/cells.js";
import { block } from "../feeds/typed-feed.js";
import { feedTableOf, spillCell, tableCell, tableFrom } from "../helpers/schedules.js";

const CABLE = ["Cable", "Fed from", "Length (m)", "Size", "Conductor at most (°C)"];
const STAGE = ["Stage", "Fed from", "Type"];
const TYPE = [
  "Stage type",
  "Kind",
  "Steps down by",
  "Voltage (V)",
  "Lowest V",
  "Highest V",
  "Efficiency",
];
const LOAD = ["Load", "Fed from", "Kind", "Nominal", "Rated V"];

interface Feed {
  readonly volts?: Cell;
  readonly cable?: readonly Cell[];
  readonly stage?: readonly Cell[];
  readonly type?: readonly Cell[];
  readonly load?: readonly Cell[];
}

const RUN = ["Run", "Bus", 100, "4 mm²", 40];
const RATIO = ["8 to 1", "ratio", 8, null, null, null, 0.95];

function feed({ volts = 400, cable = RUN, stage, type = RATIO, load }: Feed): CellTable {
  return feedTableOf([
    block(["Supply", "Lowest V", "Voltage (V)", "Highest V"], ["Bus", 360, volts, 440]),
    block(CABLE, cable),
    block(STAGE, stage ?? ["Down", "Run", "8 to 1"]),
    block(TYPE, type),
    block(LOAD, load ?? ["Hut", "Down", "power", 100]),
    block(["Asked for", "Value"], ["Load margin", 0]),
  ]);
}

/** What is left out; the item that waits; what it says; where the word stands; the column that the check names. */
const WAITING: readonly (readonly [string, Feed, string, string, string])[] = [
  ["a supply's voltage", { volts: null }, "Bus", "Voltage of Supply row 1", "Voltage (V)"],
  [
    "a cable's length",
    { cable: ["Run", "Bus", null, "4 mm²", 40] },
    "Run",
    "Length of Cable row 1",
    "Length (m)",
  ],
  [
    "a cable's size",
    { cable: ["Run", "Bus", 100, null, 40] },
    "Run",
    "Size of Cable row 1 (or Core Ω/km at 20 °C, or Resistance of the loop)",
    "Size",
  ],
  [
    "a stage's type",
    { stage: ["Down", "Run", null] },
    "Down",
    "Type of Stage row 1, a name of Stage type",
    "Type",
  ],
  [
    "the ratio of a type",
    { type: ["8 to 1", "ratio", null, null, null, null, 0.95] },
    "Down",
    "Steps down by of Stage type row 1 (16 for 16 to 1; 0.5 steps up)",
    "Steps down by",
  ],
  [
    "the kind of a load",
    { load: ["Hut", "Down", null, 100] },
    "Hut",
    "Kind of Load row 1, power, current, heater or resistance",
    "Kind",
  ],
  [
    "the figure of a load",
    { load: ["Hut", "Down", "power", null] },
    "Hut",
    "Nominal of Load row 1 (none for a load that draws nothing then)",
    "Nominal",
  ],
  [
    "the losses of a type",
    { type: ["8 to 1", "ratio", 8] },
    "Down",
    "Efficiency of Stage type row 1, or Fixed loss, Linear loss and Quadratic loss, or points of load and efficiency",
    "Efficiency",
  ],
  [
    "what feeds a load",
    { load: ["Hut", null, "power", 100] },
    "Hut",
    "Fed from of Load row 1, the name of the item that feeds this one",
    "Fed from",
  ],
];

function errorsIn(table: CellTable): number {
  return table.flat().filter(isCellError).length;
}

describe.each(WAITING)("a feed without %s", (_, without, item, entry, column) => {
  const table = feed(without);
  const asked = [["Framework", null]] as const;

  it("asks for it by name, and shows no error anywhere", () => {
    assert.equal(tableCell(table, item, "note"), `enter ${entry}`);
    assert.equal(errorsIn(table), 0);
    for (const [id, ...args] of [
      ["CHAIN_SOLVE"],
      ["CHAIN_CASES"],
      ["CHAIN_WORST"],
      ["CHAIN_HEADROOM"],
      ["CHAIN_SCHEDULE"],
      ["CHAIN_BANDS", asked],
    ] as const)
      assert.equal(errorsIn(tableFrom(id, [table, ...args])), 0, id);
    const solved = tableFrom("CHAIN_SOLVE", [table]);
    assert.equal(spillCell(solved, item, "Input V"), "–");
    assert.match(String(spillCell(solved, item, "Note")), /^enter /);
  });

  it("is not determined for want of that column", () => {
    const rows = tableFrom("CHAIN_CHECKS", [table, asked]);
    const at = (header: string) => rows[0]!.indexOf(header);
    const points = rows.filter((row) => row[at("Check")] === "Operating point");
    const waiting = points.filter((row) => row[at("Verdict")] === "not determined");
    assert.deepEqual(
      waiting.map((row) => [row[at("Column")], row[at("Enter or try")]]),
      [[column, `enter ${entry}`]],
    );
  });
});

describe("a figure that cannot be", () => {
  const table = feed({ cable: ["Run", "Bus", -1, "4 mm²", 40] });

  it("is still refused, with errors in its row", () => {
    assert.match(String(tableCell(table, "Run", "note")), /^Length of Cable row 1 must be above 0/);
    assert.ok(isCellError(tableCell(table, "Run", "resistance")));
    assert.ok(isCellError(spillCell(tableFrom("CHAIN_SOLVE", [table]), "Run", "Input V")));
  });
});

describe("what the table says of an item", () => {
  it("stands in front of what its bands and its worst case say, as of its solution", () => {
    const table = feedTableOf([
      block(["Supply", "Lowest V", "Voltage (V)", "Highest V"], ["Bus", 360, 400, 440]),
      block(CABLE, RUN),
      block(LOAD, ["Hut", "Run", "power", 100]),
    ]);
    const note = "no margin: enter Load margin in Asked for";
    const asked = [["Framework", "IEC 62368-1"]];
    for (const [id, ...args] of [
      ["CHAIN_SOLVE"],
      ["CHAIN_WORST"],
      ["CHAIN_BANDS", asked],
    ] as const) {
      const said = spillCell(tableFrom(id, [table, ...args]), "Hut", "Note");
      assert.ok(String(said).startsWith(note), `${id}: ${String(said)}`);
    }
  });
});

describe("the bands of a feed", () => {
  const table = feed({});
  const bands = (framework: Cell) =>
    tableFrom("CHAIN_BANDS", [
      table,
      [
        ["Framework", framework],
        ["Place", "dry"],
      ],
    ]);

  it.each([
    [null, "enter Framework in Asked for"],
    ["not asked", "no Framework is asked for"],
  ] as const)(
    "without a framework (%s) are its voltages, and say why there are none",
    (of, why) => {
      const found = bands(of);
      // 440 V ÷ 8; without isolation one fault puts the input on the output.
      assert.equal(spillCell(found, "Bus", "In service V"), 440);
      assert.equal(spillCell(found, "Bus", "Band in service"), "not determined");
      assert.ok(String(spillCell(found, "Bus", "Note")).startsWith(why));
    },
  );
});
