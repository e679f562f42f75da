import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import type { FeedItem } from "../../src/network/feed-item.js";
import { operatingPoint } from "../../src/network/operating-point.js";
import { feedItem, requireSolved } from "../helpers/feed.js";

// Figures that can be done by hand; no published case holds these rows.

const solve = (
  items: readonly FeedItem[],
  conditions?: Parameters<typeof operatingPoint>[1],
) => {
  const point = operatingPoint(items, conditions);
  const row = (name: string) =>
    requireSolved(
      point.rows.find(
        ({ item }) => (typeof item === "string" ? item : item.item) === name,
      ),
    );
  return { ...point, row };
};

describe("rows with several items in parallel", () => {
  const feed = (inParallel: number) =>
    solve([
      feedItem("Bus", undefined, "supply", { voltage: 100, resistance: 0.001 }),
      feedItem("Run", "Bus", "run", {
        resistance: 0.3,
        inParallel,
        ratedCurrent: 2,
      }),
      feedItem("Lamps", "Run", "current load", {
        load: 1,
        inParallel: 3,
        ratedCurrent: 1,
      }),
    ]);

  it("share the current: resistance over n, loads times n, loading of one", () => {
    const { row } = feed(3);
    expect(row("Run").output?.current).toBeCloseTo(3, 12);
    expect(row("Run").loss).toBeCloseTo(0.1 * 9, 12);
    expect(row("Run").loading).toBeCloseTo(3 / (3 * 2), 12);
    expect(row("Lamps").loading).toBeCloseTo(1, 12);
    expect(
      feed(1)
        .row("Run")
        .notes.map(({ text }) => text),
    ).toEqual(["at 1.5 of its rated current"]);
  });

  it("n stages lose n times the fixed loss and an n-th of the quadratic one", () => {
    // 10 A through two stages of 4 W + 0.1 V·I + 0.05 Ω·I² each: 2·(4 + 0.1·5 + 0.05·25) W.
    const { row } = solve([
      feedItem("Bus", undefined, "supply", { voltage: 100, resistance: 0.001 }),
      feedItem("Stage", "Bus", "regulated", {
        voltage: 12,
        lowestVoltage: 60,
        highestVoltage: 120,
        fixedLoss: 4,
        linearLoss: 0.1,
        quadraticLoss: 0.05,
        inParallel: 2,
      }),
      feedItem("Load", "Stage", "current load", { load: 10 }),
    ]);
    expect(row("Stage").loss).toBeCloseTo(2 * (4 + 0.1 * 5 + 0.05 * 25), 12);
  });
});

describe("a ratio row", () => {
  const feed = (figures: Partial<FeedItem>) =>
    solve([
      feedItem("Bus", undefined, "supply", { voltage: 400 }),
      feedItem("Stage", "Bus", "ratio", { ratio: 1 / 8, ...figures }),
      feedItem("Load", "Stage", "current load", { load: 20 }),
    ]);

  // 400/8 − 0.015·20 = 49.7 V; loss 18 + 0.2·20 + 0.02·400 = 30 W of which 0.015·400 = 6 W is the droop's.
  it("drops its resistance and counts its quadratic loss once", () => {
    const { row, totals } = feed({
      resistance: 0.015,
      fixedLoss: 18,
      linearLoss: 0.2,
      quadraticLoss: 0.02,
    });
    expect(row("Stage").output?.voltage).toBeCloseTo(49.7, 12);
    expect(row("Stage").loss).toBeCloseTo(30, 12);
    expect(row("Stage").inputCurrent).toBeCloseTo(
      20 / 8 + (18 + 0.2 * 20 + 0.005 * 400) / 400,
      12,
    );
    assert.ok(Math.abs(totals.closingError) <= 1e-9 * totals.supplyPower);
  });

  it("by efficiency draws the output power over it, and says that light-load loss is not counted", () => {
    const { row } = feed({ efficiency: 0.96 });
    expect(row("Stage").inputPower).toBeCloseTo(1000 / 0.96, 9);
    expect(row("Stage").notes.map(({ code }) => code)).toEqual(["efficiency"]);
  });

  it.each<[string, Partial<FeedItem>, RegExp]>([
    [
      "an efficiency beside a resistance",
      { efficiency: 0.96, resistance: 0.01 },
      /efficiency must be blank on a ratio row that has a resistance/,
    ],
    [
      "an efficiency beside losses",
      { efficiency: 0.96, fixedLoss: 3 },
      /efficiency must be blank where losses are given/,
    ],
    [
      "a quadratic loss below its droop",
      { resistance: 0.02, quadraticLoss: 0.01 },
      /quadraticLoss must be at least the row's resistance 0.02/,
    ],
    [
      "an efficiency above 1",
      { efficiency: 1.2 },
      /efficiency must be above 0 and at most 1/,
    ],
    ["a negative ratio", { ratio: -1 }, /ratio must be above 0, got -1/],
  ])("refuses %s", (_, figures, message) => {
    const [row] = operatingPoint([
      feedItem("Bus", undefined, "supply", { voltage: 400 }),
      feedItem("Stage", "Bus", "ratio", { ratio: 1 / 8, ...figures }),
    ]).rows;
    assert.ok(row?.outcome === "refused");
    expect(row.error.message).toMatch(message);
  });
});

