import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parallelShare } from "../../src/parallel/parallel-share.js";
import {
  parallelUnits,
  parallelUnitsSteps,
} from "../../src/parallel/parallel-units.js";
import {
  type LikeUnitsInParallel,
  parallelWorst,
  parallelWorstSteps,
} from "../../src/parallel/parallel-worst.js";
import { NoAnswerError } from "../../src/quantities/errors.js";
import { assertSteps } from "../helpers/assert-steps.js";
import {
  operatingPoint as ngspice,
  NGSPICE_OPTIONS,
} from "../helpers/ngspice.js";

const figure = (least: number, most: number) =>
  fc.noBias(
    fc
      .integer({ min: 0, max: 10_000 })
      .map((part) => least + ((most - least) * part) / 10_000),
  );

const parallel: fc.Arbitrary<LikeUnitsInParallel> = fc.record({
  load: figure(1, 400),
  units: fc.integer({ min: 2, max: 64 }),
  setVoltage: figure(20, 60),
  mismatch: figure(0, 0.02),
  outputResistance: figure(0.002, 0.05),
  resistanceMismatch: figure(0, 0.3),
  reverseFlow: fc.constantFrom("blocked", "allowed"),
});

/** Chosen so that a bus voltage is left. */
const carried = parallel.filter(
  ({ load, units, setVoltage, outputResistance }) =>
    (load / units) * outputResistance < setVoltage / 4,
);

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
        const {
          load,
          units: n,
          setVoltage,
          mismatch,
          outputResistance,
        } = asked;
        const byHand =
          load / n +
          (2 * mismatch * setVoltage * (n - 1)) / (n * outputResistance);
        assert.ok(
          Math.abs(parallelWorst(asked).worstCurrent / byHand - 1) <= 1e-12,
        );
      }),
    );
  });

  it("is the first unit's share of the same set, currents adding up to the load and none fed backwards when blocked", () => {
    fc.assert(
      fc.property(carried, (asked) => {
        const worst = parallelWorst(asked);
        const others = Array.from({ length: asked.units - 1 });
        const share = parallelShare({
          setVoltages: [
            worst.highestVoltage,
            ...others.map(() => worst.lowestVoltage),
          ],
          resistances: [
            worst.lowestResistance,
            ...others.map(() => worst.highestResistance),
          ],
          load: asked.load,
          loadKind: "current",
          reverseFlow: asked.reverseFlow,
        });
        const [first] = share.units;
        assert.ok(
          Math.abs(first!.current - worst.worstCurrent) <=
            1e-9 * worst.worstCurrent,
        );
        assert.ok(Math.abs(share.totalCurrent / asked.load - 1) <= 1e-9);
        if (asked.reverseFlow === "blocked") {
          assert.ok(worst.worstCurrent <= asked.load);
          assert.ok(share.units.every(({ current }) => current >= 0));
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
          const {
            units: n,
            setVoltage,
            mismatch,
            outputResistance,
            resistanceMismatch,
          } = asked;
          const at = Array.from({ length: n }, (_, unit) => unit);
          const share = parallelShare({
            setVoltages: at.map(
              (unit) => setVoltage * (1 + mismatch * place[unit]!),
            ),
            resistances: at.map(
              (unit) =>
                outputResistance * (1 + resistanceMismatch * place[64 + unit]!),
            ),
            load: asked.load,
            loadKind: "current",
            reverseFlow: asked.reverseFlow,
          });
          const most = Math.max(...share.units.map(({ current }) => current));
          assert.ok(most <= parallelWorst(asked).worstCurrent * (1 + 1e-9));
        },
      ),
    );
  });

  it("agrees with ngspice for 2 to 64 units", async () => {
    for (const asked of fc.sample(carried, { numRuns: 20, seed: 9 })) {
      const worst = parallelWorst({ ...asked, reverseFlow: "allowed" });
      const lines = Array.from({ length: asked.units }, (_, unit) => {
        const [volts, ohms] =
          unit === 0
            ? [worst.highestVoltage, worst.lowestResistance]
            : [worst.lowestVoltage, worst.highestResistance];
        return `v${unit} a${unit} 0 ${volts}\nr${unit} a${unit} bus ${ohms}`;
      });
      const circuit = await ngspice(
        [...lines, `il bus 0 ${asked.load}`, NGSPICE_OPTIONS].join("\n"),
      );
      assert.ok(Math.abs(-circuit["i(v0)"]! / worst.worstCurrent - 1) <= 1e-6);
    }
  });

  it("refuses a load that leaves no voltage, and mismatches in per cent", () => {
    const asked = {
      load: 100,
      units: 2,
      setVoltage: 48,
      mismatch: 0,
      outputResistance: 1,
      resistanceMismatch: 0,
      reverseFlow: "blocked" as const,
    };
    assert.throws(() => parallelWorst(asked), NoAnswerError);
    assert.throws(
      () => parallelWorst({ ...asked, load: 1, mismatch: 1 }),
      /below 1: 0.01 for 1 %/,
    );
  });
});

describe("parallelUnits", () => {
  it("is the least number with which the worst-placed unit stays within its rating", () => {
    fc.assert(
      fc.property(carried, figure(5, 120), (drawn, rating) => {
        const rated = { ...drawn, rating, spareUnits: 0 };
        const worstOf = (units: number) =>
          parallelWorst({
            ...drawn,
            units,
            setVoltage: drawn.setVoltage * 100,
            mismatch: drawn.mismatch / 100,
            reverseFlow: "blocked",
          }).worstCurrent;
        let count;
        try {
          count = parallelUnits({
            ...rated,
            setVoltage: drawn.setVoltage * 100,
            mismatch: drawn.mismatch / 100,
          });
        } catch (error) {
          // None is enough: not even a thousand million of them.
          assert.ok(error instanceof NoAnswerError);
          assert.ok(worstOf(1e9) >= rating * (1 - 1e-6));
          return;
        }
        assert.ok(worstOf(count.units) <= rating * (1 + 1e-9));
        if (count.units > 1)
          assert.ok(worstOf(count.units - 1) > rating * (1 - 1e-9));
        assertSteps(parallelUnitsSteps(rated), {
          ...rated,
          setVoltage: drawn.setVoltage * 100,
          mismatch: drawn.mismatch / 100,
          ...count,
        });
      }),
    );
  });

  it("is the load over the rating, rounded up, for units that do not differ", () => {
    const like = {
      setVoltage: 54,
      mismatch: 0,
      outputResistance: 0.01,
      resistanceMismatch: 0,
      spareUnits: 0,
    };
    expect(parallelUnits({ ...like, load: 210, rating: 70 }).units).toBe(3);
    expect(parallelUnits({ ...like, load: 211, rating: 70 }).units).toBe(4);
    expect(parallelUnits({ ...like, load: 70, rating: 70 }).units).toBe(1);
    expect(
      parallelUnits({ ...like, load: 210, rating: 70, spareUnits: 2 }).units,
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
      spareUnits: 0,
    };
    assert.throws(
      () => parallelUnits(rated),
      /no number of units is enough: .* drive 10.8 A/,
    );
  });
});
