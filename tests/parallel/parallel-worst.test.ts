import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type ParallelConverters, parallelShare } from "../../src/parallel/parallel-share.js";
import {
  parallelConverters,
  parallelConvertersSteps,
} from "../../src/parallel/parallel-converters.js";
import {
  type LikeConvertersInParallel,
  parallelWorst,
  parallelWorstSteps,
} from "../../src/parallel/parallel-worst.js";
import { evaluate } from "../../functions/runner.js";
import { NoAnswerError } from "../../src/quantities/errors.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { operatingPoint as ngspice, NGSPICE_OPTIONS } from "../helpers/ngspice.js";

const figure = (least: number, most: number) =>
  fc.noBias(
    fc.integer({ min: 0, max: 10_000 }).map((part) => least + ((most - least) * part) / 10_000),
  );

const LIKE = {
  load: figure(1, 400),
  setVoltage: figure(20, 60),
  mismatch: figure(0, 0.02),
  outputResistance: figure(0.002, 0.05),
  resistanceMismatch: figure(0, 0.3),
};

const parallel: fc.Arbitrary<LikeConvertersInParallel> = fc.record({
  ...LIKE,
  converters: fc.integer({ min: 2, max: 64 }),
  reverseFlow: fc.constantFrom("blocked", "allowed"),
});

/** Chosen so that a bus voltage is left. */
const carried = parallel.filter(
  ({ load, converters, setVoltage, outputResistance }) =>
    (load / converters) * outputResistance < setVoltage / 4,
);

/** The worst-placed unit first; the others the opposite, but of lowest resistance too where it feeds them backwards. */
function worstSet(asked: LikeConvertersInParallel): ParallelConverters {
  const { load, converters, setVoltage, mismatch, reverseFlow } = asked;
  const { outputResistance, resistanceMismatch } = asked;
  const lowest = outputResistance * (1 - resistanceMismatch);
  const highest = outputResistance * (1 + resistanceMismatch);
  const isFeeding = 2 * mismatch * setVoltage > load * lowest;
  const others = Array.from({ length: converters - 1 });
  return {
    setVoltages: [setVoltage * (1 + mismatch), ...others.map(() => setVoltage * (1 - mismatch))],
    resistances: [lowest, ...others.map(() => (isFeeding ? lowest : highest))],
    load,
    loadKind: "current",
    reverseFlow,
  };
}

/** Units placed within their tolerances: by a part of each, -1 to 1. */
function placed(
  asked: LikeConvertersInParallel,
  voltageAt: (unit: number) => number,
  resistanceAt: (unit: number) => number,
): ParallelConverters {
  const at = Array.from({ length: asked.converters }, (_, unit) => unit);
  return {
    setVoltages: at.map((unit) => asked.setVoltage * (1 + asked.mismatch * voltageAt(unit))),
    resistances: at.map(
      (unit) => asked.outputResistance * (1 + asked.resistanceMismatch * resistanceAt(unit)),
    ),
    load: asked.load,
    loadKind: "current",
    reverseFlow: asked.reverseFlow,
  };
}

