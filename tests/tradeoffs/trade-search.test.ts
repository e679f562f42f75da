import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Cell, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import type { FeedItem } from "../../src/network/feed-item.js";
import { operatingPoint } from "../../src/network/operating-point.js";
import { InputError } from "../../src/quantities/errors.js";
import { type FrontPoint, paretoFront } from "../../src/tradeoffs/pareto-front.js";
import { tradeEvaluation } from "../../src/tradeoffs/trade-evaluation.js";
import { CASE_CONDITIONS, tradeFeed } from "../../src/tradeoffs/trade-feed.js";
import { tradeSearch } from "../../src/tradeoffs/trade-search.js";
import type { TradeRequest } from "../../src/tradeoffs/trade-request.js";
import { tradeCandidate, tradePlace, tradeSpace } from "../../src/tradeoffs/trade-space.js";
import { request } from "./trade-request.js";

const NO_LIMITS: TradeRequest["limits"] = {
  loadBand: undefined,
  distributionBand: undefined,
  drop: undefined,
  mass: undefined,
  cost: undefined,
};

/** A feed as the cells of a feed table. */
function cellsOf(items: readonly FeedItem[]): CellTable {
  const columns: readonly [string, (item: FeedItem) => Cell | undefined][] = [
    ["Item", ({ item }) => item],
    ["Fed from", ({ fedFrom }) => fedFrom],
    ["Kind", ({ kind }) => kind],
    ["Voltage", ({ voltage }) => voltage],
    ["Resistance", ({ resistance }) => resistance],
    ["Ratio", ({ ratio }) => ratio],
    ["Fixed loss", ({ fixedLoss }) => fixedLoss],
    ["Load", ({ load }) => load],
    ["Light load", ({ lightLoad }) => lightLoad],
    ["Peak load", ({ peakLoad }) => peakLoad],
    ["In parallel", ({ inParallel }) => inParallel],
    ["Lowest V", ({ lowestVoltage }) => lowestVoltage],
    ["Highest V", ({ highestVoltage }) => highestVoltage],
  ];
  return [
    columns.map(([header]) => header),
    ...items.map((item) => columns.map(([, of]) => of(item) ?? "")),
  ];
}

/** Loss by CHAIN_SOLVE at nominal load; undefined where a case collapses. */
function solvedLoss(items: readonly FeedItem[]): number | undefined {
  const outcome = evaluate("CHAIN_TOTAL", [cellsOf(items), "loss"]);
  return outcome.ok ? Number(outcome.value) : undefined;
}

const space = tradeSpace(request);

