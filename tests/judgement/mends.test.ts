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
import { askedWith, changed, type Judged, judged, judgedFeed } from "./judged.js";

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
      fc.property(randomFeed, limit, fc.constantFrom(2, 5, 20), (items, drop, headroom) => {
        const table: CellTable = [
          HEADERS.map(([header]) => header),
          ...items.map((item) => HEADERS.map(([, field]) => item[field] ?? "")),
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
      }),
      { numRuns: 200, seed: 14 },
    );
    assert.ok(tried > 40, `${tried}`);
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
