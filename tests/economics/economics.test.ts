import assert from "node:assert/strict";
import fc from "fast-check";
import { evaluate as mathjs } from "mathjs";
import { evaluate } from "../../functions/downfeed.js";
import { describe, expect, it } from "vitest";
import { energyLoss, energyLossSteps, energyLossValues } from "../../src/economics/energy-loss.js";
import { presentCost, presentCostSteps } from "../../src/economics/present-cost.js";
import { presentWorth, presentWorthSteps } from "../../src/economics/present-worth.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

const part = (most: number) =>
  fc.noBias(fc.integer({ min: 0, max: 1000 }).map((count) => (most * count) / 1000));

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

  // An interest table at 12 %, column P/A (reproduced on solutioninn.com, question 6387627): years and factor.
  it.each([
    [1, "0.8929"],
    [2, "1.6901"],
    [5, "3.6048"],
    [10, "5.6502"],
    [15, "6.8109"],
    [20, "7.4694"],
  ])("prints the interest table's factor at 12 %% for %i years, %s", (years, printed) => {
    const { presentWorthFactor } = presentWorth({
      years,
      discountRate: 0.12,
      priceRise: 0,
    });
    assertPrinted(presentWorthFactor, printed);
  });

  // A worked question (freemathhelp.com, "Finance geometric gradient"): 990 000 next year, 5 % more each year, 4 years, 10 %.
  it("prints 3 361 898.95 for 990 000 a year that rises by 5 %", () => {
    const { presentWorthFactor } = presentWorth({
      years: 4,
      discountRate: 0.1,
      priceRise: 0.05,
    });
    assertPrinted(990_000 * presentWorthFactor, "3361898.95");
  });

  it("has steps that recompute, however close the rates are", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 720 }).map((months) => months / 12),
        part(0.3),
        fc.integer({ min: 1, max: 18 }).map((digits) => 10 ** -digits),
        fc.constantFrom(-1, 1),
        (years, discountRate, apart, sign) => {
          const payment = {
            years,
            discountRate,
            priceRise: discountRate + sign * apart,
          };
          assertSteps(presentWorthSteps, {
            ...payment,
            ...presentWorth(payment),
          });
        },
      ),
      { numRuns: 400 },
    );
  });

  it("writes the factor in one formula, whatever the rates are", () => {
    const { formula } = presentWorthSteps.presentWorthFactor as {
      readonly formula: string;
    };
    // By hand, of a payment of 1 in each of 12 years: the sum of powers of 1.02/1.08 over 1.08, and 12/1.05 at equal rates.
    for (const [discountRate, priceRise] of [
      [0.08, 0.02],
      [0.05, 0.05],
      [0.05, 0.1 - 0.05],
      [0, 0],
      [0.02, 0.08],
      [0.05, 0.0525],
    ] as const) {
      const payment = { years: 12, discountRate, priceRise };
      const { rateGap, ratesApart } = presentWorth(payment);
      const found = Number(mathjs(formula, { ...payment, rateGap, ratesApart }));
      const wanted = byLoop(12, discountRate, priceRise);
      assert.ok(Math.abs(found / wanted - 1) < 1e-12, `${found} ${wanted}`);
    }
  });

  it("refuses years that add up to no money, at the bound that it names", () => {
    const at = (years: number, discountRate: number, priceRise: number) =>
      presentWorth({ years, discountRate, priceRise }).presentWorthFactor;
    // By hand: (1.5ⁿ − 1)/0.5 is 1e30 at n = ln(5e29)/ln 1.5 = 168.66.
    assert.ok(at(168, 0, 0.5) < 1e30);
    for (const years of [169, 2000, 1e30])
      assert.throws(
        () => at(years, 0, 0.5),
        new RegExp(
          `^InputError: years must be at most 168 at these rates.*got ${String(years).replace("+", "\\+")}$`,
        ),
      );
    assert.ok(Number.isFinite(at(1e30, 0.5, 0.5)));
    expect(at(2000, 0.5, 0)).toBeCloseTo(2, 12);
  });

  it("refuses them by name in the cell, for the cost and for the economic area", () => {
    for (const [id, args] of [
      ["PRESENT_COST", [1000, 0.2, 2000, 0, 0.5]],
      ["CONDUCTOR_ECONOMIC_AREA", [1, 8760, 0.2, 2000, 0, 0.2, 20, "", "", 0.5]],
    ] as const) {
      const outcome = evaluate(id, args);
      assert.ok(!outcome.ok);
      expect([outcome.code, outcome.argument]).toEqual(["#VALUE!", "years"]);
      expect(outcome.message).toMatch(/^years must be at most 168 at these/);
    }
  });

  it("answers or refuses by name, never with a fault, at any size of its inputs", () => {
    const size = fc.integer({ min: -290, max: 290 }).map((power) => 10 ** (power / 10));
    fc.assert(
      fc.property(size, size, size, size, (years, discountRate, rise, w) => {
        for (const [id, args] of [
          ["PRESENT_COST", [w, w, years, discountRate, rise]],
          ["CONDUCTOR_ECONOMIC_AREA", [w, w, w, years, discountRate, 1 / w, 20, "", "", rise]],
        ] as const) {
          const outcome = evaluate(id, args);
          if (!outcome.ok) expect(outcome.argument).toBe("years");
        }
      }),
      { numRuns: 400 },
    );
  });

  it("goes on smoothly between whole years", () => {
    const after = (years: number) =>
      presentWorth({ years, discountRate: 0.08, priceRise: 0.02 }).presentWorthFactor;
    assert.ok(after(7) < after(7.25) && after(7.25) < after(8));
    // Of a geometric series a part of a year is what is left when whole years are taken off.
    const rest = after(7.25) - after(7);
    const grown = after(0.25) * (1.02 / 1.08) ** 7;
    assert.ok(Math.abs(rest / grown - 1) < 1e-12);
  });

  it("is the number of years without discount or rise", () => {
    const plain = { years: 15, discountRate: 0, priceRise: 0 };
    expect(presentWorth(plain).presentWorthFactor).toBe(15);
  });

  it("falls with the discount rate and grows with the rise", () => {
    fc.assert(
      fc.property(part(0.2), part(0.2), (discountRate, priceRise) => {
        const at = (i: number, e: number) =>
          presentWorth({ years: 12, discountRate: i, priceRise: e }).presentWorthFactor;
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
      assertSteps(presentCostSteps, { ...energy, ...cost });
    }
  });

  it("notes rates that look like per cent, and no others", () => {
    const codes = (discountRate: number, priceRise: number) =>
      presentCost({
        energyPerYear: 1,
        price: 1,
        years: 10,
        discountRate,
        priceRise,
      }).caveats.map(({ code }) => code);
    expect(codes(8, 0.02)).toEqual(["rate-in-per-cent"]);
    expect(codes(0.08, 2)).toEqual(["rate-in-per-cent"]);
    expect(codes(0.08, 0.02)).toEqual([]);
    expect(codes(0.08, -0.02)).toEqual([]);
  });

  it("notes that a price taken not to rise stays where it is", () => {
    const outcome = evaluate("PRESENT_COST", [1000, 0.25, 2, 0.1]);
    assert.ok(outcome.ok);
    expect(outcome.caveats.map(({ text }) => text)).toEqual([
      "at a constant price: no yearly rise given",
    ]);
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

  /** One year at no discount: what Mehta's yearly charge is. */
  const yearlyCost = (energyPerYear: number, price: number) =>
    presentCost({
      energyPerYear,
      price,
      years: 1,
      discountRate: 0,
      priceRise: 0,
    }).presentCost;

  // The same example: 5 paise a kWh, and a yearly charge of 10 % of Rs 20 000 for each cm²: he finds 1.74 cm².
  it("costs Mehta's cable of 1 cm² what his 1.74 cm² come from (example 7.7)", () => {
    const { energy } = energyLoss({ losses: [13_840], hours: [8760] });
    const cost = yearlyCost(energy, 0.05);
    expect(cost).toBeCloseTo(6061.92, 9);
    assertPrinted(Math.sqrt(cost / (0.1 * 20_000)), "1.74");
  });

  // Mehta, example 7.10: 20, 5 and 6 MW for 6, 12 and 6 h a day at 110 kV, three phases, power factor 0.8, 0.176 Ω for
  // each of three conductors of 1 cm²; 6 paise, and 10 % of Rs 6000 for each cm²: he finds 1.56 cm².
  it("sums Mehta's daily profile to where his 1.56 cm² come from (example 7.10)", () => {
    const losses = [20e6, 5e6, 6e6].map(
      (power) => 3 * 0.176 * (power / (Math.sqrt(3) * 110e3 * 0.8)) ** 2,
    );
    const { energy } = energyLoss({ losses, hours: [6, 12, 6] });
    const cost = yearlyCost(energy * 365, 0.06);
    assertPrinted(Math.sqrt(cost / (0.1 * 6000)), "1.56");
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
          const joules = profile.reduce((sum, [loss, lasting]) => sum + loss * lasting * 3600, 0);
          assert.ok(Math.abs(record.energy * 3.6e6 - joules) <= 1e-9 * Math.max(1, joules));
          assertSteps(
            energyLossSteps({ losses, hours }),
            energyLossValues({ losses, hours }, record),
          );
        },
      ),
    );
  });

  it("notes more hours than a year has, and refuses lists of unequal length", () => {
    expect(energyLoss({ losses: [1], hours: [8761] }).caveats[0]?.code).toBe("more-than-a-year");
    expect(energyLoss({ losses: [1], hours: [8760] }).caveats).toEqual([]);
    assert.throws(() => energyLoss({ losses: [1, 2], hours: [1] }), /hours must be as many/);
  });
});
