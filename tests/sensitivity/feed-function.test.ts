import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CASE_LOADS, CASE_SUPPLIES } from "../../src/network/feed-cases.js";
import { columnsOf } from "../../src/network/feed-columns.js";
import { columnsAt, NOMINAL } from "../../src/network/feed-conditions.js";
import { feedFunction } from "../../src/sensitivity/feed-function.js";
import { FEED_KINDS, type FeedItem } from "../../src/network/feed-item.js";
import { ROW_KINDS } from "../../src/network/row-kinds.js";
import { feedTornado } from "../../src/sensitivity/feed-tornado.js";
import { operatingPoint, solvedFeed } from "../../src/network/operating-point.js";
import { tornadoWorking } from "../../src/sensitivity/tornado-steps.js";
import { variedInputs } from "../../src/sensitivity/varied-inputs.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { feedItem, movableOf } from "../helpers/feed.js";
import { randomFeed } from "../helpers/random-feed.js";

const LOSS = { name: "loss", row: undefined } as const;

/** Every row but the supplies may vary by 3 %, a supply from 2 % below to 4 % above. */
function varying(items: readonly FeedItem[]): FeedItem[] {
  return items.map((item) =>
    item.kind === "supply"
      ? { ...item, lowestVoltage: 0.98 * item.voltage!, highestVoltage: 1.04 * item.voltage! }
      : { ...item, tolerance: 0.03 },
  );
}

/** The item with what its kind's tolerance moves multiplied, as somebody would type it. */
function moved(item: FeedItem, factor: number): FeedItem {
  const times = (value: number | undefined) => (value === undefined ? undefined : value * factor);
  switch (item.kind) {
    case "supply":
      // Its window is left out: at nominal supply it bounds nothing.
      return {
        ...item,
        voltage: times(item.voltage),
        lowestVoltage: undefined,
        highestVoltage: undefined,
      };
    case "regulated":
      return { ...item, voltage: times(item.voltage) };
    case "run":
      return { ...item, resistance: times(item.resistance) };
    case "series":
      return { ...item, voltage: times(item.voltage), resistance: times(item.resistance) };
    case "ratio":
      return { ...item, ratio: times(item.ratio) };
    default:
      return { ...item, load: times(item.load) };
  }
}

const feeds = fc
  .sample(randomFeed, { numRuns: 150, seed: 20261130 })
  .map(varying)
  .filter((items) => operatingPoint(items).rows.every(({ outcome }) => outcome === "solved"));

describe("a feed as if its case had been entered", () => {
  it("has the totals of that case, or collapses like it", () => {
    let solved = 0;
    for (const items of feeds) {
      const columns = columnsOf(items);
      for (const supply of [...CASE_SUPPLIES, 0.97 * items[0]!.voltage!])
        for (const loads of [...CASE_LOADS, "none", { loads: "nominal", times: 0.6 }] as const) {
          const asked = solvedFeed(columns, { loads, supply });
          const entered = solvedFeed(columnsAt(columns, { loads, supply }), NOMINAL);
          assert.deepEqual([...entered.faults.keys()], [...asked.faults.keys()]);
          assert.deepEqual(entered.totals, asked.totals);
          solved += asked.faults.size === 0 ? 1 : 0;
        }
    }
    assert.ok(solved > 1000, String(solved));
  });
});

