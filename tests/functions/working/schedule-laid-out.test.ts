/** Feed tables of schedules in a sheet that needs no add-in: laid out, and in a plain copy whose inputs change. */
import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../../functions/downfeed.js";
import type { Cell, CellTable } from "../../../functions/downfeed.js";
import { answersOf } from "../../../functions/working/lines/call-answer.js";
import { callWorking, untraced } from "../../../functions/working/lines/call-working.js";
import { laidOut } from "../../../functions/working/native/laid-out.js";
import { plainCopy } from "../../../functions/working/copy/plain-copy.js";
import {
  isAboutItem,
  repeatedCell,
  workingOf,
} from "../../../functions/working/text/working-of.js";
import { cellAddress } from "../../../src/plans/addresses.js";
import { BLOCKS, TABLE_BLOCKS, tablePlace } from "../../../src/schedules/columns.js";
import { everyColumn } from "../../feeds/every-column.js";
import { trackside } from "../../feeds/trackside.js";
import { umbilical } from "../../feeds/umbilical.js";
import { assertSteps } from "../../helpers/assert-steps.js";
import { callOverCells, placedResult } from "../../helpers/call-trees.js";
import { contentOf } from "../../helpers/copied-budget.js";
import { ironCalc } from "../../helpers/iron-calc.js";
import { feedTableOf, tableCell } from "../../helpers/schedules.js";

const FEEDS = {
  "with every column": everyColumn,
  trackside: trackside({ heater: "on" }),
  umbilical: umbilical(),
};

function blocksOf(feed: (typeof FEEDS)[keyof typeof FEEDS]) {
  return [...feed.blocks, feed.askedFor];
}

describe("a feed with every column", () => {
  it("uses every column of every block, and no row of it is refused", () => {
    const headers = blocksOf(everyColumn).flatMap(([header]) => header);
    for (const name of TABLE_BLOCKS)
      for (const { header } of BLOCKS[name])
        assert.ok(
          headers.some((one) => String(one).startsWith(header)),
          `${header} of ${name}`,
        );
    const outcome = evaluate("CHAIN_SOLVE", [feedTableOf(blocksOf(everyColumn))]);
    assert.ok(outcome.ok);
    for (const row of outcome.value as CellTable)
      for (const cell of row) assert.equal(typeof cell === "object", false);
  });
});

for (const [name, feed] of Object.entries(FEEDS))
  describe(`the feed table ${name}`, () => {
    const blocks = blocksOf(feed);
    const { tree, inputs } = callOverCells("CHAIN_TABLE", blocks);

    it("has a working that another engine follows", () => {
      const outcome = evaluate("CHAIN_TABLE", blocks);
      assert.ok(outcome.ok);
      const workings = outcome.working();
      assert.ok(workings.length > 10);
      for (const { steps, values } of workings) assertSteps(steps, values);
    });

    it("leads every number back to a cell, a table or a default", () => {
      const [answer] = answersOf(tree).values();
      const { groups } = callWorking(answer!);
      expect(untraced(groups).map(({ key }) => key)).toEqual([]);
    });

    it("laid out natively comes to the same", () => {
      const laid = laidOut(tree);
      assert.ok(laid.ok);
      const shown = ironCalc({
        Inputs: inputs,
        Results: placedResult("CHAIN_TABLE", blocks),
        Working: new Map(
          laid.cells.flatMap(({ at, value, formula }) => {
            const content = formula === undefined ? value : `=${formula}`;
            return content === undefined ? [] : [[at, content] as const];
          }),
        ),
      });
      assert.equal(shown("Working", laid.sameAt), "yes");
    });
  });

describe("the working of a feed table", () => {
  it("tells the cells that its figures were typed in", () => {
    const { tree } = callOverCells("CHAIN_TABLE", blocksOf(trackside()));
    const [steps] = workingOf(tree);
    const hot = steps?.blocks.find(({ title }) => title === "Point cable: resistance hot");
    const length = hot?.rows.find(({ symbol }) => symbol === "L");
    expect(length).toMatchObject({ value: 22, kind: "given" });
    expect(length?.origin).toMatch(/^Inputs!\w+\d+$/);
    expect(hot?.rows.at(-1)?.citation).not.toBe("");
  });

  it("tells the cell that a typed figure of the table repeats, and none for a derived one", () => {
    const blocks = blocksOf(trackside());
    const { tree, inputs } = callOverCells("CHAIN_TABLE", blocks);
    const row = feedTableOf(blocks).findIndex(([item]) => item === "Hut fuse");
    const typed = repeatedCell(tree, row, tablePlace("breaksAt"));
    expect(typed?.sheet).toBe("Inputs");
    expect(inputs.get(typed?.address ?? "")).toBe(10000);
    const cable = feedTableOf(blocks).findIndex(([item]) => item === "Point cable");
    expect(repeatedCell(tree, cable, tablePlace("resistance"))).toBeUndefined();
  });

  it("is about an item by its name alone or in front of what is worked out", () => {
    expect(isAboutItem("Spur: mass", "Spur")).toBe(true);
    expect(isAboutItem("Spur", "Spur")).toBe(true);
    expect(isAboutItem("Spur 2: mass", "Spur")).toBe(false);
  });
});

