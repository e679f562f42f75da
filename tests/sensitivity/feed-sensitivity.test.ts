import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compiledFeed, type CompiledFeed } from "../../src/network/compiled-feed.js";
import { columnsOf, type FeedColumns } from "../../src/network/feed-columns.js";
import { loadOf } from "../../src/network/feed-conditions.js";
import { FEED_KINDS } from "../../src/network/feed-item.js";
import { enterRow } from "../../src/network/feed-numbers.js";
import {
  FEED_QUANTITIES,
  type FeedQuantity,
  feedQuantity,
  type FeedQuantityName,
} from "../../src/sensitivity/feed-quantities.js";
import { feedSensitivity } from "../../src/sensitivity/feed-sensitivity.js";
import { isEntered, type MovableFeed, movableFeed } from "../../src/sensitivity/movable-feed.js";
import { MOVING_FIGURES, type MovingFigure } from "../../src/sensitivity/moving-figures.js";
import { solveTree } from "../../src/network/feed-solver.js";
import { InputError } from "../../src/quantities/errors.js";
import { feedItem, movableOf } from "../helpers/feed.js";
import { randomFeed } from "../helpers/random-feed.js";
import { type ItemDetails, type JudgedFeed, NO_DETAILS } from "../../src/judgement/judged-feed.js";
import { KINDS, ROW_KINDS } from "../../src/network/row-kinds.js";

const FEEDS = 300;
const SEED = 20261129;

/** Enters and solves; undefined where a tree collapses. Rows are not checked, so that any figure may be moved a little. */
function solved(columns: FeedColumns, feed = compiledFeed(columns)): CompiledFeed | undefined {
  for (const { order } of feed.trees) {
    for (const row of order) {
      const voltage = columns.figures.voltage[row]! || 0;
      enterRow(feed.numbers, columns, row, voltage, loadOf(columns, row, "nominal"));
    }
    if (solveTree(order, feed).outcome !== "solved") return undefined;
  }
  return feed;
}

function requireSolved(columns: FeedColumns, feed?: CompiledFeed): CompiledFeed {
  const found = solved(columns, feed);
  assert.ok(found);
  return found;
}

/** Gives every item but the supplies one end of a window, each with a margin of its own, and all a rating. */
function enterLimits({ columns, state }: CompiledFeed): void {
  const { lowestVoltage, highestVoltage, ratedCurrent } = columns.figures;
  for (let row = 0; row < columns.count; row++) {
    ratedCurrent[row] = 10 + row;
    const end = row % 2 === 0 ? lowestVoltage : highestVoltage;
    const far = 1.5 + 0.037 * row;
    const isSupply = FEED_KINDS[columns.kind[row]!] === "supply";
    for (const other of [lowestVoltage, highestVoltage]) other[row] = Number.NaN;
    if (!isSupply) end[row] = state.inputVoltage[row]! * (row % 2 === 0 ? 1 / far : far);
  }
}

/**
 * Gives every run a cable of a size for its current, in air, and every row a mass and a price. The figures of its heat
 * lie off the ends of what they may be, so that they may be moved to either side.
 */
function withDetails({ columns, state }: CompiledFeed): JudgedFeed {
  const details = columns.item.map((_, row): ItemDetails => {
    const figures = { mass: 1 + 0.3 * row, price: 20 + 7 * row };
    if (KINDS[columns.kind[row]!]!.builtOf !== "conductors") return { ...NO_DETAILS, figures };
    const cores = row % 3 === 0 ? 4 : 2;
    const area = state.outputCurrent[row]! / (cores / 2) / columns.figures.inParallel[row]! / 3;
    const metalMm = Math.sqrt((4 * cores * area) / Math.PI);
    return {
      size: { sizing: "bare metal", areaMm2: area },
      words: { insulation: "PVC" },
      figures: {
        ...figures,
        cores,
        outerDiameter: (metalMm * 1.8 + 2) / 1000,
        hottestC: 20 + row,
        ...(row % 2 === 0 && { grouping: 0.75, sun: 120 + 10 * row }),
        altitude: 100 + 50 * row,
      },
      unread: new Map(),
    };
  });
  return { columns, details };
}

