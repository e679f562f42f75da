import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import type { Cell, CellTable } from "../../functions/cells.js";
import { SERIES_SIZES } from "../../src/conductors/conductor-size-choice.js";
import { FUSE_RATINGS } from "../../src/protection/fuse-rating.js";
import { randomFeed } from "../helpers/random-feed.js";
import { trackside } from "../feeds/trackside.js";
import type { TypedFeed } from "../feeds/typed-feed.js";
import { umbilical } from "../feeds/umbilical.js";
import type { CheckName } from "../../src/judgement/check-row.js";
import { askedWith, changed, found, type Judged, judged, judgedFeed } from "./judged.js";

// What is told to be changed is typed where it is told, and the whole feed is judged anew: the check holds then, and one
// step less, a size, a rating, a unit or the last printed digit, does not do.

const CHANGE = /^Set (.+?) of (.+) to (?:(\d[\d.]*(?:e[+-]?\d+)?)(.*))$/;

interface Told {
  readonly item: string;
  readonly column: string;
  readonly to: Cell;
  /** Undefined where that is the figure as it was. */
  readonly less: Cell | undefined;
}

function toldIn(row: Judged, own: (item: string, column: string) => Cell): Told | undefined {
  const [, , item, digits, behind = ""] = CHANGE.exec(String(row["Enter or try"])) ?? [];
  if (item === undefined || digits === undefined) return undefined;
  const column = String(row["Column"]);
  const before = own(item, column);
  const number = Number(digits);
  const size = / (?:mm²|AWG|kcmil)/.test(behind);
  if (column === "Size" && size) {
    const names = SERIES_SIZES.metric.flatMap((one) =>
      one.sizing === "metric name" ? [one.written] : [],
    );
    const at = names.indexOf(`${digits} mm²`);
    assert.ok(at > 0, String(row["Enter or try"]));
    const smaller = names[at - 1]!;
    return { item, column, to: names[at]!, less: smaller === before ? undefined : smaller };
  }
  const isMore = behind.includes("or more");
  if (!isMore && !behind.includes("or less")) {
    const made = FUSE_RATINGS["as made"];
    const at = made.indexOf(number);
    const isRating = column === "Rated A";
    const less = isRating ? made[at + (number > Number(before) ? -1 : 1)]! : number - 1;
    return { item, column, to: number, less: less === (before || 1) ? undefined : less };
  }
  const step = column.includes("°C") ? 1 : 10 ** (Math.floor(Math.log10(number)) - 2);
  const less = Number((isMore ? number - step : number + step).toPrecision(12));
  return { item, column, to: number, less };
}

const same = (one: Judged) => (other: Judged) =>
  one["Item"] === other["Item"] && one["Check"] === other["Check"];

/** How many changes were tried. */
function tryAll(
  rows: readonly Judged[],
  own: (item: string, column: string) => Cell,
  judgedWith: (item: string, column: string, to: Cell) => readonly Judged[],
): number {
  let tried = 0;
  for (const row of rows.filter(({ Verdict }) => Verdict === "fails")) {
    const told = toldIn(row, own);
    if (!told) continue;
    tried += 1;
    const verdictAt = (to: Cell) =>
      judgedWith(told.item, told.column, to).find(same(row))?.["Verdict"];
    const text = `${String(row["Item"])}, ${String(row["Check"])}: ${String(row["Enter or try"])}`;
    assert.notEqual(verdictAt(told.to), "fails", text);
    if (told.less !== undefined) assert.equal(verdictAt(told.less), "fails", `${text}; less`);
  }
  return tried;
}

/** A cell of the block that has the item or, of a stage, its type or, of anything, its location, and the column. */
function placeOf({ blocks }: TypedFeed, item: string, column: string) {
  const named = (name: Cell) =>
    blocks.flatMap((cells, at) =>
      cells.flatMap(([first], row) => (row > 0 && first === name ? [{ at, row, cells }] : [])),
    );
  const own = named(item).filter(({ cells }) => !cells[0]!.includes("Coldest (°C)"));
  const others = own.flatMap(({ cells, row }) =>
    ["Type", "Location"].flatMap((header) => {
      const column = cells[0]!.indexOf(header);
      return column < 0 ? [] : named(cells[row]![column]!);
    }),
  );
  const found = [...named(item), ...others].find(({ cells }) => cells[0]!.includes(column));
  return found && { ...found, column: found.cells[0]!.indexOf(column) };
}