describe("a plain copy of a feed table", () => {
  const blocks = blocksOf(everyColumn);

  function withCell(block: number, row: number, header: string, cell: Cell) {
    return blocks.map((table, at) =>
      at !== block
        ? table
        : table.map((cells, index) =>
            index !== row
              ? cells
              : cells.map((own, column) => (table[0]![column] === header ? cell : own)),
          ),
    );
  }

  /** The copy made of the blocks as they are, with other inputs typed into it. */
  function copied(later: readonly CellTable[]) {
    const { tree, inputs } = callOverCells("CHAIN_TABLE", blocks);
    const result = feedTableOf(blocks);
    const { plan, holdsAt } = plainCopy({
      title: "Feed",
      sheets: [sheetOf("Inputs", inputs), resultSheet(result)],
      trees: new Map([["Results!A1", tree]]),
    });
    const contents = contentOf(plan);
    const shown = ironCalc({
      ...contents,
      "Inputs plain": callOverCells("CHAIN_TABLE", later).inputs,
    });
    const place = (item: string) => result.findIndex(([name]) => name === item);
    return {
      holds: shown("Workings", holdsAt),
      at: (item: string, field: Parameters<typeof tablePlace>[0]) =>
        shown("Results plain", cellAddress({ row: place(item), column: tablePlace(field) })),
    };
  }

  it("follows a length, a margin and a count natively", () => {
    const changes = [
      [2, 1, "Length (ft)", 800, "Run", ["resistance", "mass", "price"]],
      [2, 2, "Length (ft)", 75, "Spur", ["inductance", "mass", "length"]],
      [1, 1, "In parallel", 3, "Down", ["mass", "price", "inParallel"]],
      [4, 1, "Nominal", 50, "Radio", ["load"]],
      [4, 2, "Rated V", 24, "Heater", ["load"]],
      [7, 1, "Value", 0.3, "Radio", ["load", "margin"]],
      [6, 1, "Steps down by", 10, "Down", ["ratio"]],
      [5, 2, "Coldest (°C)", -30, "Spur", ["leastResistance", "coldestC"]],
    ] as const;
    for (const [block, row, header, cell, item, fields] of changes) {
      const later = withCell(block, row, header, cell);
      const copy = copied(later);
      const expected = feedTableOf(later);
      assert.equal(copy.holds, "yes", `${header} ${cell}`);
      for (const field of fields) {
        const found = Number(copy.at(item, field));
        const right = Number(tableCell(expected, item, field));
        assert.notEqual(right, tableCell(feedTableOf(blocks), item, field));
        assert.ok(
          Math.abs(found / right - 1) < 1e-12,
          `${field} of ${item} at ${header} ${cell}: ${found}, ${right}`,
        );
      }
    }
  });

  it("is void where a word, a name or an empty cell is another, or a solved number no longer holds", () => {
    const changes = [
      [2, 1, "Build", "class 2"],
      [2, 1, "Conductor at most (°C)", 80],
      [2, 1, "Cores", 3],
      [2, 1, "Outer diameter (mm)", 20],
      [6, 2, "Efficiency 3", 0.94],
      [4, 1, "Fed from", "Spur"],
    ] as const;
    for (const [block, row, header, cell] of changes) {
      const copy = copied(withCell(block, row, header, cell));
      assert.notEqual(copy.holds, "yes", header);
      assert.equal(copy.at("Spur", "resistance"), "#N/A", header);
    }
  });

  it("holds as it is", () => {
    const copy = copied(blocks);
    assert.equal(copy.holds, "yes");
    assert.equal(copy.at("Run", "fedFrom"), "Rectifier");
  });
});

function sheetOf(name: string, cells: ReadonlyMap<string, string | number | boolean>) {
  const rows = 60;
  const columns = 60;
  const grid = Array.from({ length: rows }, (_, row) =>
    Array.from({ length: columns }, (_, column) => cells.get(cellAddress({ row, column })) ?? ""),
  );
  return {
    name,
    values: grid,
    formulas: grid.map((row) => row.map(() => "")),
    formats: grid.map((row) => row.map(() => "General")),
  };
}

function resultSheet(result: CellTable) {
  const sheet = sheetOf("Results", placedResult("CHAIN_TABLE", []));
  const values = result.map((row) =>
    row.map((cell) => (cell === null || typeof cell === "object" ? "" : cell)),
  );
  return {
    ...sheet,
    values,
    formulas: values.map((row, at) =>
      row.map((_, column) => (at === 0 && column === 0 ? "=FEED.CHAIN_TABLE()" : "")),
    ),
    formats: values.map((row) => row.map(() => "General")),
  };
}