/** Four solutions about the figure: the error falls with the fourth power of the step. */
function difference(
  { columns, figures }: MovableFeed,
  row: number,
  figure: MovingFigure,
  quantity: FeedQuantity,
  { entered: asEntered, moved }: Readonly<Record<"entered" | "moved", CompiledFeed>>,
) {
  const column = figures[figure];
  const entered = column[row]!;
  const isSolvedFor = figure in columns.figures;
  const at = (part: number) => {
    column[row] = entered * (1 + part);
    // What is no column of the feed cannot move its solution.
    const value = quantity.value(isSolvedFor ? requireSolved(columns, moved) : asEntered);
    column[row] = entered;
    return value;
  };
  const step = 5e-4;
  const near = (at(step) - at(-step)) / (2 * step);
  const far = (at(2 * step) - at(-2 * step)) / (4 * step);
  return (4 * near - far) / 3;
}

interface Asked {
  readonly quantity: FeedQuantity;
  readonly of: string;
}

/** Of the whole feed, and of up to four of its items, the first of its runs among them. */
function quantitiesOf(feed: CompiledFeed, movable: MovableFeed): Asked[] {
  const { columns } = feed;
  const run = [...columns.kind].findIndex((kind) => KINDS[kind]!.builtOf === "conductors");
  const rows = [...new Set([0, columns.count >> 1, columns.count - 1, Math.max(run, 0)])];
  return FEED_QUANTITIES.flatMap((name) =>
    [undefined, ...rows].flatMap((row): Asked[] => {
      try {
        const quantity = feedQuantity(name, feed, row, movable);
        return [{ quantity, of: row === undefined ? "feed" : columns.item[row]! }];
      } catch (error) {
        // The item has no such quantity.
        if (error instanceof InputError) return [];
        throw error;
      }
    }),
  );
}

