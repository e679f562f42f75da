import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { feedWorst, type WorstRow } from "../../src/network/feed-worst.js";
import type { FeedItem } from "../../src/network/feed-item.js";
import type { SolvedRow } from "../../src/network/feed-row.js";
import { operatingPoint } from "../../src/network/operating-point.js";
import { NoAnswerError } from "../../src/quantities/errors.js";
import { feedItem, requireSolved } from "../helpers/feed.js";
import { randomFeed } from "../helpers/random-feed.js";

const SEED = 20261125;

const unit = fc.noBias(
  fc.integer({ min: 0, max: 1000 }).map((thousandths) => thousandths / 1000),
);

/** Random feeds of one supply with a window, tolerances on up to five items, peaks and windows; far from collapse. */
const worstFeed: fc.Arbitrary<readonly FeedItem[]> = fc
  .tuple(randomFeed, fc.array(unit, { minLength: 60, maxLength: 60 }))
  .map(([items, chance]) => {
    const first = items.find(({ kind }) => kind === "supply")!;
    let toleranced = 0;
    return items.map((item, row): FeedItem => {
      const a = chance[row % 60]!;
      const b = chance[(row * 7 + 3) % 60]!;
      if (item.kind === "supply")
        return {
          ...item,
          lowestVoltage: item.voltage! * (0.9 + 0.1 * a),
          highestVoltage: item.voltage! * (1 + 0.15 * b),
        };
      const light = item.kind.endsWith("load") && a < 0.5;
      const resistive = item.kind === "resistance load";
      return {
        ...item,
        // Far enough below collapse that every corner has an operating point, which is not what is tried here.
        load: item.load && item.load * (resistive ? 8 : 0.12),
        lightLoad: light ? item.load! * (resistive ? 40 : 0.02) : undefined,
        peakLoad:
          item.kind.endsWith("load") && b < 0.5
            ? item.load! * (resistive ? 6 : 0.16)
            : undefined,
        fixedLoss: item.fixedLoss && item.fixedLoss * 0.1,
        ratedCurrent: a < 0.4 ? 0.5 + 4 * b : undefined,
        lowestVoltage:
          item.lowestVoltage ??
          (b < 0.6 ? first.voltage! * 0.3 * a : undefined) ??
          undefined,
        tolerance:
          toleranced < 5 && b < 0.4 && ++toleranced
            ? 0.01 + 0.05 * a
            : undefined,
      };
    });
  })
  .filter((items) => items.every(({ lowestVoltage }) => lowestVoltage !== 0));

/** What a tolerance means, written again from the feed table's words. */
function moved(item: FeedItem, sign: number): FeedItem {
  const factor = 1 + sign * (item.tolerance ?? 0);
  const times = (value: number | undefined) => value && value * factor;
  if (item.kind === "ratio") return { ...item, ratio: times(item.ratio) };
  if (item.kind === "regulated")
    return { ...item, voltage: times(item.voltage) };
  if (item.kind === "run" || item.kind === "series")
    return {
      ...item,
      resistance: times(item.resistance),
      voltage: times(item.voltage),
    };
  if (item.kind === "supply") return item;
  return {
    ...item,
    load: times(item.load),
    lightLoad: times(item.lightLoad),
    peakLoad: times(item.peakLoad),
  };
}

interface Extremes {
  lowest: number;
  highest: number;
  current: number;
  loss: number;
  loading: number;
  margin: number;
}

function bruteForce(items: readonly FeedItem[], lose: boolean): Extremes[] {
  const worst = items.map((): Extremes => ({
    lowest: Infinity,
    highest: -Infinity,
    current: -Infinity,
    loss: -Infinity,
    loading: -Infinity,
    margin: Infinity,
  }));
  const toleranced = items.flatMap(({ tolerance }, row) =>
    tolerance ? [row] : [],
  );
  const parallel = items.flatMap(({ inParallel }, row) =>
    inParallel > 1 ? [row] : [],
  );
  for (const lost of [-1, ...(lose ? parallel : [])])
    for (let corner = 0; corner < 2 ** toleranced.length; corner++) {
      const cornered = items.map((item, row) => {
        const at = toleranced.indexOf(row);
        const one = at < 0 ? item : moved(item, corner & (1 << at) ? 1 : -1);
        return row === lost ? { ...one, inParallel: one.inParallel - 1 } : one;
      });
      for (const supply of ["lowest", "nominal", "highest"] as const)
        for (const loads of ["none", "light", "peak"] as const)
          operatingPoint(cornered, { supply, loads }).rows.forEach(
            (row, index) => widen(worst[index]!, requireSolved(row)),
          );
    }
  return worst;
}

