import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import type { FeedItem } from "../../src/network/feed-item.js";
import { feedRowSteps, feedRowValues } from "../../src/network/feed-steps.js";
import { operatingPoint } from "../../src/network/operating-point.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { feedNetlist } from "../helpers/feed-netlist.js";
import { requireSolved } from "../helpers/feed.js";
import { operatingPoint as ngspice } from "../helpers/ngspice.js";
import { randomFeed, withLoads } from "../helpers/random-feed.js";

const TREES = 220;
/** Of them, this many stand close to collapse. */
const CLOSE = 30;
const SEED = 20261125;

/** Largest multiple of all loads that the feed carries, to 1e-9; undefined where it carries none or any. */
function collapseMultiple(items: readonly FeedItem[]): number | undefined {
  const carries = (multiple: number) =>
    operatingPoint(withLoads(items, multiple)).rows.every(({ outcome }) => outcome === "solved");
  let carried = 1e-6;
  if (!carries(carried)) return undefined;
  let refused = carried;
  while (carries(refused) && refused < 1e9) refused *= 4;
  if (refused >= 1e9) return undefined;
  carried = refused / 4;
  while (refused - carried > 1e-9 * refused) {
    const middle = (carried + refused) / 2;
    if (carries(middle)) carried = middle;
    else refused = middle;
  }
  return carried;
}

/** Random feeds whose loads are scaled so that the feed collapses at `headroom` times them. */
const feeds: readonly {
  readonly items: readonly FeedItem[];
  readonly headroom: number;
}[] = fc
  .sample(fc.tuple(randomFeed, fc.noBias(fc.integer({ min: 0, max: 1000 }))), {
    numRuns: 400,
    seed: SEED,
  })
  .flatMap(([items, thousandths], index) => {
    const chance = thousandths / 1000;
    const most = collapseMultiple(items);
    if (most === undefined) return [];
    const headroom = index % 5 === 0 ? 1.3 + 0.2 * chance : 1.5 + 8 * chance;
    return [{ items: withLoads(items, most / headroom), headroom }];
  })
  .slice(0, TREES);

describe("operatingPoint on random trees of every kind", () => {
  it(`has ${TREES} trees to go by, ${CLOSE} of them with a headroom of 1.3 to 1.5`, () => {
    assert.equal(feeds.length, TREES);
    assert.ok(feeds.filter(({ headroom }) => headroom <= 1.5).length >= CLOSE);
    const kinds = new Set(feeds.flatMap(({ items }) => items.map(({ kind }) => kind)));
    assert.equal(kinds.size, 8);
  });

  it("agrees with ngspice to 1e-6 in every voltage and current", async () => {
    let retried = 0;
    for (const { items } of feeds) {
      const first = worstDifference(items, await ngspice(feedNetlist(items)));
      if (first <= 1e-6) continue;
      // ngspice may land on the lower root or stop short of its tolerance: once more, from our solution.
      retried++;
      const again = worstDifference(items, await ngspice(feedNetlist(items, ourVoltages(items))));
      assert.ok(again <= 1e-6, `differs by ${again} in ${JSON.stringify(items)}`);
    }
    assert.ok(retried <= 2, `${retried} trees had to be solved again`);
  }, 120_000);

  it("closes the power of every tree to 1e-9 and proves each root to be the upper one", () => {
    for (const { items } of feeds) {
      const { totals, solutions } = operatingPoint(items);
      assert.ok(Math.abs(totals.closingError) <= 1e-9 * totals.supplyPower);
      for (const solution of solutions) {
        assert.ok(
          solution.outcome === "solved" && solution.leastDivisor > 0 && solution.residual <= 1e-9,
        );
      }
    }
  });

  it("leaves no residual in any equation that its working shows", () => {
    for (const { items } of feeds.slice(0, 40)) {
      const { rows } = operatingPoint(items);
      const values = feedRowValues(rows);
      rows.forEach((row, index) =>
        assertSteps(feedRowSteps[requireSolved(row).item.kind], values[index] ?? {}),
      );
    }
  });

  it("lowers every voltage when every load grows", () => {
    for (const { items, headroom } of feeds) {
      const lighter = operatingPoint(items).rows.map(requireSolved);
      const heavier = operatingPoint(withLoads(items, 1 + 0.5 * (headroom - 1))).rows.map(
        requireSolved,
      );
      heavier.forEach((row, index) => {
        const before = lighter[index]?.inputVoltage ?? 0;
        assert.ok(row.inputVoltage <= before * (1 + 1e-12), `${row.item.item} rose`);
      });
    }
  });
});

function ourVoltages(items: readonly FeedItem[]): Map<number, number> {
  const voltages = new Map<number, number>();
  operatingPoint(items).rows.forEach((row, index) => {
    const { output } = requireSolved(row);
    if (output) voltages.set(index, output.voltage);
  });
  return voltages;
}

/** Largest difference of a voltage or a supply's current, as a part of it. */
function worstDifference(
  items: readonly FeedItem[],
  circuit: Readonly<Record<string, number>>,
): number {
  let worst = 0;
  const compare = (ours: number, theirs: number | undefined) => {
    assert.ok(theirs !== undefined, "ngspice gave no such value");
    worst = Math.max(worst, Math.abs(ours - theirs) / Math.abs(ours));
  };
  operatingPoint(items).rows.forEach((row, index) => {
    const { item, output } = requireSolved(row);
    if (!output) return;
    compare(output.voltage, circuit[`v(n${index})`]);
    if (item.kind !== "run") compare(output.current, circuit[`i(vs${index})`]);
  });
  return worst;
}