describe("a feed as a function of what may vary in it", () => {
  it("gives at any values what the feed typed with them gives", () => {
    const kinds = new Set<string>();
    for (const items of feeds) {
      const columns = columnsOf(items);
      const inputs = variedInputs(movableOf(columns), []);
      const { valueAt } = feedFunction(movableOf(columns), LOSS, inputs);
      for (const part of [0, 0.3, 1]) {
        const values = inputs.map(({ low, high }, index) =>
          index % 2 === 0 ? low + part * (high - low) : high - part * (high - low),
        );
        const typed = items.map((item, row) => {
          const at = inputs.findIndex((input) => input.row === row);
          kinds.add(item.kind);
          return at < 0 ? item : moved(item, values[at]! / inputs[at]!.nominal);
        });
        const { totals, faults } = operatingPoint(typed);
        const found = valueAt(Float64Array.from(values));
        if (faults.size > 0) assert.ok(Number.isNaN(found));
        else assert.ok(Math.abs(found - totals.loss) <= 1e-9 * totals.loss);
      }
    }
    assert.ok(feeds.length > 100, String(feeds.length));
    // On a tree nothing is fed from several.
    const onTrees = FEED_KINDS.filter((kind) => ROW_KINDS[kind].fedBy === "one");
    assert.equal(kinds.size, onTrees.length);
  });

  /** 400 V within 380 to 420 V, 2 Ω ± 10 %, 10 kW. */
  const columns = columnsOf([
    feedItem("Bus", undefined, "supply", { voltage: 400, lowestVoltage: 380, highestVoltage: 420 }),
    feedItem("Cable", "Bus", "run", { resistance: 2, tolerance: 0.1 }),
    feedItem("Camp", "Cable", "power load", { load: 10_000 }),
  ]);

  it("is the closed form of two roots at the corner of both ends, and NaN beyond collapse", () => {
    const { valueAt } = feedFunction(
      movableOf(columns),
      LOSS,
      variedInputs(movableOf(columns), []),
    );
    const voltage = (380 + Math.sqrt(380 ** 2 - 4 * 2.2 * 10_000)) / 2;
    expect(valueAt(Float64Array.of(380, 2.2))).toBeCloseTo(10_000 * (380 / voltage - 1), 8);
    // E² = 4RP at 3.61 Ω and 380 V.
    expect(valueAt(Float64Array.of(380, 3.62))).toBeNaN();
    expect(valueAt(Float64Array.of(400, 2))).toBeCloseTo(1715.728753, 6);
  });

  it("refuses an end that is no figure of its row, by name", () => {
    const efficient = columnsOf([
      feedItem("Bus", undefined, "supply", { voltage: 400 }),
      feedItem("Box", "Bus", "ratio", { ratio: 0.1, efficiency: 0.98 }),
      feedItem("Camp", "Box", "power load", { load: 100 }),
    ]);
    const spread = {
      row: 1,
      figure: "efficiency",
      tolerance: 0.03,
      distribution: "flat",
      group: undefined,
    } as const;
    assert.throws(
      () => feedFunction(movableOf(efficient), LOSS, variedInputs(movableOf(efficient), [spread])),
      /efficiency must be above 0 and at most 1, at every end of what "Box" varies by, got 1\.0/,
    );
  });
});

describe("the tornado of a feed", () => {
  it("shows workings that another engine follows, in random feeds of every kind", () => {
    for (const items of feeds.slice(0, 60)) {
      const columns = columnsOf(items);
      const spreads = (["resistance", "quadraticLoss", "fixedLoss", "linearLoss"] as const).flatMap(
        (figure) =>
          items.flatMap((item, row) =>
            item[figure] === undefined || item[figure] === 0 || item.kind === "ratio"
              ? []
              : [{ row, figure, tolerance: 0.02, distribution: "flat", group: undefined } as const],
          ),
      );
      const tornado = feedTornado(
        movableOf(columns),
        LOSS,
        variedInputs(movableOf(columns), spreads),
      );
      for (const line of tornado.lines) {
        const { steps, values } = tornadoWorking(tornado, line, "line");
        assert.equal(values["slope"], line.slope);
        assertSteps(steps, values);
      }
    }
  });

  it("has a slope along which both ends lie, where the ends are near", () => {
    for (const items of feeds.slice(0, 60)) {
      const columns = columnsOf(
        items
          .map((item) => ({
            ...item,
            lowestVoltage: item.kind === "supply" ? item.voltage! * (1 - 1e-4) : undefined,
            highestVoltage: item.kind === "supply" ? item.voltage! * (1 + 1e-4) : undefined,
            tolerance: item.kind === "supply" ? undefined : 1e-4,
          }))
          .map((item) =>
            item.kind === "regulated" ? { ...item, lowestVoltage: 1, highestVoltage: 1e4 } : item,
          ),
      );
      const { lines, nominal } = feedTornado(
        movableOf(columns),
        LOSS,
        variedInputs(movableOf(columns), []),
      );
      for (const { inputs, lowGives, highGives, slope } of lines) {
        const [{ low, high }] = inputs as [(typeof inputs)[number]];
        const chord = highGives! - lowGives!;
        const apart = Math.abs(chord - slope! * (high - low));
        assert.ok(apart <= 1e-5 * Math.abs(chord) + 1e-10 * nominal);
      }
    }
  });
});
