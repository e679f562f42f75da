import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { conductorMaterials } from "../../src/conductors/conductor-materials.js";
import { conductorLoop } from "../../src/conductors/conductor-loop.js";
import { faultCurrent, faultCurrentSteps } from "../../src/protection/fault-current.js";
import {
  FUSE_RATINGS,
  FUSE_SERIES,
  fuseRating,
  fuseRatingSteps,
  type FuseSeries,
} from "../../src/protection/fuse-rating.js";
import { protectedLength } from "../../src/protection/protected-length.js";
import { PROMPT_MULTIPLE } from "../../src/protection/prompt-clearing.js";
import { citations } from "../../src/quantities/citations.js";
import { NoAnswerError } from "../../src/quantities/errors.js";
import type { Argument } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { operatingPoint as ngspice } from "../helpers/ngspice.js";

const figure = (least: number, most: number) =>
  fc.noBias(
    fc.integer({ min: 0, max: 10_000 }).map((part) => least + ((most - least) * part) / 10_000),
  );

function valueOf(id: string, args: readonly Argument[]): number {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, JSON.stringify([id, args, outcome]));
  return Number(outcome.value);
}

describe("faultCurrent", () => {
  // T. R. Kuphaldt, Lessons In Electric Circuits I (DC), "Specific resistance": 230 V over two wires of 5.651 Ω,
  // 11.301 Ω in all, can feed 20.352 A into a short circuit.
  it("prints Kuphaldt's 20.352 A for 230 V over 11.301 Ω", () => {
    const { current } = faultCurrent({
      voltage: 230,
      supplyResistance: 0,
      loopResistance: 11.301,
      currentLimit: undefined,
      faultCase: undefined,
    });
    assertPrinted(current, "20.352");
  });

  it("is what ngspice finds, for random loops", async () => {
    for (const [voltage, supplyResistance, loopResistance] of fc.sample(
      fc.tuple(figure(12, 1000), figure(0.01, 2), figure(0.01, 20)),
      { numRuns: 10, seed: 11 },
    )) {
      const circuit = await ngspice(
        `v1 a 0 ${voltage}\nr1 a b ${supplyResistance}\nr2 b c ${loopResistance}\nv2 c 0 0`,
      );
      const loop = {
        voltage,
        supplyResistance,
        loopResistance,
        currentLimit: undefined,
        faultCase: undefined,
      };
      const { current } = faultCurrent(loop);
      assert.ok(Math.abs(current / circuit["i(v2)"]! - 1) <= 1e-9);
      assertSteps(faultCurrentSteps(loop), { ...loop, ...faultCurrent(loop) });
    }
  });

  it("is the limit where that is smaller, with a note, and not where it is larger", () => {
    const loop = {
      ...{ voltage: 400, supplyResistance: 0, loopResistance: 4 },
      faultCase: undefined,
    };
    const limited = faultCurrent({ ...loop, currentLimit: 20 });
    expect(limited.current).toBe(20);
    expect(limited.prospectiveCurrent).toBe(100);
    expect(limited.caveats.map(({ code }) => code)).toEqual(["limit-rules"]);
    const free = faultCurrent({ ...loop, currentLimit: 120 });
    expect(free.current).toBe(100);
    expect(free.caveats).toEqual([]);
    assertSteps(faultCurrentSteps({ ...loop, currentLimit: 20 }), {
      ...loop,
      currentLimit: 20,
      ...limited,
    });
  });

  it("notes that no limit of the supply was given, which the current is largest without", () => {
    const loop = {
      ...{ voltage: 400, supplyResistance: 0, loopResistance: 4 },
      faultCase: undefined,
    };
    const { current, caveats } = faultCurrent({
      ...loop,
      currentLimit: undefined,
    });
    expect(current).toBe(100);
    expect(caveats.map(({ code }) => code)).toEqual(["no-limit-given"]);
  });

  // Gates of class gG, IEC 60269-1, from memory: current at which each rating clears within 5 s.
  it("says that a fuse above a fifth of the limit that rules does not clear promptly, as the printed gates of 5 s have it", () => {
    const { caveats } = faultCurrent({
      ...{ voltage: 400, supplyResistance: 0.1, loopResistance: 1 },
      currentLimit: 20,
      faultCase: undefined,
    });
    assert.match(caveats[0]?.text ?? "", /above about 1\/5 of it, 4 A, will not/);
    for (const [rating, current] of [
      [16, 65],
      [32, 150],
      [63, 320],
      [100, 580],
    ] as const) {
      const multiple = current / rating;
      assert.ok(multiple / PROMPT_MULTIPLE > 0.8, `${rating} A`);
      assert.ok(multiple / PROMPT_MULTIPLE < 1.2, `${rating} A`);
    }
    expect(citations["iec-60269-1-gates"].standing).toBe("from memory");
  });

  it("has a least and a greatest case: the limit counts in the one only, and each says what it asks for", () => {
    const call = (faultCase?: string, limit?: number) => {
      const outcome = evaluate("FAULT_CURRENT", [...[400, 0.1, 0.9, limit], faultCase]);
      assert.ok(outcome.ok);
      for (const { steps, values } of outcome.working()) assertSteps(steps, values);
      return outcome;
    };
    const codes = (...args: Parameters<typeof call>) =>
      call(...args).caveats.map(({ code }) => code);
    const text = (...args: Parameters<typeof call>) => call(...args).caveats[0]?.text ?? "";
    expect(call(undefined, 20).value).toBe(20);
    expect(call("least", 20).value).toBe(20);
    expect(call("greatest", 20).value).toBe(400);
    expect(call("greatest").value).toBe(400);
    expect(codes(undefined, 20)).toEqual(["limit-rules"]);
    expect(codes("least", 20)).toEqual(["least-case", "limit-rules"]);
    expect(codes("least")).toEqual(["least-case", "no-limit-given"]);
    expect(codes("greatest", 20)).toEqual(["greatest-case"]);
    expect(codes("greatest")).toEqual(["greatest-case"]);
    assert.match(text("least"), /lowest voltage, its greatest resistance.*hottest/);
    assert.match(text("greatest"), /highest voltage, its least resistance.*coldest/);
    assert.match(text("greatest"), /no current limit .*capacitors discharge/);
  });

  it("refuses a loop without any resistance", () => {
    const loop = {
      voltage: 400,
      supplyResistance: 0,
      loopResistance: 0,
      currentLimit: undefined,
      faultCase: undefined,
    };
    assert.throws(() => faultCurrent(loop), /loopResistance must be above 0/);
  });
});