describe("tradeEvaluation", () => {
  it("equals CHAIN_SOLVE's loss on 500 random candidates to 1e-12", () => {
    const free: TradeRequest = {
      ...request,
      load: { ...request.load, lowestVoltage: 1, highestVoltage: 2000 },
      cables: request.cables.map((cable) => ({ ...cable, ampacity: 1e6 })),
      converter: { ...request.converter, ratedPower: 4000 },
      limits: NO_LIMITS,
    };
    const judge = tradeEvaluation(free, space);
    let compared = 0;
    const indexes = fc.sample(fc.noBias(fc.integer({ min: 0, max: space.count - 1 })), {
      numRuns: 4000,
      seed: 20261125,
    });
    for (const index of indexes) {
      if (compared === 500) break;
      const { verdict, loss } = judge(index);
      if (verdict !== "kept") continue;
      const items = tradeFeed(free, tradeCandidate(space, index), "nominal");
      const theirs = solvedLoss(items);
      assert.ok(theirs !== undefined);
      assert.ok(Math.abs(loss - theirs) <= 1e-12 * theirs, `${loss} ${theirs}`);
      compared++;
    }
    expect(compared).toBe(500);
  });

  it("holds the drop at peak load on the lowest supply against the voltage at the cable's near end", () => {
    // 1 Ω out and back, an ideal 1/8 stage: 400 W at a lowest 200 V draw I with I · (200 − I) = 400, so 2.0204 A and a drop
    // of 1.0102 % of 200 V, but 0.5051 % of the nominal 400 V.
    const one = (drop: number): TradeRequest => ({
      ...request,
      load: {
        nominal: 400,
        light: 0,
        peak: 400,
        lowestVoltage: 1,
        highestVoltage: 100,
      },
      length: 1,
      supplies: [
        {
          voltage: 400,
          lowestVoltage: 200,
          highestVoltage: 400,
          resistance: 0,
        },
      ],
      cables: [
        {
          material: "copper",
          size: "x",
          make: request.cables[0]!.make,
          resistancePerMetre: 0.5,
          massPerMetre: 0,
          pricePerMetre: 0,
          ampacity: 100,
        },
      ],
      stepsDown: [8],
      mostStages: 1,
      converter: {
        ratedPower: 4000,
        droop: 0,
        noLoadLoss: 0,
        tolerance: 0,
        mass: 0,
        price: 0,
      },
      mostInParallel: 1,
      limits: { ...NO_LIMITS, drop },
    });
    const verdict = (drop: number) => tradeEvaluation(one(drop), tradeSpace(one(drop)))(0).verdict;
    expect(verdict(0.0102)).toBe("kept");
    expect(verdict(0.01)).toBe("drop");
  });

  it("judges every limit as a loop over solved feeds does", () => {
    const judge = tradeEvaluation(request, space);
    const seen = new Set<string>();
    const indexes = fc.sample(fc.noBias(fc.integer({ min: 0, max: space.count - 1 })), {
      numRuns: 1500,
      seed: 7,
    });
    for (const index of indexes) {
      const { verdict } = judge(index);
      seen.add(verdict);
      assert.equal(verdict, verdictBySolving(request, index), `candidate ${index}`);
    }
    // The sample would prove little if it met one limit only.
    assert.ok(seen.size >= 7, [...seen].join(", "));
  });
});

/** The same limits, judged on whole solved feeds and worked out anew. */
function verdictBySolving(asked: TradeRequest, index: number): string {
  const candidate = tradeCandidate(space, index);
  const { supply, cable, arrangement, inParallel } = candidate;
  const { limits, load, converter, energy } = asked;
  const noLoad =
    supply.highestVoltage *
    arrangement.reduce((ratio, step) => (ratio * (1 + converter.tolerance)) / step, 1);
  const count = inParallel * arrangement.length;
  const mass = 300 * cable.massPerMetre + count * converter.mass;
  const bought = 300 * cable.pricePerMetre + count * converter.price;
  if (noLoad > limits.loadBand!) return "load band";
  if (noLoad > load.highestVoltage) return "load window at no load";
  if (mass > limits.mass!) return "mass";
  if (bought > limits.cost!) return "cost";
  const rowsAt = (at: "light" | "nominal" | "peak") =>
    operatingPoint(tradeFeed(asked, candidate, at), CASE_CONDITIONS[at]);
  const [light, nominal, peak] = (["light", "nominal", "peak"] as const).map(rowsAt);
  const rows = peak!.rows.flatMap((row) => (row.outcome === "solved" ? [row] : []));
  if (rows.length < peak!.rows.length) return "collapse";
  if (rows.at(-1)!.inputVoltage < load.lowestVoltage) return "load window at peak";
  const run = rows[1]!;
  if (run.inputVoltage - run.output!.voltage > limits.drop! * run.inputVoltage) return "drop";
  if (run.inputCurrent > cable.ampacity) return "conductor temperature";
  if (rows.some(({ item, loading }) => item.kind === "ratio" && loading! > 1)) return "unit rating";
  for (const { rows: solved } of [light!, nominal!])
    if (solved.some(({ outcome }) => outcome === "refused")) return "collapse";
  const lost =
    (nominal!.totals.loss / 1000) *
    energy!.hoursPerYear *
    energy!.pricePerKwh *
    energy!.presentWorthFactor;
  return bought + lost > limits.cost! ? "cost" : "kept";
}

