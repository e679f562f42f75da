/** What the working and the layout of a solved feed say of its figures: which cells count, and that its numbers are frozen. */
import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import type { Cell } from "../../../functions/downfeed.js";
import type { CallPart, FormulaTree } from "../../../functions/working/lines/call-tree.js";
import { laidOut } from "../../../functions/working/native/laid-out.js";
import { type WorkingRow, workingOf } from "../../../functions/working/text/working-of.js";
import { columnLetters } from "../../../src/plans/addresses.js";
import { callOverCells, placedResult } from "../../helpers/call-trees.js";
import { ironCalc } from "../../helpers/iron-calc.js";

const HEADERS = [
  "Item",
  "Fed from",
  "Kind",
  "Voltage",
  "Resistance",
  "Ratio",
  "Fixed loss",
  "Load",
  "Peak load",
  "In parallel",
  "Lowest V",
  "Highest V",
] as const;

/** Three stages side by side, 8 W each with nothing connected; two lamps. */
function table(units = 3, loads = 2): Cell[][] {
  const row = (cells: Partial<Record<(typeof HEADERS)[number], Cell>>) =>
    HEADERS.map((header) => cells[header] ?? null);
  return [
    [...HEADERS],
    row({ Item: "Bus", Kind: "supply", Voltage: 400, "Lowest V": 360, "Highest V": 440 }),
    row({
      ...{ Item: "Stages", "Fed from": "Bus", Kind: "ratio", Resistance: 0.02 },
      ...{ Ratio: 0.125, "Fixed loss": 8, "In parallel": units },
    }),
    row({
      ...{ Item: "Lamps", "Fed from": "Stages", Kind: "power load" },
      ...{ Load: 300, "Peak load": 350, "In parallel": loads },
    }),
  ];
}

/** Where a figure of an item stands; the table begins in A1's neighbour, as `callOverCells` places it. */
function cellOf(item: number, header: (typeof HEADERS)[number]): string {
  return `${columnLetters(HEADERS.indexOf(header) + 1)}${item + 1}`;
}

function rowOf(args: readonly (Cell | Cell[][])[], item: string, symbol: string): WorkingRow {
  const { tree } = callOverCells("CHAIN_SOLVE", args);
  const block = workingOf(tree)
    .flatMap(({ blocks }) => blocks)
    .find(({ title }) => title === item);
  const row = block?.rows.find((one) => one.symbol === symbol);
  assert.ok(row, `${item} ${symbol}`);
  return row;
}

function addresses({ cells }: WorkingRow): string[] {
  return cells.map(({ address }) => address);
}

/** What a pocket calculator makes of it. */
function byCalculator(text: string): number {
  const [first = "", ...others] = text.split(/ ([×/]) /);
  return others.reduce<number>(
    (value, part, at) =>
      at % 2 === 0 ? value : others[at - 1] === "×" ? value * Number(part) : value / Number(part),
    Number(first),
  );
}