describe("fuseRating", () => {
  // ISO 3, series R10, as quoted from Wikipedia on eevblog.com ("315mA fuse standard"): one decade.
  it("has the R10 series in every decade from 0.1 to 1250 A", () => {
    const decade = "1.00 1.25 1.60 2.00 2.50 3.15 4.00 5.00 6.30 8.00".split(" ").map(Number);
    const wanted = [0.1, 1, 10, 100, 1000]
      .flatMap((ten) => decade.map((step) => Number((ten * step).toPrecision(4))))
      .filter((rating) => rating <= 1250);
    expect(FUSE_RATINGS.R10).toEqual(wanted);
  });

  // IEC 60127-7, standard sheet 1 (as reproduced on 123doc.top): rated currents from 100 mA.
  it("has the miniature fuses' ratings up to 20 A", () => {
    const printed =
      "0.100 0.125 0.160 0.200 0.250 0.315 0.400 0.500 0.630 0.800 1.0 1.25 1.6 2.0 2.5 3.15 4.0 5.0 6.3 8.0 10.0 12.5 16 20";
    expect(FUSE_RATINGS.R10.filter((rating) => rating <= 20)).toEqual(
      printed.split(" ").map(Number),
    );
  });

  it("rises from step to step, none further than 2 times the one before", () => {
    for (const ratings of Object.values(FUSE_RATINGS))
      ratings.slice(1).forEach((rating, index) => {
        const ratio = rating / ratings[index]!;
        assert.ok(ratio > 1 && ratio <= 2, `${ratings[index]} to ${rating}`);
      });
  });

  it("takes a step that is met exactly, whatever the product's last digits", () => {
    const rating = (loadCurrent: number, factor: number, series: FuseSeries = "R10") =>
      fuseRating({ loadCurrent, factor, series }).rating;
    expect(rating(20, 1.25)).toBe(25);
    expect(rating(10, 1.25)).toBe(12.5);
    expect(rating(0.1 + 0.2, 1.05)).toBe(0.315);
    expect(rating(25.01, 1)).toBe(31.5);
    expect(rating(25.01, 1, "low voltage")).toBe(32);
    expect(rating(7, 1.6, "low voltage")).toBe(12);
    // At every step by a factor that comes to it in decimals, though not always in doubles.
    for (const series of FUSE_SERIES)
      for (const step of FUSE_RATINGS[series])
        for (const factor of [1, 1.1, 1.25, 1.3, 1.5, 1.6])
          expect(rating(step / factor, factor, series)).toBe(step);
  });

  // IEC 60269-1 has 32 A where ISO 3 has 31.5 A; no power fuse of 31.5 A is made.
  it("gives without a series the ratings that are made: 32 A for power fuses, 6.3 and 12.5 A for miniature ones", () => {
    const rating = (...args: Argument[]) => valueOf("FUSE_RATING", args);
    expect(rating(25.01, 1)).toBe(32);
    expect(rating(31.6, 1)).toBe(32);
    expect(rating(25.01, 1, "R10")).toBe(31.5);
    expect(rating(6, 1)).toBe(6.3);
    expect(rating(12.1, 1)).toBe(12.5);
    expect(rating(20.1, 1)).toBe(25);
    for (const step of FUSE_RATINGS["as made"])
      expect(
        step <= 20 ? FUSE_RATINGS.R10.includes(step) : FUSE_RATINGS["low voltage"].includes(step),
      ).toBe(true);
  });

  it("sends for its breaking capacity to the greatest fault current", () => {
    const { caveats } = fuseRating({ loadCurrent: 1, factor: 1, series: "R10" });
    assert.match(caveats[0]?.text ?? "", /greatest fault current .*capacitors/);
  });

  it("is the least of the series that is enough", () => {
    fc.assert(
      fc.property(figure(0.05, 800), figure(1, 1.5), (loadCurrent, factor) => {
        const load = { loadCurrent, factor, series: "R10" as const };
        const fuse = fuseRating(load);
        const below = FUSE_RATINGS.R10.filter((step) => step < fuse.rating).at(-1) ?? 0;
        assert.ok(fuse.rating >= loadCurrent * factor * (1 - 1e-9));
        assert.ok(below < loadCurrent * factor);
        assertSteps({ leastRating: fuseRatingSteps(load)["leastRating"]! }, { ...load, ...fuse });
      }),
    );
  });

  it("has no answer beyond the series, and refuses a factor below 1", () => {
    assert.throws(
      () => fuseRating({ loadCurrent: 1100, factor: 1.2, series: "R10" }),
      NoAnswerError,
    );
    assert.throws(
      () => fuseRating({ loadCurrent: 1, factor: 0.9, series: "R10" }),
      /factor must be 1 or more/,
    );
  });
});