describe("parallelWorst", () => {
  // By hand: I/n + 2tV(n − 1)/(nR) where resistances are equal.
  it("is the even share and 2tV(n − 1)/(nR) where resistances are equal", () => {
    fc.assert(
      fc.property(carried, (drawn) => {
        const asked = {
          ...drawn,
          resistanceMismatch: 0,
          reverseFlow: "allowed" as const,
        };
        const { load, converters: n, setVoltage, mismatch, outputResistance } = asked;
        const byHand = load / n + (2 * mismatch * setVoltage * (n - 1)) / (n * outputResistance);
        assert.ok(Math.abs(parallelWorst(asked).worstCurrent / byHand - 1) <= 1e-12);
      }),
    );
  });

  it("is the first unit's share of the same set, currents adding up to the load and none fed backwards when blocked", () => {
    fc.assert(
      fc.property(carried, (asked) => {
        const worst = parallelWorst(asked);
        const share = parallelShare(worstSet(asked));
        const [first] = share.converters;
        assert.ok(Math.abs(first!.current - worst.worstCurrent) <= 1e-9 * worst.worstCurrent);
        assert.ok(Math.abs(share.totalCurrent / asked.load - 1) <= 1e-9);
        if (asked.reverseFlow === "blocked") {
          assert.ok(worst.worstCurrent <= asked.load);
          assert.ok(share.converters.every(({ current }) => current >= 0));
        }
        assertSteps(parallelWorstSteps(asked), { ...asked, ...worst });
      }),
    );
  });

  it("is never beaten by units placed anywhere within their tolerances", () => {
    fc.assert(
      fc.property(
        carried,
        fc.array(figure(-1, 1), { minLength: 128, maxLength: 128 }),
        (asked, place) => {
          const { converters } = parallelShare(
            placed(
              asked,
              (unit) => place[unit]!,
              (unit) => place[64 + unit]!,
            ),
          );
          const most = Math.max(...converters.map(({ current }) => current));
          const { worstCurrent, mostFed } = parallelWorst(asked);
          assert.ok(most <= worstCurrent * (1 + 1e-9));
          const least = Math.min(...converters.map(({ current }) => current));
          assert.ok(-least <= (mostFed ?? 0) + 1e-9 * worstCurrent);
        },
      ),
    );
  });

  // Random places rarely come near the ends of what units differ by, so every end is tried: 2 to 4 units, both ways of
  // each voltage and each resistance, 256 sets at most.
  it("is the most that any set of units at the ends of their tolerances gives", () => {
    const few = carried.map((asked) => ({
      ...asked,
      converters: 2 + (asked.converters % 3),
    }));
    let feeding = 0;
    let fed = 0;
    fc.assert(
      fc.property(few, (asked) => {
        const { converters, load } = asked;
        const sets = Array.from({ length: 4 ** converters }, (_, set) => {
          const end = (bit: number) => ((set >> bit) & 1 ? 1 : -1);
          return placed(asked, end, (unit) => end(converters + unit));
        });
        const currents = sets.flatMap((set) => parallelShare(set).converters);
        const most = Math.max(...currents.map(({ current }) => current));
        const { worstCurrent, mostFed } = parallelWorst(asked);
        assert.ok(
          Math.abs(most / worstCurrent - 1) <= 1e-9,
          `${worstCurrent} A, of all sets ${most} A`,
        );
        if (mostFed !== undefined) {
          const least = Math.min(...currents.map(({ current }) => current));
          assert.ok(
            Math.abs(mostFed - Math.max(0, -least)) <= 1e-9 * worstCurrent,
            `${mostFed} A, of all sets ${least} A`,
          );
          if (mostFed > 0) fed++;
        }
        if (worstCurrent > load) feeding++;
      }),
      // One seed: how often the others are fed backwards is counted.
      { numRuns: 100, seed: 4 },
    );
    assert.ok(feeding > 5, `${feeding}`);
    assert.ok(fed > 5, `${fed}`);
  });

  // By hand: 55.08 and 52.92 V behind 0.007 Ω each, (1 + 2.16/0.007)/2 = 154.79 A; beside 0.013 Ω it would be 108.65 A.
  it("takes the others' resistance as the lowest where it feeds them backwards", () => {
    const asked = {
      load: 1,
      converters: 2,
      setVoltage: 54,
      mismatch: 0.02,
      outputResistance: 0.01,
      resistanceMismatch: 0.3,
      reverseFlow: "allowed" as const,
    };
    const allowed = parallelWorst(asked);
    assertPrinted(allowed.worstCurrent, "154.79");
    assertPrinted(allowed.besideHighest, "108.65");
    expect(allowed.caveats.map(({ code }) => code)).toEqual(["fed-backwards", "takes-back"]);
    for (const { text } of allowed.caveats) expect(text).toContain("153.8 A");
    const blocked = parallelWorst({ ...asked, reverseFlow: "blocked" });
    expect(blocked.worstCurrent).toBe(1);
    expect(blocked.caveats.map(({ code }) => code)).toEqual(["carries-all"]);
    expect(parallelWorst({ ...asked, load: 400 }).caveats).toEqual([]);
  });

  // By hand: units 0.48 V apart behind 10 mΩ each, (2 · 0.48/0.01 − 5)/3 = 30.333 A into the low one; 33.667 A out of the high one.
  it("says what the low one of three is fed, beside what the high one gives", () => {
    const args = [5, 3, 12, 0.02, 0.01, 0];
    const allowed = evaluate("PARALLEL_WORST", [...args, "allowed"]);
    assert.ok(allowed.ok);
    assertPrinted(Number(allowed.value), "33.667");
    assert.match(
      allowed.caveats.map(({ text }) => text).join("\n"),
      /is fed backwards with up to 30\.33 A, which it has to stand/,
    );
    const [told] = allowed.working();
    assert.ok(told);
    assertPrinted(Number(told.values["mostFed"]), "30.333");
    assertSteps(told.steps, told.values);
    const set = [12.24, 11.76, 12.24];
    const share = evaluate("PARALLEL_SHARE", [
      ...[[set], [[0.01, 0.01, 0.01]], 5, "current"],
      "allowed",
    ]);
    assert.ok(share.ok);
    assertPrinted(-Number((share.value as number[][])[1]?.[0]), "30.333");
    const blocked = evaluate("PARALLEL_WORST", args);
    assert.ok(blocked.ok);
    for (const { text } of blocked.caveats) assert.doesNotMatch(text, /is fed/);
  });

  // What units differ by drives the more between them the less resistance they have: copper at −20 °C has 0.843 of that at
  // 20 °C, and 0.705 of that at 70 °C (0.00393 per K).
  it("is worse cold than hot", () => {
    const at = (outputResistance: number) =>
      Number(
        (
          evaluate("PARALLEL_WORST", [100, ...[4, 54, 0.002, outputResistance, 0.05]]) as {
            value: number;
          }
        ).value,
      );
    assert.ok(at(0.01 * 0.705) > 1.03 * at(0.01));
  });

  it("is the load where one unit is alone, whatever it differs by", () => {
    fc.assert(
      fc.property(carried, (drawn) => {
        const asked = { ...drawn, converters: 1 };
        fc.pre(asked.load * asked.outputResistance * 1.3 < asked.setVoltage * 0.98);
        const { worstCurrent, caveats } = parallelWorst(asked);
        assert.equal(worstCurrent, asked.load);
        assert.deepEqual(caveats, []);
      }),
    );
  });

  // Behind an ideal diode: a current source that does not go below 0.
  const netlistOf = (set: ParallelConverters) =>
    [
      ...set.setVoltages.flatMap((volts, unit) =>
        set.reverseFlow === "allowed"
          ? [`v${unit} a${unit} 0 ${volts}`, `r${unit} a${unit} bus ${set.resistances[unit]}`]
          : [
              `b${unit} 0 a${unit} i=max(0,(${volts}-v(bus))/${set.resistances[unit]})`,
              `v${unit} bus a${unit} 0`,
            ],
      ),
      `il bus 0 ${set.load}`,
      // Where one alone carries, the others have no slope: the search starts where all do.
      `.nodeset v(bus)=${0.9 * Math.min(...set.setVoltages)}`,
      NGSPICE_OPTIONS,
    ].join("\n");

  for (const reverseFlow of ["allowed", "blocked"] as const)
    it(`agrees with ngspice for 2 to 64 units, reverse flow ${reverseFlow}`, async () => {
      const drawn = fc.sample(carried, { numRuns: 14, seed: 9 });
      const counts = [2, 3, 4, 8, 16, 32, 63, 64];
      for (const [index, one] of drawn.entries()) {
        const converters = counts[index] ?? one.converters;
        const { setVoltage, outputResistance } = one;
        const most = (converters * setVoltage) / outputResistance / 4;
        const load = Math.min(one.load, most);
        const asked = { ...one, converters, load, reverseFlow };
        const { worstCurrent } = parallelWorst(asked);
        const circuit = await ngspice(netlistOf(worstSet(asked)));
        const theirs = -circuit["i(v0)"]!;
        assert.ok(
          Math.abs(theirs / worstCurrent - 1) <= 1e-6,
          `${converters} units: ${worstCurrent} A, ngspice ${theirs} A`,
        );
      }
    });

  it("refuses a load that leaves no voltage, and mismatches in per cent", () => {
    const asked = {
      load: 100,
      converters: 2,
      setVoltage: 48,
      mismatch: 0,
      outputResistance: 1,
      resistanceMismatch: 0,
      reverseFlow: "blocked" as const,
    };
    assert.throws(() => parallelWorst(asked), NoAnswerError);
    assert.throws(() => parallelWorst({ ...asked, load: 1, mismatch: 1 }), /below 1: 0.01 for 1 %/);
  });
});