describe("the figures in the working of a solved feed", () => {
  it("name the fixed loss and the units, and show their product", () => {
    const row = rowOf([table()], "Stages", "a");
    assert.equal(row.value, 24);
    assert.equal(row.inNumbers, "3 × 8");
    assert.deepEqual(addresses(row), [cellOf(2, "Fixed loss"), cellOf(2, "In parallel")]);
  });

  it("name one unit's resistance and the units, and show their quotient", () => {
    const row = rowOf([table()], "Stages", "R");
    // 20 mΩ, three side by side.
    assert.ok(Math.abs(byCalculator(row.inNumbers) - Number(row.value)) < 1e-9);
    assert.match(row.inNumbers, / \/ 3$/);
    assert.deepEqual(addresses(row), [cellOf(2, "Resistance"), cellOf(2, "In parallel")]);
  });

  it("name the load of the case that is solved, and no other", () => {
    const [nominal, peak] = [undefined, "peak"].map((loads) =>
      rowOf([table(), loads ?? null], "Lamps", "d"),
    );
    assert.deepEqual(addresses(nominal!), [cellOf(3, "Load"), cellOf(3, "In parallel")]);
    assert.equal(nominal!.inNumbers, "2 × 300");
    assert.deepEqual(addresses(peak!), [cellOf(3, "Peak load"), cellOf(3, "In parallel")]);
    assert.equal(peak!.inNumbers, "2 × 350");
  });

  it("name the end of the window at which the supply is", () => {
    const voltage = (supply: string | null) =>
      addresses(rowOf([table(), null, supply], "Bus", "V₀"));
    assert.deepEqual(voltage(null), [cellOf(1, "Voltage")]);
    assert.deepEqual(voltage("lowest"), [cellOf(1, "Lowest V")]);
    assert.deepEqual(voltage("highest"), [cellOf(1, "Highest V")]);
  });

  it("leave out what one alone would multiply by", () => {
    const row = rowOf([table(1, 1)], "Stages", "a");
    assert.equal(row.inNumbers, "");
    assert.deepEqual(addresses(row), [cellOf(2, "Fixed loss")]);
  });

  it("come to their values for any number of units and lamps", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 9 }),
        fc.integer({ min: 2, max: 9 }),
        fc.constantFrom<Cell>(null, "peak", 0.5),
        (units, lamps, loads) => {
          for (const [item, symbol] of [
            ["Stages", "a"],
            ["Lamps", "d"],
          ] as const) {
            const { inNumbers, value } = rowOf([table(units, lamps), loads], item, symbol);
            const size = Math.abs(Number(value));
            assert.ok(Math.abs(byCalculator(inNumbers) - Number(value)) <= 1e-5 * size, inNumbers);
          }
        },
      ),
      { numRuns: 30, seed: 7 },
    );
  });
});

/** With the loads and the supply written in the call itself. */
function withWords(loads: string, supply: string) {
  const { tree, inputs } = callOverCells("CHAIN_SOLVE", [table()]);
  const whole = tree.whole as CallPart;
  const word = (value: string) => ({ kind: "literal", text: `"${value}"`, value }) as const;
  const worded: FormulaTree = {
    ...tree,
    whole: { ...whole, args: [whole.args[0], word(loads), word(supply)] },
  };
  return { tree: worded, inputs };
}

describe("the layout of a solved feed", () => {
  it("asks nothing of what is written in the call", () => {
    for (const [loads, supply] of [
      ["peak", "lowest"],
      ["light", "highest"],
      ["Nominal", "nominal"],
    ] as const) {
      const laid = laidOut(withWords(loads, supply).tree);
      assert.ok(laid.ok);
      for (const { formula = "" } of laid.cells) {
        assert.doesNotMatch(formula, /ISNUMBER\("/);
        assert.doesNotMatch(formula, /"[^"]*"="/);
        assert.doesNotMatch(formula, /IF\([\d.]+=/);
      }
    }
  });

  function calculated(change?: readonly [address: string, value: number]) {
    const { tree, inputs } = withWords("peak", "lowest");
    const laid = laidOut(tree);
    assert.ok(laid.ok);
    const cells = new Map(inputs);
    if (change) cells.set(...change);
    const working = new Map(
      laid.cells.flatMap(({ at, value, formula }) => {
        const content = formula === undefined ? value : `=${formula}`;
        return content === undefined ? [] : [[at, content] as const];
      }),
    );
    const shown = ironCalc({
      Inputs: cells,
      Results: placedResult("CHAIN_SOLVE", [table(), "peak", "lowest"]),
      Working: working,
    });
    return { says: (at: string) => String(shown("Working", at)), laid };
  }

  it("says that its numbers are frozen at these inputs, and once they change that they no longer hold", () => {
    assert.match(calculated().says("A3"), /frozen at these inputs/);
    const after = calculated([cellOf(2, "Fixed loss"), 9]);
    assert.match(after.says("A3"), /inputs changed.*no longer hold/);
  });

  it("paints every no as a danger", () => {
    const { laid } = calculated();
    const painted = laid.rules.map(({ range, paint, ...rule }) => ({ range, paint, rule }));
    assert.ok(painted.length >= 2);
    for (const { paint, rule } of painted) {
      assert.equal(paint, "danger");
      assert.deepEqual(rule, { kind: "text", text: "no" });
    }
    assert.ok(painted.some(({ range }) => range === laid.sameAt));
    assert.ok(painted.some(({ range }) => range.startsWith("I")));
  });
});