describe("protectedLength", () => {
  const run = {
    size: { sizing: "bare metal" as const, areaMm2: 4 },
    material: conductorMaterials.copper,
    build: undefined,
    parallel: 1,
    conductors: 2,
    temperatureC: 70,
    voltage: 360,
    supplyResistance: 0.3,
    currentNeeded: 60,
    currentLimit: undefined,
  };

  it("is the length at which the fault current is the one needed", () => {
    fc.assert(
      fc.property(
        figure(24, 1000),
        figure(0, 1),
        figure(5, 20),
        figure(0.5, 95),
        (voltage, supplyResistance, currentNeeded, areaMm2) => {
          const asked = {
            ...run,
            size: { sizing: "bare metal" as const, areaMm2 },
            voltage,
            supplyResistance,
            currentNeeded,
          };
          if (voltage / currentNeeded <= supplyResistance) return;
          const { protectedLength: length } = protectedLength(asked);
          const { resistance } = conductorLoop({ ...asked, length });
          const { current } = faultCurrent({
            voltage,
            supplyResistance,
            loopResistance: resistance,
            currentLimit: undefined,
            faultCase: undefined,
          });
          assert.ok(Math.abs(current / currentNeeded - 1) <= 1e-12);
        },
      ),
    );
  });

  it("is the length whose CONDUCTOR_RESISTANCE draws the current needed through FAULT_CURRENT, whatever the run", () => {
    fc.assert(
      fc.property(
        fc.constantFrom<readonly [Argument, Argument]>(
          [4, undefined],
          ["2.5 mm²", undefined],
          ["16 mm²", "aluminium"],
          ["AWG 12", undefined],
          ["2/0 AWG", "aluminium"],
          [0.75, [[1.8e-8, 0.004]]],
        ),
        figure(-40, 120),
        fc.constantFrom(1, 2, 3),
        fc.constantFrom(1, 2),
        figure(0, 1),
        figure(5, 40),
        ([size, material], temperature, parallel, conductors, internal, needed) => {
          if (temperature === 0 || internal === 0) return;
          const place = [size, temperature, material, undefined];
          const run = [...place, parallel, conductors];
          const length = valueOf("PROTECTED_LENGTH", [400, internal, needed, ...run]);
          const loop = valueOf("CONDUCTOR_RESISTANCE", [length, ...run]);
          const current = valueOf("FAULT_CURRENT", [400, internal, loop]);
          assert.ok(Math.abs(current / needed - 1) <= 1e-11, `${current} ${needed}`);
        },
      ),
    );
  });

  it("is shortest with the conductor at its hottest, and takes the limit as its last argument", () => {
    const length = (temperature: number, ...more: Argument[]) =>
      valueOf("PROTECTED_LENGTH", [360, 0.3, 60, 4, temperature, ...more]);
    assert.ok(length(90) < length(20));
    const run = [undefined, undefined, undefined, undefined];
    expect(length(20, ...run, 60)).toBe(length(20));
    const limited = evaluate("PROTECTED_LENGTH", [360, 0.3, 60, 4, 20, ...run, 59]);
    assert.ok(!limited.ok);
    expect(limited.code).toBe("#N/A");
    expect(limited.argument).toBe("current limit");
  });

  it("has no answer where a limit or the supply itself holds the current below", () => {
    assert.throws(
      () => protectedLength({ ...run, currentLimit: 59 }),
      /current limit of 59 A is below the 60 A/,
    );
    assert.throws(
      () => protectedLength({ ...run, supplyResistance: 6 }),
      /own resistance lets no more than 60 A flow, which leaves nothing for a run at the 60 A needed/,
    );
    expect(protectedLength(run).caveats.map(({ code }) => code)).toContain("no-limit-given");
  });

  // 30 A are needed of a supply that holds 50 A: the current needed is the one that clears, whatever the limit above it.
  it("says nothing of the limit where it is above the current needed", () => {
    for (const limit of [30, 50, 100]) {
      const args = [400, 0.1, 30, "4 mm²", 160, ...Array<undefined>(4), limit];
      const outcome = evaluate("PROTECTED_LENGTH", args);
      assert.ok(outcome.ok);
      for (const { text } of outcome.caveats) assert.doesNotMatch(text, /limit|promptly/);
    }
  });

  it("shows steps that recompute, through the cell function", () => {
    const outcome = evaluate("PROTECTED_LENGTH", [360, 0.3, 60, "4 mm²", 70]);
    assert.ok(outcome.ok);
    for (const { steps, values } of outcome.working())
      assertSteps(steps, values as Record<string, number>);
  });
});