function typedInto(feed: TypedFeed, item: string, column: string, to: Cell): TypedFeed {
  const place = placeOf(feed, item, column);
  const blocks = feed.blocks.map((cells, at) => {
    if (place) return at === place.at ? withCell(cells, place.row, place.column, to) : cells;
    // A column that nobody has used yet.
    const row = cells.findIndex(([name], index) => index > 0 && name === item);
    if (row < 0) return cells;
    return cells.map((one, index) => [...one, index === 0 ? column : index === row ? to : null]);
  });
  return { ...feed, blocks };
}

function withCell(cells: CellTable, row: number, column: number, to: Cell): CellTable {
  return cells.map((one, at) =>
    at === row ? one.map((cell, place) => (place === column ? to : cell)) : one,
  );
}

function tryFeed(feed: TypedFeed): number {
  return tryAll(
    judgedFeed(feed),
    (item, column) => {
      const place = placeOf(feed, item, column);
      return place ? place.cells[place.row]![place.column]! : null;
    },
    (item, column, to) => judgedFeed(typedInto(feed, item, column, to)),
  );
}

const STRICT = {
  "Largest drop of a cable": 0.02,
  "Largest drop of a voltage level": 0.03,
  "Largest loading of a stage": 0.5,
  "Margin to each window": 0.1,
  "Headroom to collapse": 4,
  "Spare capacity of the supply": 1,
  "Stored energy": 5,
};

describe("what a failed check says to try", () => {
  it("mends it, and one step less does not, on feeds typed as schedules", () => {
    const feeds = [trackside(), umbilical({ tolerance: "exact" })];
    const tried = feeds.map((feed) =>
      tryFeed({ ...feed, askedFor: askedWith(feed.askedFor, STRICT) }),
    );
    assert.ok(Math.min(...tried) >= 3, tried.join(", "));
  });

  it("mends it, and one step less does not, on random feeds typed as tables", () => {
    const limit = fc.constantFrom(0.005, 0.02, 0.1);
    let tried = 0;
    fc.assert(
      fc.property(
        randomFeed,
        limit,
        fc.constantFrom(2, 5, 20),
        fc.boolean(),
        (items, drop, headroom, isLoose) => {
          const table: CellTable = [
            [...HEADERS.map(([header]) => header), "Tolerance", "Units needed"],
            ...items.map((item): Cell[] => [
              ...HEADERS.map(([, field]) => item[field] ?? ""),
              isLoose && !item.kind.endsWith("load") && item.kind !== "supply" ? 0.03 : "",
              (item.inParallel ?? 1) > 1 && isLoose ? 1 : "",
            ]),
          ];
          const asked: CellTable = [
            ["Largest drop of a cable", drop],
            ["Largest drop of a voltage level", drop],
            ["Margin to each window", drop],
            ["Headroom to collapse", headroom],
          ];
          tried += tryAll(
            judged(table, asked),
            (item, column) => {
              const at = table[0]!.indexOf(column);
              return at < 0 ? null : (table.find(([name]) => name === item)?.[at] ?? null);
            },
            (item, column, to) => judged(changed(table, item, { [column]: to }), asked),
          );
        },
      ),
      { numRuns: 200, seed: 14 },
    );
    assert.ok(tried > 40, `${tried}`);
  });
});

/** A feed table of which each row has some columns. */
function tableWith(rows: Readonly<Record<string, Readonly<Record<string, Cell>>>>): CellTable {
  const headers = [...new Set(Object.values(rows).flatMap((row) => Object.keys(row)))];
  return [
    ["Item", ...headers],
    ...Object.entries(rows).map(([item, row]): Cell[] => [
      item,
      ...headers.map((header) => row[header] ?? ""),
    ]),
  ];
}

