import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  energyLoss,
  energyLossSteps,
  energyLossValues,
} from "../../src/economics/energy-loss.js";
import {
  presentCost,
  presentCostSteps,
} from "../../src/economics/present-cost.js";
import { presentWorth } from "../../src/economics/present-worth.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

const part = (most: number) =>
  fc.noBias(
    fc.integer({ min: 0, max: 1000 }).map((count) => (most * count) / 1000),
  );

/** Year by year, as a table would. */
function byLoop(years: number, discountRate: number, priceRise: number) {
  let sum = 0;
  for (let year = 1; year <= years; year++)
    sum += (1 + priceRise) ** (year - 1) / (1 + discountRate) ** year;
  return sum;
}

describe("presentWorth", () => {
  it("is the sum of the years' payments, also where price and discount rise alike or nearly so", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        part(0.3),
        fc.oneof(part(0.3), fc.constantFrom("same", "nearly")),
        (years, discountRate, drawn) => {
          const priceRise =
            drawn === "same"
              ? discountRate
              : drawn === "nearly"
                ? discountRate + 1e-13
                : Number(drawn);
          const { presentWorthFactor } = presentWorth({
            years,
            discountRate,
            priceRise,
          });
          const wanted = byLoop(years, discountRate, priceRise);
          assert.ok(
            Math.abs(presentWorthFactor - wanted) <= 1e-12 * wanted,
            `${presentWorthFactor} ${wanted}`,
          );
        },
      ),
    );
  });

  // The annuity factor that interest tables print: 10 years at 8 % (from memory of such tables).
  it("prints the annuity of ten years at 8 % (from memory)", () => {
    const { presentWorthFactor } = presentWorth({
      years: 10,
      discountRate: 0.08,
      priceRise: 0,
    });
    assertPrinted(presentWorthFactor, "6.7101");
  });

  it("is the number of years without discount or rise", () => {
    const plain = { years: 15, discountRate: 0, priceRise: 0 };
    expect(presentWorth(plain).presentWorthFactor).toBe(15);
  });

  it("falls with the discount rate and grows with the rise", () => {
    fc.assert(
      fc.property(part(0.2), part(0.2), (discountRate, priceRise) => {
        const at = (i: number, e: number) =>
          presentWorth({ years: 12, discountRate: i, priceRise: e })
            .presentWorthFactor;
        const here = at(discountRate, priceRise);
        assert.ok(at(discountRate + 0.01, priceRise) < here);
        assert.ok(at(discountRate, priceRise + 0.01) > here);
      }),
    );
  });
});

describe("presentCost", () => {
  it("recomputes step by step, in every case of the rates", () => {
    for (const [discountRate, priceRise] of [
      [0.08, 0.02],
      [0.05, 0.05],
      [0, 0],
      [0.03, -0.01],
    ] as const) {
      const energy = {
        energyPerYear: 1234,
        price: 0.31,
        years: 12,
        discountRate,
        priceRise,
      };
      const cost = presentCost(energy);
      assertSteps(presentCostSteps(energy), { ...energy, ...cost });
    }
  });

  it("refuses a rise of −100 % and less, and no years", () => {
    const energy = {
      energyPerYear: 1,
      price: 1,
      years: 1,
      discountRate: 0,
      priceRise: 0,
    };
    assert.throws(() => presentCost({ ...energy, priceRise: -1 }), /priceRise/);
    assert.throws(() => presentCost({ ...energy, years: 0 }), /years/);
  });
});

describe("energyLoss", () => {
  // V. K. Mehta, Principles of Power System, ex. 7.7 (companion notebook): 200 A through 2 × 1 km of 1 cm² with
  // 1.73 µΩ·cm, the year round: 2 · 200² · 1.73e-6 · 1e5 / 1000 · 8760 kWh, worked out by hand: 13.84 kW, 121 238.4 kWh.
  it("is the loss for the hours of a year", () => {
    const { energy } = energyLoss({ losses: [13_840], hours: [8760] });
    expect(energy).toBeCloseTo(121_238.4, 9);
  });

  it("adds the parts of a profile", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(part(5000), part(24)), {
          minLength: 1,
          maxLength: 24,
        }),
        (profile) => {
          const losses = profile.map(([loss]) => loss);
          const hours = profile.map(([, lasting]) => lasting);
          const record = energyLoss({ losses, hours });
          const joules = profile.reduce(
            (sum, [loss, lasting]) => sum + loss * lasting * 3600,
            0,
          );
          assert.ok(
            Math.abs(record.energy * 3.6e6 - joules) <=
              1e-9 * Math.max(1, joules),
          );
          assertSteps(
            energyLossSteps({ losses, hours }),
            energyLossValues({ losses, hours }, record),
          );
        },
      ),
    );
  });

  it("notes more hours than a year has, and refuses lists of unequal length", () => {
    expect(energyLoss({ losses: [1], hours: [8761] }).notes[0]?.code).toBe(
      "more-than-a-year",
    );
    expect(energyLoss({ losses: [1], hours: [8760] }).notes).toEqual([]);
    assert.throws(
      () => energyLoss({ losses: [1, 2], hours: [1] }),
      /hours must be as many/,
    );
  });
});
