import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { feedSums, isLoad, type SolvedItem } from "../../../taskpane/pictures/solved-feed.js";
import { type FlowLayout, flowLayout } from "../../../taskpane/pictures/watt-flow-layout.js";
import { feedItem } from "../../helpers/feed.js";
import { randomFeed, withLoads } from "../../helpers/random-feed.js";
import { solvedItems } from "../../helpers/solved-items.js";

const ROOM = { flowHeight: 200, labelHeight: () => 15, gap: 5 };
const TREES = 150;

/** Light loads, so that hardly any of them collapses. */
const feeds: readonly (readonly SolvedItem[])[] = fc
  .sample(randomFeed, { numRuns: 200, seed: 20261127 })
  .flatMap((items) => {
    const solved = solvedItems(withLoads(items, 0.1));
    return solved ? [solved] : [];
  })
  .slice(0, TREES);

function near(actual: number, expected: number, scale: number): void {
  assert.ok(Math.abs(actual - expected) <= 1e-6 * scale, `${actual}, expected ${expected}`);
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}

function eachFeed(check: (layout: FlowLayout, items: readonly SolvedItem[]) => void): void {
  for (const items of feeds) check(flowLayout(items, ROOM), items);
}

describe("where each watt goes, on random trees", () => {
  it(`has ${TREES} trees of every kind to go by`, () => {
    assert.equal(feeds.length, TREES);
    const kinds = new Set(feeds.flat().map(({ kind }) => kind));
    assert.equal(kinds.size, 8);
    assert.ok(feeds.some((items) => items.length > 20));
  });

  it("gives every watt the same height, in ribbons and in bars", () => {
    eachFeed(({ ribbons, bars }, items) => {
      const { supply } = feedSums(items);
      for (const { height, power } of [...ribbons, ...bars])
        near(height, (ROOM.flowHeight * power) / supply, ROOM.flowHeight);
    });
  });

  it("lets no watt appear or vanish at any item: what enters leaves, as solved", () => {
    eachFeed(({ ribbons, bars }, items) => {
      for (const bar of bars) {
        const own = items.find(({ item }) => item === bar.item);
        assert.ok(own);
        near(bar.power, own.inputPower, own.inputPower);
        const leaving = ribbons.filter(({ item, role, fromColumn }) => {
          const of = items.find((one) => one.item === item);
          return role === "loss"
            ? item === bar.item
            : of?.fedFrom === bar.item && fromColumn === bar.column;
        });
        near(sum(leaving.map(({ power }) => power)), bar.power, bar.power);
        // Side by side on the bar, from its top to its bottom.
        const stacked = [...leaving].sort((a, b) => a.fromTop - b.fromTop);
        let top = bar.top;
        for (const { fromTop, height } of stacked) {
          near(fromTop, top, ROOM.flowHeight);
          top += height;
        }
        near(top, bar.top + bar.height, ROOM.flowHeight);
      }
    });
  });

  it("ends in every load and every loss, each once", () => {
    eachFeed(({ ends }, items) => {
      for (const item of items) {
        const own = ends.filter((end) => end.item === item.item);
        const power = isLoad(item) ? item.inputPower : item.loss;
        assert.equal(own.length, power > 0 ? 1 : 0, item.item);
        near(sum(own.map((end) => end.power)), power, power);
      }
      const { supply } = feedSums(items);
      near(sum(ends.map(({ power }) => power)), supply, supply);
    });
  });

  it("keeps ribbons apart: in every column they lie in the order of their ends, and never over each other", () => {
    eachFeed(({ ribbons, bars, columns, height }) => {
      for (let column = 1; column <= columns; column += 1) {
        const here = [
          ...ribbons.filter(
            ({ fromColumn, toColumn, role }) =>
              fromColumn < column && (role === "onward" ? toColumn > column : toColumn >= column),
          ),
          ...bars.filter((bar) => bar.column === column),
        ].map((one) => ({
          top: "toTop" in one ? one.toTop : one.top,
          height: one.height,
        }));
        here.sort((a, b) => a.top - b.top);
        here.forEach(({ top }, index) => {
          const before = here[index - 1];
          if (before) assert.ok(top >= before.top + before.height - 1e-6);
        });
        for (const { top, height: own } of here)
          assert.ok(top >= -1e-6 && top + own <= height + 1e-6);
      }
    });
  });

  it("leaves every label the room that it asks for", () => {
    eachFeed(({ ends }) => {
      ends.forEach(({ middle }, index) => {
        const next = ends[index + 1];
        if (next) assert.ok(next.middle - middle >= 15 + ROOM.gap - 1e-6);
      });
    });
  });
});

describe("where each watt goes, by hand", () => {
  // 100 V, 1 Ω, then 10 A: 1000 W out of the supply, 100 W lost in the run, 900 W into the load.
  const items = solvedItems([
    feedItem("Bank", undefined, "supply", { voltage: 100 }),
    feedItem("Line", "Bank", "run", { resistance: 1 }),
    feedItem("Lamp", "Line", "current load", { load: 10 }),
  ]);

  it("draws 900 of 1000 W as nine tenths of the height, the loss below it", () => {
    assert.ok(items);
    const { ribbons, ends, columns } = flowLayout(items, {
      ...ROOM,
      flowHeight: 100,
    });
    assert.equal(columns, 2);
    assert.deepEqual(
      ribbons.map(({ role, item, height }) => [role, item, Math.round(height * 1e6) / 1e6]),
      [
        ["onward", "Line", 100],
        ["load", "Lamp", 90],
        ["loss", "Line", 10],
      ],
    );
    assert.deepEqual(
      ends.map(({ item, role }) => `${role} ${item}`),
      ["load Lamp", "loss Line"],
    );
  });
});