describe("the sensitivities of a feed", () => {
  it(`agree with differences of the solver to 1e-6, in ${FEEDS} random feeds`, () => {
    const feeds = fc
      .sample(randomFeed, { numRuns: 2 * FEEDS, seed: SEED })
      .map(columnsOf)
      .filter((columns) => solved(columns) !== undefined)
      .slice(0, FEEDS);
    for (const columns of feeds) enterLimits(requireSolved(columns));
    assert.equal(feeds.length, FEEDS);
    const seen = new Set<string>();
    let compared = 0;
    feeds.forEach((columns, index) => {
      const feed = requireSolved(columns);
      const moved = compiledFeed(columns);
      const movable = movableFeed(withDetails(feed));
      const all = quantitiesOf(feed, movable);
      // Every feed with two of them: each comes up a dozen times and more.
      for (const { quantity, of } of [0, 7].map((more) => all[(5 * index + more) % all.length]!)) {
        const { slopes, value } = feedSensitivity(feed, quantity, movable);
        for (let row = 0; row < columns.count; row++)
          for (const figure of MOVING_FIGURES) {
            if (!isEntered(movable, row, figure)) {
              assert.ok(Number.isNaN(slopes[figure][row]!));
              continue;
            }
            const found = slopes[figure][row]! * movable.figures[figure][row]!;
            const wanted = difference(movable, row, figure, quantity, { entered: feed, moved });
            const apart = Math.abs(found - wanted);
            assert.ok(
              apart <= 1e-6 * Math.abs(wanted) + 1e-10 * Math.abs(value),
              `${quantity.name} of ${of}, ${figure} of ${columns.item[row]}: ${found}, ${wanted}`,
            );
            compared++;
            if (found !== 0) seen.add(FEED_KINDS[columns.kind[row]!]!).add(figure);
          }
        seen.add(`${quantity.name}, ${of === "feed" ? "feed" : "item"}`);
      }
    });
    assert.ok(compared > 10_000, String(compared));
    // On a tree nothing is fed from several.
    for (const kind of FEED_KINDS)
      if (ROW_KINDS[kind].fedBy === "one") assert.ok(seen.has(kind), kind);
    for (const figure of MOVING_FIGURES) assert.ok(seen.has(figure), figure);
    for (const name of FEED_QUANTITIES)
      assert.ok(seen.has(`${name}, item`) || seen.has(`${name}, feed`));
  });

  /** 400 V, 2 Ω, 10 kW: V = (E + √(E² − 4RP))/2. */
  const columns = columnsOf([
    feedItem("Bus", undefined, "supply", { voltage: 400 }),
    feedItem("Cable", "Bus", "run", { resistance: 2, ratedCurrent: 40 }),
    feedItem("Camp", "Cable", "power load", { load: 10_000, lowestVoltage: 300 }),
  ]);
  const slopesOf = (name: FeedQuantityName, row?: number) => {
    const feed = requireSolved(columns);
    const movable = movableOf(columns);
    return feedSensitivity(feed, feedQuantity(name, feed, row, movable), movable).slopes;
  };

  it("are those of the closed form of two roots", () => {
    // Own derivation: with s = √(E² − 4RP), dV/dE = (1 + E/s)/2 and dV/dR = −P/s; the loss is P(E/V − 1).
    const loss = slopesOf("loss");
    expect(loss.voltage[0]).toBeCloseTo(-12.132034, 6);
    expect(loss.resistance[1]).toBeCloseTo(1213.20344, 5);
    const voltage = slopesOf("input voltage", 2);
    expect(voltage.voltage[0]).toBeCloseTo(1.207107, 6);
    expect(voltage.resistance[1]).toBeCloseTo(-35.35534, 5);
    expect(voltage.load[2]).toBeCloseTo(-2 / Math.sqrt(80_000), 12);
  });

  it("tell a limit's own part in a margin and in a loading", () => {
    const voltage = 200 + Math.sqrt(20_000);
    expect(slopesOf("lowest margin").lowestVoltage[2]).toBeCloseTo(-voltage / 300 ** 2, 12);
    const loading = 10_000 / voltage / 40;
    expect(slopesOf("highest loading", 1).ratedCurrent[1]).toBeCloseTo(-loading / 40, 12);
  });

  /** 100 m of 4 mm² to a load of 20 A: the heat of its cable rests on no voltage. */
  const heated = (figures: ItemDetails["figures"]) => {
    const judged = {
      columns: columnsOf([
        feedItem("Bus", undefined, "supply", { voltage: 400 }),
        feedItem("Cable", "Bus", "run", { resistance: 1, inParallel: 2 }),
        feedItem("Camp", "Cable", "current load", { load: 40 }),
      ]),
      details: [
        NO_DETAILS,
        {
          ...NO_DETAILS,
          size: { sizing: "metric name", nominalMm2: 4, written: "4 mm²" } as const,
          words: { insulation: "PVC" },
          figures: { outerDiameter: 0.012, hottestC: 40, ...figures },
        },
        NO_DETAILS,
      ],
    };
    const movable = movableFeed(judged);
    const feed = requireSolved(judged.columns);
    return feedSensitivity(feed, feedQuantity("conductor temperature", feed, 1, movable), movable);
  };

  it("of a cable's temperature reach the ends of what its figures may be", () => {
    const { slopes } = heated({ grouping: 1, sun: 0 });
    // The group's part divides the current of a core, so that its slope is −I/g times that with the current.
    expect(slopes.grouping[1]).toBeCloseTo(-40 * slopes.load[2]!, 5);
    const beside = (figures: ItemDetails["figures"]) => heated(figures).value;
    const bySun = (beside({ sun: 2e-3 }) - beside({ sun: 0 })) / 2e-3;
    expect(slopes.sun[1]).toBeCloseTo(bySun, 6);
    expect(slopes.load[2]).toBeGreaterThan(0.5);
    // The feed's own resistance is that at the hottest conductor: the heat balance has its own.
    expect(Math.abs(slopes.resistance[1]!)).toBe(0);
  });

  it("of a cable without current are those of the air about it", () => {
    const judged = columnsOf([
      feedItem("Bus", undefined, "supply", { voltage: 400 }),
      feedItem("Cable", "Bus", "run", { resistance: 1 }),
      feedItem("Camp", "Cable", "current load", { load: 0 }),
    ]);
    const details = [
      NO_DETAILS,
      {
        ...NO_DETAILS,
        size: { sizing: "bare metal", areaMm2: 4 } as const,
        words: { insulation: "XLPE" },
        figures: { outerDiameter: 0.012, hottestC: 31 },
      },
      NO_DETAILS,
    ];
    const movable = movableFeed({ columns: judged, details });
    const feed = requireSolved(judged);
    const quantity = feedQuantity("conductor temperature", feed, 1, movable);
    const { value, slopes } = feedSensitivity(feed, quantity, movable);
    assert.deepEqual([value, slopes.hottestC[1], slopes.load[2]], [31, 1, 0]);
  });
});