function widen(
  worst: Extremes,
  { item, inputVoltage, inputCurrent, loss, loading }: SolvedRow,
) {
  worst.lowest = Math.min(worst.lowest, inputVoltage);
  worst.highest = Math.max(worst.highest, inputVoltage);
  worst.current = Math.max(worst.current, inputCurrent);
  worst.loss = Math.max(worst.loss, loss);
  worst.loading = Math.max(worst.loading, loading ?? -Infinity);
  if (item.kind === "supply") return;
  const { lowestVoltage: low, highestVoltage: high } = item;
  if (low !== undefined)
    worst.margin = Math.min(worst.margin, inputVoltage / low - 1);
  if (high !== undefined)
    worst.margin = Math.min(worst.margin, 1 - inputVoltage / high);
}

function near(found: number, wanted: number, what: string): void {
  assert.ok(
    Math.abs(found - wanted) <= 1e-9 * Math.max(1, Math.abs(wanted)),
    `${what}: ${found}, by brute force ${wanted}`,
  );
}

function requireSame(
  rows: readonly WorstRow[],
  wanted: readonly Extremes[],
): void {
  rows.forEach((row, index) => {
    const by = wanted[index]!;
    const { item } = row.item;
    near(row.lowestInputVoltage, by.lowest, `${item} lowest V`);
    near(row.highestInputVoltage, by.highest, `${item} highest V`);
    near(row.highestInputCurrent, by.current, `${item} highest A`);
    near(row.highestLoss, by.loss, `${item} highest loss`);
    if (row.highestLoading === undefined) assert.equal(by.loading, -Infinity);
    else near(row.highestLoading, by.loading, `${item} loading`);
    if (row.leastMargin === undefined) assert.equal(by.margin, Infinity);
    else near(row.leastMargin, by.margin, `${item} margin`);
  });
}