/** 1000 W at 10 A through 1 Ω. Sizes after IEC 60228 class 2: 12.1, 7.41, 4.61 Ω/km of 1.5, 2.5, 4 mm² (from memory). */
const LONG_CABLE = tableWith({
  Bus: { Kind: "supply", "Voltage (V)": 100, "Lowest V": 100, "Highest V": 101 },
  Cable: {
    "Fed from": "Bus",
    Kind: "run",
    "Resistance (Ω)": 1,
    Size: "1.5 mm²",
    "Mass (kg)": 8,
  },
  Switch: { "Fed from": "Cable", Kind: "series", "Mass (kg)": 4 },
  Lamp: { "Fed from": "Switch", Kind: "current load", Load: 10 },
});

/** A fault at the far end gets 100 V through 1 Ω: 100 A. */
const FUSED = (fuse: Readonly<Record<string, Cell>>) =>
  tableWith({
    Bus: {
      Kind: "supply",
      "Voltage (V)": 100,
      "Lowest V": 100,
      "Highest V": 101,
      "Resistance (Ω)": 0.1,
      "Shuts down at A": 60,
      "Within s": 0.1,
    },
    Fuse: { "Fed from": "Bus", Kind: "series", "Rated A": 6, ...fuse },
    Cable: { "Fed from": "Fuse", Kind: "run", "Resistance (Ω)": 0.9, "Rated A": 20 },
    Lamp: { "Fed from": "Cable", Kind: "current load", Load: 9 },
  });

/** 400 V down to 24 V, where the air is warmer and colder than the stage allows. */
const STAGE = tableWith({
  Bus: { Kind: "supply", "Voltage (V)": 400, "Lowest V": 400, "Highest V": 401 },
  Stage: {
    "Fed from": "Bus",
    Kind: "regulated",
    "Voltage (V)": 24,
    "Lowest V": 300,
    "Highest V": 450,
    "Rated A": 20,
    Tolerance: 0.02,
    "Trip V": 28,
    Isolation: "basic",
    "Coldest (°C)": -25.5,
    "Hottest (°C)": 55.4,
    "Lowest (°C)": -20,
    "Full up to (°C)": 60,
    "Highest (°C)": 50,
  },
  Lamp: { "Fed from": "Stage", Kind: "power load", Load: 100 },
});

const TOUCHED: CellTable = [
  ["Framework", "IEC 60364-4-41"],
  ["Place", "dry"],
];

/** Table, what is asked, item and check, what is to be told, and the column with what is typed and one step less of it. */
const SINGLE: readonly (readonly [
  CellTable,
  CellTable,
  string,
  CheckName,
  RegExp,
  readonly [string, string, Cell, Cell],
])[] = [
  [
    LONG_CABLE,
    [["Largest loss at one location", 60]],
    "Whole feed",
    "Loss at one location",
    /^Set Size of Cable to 4 mm²: 38\.1 W/,
    ["Cable", "Resistance (Ω)", 4.61 / 12.1, 7.41 / 12.1],
  ],
  [
    LONG_CABLE,
    [["Efficiency, supply to load", 0.94]],
    "Whole feed",
    "Efficiency",
    /^Set Size of Cable to 4 mm²: efficiency 96\.19 %$/,
    ["Cable", "Resistance (Ω)", 4.61 / 12.1, 7.41 / 12.1],
  ],
  [
    LONG_CABLE,
    [["Largest mass", 10]],
    "Whole feed",
    "Mass",
    /^Set Mass of Cable to 6 kg or less$/,
    ["Cable", "Mass (kg)", 6, 6.01],
  ],
  [
    FUSED({ "Clears at A": 80, "Within s": 0.1 }),
    [["Load current of a fuse, at most", 0.8]],
    "Fuse",
    "Fuse carries the load",
    /^Set Rated A of Fuse to 12\.5 A$/,
    ["Fuse", "Rated A", 12.5, 10],
  ],
  [
    FUSED({ "Clears at A": 80, "Within s": 5 }),
    [["Far-end fault cleared within", 0.4]],
    "Cable",
    "Fuse clears in time",
    /^Set Within s of Fuse to 0\.4 s or less$/,
    ["Fuse", "Within s", 0.4, 0.401],
  ],
  [
    FUSED({ "Clears at A": 150, "Within s": 0.05 }),
    [],
    "Fuse",
    "Fuse clears before the supply",
    /^Set Clears at A of Fuse to 100 A or less/,
    ["Fuse", "Clears at A", 100, 101],
  ],
  [
    // A clearing time that is a thousand times too long is that of another fuse.
    FUSED({ "Clears at A": 80, "Within s": 200 }),
    [],
    "Fuse",
    "Fuse clears before the supply",
    /^Set Shuts down at A of Bus to 101 A or more/,
    ["Bus", "Shuts down at A", 101, 100],
  ],
  [
    STAGE,
    [],
    "Stage",
    "Stage in its ambient",
    /^Set Highest \(°C\) of Stage to 56 °C or more$/,
    ["Stage", "Highest (°C)", 56, 55],
  ],
  [
    STAGE,
    [],
    "Stage",
    "Lowest ambient",
    /^Set Lowest \(°C\) of Stage to -26 °C or less$/,
    ["Stage", "Lowest (°C)", -26, -25],
  ],
  [
    STAGE,
    TOUCHED,
    "Bus",
    "Band in service",
    /^Set Access of Bus to enclosed or locked, if it is$/,
    ["Bus", "Access", "enclosed", "anyone"],
  ],
  [
    STAGE,
    TOUCHED,
    "Stage",
    "Band after one fault",
    /^Set Isolation of Stage to reinforced, if it is/,
    ["Stage", "Isolation", "reinforced", "basic"],
  ],
];