describe("a series row", () => {
  it("drops its forward voltage only where current flows", () => {
    const feed = (load: number) =>
      solve([
        feedItem("Bus", undefined, "supply", { voltage: 48, resistance: 0.01 }),
        feedItem("Diode", "Bus", "series", { voltage: 0.7, resistance: 0.02 }),
        feedItem("Load", "Diode", "current load", { load }),
      ]).row;
    expect(feed(10)("Load").inputVoltage).toBeCloseTo(48 - 0.1 - 0.7 - 0.2, 12);
    // (V_f + I·R)·I = (0.7 + 0.2)·10
    expect(feed(10)("Diode").loss).toBeCloseTo(9, 12);
    expect(feed(0)("Load").inputVoltage).toBe(48);
  });
});

describe("a start that may latch", () => {
  // Behind a ratio the feed's resistance counts with the square of the ratio: 64 Ω behind 1/8 is 1 Ω; 500 W at the
  // stage's output then have the roots V² − 50·V + 500 = 0: 36.18 V and 13.82 V.
  it("is judged behind a ratio by the resistance seen from there", () => {
    const { row } = solve([
      feedItem("Bus", undefined, "supply", { voltage: 400 }),
      feedItem("Cable", "Bus", "run", { resistance: 64 }),
      feedItem("Stage", "Cable", "ratio", { ratio: 1 / 8 }),
      feedItem("Load", "Stage", "power load", { load: 500, lowestVoltage: 13 }),
    ]);
    expect(row("Load").inputVoltage).toBeCloseTo(25 + Math.sqrt(125), 9);
    expect(row("Load").notes.map(({ text }) => text)).toEqual([
      "may latch at 13.82 V on start",
    ]);
  });

  it("is not told of a current load, which has no second root", () => {
    const { row } = solve([
      feedItem("Bus", undefined, "supply", { voltage: 400 }),
      feedItem("Cable", "Bus", "run", { resistance: 64 }),
      feedItem("Load", "Cable", "current load", { load: 4, lowestVoltage: 20 }),
    ]);
    expect(row("Load").notes.map(({ code }) => code)).toEqual([]);
  });
});

describe("load cases", () => {
  const items = [
    feedItem("Bus", undefined, "supply", { voltage: 100 }),
    feedItem("Heater", "Bus", "resistance load", {
      load: 50,
      lightLoad: 200,
      peakLoad: 25,
    }),
  ];

  // 100²/50 = 200 W; at twice the load the heater is 25 Ω.
  it.each([
    ["nominal", 200],
    ["light", 50],
    ["peak", 400],
    [2, 400],
    ["none", 0],
  ] as const)("a resistance load at %s", (loads, watts) => {
    expect(
      solve(items, { loads, supply: "nominal" }).totals.loadPower,
    ).toBeCloseTo(watts, 9);
  });

  it("needs the window of the supply to solve at its ends, and says so", () => {
    const [row] = operatingPoint(items, {
      loads: "nominal",
      supply: "lowest",
    }).rows;
    assert.ok(row?.outcome === "refused");
    expect(row.error.message).toMatch(
      /lowestVoltage must be given on the supply to solve at its lowest voltage/,
    );
  });
});

describe("size", () => {
  it("takes 100 000 rows in one line without running out of stack", () => {
    const rows = 100_000;
    const items = Array.from({ length: rows }, (_, index) =>
      index === 0
        ? feedItem("0", undefined, "supply", { voltage: 1000 })
        : feedItem(String(index), String(index - 1), "run", {
            resistance: 1e-6,
          }),
    );
    const { row, totals } = solve([
      ...items,
      feedItem("Load", String(rows - 1), "power load", { load: 1000 }),
    ]);
    // V = (1000 + √(10⁶ − 4·0.099999·1000))/2
    expect(row("Load").inputVoltage).toBeCloseTo(
      (1000 + Math.sqrt(1e6 - 4 * 0.099999 * 1000)) / 2,
      6,
    );
    assert.ok(Math.abs(totals.closingError) <= 1e-9 * totals.supplyPower);
  });
});