describe("feedWorst", () => {
  it("equals a brute force over the same cases, with and without a unit lost", () => {
    fc.assert(
      fc.property(worstFeed, fc.boolean(), (items, lose) => {
        requireSame(
          feedWorst(items, lose ? 1 : 0).rows,
          bruteForce(items, lose),
        );
      }),
      { numRuns: 40, seed: SEED },
    );
  });

  it("is never beaten by a case inside the ranges, for feeds without resistance loads", () => {
    const inside = fc.array(unit, { minLength: 40, maxLength: 40 });
    fc.assert(
      fc.property(worstFeed, inside, (feed, chance) => {
        const items = feed.filter(({ kind }) => kind !== "resistance load");
        const { rows } = feedWorst(items, 0);
        const within = items.map((item, row): FeedItem => {
          const at = moved(item, 2 * chance[row % 40]! - 1);
          const heaviest = at.peakLoad ?? at.load;
          const load =
            heaviest && heaviest * Math.min(1, chance[(row * 3) % 40]! + 0.001);
          if (at.kind !== "supply") return { ...at, load };
          const { lowestVoltage: low = 0, highestVoltage: high = 0 } = at;
          const voltage = low + (high - low) * chance[(row * 5) % 40]!;
          return { ...at, voltage };
        });
        operatingPoint(within).rows.forEach((row, index) => {
          const { inputVoltage, inputCurrent, loss } = requireSolved(row);
          const worst = rows[index]!;
          const name = worst.item.item;
          const slack = 1e-9;
          assert.ok(
            inputVoltage >= worst.lowestInputVoltage * (1 - slack),
            `${name} lower V`,
          );
          assert.ok(
            inputVoltage <= worst.highestInputVoltage * (1 + slack),
            `${name} higher V`,
          );
          assert.ok(
            inputCurrent <= worst.highestInputCurrent * (1 + slack),
            `${name} more A`,
          );
          assert.ok(
            loss <= worst.highestLoss * (1 + slack) + 1e-12,
            `${name} more loss`,
          );
        });
      }),
      { numRuns: 60, seed: SEED },
    );
  });

  const pair = (figures: Partial<FeedItem> = {}): FeedItem[] => [
    feedItem("quay", undefined, "supply", {
      voltage: 800,
      lowestVoltage: 760,
      highestVoltage: 840,
    }),
    feedItem("units", "quay", "ratio", {
      ratio: 1 / 16,
      resistance: 0.03,
      inParallel: 2,
      ratedCurrent: 70,
      tolerance: 0.01,
    }),
    feedItem("thrusters", "units", "power load", {
      load: 2400,
      lowestVoltage: 42,
      highestVoltage: 54,
      tolerance: 0,
      ...figures,
    }),
  ];

  it("loses one of two units in its turn: twice the droop, the rating of one", () => {
    const items = pair({ highestVoltage: 60 });
    const [, units, thrusters] = feedWorst(items, 1).rows;
    // One of two left at the lowest supply and ratio: 760 · 0.99/16 = 47.025 V behind 30 mΩ feeding 2400 W.
    const volts = (47.025 + Math.sqrt(47.025 ** 2 - 4 * 0.03 * 2400)) / 2;
    expect(thrusters?.lowestInputVoltage).toBeCloseTo(volts, 9);
    expect(units?.highestLoading).toBeCloseTo(2400 / volts / 70, 9);
    expect(thrusters?.at.lost?.item).toBe("units");
    const both = feedWorst(items, 0).rows[2]!;
    expect(both.lowestInputVoltage).toBeGreaterThan(volts);
    expect(both.at.lost).toBeUndefined();
  });

  it("meets the highest voltage at no load, highest supply and highest ratio", () => {
    const thrusters = feedWorst(pair(), 0).rows[2]!;
    expect(thrusters.highestInputVoltage).toBeCloseTo((840 * 1.01) / 16, 12);
    // 54 − 53.025 is closer than what is left above 42 V.
    expect(thrusters.leastMargin).toBeCloseTo(1 - 53.025 / 54, 12);
    expect(thrusters.at).toMatchObject({ supply: "highest", loads: "none" });
  });

  it("says what it took for granted: no tolerance, no window of the supply, not every corner", () => {
    const codes = (items: readonly FeedItem[], row: number) =>
      feedWorst(items, 0).rows[row]!.notes.map(({ code }) => code);
    expect(codes(pair({ tolerance: undefined }), 2)).toContain("no-tolerance");
    expect(codes(pair(), 2)).not.toContain("no-tolerance");
    const narrow = pair().map((item) =>
      item.kind === "supply" ? { ...item, highestVoltage: undefined } : item,
    );
    expect(codes(narrow, 0)).toContain("no-supply-window");
    const many = [
      ...pair(),
      ...Array.from({ length: 10 }, (_, index) =>
        feedItem(`lamp ${index}`, "units", "power load", {
          load: 5,
          tolerance: 0.1,
        }),
      ),
    ];
    expect(codes(many, 0)).toContain("not-every-corner");
    expect(codes(pair(), 0)).not.toContain("not-every-corner");
  });

  it("tries beyond ten toleranced items each alone and all together, the lowering way among them", () => {
    const lamps = Array.from({ length: 11 }, (_, index) =>
      feedItem(`lamp ${index}`, "units", "power load", {
        load: 50,
        tolerance: 0.1,
      }),
    );
    const items = [...pair(), ...lamps];
    const lowered = items.map((item) =>
      moved(item, item.kind === "ratio" ? -1 : 1),
    );
    const { rows } = operatingPoint(lowered, {
      supply: "lowest",
      loads: "peak",
    });
    expect(feedWorst(items, 0).rows[2]!.lowestInputVoltage).toBeCloseTo(
      requireSolved(rows[2]).inputVoltage,
      9,
    );
  });

  it("names the case in which there is no operating point", () => {
    const items = pair({ load: 20_000 });
    assert.throws(
      () => feedWorst(items, 1),
      (error: unknown) => {
        assert.ok(error instanceof NoAnswerError);
        expect(error.message).toMatch(
          /supply lowest, loads peak.*one of units lost.*"thrusters"/,
        );
        return true;
      },
    );
  });

  it("refuses what would take too long instead of hanging", () => {
    const many = [
      ...pair(),
      ...Array.from({ length: 900 }, (_, index) =>
        feedItem(`lamp ${index}`, "units", "power load", {
          load: 0.001,
          inParallel: 2,
        }),
      ),
    ];
    assert.throws(() => feedWorst(many, 1), /too many cases/);
    expect(feedWorst(many, 0).rows.length).toBe(903);
  });
});
