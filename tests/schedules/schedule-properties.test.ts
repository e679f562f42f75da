/** What must hold of any schedule: it is solved as the engine solves the same feed, in whatever order it was typed. */
import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Cell, CellTable } from "../../functions/cells.js";
import type { FeedItem } from "../../src/network/feed-item.js";
import { operatingPoint } from "../../src/network/operating-point.js";
import { trackside } from "../feeds/trackside.js";
import { umbilical } from "../feeds/umbilical.js";
import { randomFeed } from "../helpers/random-feed.js";
import { blocksOf } from "../helpers/schedule-of-feed.js";
import { feedTableOf, spillCell, tableFrom } from "../helpers/schedules.js";

const margin = fc.integer({ min: 0, max: 40 }).map((part) => part / 100);

function assertNear(found: Cell, expected: number, what: string): void {
  assert.ok(
    typeof found === "number" &&
      Math.abs(found - expected) <= 1e-9 * Math.max(Math.abs(expected), 1e-3),
    `${what}: ${JSON.stringify(found)}, by the engine ${expected}`,
  );
}

function assertAsEngine(table: CellTable, items: readonly FeedItem[]): void {
  const solved = tableFrom("CHAIN_SOLVE", [table]);
  for (const row of operatingPoint(items).rows) {
    if (row.outcome === "refused") {
      expect(spillCell(solved, row.item, "Input V")).toHaveProperty("error");
      continue;
    }
    const { item } = row.item;
    const at = (header: string) => spillCell(solved, item, header);
    assertNear(at("Input V"), row.inputVoltage, `${item} Input V`);
    assertNear(at("Input A"), row.inputCurrent, `${item} Input A`);
    assertNear(at("Loss W"), row.loss, `${item} Loss W`);
  }
}

/** Blocks and their rows in another order, each block's closing row last. */
function shuffled(blocks: readonly CellTable[]): fc.Arbitrary<readonly CellTable[]> {
  const inAnyOrder = <T>(list: readonly T[]): fc.Arbitrary<readonly T[]> =>
    fc.shuffledSubarray([...list], {
      minLength: list.length,
      maxLength: list.length,
    });
  return fc
    .tuple(
      ...blocks.map((block) =>
        inAnyOrder(block.slice(1, -1)).map((rows) => [block[0]!, ...rows, block.at(-1)!]),
      ),
    )
    .chain(inAnyOrder);
}

/** By name, without the row's place in its block. */
function byName(table: CellTable): Map<Cell, readonly Cell[]> {
  const place = table[0]!.indexOf("Row");
  return new Map(
    table.slice(1).map((row) => [row[0]!, row.filter((_, column) => column !== place)]),
  );
}

describe("a schedule", () => {
  it("is solved as the engine solves the same items, for random feeds", () => {
    fc.assert(
      fc.property(randomFeed, margin, (items, asked) => {
        assertAsEngine(feedTableOf(blocksOf(items, asked)), items);
      }),
      { numRuns: 150 },
    );
  });

  it("gives the same rows by name in whatever order blocks and rows stand", () => {
    fc.assert(
      fc.property(
        randomFeed.chain((items) => {
          const blocks = blocksOf(items, 0.1);
          return fc.tuple(fc.constant(blocks), shuffled(blocks));
        }),
        ([typed, other]) => {
          expect(byName(feedTableOf(other))).toEqual(byName(feedTableOf(typed)));
        },
      ),
      { numRuns: 60 },
    );
    for (const { blocks, askedFor } of [trackside(), umbilical()]) {
      const typed = [...blocks, askedFor];
      fc.assert(
        fc.property(shuffled(typed), (other) => {
          expect(byName(feedTableOf(other))).toEqual(byName(feedTableOf(typed)));
        }),
        { numRuns: 20 },
      );
    }
  });

  it("stands in feeding order: every item behind the one that feeds it, branch by branch", () => {
    fc.assert(
      fc.property(randomFeed, (items) => {
        const rows = feedTableOf(blocksOf(items, 0)).slice(1);
        const names = rows.map(([name]) => name);
        rows.forEach(([, fedFrom], at) => {
          if (fedFrom === "") return;
          const feeding = names.indexOf(fedFrom!);
          assert.ok(feeding >= 0 && feeding < at, `row ${at}`);
          // What stands between is fed by the same item, at some distance.
          for (let between = feeding + 1; between < at; between++) {
            let from = between;
            while (from > feeding) from = names.indexOf(rows[from]![1]!);
            assert.equal(from, feeding, `row ${between}`);
          }
        });
      }),
      { numRuns: 60 },
    );
  });
});
