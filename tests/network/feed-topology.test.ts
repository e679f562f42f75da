import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { columnsOf } from "../../src/network/feed-columns.js";
import { feedTopology } from "../../src/network/feed-topology.js";
import { feedItem } from "../helpers/feed.js";

const figures = { voltage: 400, resistance: 1 };

/** Rows of which each is fed by one above it, or by none: then it is a supply. */
const feeders = fc
  .array(fc.nat(), { minLength: 1, maxLength: 40 })
  .map((picks) => picks.map((pick, row) => (row === 0 || pick % 7 === 0 ? -1 : pick % row)));

/** The same rows in another order. */
const shuffled = feeders.chain((feeding) =>
  fc.tuple(
    fc.constant(feeding),
    fc.shuffledSubarray([...feeding.keys()], { minLength: feeding.length }),
  ),
);

function topologyOf(feeding: readonly number[], order: readonly number[]) {
  return feedTopology(
    columnsOf(
      order.map((row) => {
        const from = feeding[row]!;
        return from < 0
          ? feedItem(`n${row}`, undefined, "supply", figures)
          : feedItem(`n${row}`, `n${from}`, "run", figures);
      }),
    ),
  );
}

describe("who feeds whom", () => {
  it("is one tree for each supply, every row once and behind the one that feeds it", () => {
    fc.assert(
      fc.property(shuffled, ([feeding, order]) => {
        const supplyOf = (row: number): number =>
          feeding[row]! < 0 ? row : supplyOf(feeding[row]!);
        const { trees } = topologyOf(feeding, order);
        expect(trees).toHaveLength(feeding.filter((from) => from < 0).length);
        const seen = new Set<number>();
        for (const { order: places, fault } of trees) {
          expect(fault).toBeUndefined();
          const rows = [...places].map((place) => order[place]!);
          for (const row of rows) {
            expect(supplyOf(row)).toBe(rows[0]);
            expect(feeding[row]! < 0 || seen.has(feeding[row]!)).toBe(true);
            expect(seen.has(row)).toBe(false);
            seen.add(row);
          }
        }
        expect(seen.size).toBe(feeding.length);
      }),
    );
  });

  it("keeps the table's order where feeders stand above what they feed", () => {
    fc.assert(
      fc.property(feeders, (feeding) => {
        for (const { order } of topologyOf(feeding, [...feeding.keys()]).trees)
          expect([...order]).toEqual([...order].sort((one, other) => one - other));
      }),
    );
  });

  it("names a loop beside a tree that is whole, with what hangs on the loop in its tree", () => {
    const { trees } = feedTopology(
      columnsOf([
        feedItem("Lamp", "B", "current load", { load: 1 }),
        feedItem("A", "C", "run", figures),
        feedItem("Bus", undefined, "supply", figures),
        feedItem("B", "A", "run", figures),
        feedItem("C", "B", "run", figures),
        feedItem("Own", "Bus", "current load", { load: 1 }),
      ]),
    );
    const [looped, whole] = trees;
    expect(trees).toHaveLength(2);
    expect([...looped!.order].sort()).toEqual([0, 1, 3, 4]);
    expect(looped!.fault?.error.message).toMatch(/closes a loop: "B", "A", "C"/);
    expect([[...whole!.order], whole!.fault]).toEqual([[2, 5], undefined]);
  });
});
