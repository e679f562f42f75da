import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import type { FeedItem } from "../../src/network/feed-item.js";
import { operatingPoint } from "../../src/network/operating-point.js";
import { feedItem, requireSolved } from "../helpers/feed.js";
import { NGSPICE_OPTIONS, transient } from "../helpers/ngspice.js";

// Figures that can be done by hand; no published case holds these rows.

const solve = (items: readonly FeedItem[], conditions?: Parameters<typeof operatingPoint>[1]) => {
  const point = operatingPoint(items, conditions);
  const row = (name: string) =>
    requireSolved(
      point.rows.find(({ item }) => (typeof item === "string" ? item : item.item) === name),
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
        .caveats.map(({ text }) => text),
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
    expect(row("Stage").inputCurrent).toBeCloseTo(20 / 8 + (18 + 0.2 * 20 + 0.005 * 400) / 400, 12);
    assert.ok(Math.abs(totals.closingError) <= 1e-9 * totals.supplyPower);
  });

  it("by efficiency draws the output power over it, and says that light-load loss is not counted", () => {
    const { row } = feed({ efficiency: 0.96 });
    expect(row("Stage").inputPower).toBeCloseTo(1000 / 0.96, 9);
    expect(row("Stage").caveats.map(({ code }) => code)).toEqual(["efficiency"]);
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
    ["an efficiency above 1", { efficiency: 1.2 }, /efficiency must be above 0 and at most 1/],
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

describe("several refused rows of one tree", () => {
  it("are told by the first one in the table, whatever feeds it", () => {
    // The table names what is fed before what feeds it.
    const { rows } = operatingPoint([
      feedItem("Lamp", "Cable", "current load", { load: -1 }),
      feedItem("Cable", "Bus", "run", { resistance: -2 }),
      feedItem("Bus", undefined, "supply", { voltage: -48 }),
    ]);
    for (const row of rows) {
      assert.ok(row.outcome === "refused");
      assert.equal(row.blamed, "Lamp");
      assert.match(row.error.message, /^load must be/);
    }
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
    expect(row("Load").caveats.map(({ text }) => text)).toEqual(["may latch at 13.82 V on start"]);
  });

  /** 48 V behind 1 Ω feeding two loads of 250 W, each on above `lowest`. */
  const pair = (lowest: number) =>
    solve([
      feedItem("S", undefined, "supply", { voltage: 48, resistance: 0.001 }),
      feedItem("c", "S", "run", { resistance: 0.999 }),
      ...["A", "B"].map((name) =>
        feedItem(name, "c", "power load", {
          load: 250,
          lowestVoltage: lowest,
          highestVoltage: 60,
        }),
      ),
    ]).row;

  it("is judged with all loads coming up together", () => {
    // V² − 48·V + 500 = 0: 32.72 V and 15.28 V.
    expect(pair(10)("A").caveats.map(({ text }) => text)).toEqual([
      "may latch at 15.28 V on start",
    ]);
    expect(pair(20)("A").caveats).toEqual([]);
    expect(pair(20)("A").inputVoltage).toBeCloseTo(24 + Math.sqrt(76), 9);
  });

  it("is what ngspice finds when the supply is switched on: latched above 10 V, started above 20 V", async () => {
    const settled = async (lowest: number) => {
      // Each load switches on over 50 mV around its lowest voltage, so that the transient is smooth.
      const on = `(1/(1+exp(-(v(n)-${lowest})/0.05)))`;
      const waves = await transient(
        [
          "vs s 0 48",
          "r1 s n 1",
          "c1 n 0 1m",
          `bl n 0 i=500/max(v(n),1)*${on}`,
          ".ic v(n)=0",
          NGSPICE_OPTIONS,
        ].join("\n"),
        "10u 100m 0 50u uic",
      );
      return waves["v(n)"]!.at(-1)!;
    };
    expect(await settled(10)).toBeGreaterThan(9.9);
    expect(await settled(10)).toBeLessThan(10.3);
    expect(await settled(20)).toBeCloseTo(24 + Math.sqrt(76), 3);
  });

  it("is told of a load without a lowest voltage, which draws its power however low the voltage is", () => {
    const { row } = solve([
      feedItem("S", undefined, "supply", { voltage: 50, resistance: 0.2 }),
      feedItem("c", "S", "run", { resistance: 1.8 }),
      feedItem("l", "c", "power load", { load: 290 }),
    ]);
    expect(row("l").caveats.map(({ text }) => text)).toEqual([
      "may latch at 18.29 V on start: no Lowest V is given below which it draws nothing",
    ]);
  });

  it("is not told of a current load, which has no second root", () => {
    const { row } = solve([
      feedItem("Bus", undefined, "supply", { voltage: 400 }),
      feedItem("Cable", "Bus", "run", { resistance: 64 }),
      feedItem("Load", "Cable", "current load", { load: 4, lowestVoltage: 20 }),
    ]);
    expect(row("Load").caveats.map(({ code }) => code)).toEqual([]);
  });
});

describe("a voltage that nearly all drops", () => {
  // 400 V behind 1 Ω into next to nothing: I = 400/(1 + R), the voltage R·I.
  it.each([1e-6, 1e-9, 1e-12, 1e-14])(
    "keeps its digits down to a load of %s Ω, and says that little is left",
    (ohms) => {
      const { row } = solve([
        feedItem("S", undefined, "supply", { voltage: 400, resistance: 1 }),
        feedItem("L", "S", "resistance load", { load: ohms }),
      ]);
      const amperes = 400 / (1 + ohms);
      expect(row("L").inputCurrent / amperes - 1).toBeCloseTo(0, 14);
      expect(row("L").inputVoltage / (ohms * amperes) - 1).toBeCloseTo(0, 13);
      expect(row("L").caveats.map(({ code }) => code)).toEqual(ohms < 1e-7 ? ["little-left"] : []);
    },
  );
});

describe("several in parallel", () => {
  it("are counted as sharing evenly, with a note that says so", () => {
    // 230 W of 12 V between two units of 10 A without droop: 0.958 each only if they share evenly.
    const { row } = solve([
      feedItem("S", undefined, "supply", { voltage: 24, resistance: 1e-3 }),
      feedItem("G", "S", "regulated", {
        voltage: 12,
        lowestVoltage: 10,
        highestVoltage: 30,
        efficiency: 0.9,
        inParallel: 2,
        ratedCurrent: 10,
        tolerance: 0.02,
      }),
      feedItem("L", "G", "power load", {
        load: 230,
        lowestVoltage: 9,
        inParallel: 1,
      }),
    ]);
    expect(row("G").loading).toBeCloseTo(0.958, 3);
    expect(row("G").caveats.map(({ text }) => text)).toContain(
      "2 in parallel without resistance: how they share is not determined, counted as even",
    );
    expect(row("L").caveats).toEqual([]);
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
    [0, 0],
    ["none", 0],
  ] as const)("a resistance load at %s", (loads, watts) => {
    expect(solve(items, { loads, supply: "nominal" }).totals.loadPower).toBeCloseTo(watts, 9);
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