describe("what one check says to try", () => {
  it.each(SINGLE.map((one) => [`${one[3]} of ${one[2]}: ${one[4].source}`, one] as const))(
    "%s",
    (_, [table, asked, item, check, told, [at, column, to, less]]) => {
      const row = found(judged(table, asked), item, check);
      assert.equal(row["Verdict"], "fails");
      assert.match(String(row["Enter or try"]), told);
      const verdictAt = (value: Cell) =>
        found(judged(changed(table, at, { [column]: value }), asked), item, check)["Verdict"];
      assert.notEqual(verdictAt(to), "fails");
      assert.equal(verdictAt(less), "fails");
    },
  );

  it("is every figure in vain where no single one mends it", () => {
    const asked: CellTable = [["Largest drop of a cable", 1e-6]];
    assert.equal(
      found(judged(LONG_CABLE, asked), "Cable", "Drop")["Enter or try"],
      "no single figure mends it, tried: Size, In parallel, Load",
    );
  });

  it("is left out of all checks but the first hundred that fail", () => {
    const lamps = Object.fromEntries(
      Array.from({ length: 101 }, (_, index) => [
        `Lamp ${index}`,
        { "Fed from": "Bus", Kind: "power load", Load: 1, "Lowest V": 120 },
      ]),
    );
    const bus = { Kind: "supply", "Voltage (V)": 100, "Lowest V": 100, "Highest V": 101 };
    const rows = judged(tableWith({ Bus: bus, ...lamps }), [["Margin to each window", 0]]);
    const told = (index: number) =>
      found(rows, `Lamp ${index}`, "Input above lowest")["Enter or try"];
    assert.match(String(told(99)), /^Set Lowest V of Lamp 99 to 100 V or less/);
    assert.equal(told(100), "no change sought: more than 100 checks fail, mend the first ones");
  });
});

const HEADERS = [
  ["Item", "item"],
  ["Fed from", "fedFrom"],
  ["Kind", "kind"],
  ["Voltage (V)", "voltage"],
  ["Resistance (Ω)", "resistance"],
  ["Ratio", "ratio"],
  ["Fixed loss (W)", "fixedLoss"],
  ["Linear loss (W/A)", "linearLoss"],
  ["Quadratic loss (W/A²)", "quadraticLoss"],
  ["Efficiency", "efficiency"],
  ["Load", "load"],
  ["In parallel", "inParallel"],
  ["Lowest V", "lowestVoltage"],
  ["Highest V", "highestVoltage"],
] as const;