describe("tradeSearch", () => {
  it("keeps what a brute force over CHAIN_SOLVE keeps", () => {
    const small: TradeRequest = {
      ...request,
      cables: request.cables.filter((_, index) => index % 2 === 1),
      stepsDown: [2, 4, 8, 12, 16],
      mostInParallel: 3,
      limits: { ...request.limits, cost: 30_000 },
    };
    const search = tradeSearch(small);
    search.advance(Infinity);
    const { front, verdicts, judged } = search.findings();
    expect(judged).toBe(search.space.count);
    const kept: FrontPoint[] = [];
    const judge = tradeEvaluation(small, search.space);
    for (let index = 0; index < search.space.count; index++) {
      const { verdict, mass, cost } = judge(index);
      if (verdict !== "kept") continue;
      const candidate = tradeCandidate(search.space, index);
      const loss = solvedLoss(tradeFeed(small, candidate, "nominal"))!;
      kept.push({ index, loss, mass, cost });
    }
    expect(verdicts.kept).toBe(kept.length);
    const unbeaten = kept.filter(
      (one) => !kept.some((other) => other !== one && beats(other, one)),
    );
    expect(front.map(({ index }) => index).sort()).toEqual(
      unbeaten.map(({ index }) => index).sort(),
    );
    assert.ok(front.length > 2);
  });

  it("finds the same whether it goes in one step or in many", () => {
    const whole = tradeSearch(request);
    whole.advance(Infinity);
    const parts = tradeSearch(request);
    while (parts.advance(997) < parts.space.count);
    expect(parts.findings()).toEqual(whole.findings());
  });

  it("counts every candidate once under one verdict, for each axis alike", () => {
    const search = tradeSearch(request);
    search.advance(5000);
    const { verdicts, judged } = search.findings();
    expect(judged).toBe(5000);
    const sum = Object.values(verdicts).reduce((total, one) => total + one, 0);
    expect(sum).toBe(5000);
  });

  it("names for an option without candidates left the limit that most of them broke", () => {
    const search = tradeSearch(request);
    search.advance(Infinity);
    const { rejected } = search.findings();
    const thin = rejected.find(
      ({ axis, option }) => axis === "cable" && request.cables[option]?.size === "0.5 mm²",
    );
    assert.ok(thin && thin.share > 0 && thin.share <= 1);
    // 1/1 from 120 V and more never comes down to 58 V.
    const straight = rejected.find(({ axis, option }) => axis === "arrangement" && option === 0);
    expect(straight?.limit).toBe("load band");
  });

  it("names the conductor temperature for a cable that may carry too little, and how far the others came", () => {
    const [, second] = request.cables;
    // 2400 W at no more than 848 V are more than 2.8 A, so that 1 A never does.
    const faint = { ...second!, size: "faint", ampacity: 1 };
    const search = tradeSearch({
      ...request,
      cables: [faint, ...request.cables],
      stepsDown: [8, 12, 16],
      mostStages: 1,
      limits: { ...NO_LIMITS },
    });
    search.advance(Infinity);
    const { rejected } = search.findings();
    const found = rejected.find(({ axis, option }) => axis === "cable" && option === 0);
    expect(found?.furthest).toBe("conductor temperature");
    // One unit of 1200 W never carries 2400 W.
    const alone = rejected.find(({ axis, option }) => axis === "inParallel" && option === 0);
    expect(alone?.furthest).toBe("unit rating");
  });

  it("counts candidates by their number and back", () => {
    for (const index of [0, 1, 999, space.count - 1]) {
      const { supply, cable, arrangement, inParallel } = tradePlace(space, index);
      const { cables, arrangements, mostInParallel } = space;
      expect(
        ((supply * cables.length + cable) * arrangements.length + arrangement) * mostInParallel +
          inParallel,
      ).toBe(index);
    }
  });

  it("comes close to Kelvin's law where the size may be anything", () => {
    // 8 A for certain: a stiff supply, one ideal stage, no tolerance; price of the cable 0.2 for a metre and mm².
    const ranges = Array.from({ length: 3000 }, (_, index) => 1 + index * 0.01);
    const perMetre = (areaMm2: number) => (17.241e-9 / (areaMm2 * 1e-6)) * 1.1965;
    const wide: TradeRequest = {
      ...request,
      load: {
        nominal: 400,
        light: 400,
        peak: 400,
        lowestVoltage: 1,
        highestVoltage: 400,
      },
      length: 1,
      supplies: [
        {
          voltage: 400,
          lowestVoltage: 400,
          highestVoltage: 400,
          resistance: 0,
        },
      ],
      cables: ranges.map((areaMm2) => ({
        material: "copper",
        size: `${areaMm2}`,
        make: request.cables[0]!.make,
        resistancePerMetre: perMetre(areaMm2),
        massPerMetre: 0,
        pricePerMetre: 0.2 * areaMm2,
        ampacity: 1e6,
      })),
      stepsDown: [8],
      mostStages: 1,
      converter: {
        ratedPower: 1e4,
        droop: 0,
        noLoadLoss: 0,
        tolerance: 0,
        mass: 0,
        price: 0,
      },
      mostInParallel: 1,
      energy: { hoursPerYear: 8760, pricePerKwh: 0.2, presentWorthFactor: 10 },
      limits: NO_LIMITS,
    };
    const judge = tradeEvaluation(wide, tradeSpace(wide));
    let best = 0;
    ranges.forEach((_, index) => {
      if (judge(index).cost < judge(best).cost) best = index;
    });
    // S = I·√(2·ρ·hours·price·PV/(1000·slope)), with 1 A in 400 V and 400 W.
    const kelvin = Math.sqrt((2 * 0.017241 * 1.1965 * 8760 * 0.2 * 10) / (1000 * 0.2));
    assert.ok(Math.abs(ranges[best]! / kelvin - 1) < 0.01, `${ranges[best]} for ${kelvin}`);
  });

  it("refuses what cannot be by the name of its field", () => {
    const bad = (over: Partial<TradeRequest>) => () => tradeSearch({ ...request, ...over });
    assert.throws(bad({ length: 0 }), (error: unknown) => {
      assert.ok(error instanceof InputError);
      expect(error.field).toBe("length");
      return true;
    });
    assert.throws(bad({ cables: [] }), /cables/);
    const { limits } = request;
    assert.throws(bad({ limits: { ...limits, mass: 0 } }), /limits.mass/);
    assert.throws(bad({ limits: { ...limits, drop: NaN } }), /limits.drop/);
    assert.throws(bad({ load: { ...request.load, peak: 1 } }), /load.peak/);
  });
});

function beats(one: FrontPoint, other: FrontPoint): boolean {
  const asGood = one.loss <= other.loss && one.mass <= other.mass && one.cost <= other.cost;
  return (
    asGood &&
    (one.loss < other.loss ||
      one.mass < other.mass ||
      one.cost < other.cost ||
      one.index < other.index)
  );
}

describe("paretoFront", () => {
  it("is what the definition in square time gives", () => {
    const figure = fc.noBias(fc.integer({ min: 0, max: 30 }));
    const point = fc.record({ loss: figure, mass: figure, cost: figure });
    fc.assert(
      fc.property(fc.array(point, { maxLength: 80 }), (drawn) => {
        const points = drawn.map((one, index) => ({ ...one, index }));
        const front = paretoFront();
        for (const one of points) front.offer(one);
        const defined = points.filter(
          (one) => !points.some((other) => other !== one && beats(other, one)),
        );
        expect(
          front
            .points()
            .map(({ index }) => index)
            .sort((a, b) => a - b),
        ).toEqual(defined.map(({ index }) => index));
      }),
      { numRuns: 300 },
    );
  });
});