describe("parallelUnits", () => {
  // Of these draws all three ends are met: one unit, many, and no number.
  const ratedConverters = fc.record({
    ...LIKE,
    setVoltage: figure(200, 600),
    mismatch: figure(0, 0.001),
    rating: figure(5, 120),
    spareConverters: fc.integer({ min: 0, max: 3 }),
  });

  it("is the least number with which the worst-placed unit stays within its rating", () => {
    const met = { one: 0, more: 0, none: 0 };
    fc.assert(
      fc.property(ratedConverters, (rated) => {
        const worstOf = (converters: number) =>
          parallelWorst({ ...rated, converters, reverseFlow: "blocked" }).worstCurrent;
        const { rating, spareConverters } = rated;
        let count;
        try {
          count = parallelConverters(rated);
        } catch (error) {
          assert.ok(error instanceof NoAnswerError);
          assert.equal(error.field, "mismatch");
          met.none++;
          // None is enough: not even a thousand million of them.
          assert.ok(worstOf(1e9) >= rating * (1 - 1e-6));
          return;
        }
        const { neededConverters, converters, worstCurrent } = count;
        assert.equal(converters, neededConverters + spareConverters);
        assert.equal(worstCurrent, worstOf(neededConverters));
        assert.ok(worstCurrent <= rating * (1 + 1e-9));
        // With any of the spare ones lost, or none.
        for (let lost = 0; lost <= spareConverters; lost++)
          assert.ok(worstOf(converters - lost) <= rating * (1 + 1e-9));
        if (neededConverters > 1) {
          met.more++;
          assert.ok(worstOf(neededConverters - 1) > rating * (1 - 1e-9));
        } else met.one++;
        assertSteps(parallelConvertersSteps(rated), { ...rated, ...count });
      }),
      { numRuns: 300, seed: 4 },
    );
    for (const [end, times] of Object.entries(met)) assert.ok(times > 10, `${end}: ${times}`);
  });

  it("holds in the circuit: the units needed stay within the rating, one fewer does not", () => {
    fc.assert(
      fc.property(ratedConverters, (drawn) => {
        let count;
        try {
          count = parallelConverters(drawn);
        } catch {
          return;
        }
        const most = (converters: number) => {
          const { setVoltage, mismatch, load } = drawn;
          const { outputResistance, resistanceMismatch } = drawn;
          const set = worstSet({
            ...{ load, converters, setVoltage, mismatch },
            ...{ outputResistance, resistanceMismatch, reverseFlow: "blocked" },
          });
          const share = parallelShare(set);
          assert.ok(share.converters.every(({ current }) => current >= 0));
          assert.ok(Math.abs(share.totalCurrent / load - 1) <= 1e-9);
          return Math.max(...share.converters.map(({ current }) => current));
        };
        fc.pre(count.neededConverters <= 200);
        assert.ok(most(count.neededConverters) <= drawn.rating * (1 + 1e-9));
        if (count.neededConverters > 1)
          assert.ok(most(count.neededConverters - 1) > drawn.rating * (1 - 1e-9));
      }),
    );
  });

  it("is the load over the rating, rounded up, for units that do not differ", () => {
    const like = {
      setVoltage: 54,
      mismatch: 0,
      outputResistance: 0.01,
      resistanceMismatch: 0,
      spareConverters: 0,
    };
    expect(parallelConverters({ ...like, load: 210, rating: 70 }).converters).toBe(3);
    expect(parallelConverters({ ...like, load: 211, rating: 70 }).converters).toBe(4);
    expect(parallelConverters({ ...like, load: 70, rating: 70 }).converters).toBe(1);
    expect(
      parallelConverters({ ...like, load: 210, rating: 70, spareConverters: 2 }).converters,
    ).toBe(5);
  });

  it("has no answer where the difference of voltages alone drives a rating", () => {
    const rated = {
      load: 200,
      rating: 10,
      setVoltage: 54,
      mismatch: 0.001,
      outputResistance: 0.01,
      resistanceMismatch: 0,
      spareConverters: 0,
    };
    assert.throws(() => parallelConverters(rated), /no number of units is enough: .* drive 10.8 A/);
  });

  // By hand: 48 V through 1 Ω drive 48 A into a short circuit, so no 1000 A, whatever the rating says.
  it("has no answer where units within their rating leave no voltage on the bus", () => {
    const rated = {
      load: 1000,
      rating: 1000,
      setVoltage: 48,
      mismatch: 0,
      outputResistance: 1,
      resistanceMismatch: 0,
      spareConverters: 0,
    };
    assert.throws(() => parallelConverters(rated), /48 V through 1 Ω drive 48 A/);
    expect(parallelConverters({ ...rated, load: 1 }).converters).toBe(1);
  });

  it("counts to a million units, and refuses spare ones that are no whole number", () => {
    const rated = {
      load: 1e6,
      rating: 1,
      setVoltage: 48,
      mismatch: 0,
      outputResistance: 0.01,
      resistanceMismatch: 0,
      spareConverters: 0,
    };
    expect(parallelConverters(rated).converters).toBe(1e6);
    assert.throws(() => parallelConverters({ ...rated, load: 2e6 }), NoAnswerError);
    for (const spareConverters of [-1, 0.5, Infinity])
      assert.throws(
        () => parallelConverters({ ...rated, spareConverters }),
        /spareConverters must be/,
      );
  });

  it("notes units that may not be lost and units that share badly", () => {
    const rated = {
      load: 200,
      rating: 70,
      setVoltage: 54,
      mismatch: 0,
      outputResistance: 0.01,
      resistanceMismatch: 0,
      spareConverters: 0,
    };
    const codes = (asked: typeof rated) =>
      parallelConverters(asked).caveats.map(({ code }) => code);
    expect(codes(rated)).toEqual(["no-spare"]);
    expect(codes({ ...rated, mismatch: 0.004, spareConverters: 1 })).toEqual(["poor-sharing"]);
  });
});
