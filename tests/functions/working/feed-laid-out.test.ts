/**
 * Solved feed tables laid out: for random feeds of every kind of row, the residuals that native formulas make of the
 * table's own cells, run by IronCalc, are 0; and no longer when a cell of the table changes.
 */
import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { type Argument, type Cell, evaluate, isCellTable } from "../../../functions/downfeed.js";
import { FEED_COLUMNS } from "../../../functions/reading/feed-columns.js";
import { feedColumnOf } from "../../../functions/reading/feed-headers.js";
import { laidOut } from "../../../functions/working/native/laid-out.js";
import { columnLetters } from "../../../src/plans/addresses.js";
import type { FeedItem } from "../../../src/network/feed-item.js";
import { callOverCells, placedResult } from "../../helpers/call-trees.js";
import { ironCalc } from "../../helpers/iron-calc.js";
import { randomFeed } from "../../helpers/random-feed.js";

type Field = keyof typeof FEED_COLUMNS;
const FIELDS = Object.keys(FEED_COLUMNS) as Field[];

/** Of columns whose figures are read in another unit than SI. */
const UNITS: Partial<Readonly<Record<Field, string>>> = {
  voltage: " (mV)",
  resistance: " (mΩ)",
  fixedLoss: " (kW)",
  linearLoss: " (W/A)",
  quadraticLoss: " (mΩ)",
  lowestVoltage: " (kV)",
  ratedCurrent: " (mA)",
};

/** With a window for every supply, and light and peak loads. */
function withCases(item: FeedItem, index: number): FeedItem {
  const { kind, voltage, load } = item;
  if (kind === "supply" && voltage !== undefined)
    return {
      ...item,
      lowestVoltage: 0.9 * voltage,
      highestVoltage: 1.1 * voltage,
    };
  if (load === undefined) return item;
  const isOhms = kind === "resistance load";
  return {
    ...item,
    lightLoad: index % 3 === 0 ? undefined : load * (isOhms ? 2 : 0.5),
    peakLoad: index % 3 === 1 ? undefined : load * (isOhms ? 0.9 : 1.1),
    ratedCurrent: 10,
  };
}

function tableOf(items: readonly FeedItem[]): Cell[][] {
  return [
    FIELDS.map((field) => `${FEED_COLUMNS[field]}${UNITS[field] ?? ""}`),
    ...items.map((item) => FIELDS.map((field) => cellOf(item, field))),
  ];
}

function cellOf(item: FeedItem, field: Field): Cell {
  const figure = item[field];
  if (typeof figure !== "number") return figure ?? null;
  const column = feedColumnOf(`${FEED_COLUMNS[field]}${UNITS[field] ?? ""}`);
  assert.ok(column !== "unknown");
  return figure / column.toSi;
}

interface Change {
  readonly row: number;
  readonly field: Field;
  readonly factor: number;
}

/** Texts of the layout, the table first changed where it is asked for. */
function said(args: readonly Argument[], change?: Change) {
  const { tree, inputs } = callOverCells("CHAIN_SOLVE", args);
  const laid = laidOut(tree);
  assert.ok(laid.ok);
  const cells = new Map(inputs);
  if (change) {
    const at = `${columnLetters(FIELDS.indexOf(change.field) + 1)}${change.row + 2}`;
    cells.set(at, Number(cells.get(at)) * change.factor);
  }
  const working = new Map(
    laid.cells.flatMap(({ at, value, formula }) => {
      const content = formula === undefined ? value : `=${formula}`;
      return content === undefined ? [] : [[at, content] as const];
    }),
  );
  const shown = ironCalc({
    Inputs: cells,
    Results: placedResult("CHAIN_SOLVE", args),
    Working: working,
  });
  const checks = [...working.keys()].filter((at) => /^I\d/.test(at));
  return {
    same: shown("Working", laid.sameAt),
    yes: checks.filter((at) => shown("Working", at) === "yes").length,
    no: checks.filter((at) => shown("Working", at) === "no"),
  };
}

function isSolved(args: readonly Argument[]): boolean {
  const outcome = evaluate("CHAIN_SOLVE", args);
  return (
    outcome.ok &&
    isCellTable(outcome.value) &&
    outcome.value.flat().every((cell) => typeof cell !== "object")
  );
}

const cases = fc.record({
  items: randomFeed.map((items) => items.map(withCases)),
  loads: fc.constantFrom<Argument[]>(undefined, "light", "nominal", "peak", 0.7),
  supply: fc.constantFrom<Argument[]>(undefined, "lowest", "highest"),
});

describe("the layout of a solved feed table", () => {
  it("has residuals of 0 for every row, load case and supply case", () => {
    let solved = 0;
    fc.assert(
      fc.property(cases, ({ items, loads, supply }) => {
        const args = [tableOf(items), loads, supply];
        fc.pre(isSolved(args));
        solved += 1;
        const { same, yes, no } = said(args);
        assert.deepEqual(no, []);
        assert.equal(same, "yes");
        // Loads have one equation, every other row two or three.
        assert.ok(yes >= items.length);
      }),
      { numRuns: 60, seed: 7 },
    );
    assert.ok(solved >= 30, String(solved));
  });

  const FIGURES: readonly Field[] = [
    "voltage",
    "resistance",
    "ratio",
    "fixedLoss",
    "linearLoss",
    "quadraticLoss",
    "efficiency",
    "load",
  ];
  for (const field of FIGURES)
    it(`says no when ${FEED_COLUMNS[field]} of a row changes`, () => {
      let changed = 0;
      fc.assert(
        fc.property(cases, fc.nat(), ({ items }, place) => {
          const rows = [...items.keys()].filter(
            (row) => items[row]?.[field] !== undefined && items[row]?.[field] !== 0,
          );
          fc.pre(rows.length > 0);
          const args = [tableOf(items)];
          fc.pre(isSolved(args));
          const row = rows[place % rows.length]!;
          const { no } = said(args, { row, field, factor: 1.01 });
          assert.ok(no.length > 0, `${field} of ${items[row]?.kind}`);
          changed += 1;
        }),
        { numRuns: 12, seed: 7 },
      );
      assert.ok(changed >= 4, String(changed));
    });

  it("says no when one more is put in parallel", () => {
    fc.assert(
      fc.property(cases, fc.nat(), ({ items }, place) => {
        const row = place % items.length;
        fc.pre(items[row]?.kind === "run" || items[row]?.kind === "power load");
        const args = [tableOf(items)];
        fc.pre(isSolved(args));
        const change = { row, field: "inParallel", factor: 2 } as const;
        assert.ok(said(args, change).no.length > 0);
      }),
      { numRuns: 12, seed: 7 },
    );
  });
});
