import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { conductorAmpacity } from "../../src/conductors/conductor-ampacity.js";
import { ownMaterial } from "../../src/conductors/conductor-materials.js";
import {
  type LoadedCable,
  conductorTemperature,
  temperatureWorking,
} from "../../src/conductors/conductor-temperature.js";
import type { CableInAir } from "../../src/conductors/heat-balance.js";
import { InputError, NoAnswerError } from "../../src/quantities/errors.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { cable, cables, metal, spread } from "./cable-in-air.js";
import { type SurfaceFigures, balancedTemperature, settledTemperature } from "./second-balance.js";

const temperatureOf = (change: Partial<LoadedCable>) =>
  conductorTemperature({ ...cable, current: 20, ...change });

const greatestOf = (found: CableInAir) =>
  conductorAmpacity({ ...found, temperatureLimitC: 600 }).current;

/** A cable that some current suits: the sun alone does not fry it. */
const loaded: fc.Arbitrary<LoadedCable> = fc
  .tuple(cables, spread(0.01, 0.6))
  .map(([found, part]) => ({ ...found, current: part * greatestOf(found) }));

// Conductivity and emissivity typed again from where they come from: IEC 60287-2-1 (5.0 and 3.5 K·m/W), 0.25 W/(m·K) for
// PTFE, the lowest emissivities of the handbooks; bare copper 0.4, bare aluminium 0.2.
const FIGURES: Readonly<Record<string, SurfaceFigures>> = {
  PVC: { conductivity: 0.2, emissivity: 0.91 },
  XLPE: { conductivity: 2 / 7, emissivity: 0.91 },
  PTFE: { conductivity: 0.25, emissivity: 0.85 },
  silicone: { conductivity: 0.2, emissivity: 0.86 },
};

function bodyOf(found: LoadedCable) {
  assert.ok(found.size.sizing === "bare metal");
  const bare = {
    conductivity: Infinity,
    emissivity: found.material.name === "aluminium" ? 0.2 : 0.4,
  };
  return {
    ...(FIGURES[found.insulation] ?? bare),
    cable: found,
    areaMm2: found.size.areaMm2,
  };
}

describe("conductorTemperature, against a balance written differently", () => {
  it("agrees to 1e-9 for random cables", () => {
    fc.assert(
      fc.property(loaded, (found) => {
        const { conductorTemperatureC } = conductorTemperature(found);
        const second = balancedTemperature(bodyOf(found), found.current);
        assert.ok(
          Math.abs(conductorTemperatureC - second) <= 1e-9 * Math.max(1, Math.abs(second)),
          `${conductorTemperatureC}, ${second}`,
        );
      }),
      { numRuns: 500 },
    );
  });

  // The same cables followed as they warm up, until nothing changes any more.
  for (const [name, change] of [
    ["two cores in PVC", {}],
    ["one core in XLPE", { loadedCores: 1, insulation: "XLPE", current: 40 }],
    ["grouped, in the sun", { grouping: 0.7, sun: 900 }],
    ["at 4000 m", { altitude: 4000, insulation: "silicone", current: 35 }],
    [
      "bare",
      {
        insulation: "none",
        loadedCores: 1,
        outerDiameter: 0.0024,
        current: 45,
      },
    ],
  ] as const satisfies readonly (readonly [string, Partial<LoadedCable>])[]) {
    it(`is where the cable settles that warms up: ${name}`, () => {
      const found: LoadedCable = { ...cable, current: 20, ...change };
      const { conductorTemperatureC } = conductorTemperature(found);
      const settled = settledTemperature(bodyOf(found), found.current);
      assert.ok(
        Math.abs(conductorTemperatureC - settled) < 1e-6,
        `${conductorTemperatureC}, ${settled}`,
      );
    });
  }
});

describe("conductorTemperature", () => {
  it("balances: what is left over is nothing, and heat is the current's", () => {
    fc.assert(
      fc.property(loaded, (found) => {
        const { residual, heat, hotResistance, surface } = conductorTemperature(found);
        assert.ok(Math.abs(residual) <= 1e-11 * surface.cooling);
        const solo = found.current / found.grouping;
        const made = found.loadedCores * solo ** 2 * hotResistance;
        assert.ok(Math.abs(made / heat - 1) < 1e-11, `${made}, ${heat}`);
      }),
    );
  });

  it("rises with current, air and sun, with altitude and with closer grouping", () => {
    fc.assert(
      fc.property(loaded, (found) => {
        const hot = (change: Partial<LoadedCable>) =>
          conductorTemperature({ ...found, ...change }).conductorTemperatureC;
        const { conductorTemperatureC } = conductorTemperature(found);
        const { current, ambientC, altitude, grouping, sun } = found;
        assert.ok(hot({ current: current * 1.01 }) > conductorTemperatureC);
        assert.ok(hot({ ambientC: ambientC + 1 }) > conductorTemperatureC);
        assert.ok(hot({ altitude: altitude + 500 }) > conductorTemperatureC);
        assert.ok(hot({ grouping: grouping * 0.95 }) > conductorTemperatureC);
        assert.ok(hot({ sun: sun + 20 }) > conductorTemperatureC);
      }),
    );
  });

  it("is that of the current divided by the grouping factor", () => {
    const grouped = temperatureOf({ current: 14, grouping: 0.7 });
    assert.equal(
      grouped.conductorTemperatureC.toPrecision(12),
      temperatureOf({ current: 20 }).conductorTemperatureC.toPrecision(12),
    );
  });

  it("is the air's for next to no current, and warmer in the sun", () => {
    const idle = temperatureOf({ current: 1e-6 });
    assert.ok(Math.abs(idle.conductorTemperatureC - 30) < 1e-9);
    // Full sun alone warms a dark cable in still air by 10 to 30 K: common practice, no source.
    const sunny = temperatureOf({ current: 1e-6, sun: 1000 });
    assert.ok(sunny.conductorTemperatureC > 40);
    assert.ok(sunny.conductorTemperatureC < 60);
  });

  it("is hotter with more loaded cores, and with thicker metal cooler", () => {
    const at = (change: Partial<LoadedCable>) => temperatureOf(change).conductorTemperatureC;
    assert.ok(at({ loadedCores: 3 }) > at({ loadedCores: 2 }));
    assert.ok(at({ size: metal(6) }) < at({ size: metal(4) }));
  });

  it("has steps that another engine computes to the same numbers", () => {
    fc.assert(
      fc.property(loaded, (found) => {
        const record = conductorTemperature(found);
        const { steps, values } = temperatureWorking(found, record);
        assertSteps(steps, values);
      }),
    );
  });
});

describe("thermal runaway", () => {
  it("is refused above the greatest current with a balance, and not below it", () => {
    fc.assert(
      fc.property(cables, (found) => {
        const greatest = greatestOf(found);
        const below = conductorTemperature({
          ...found,
          current: greatest * 0.999999,
        });
        assert.ok(below.conductorTemperatureC < 600);
        assert.ok(below.conductorTemperatureC > 599.9);
        assert.throws(
          () => conductorTemperature({ ...found, current: greatest * 1.000001 }),
          NoAnswerError,
        );
      }),
    );
  });

  it("names the current, the greatest one and the difference", () => {
    const greatest = greatestOf(cable);
    assert.throws(
      () => temperatureOf({ current: greatest + 10 }),
      (error) =>
        error instanceof NoAnswerError &&
        error.field === "current" &&
        /^thermal runaway: at [\d.]+ A per core in air of 30 °C .* below 600 °C; up to [\d.]+ A, 10 A less, they do below 600 °C$/.test(
          error.message,
        ),
    );
  });

  // I² · n · R₂₀ · α · T₁ = 1: each watt through the insulation makes resistance bring a watt more.
  it("says so where no temperature at all would balance", () => {
    const { feedback } = temperatureOf({ current: 20 });
    const end = 20 / Math.sqrt(feedback);
    for (const [current, word] of [
      [0.99 * end, "below 600 °C;"],
      [1.01 * end, "at any temperature"],
    ] as const)
      assert.throws(
        () => temperatureOf({ current }),
        (error) => error instanceof NoAnswerError && error.message.includes(word),
      );
    assert.ok(end > greatestOf(cable));
  });
});

describe("what conductorTemperature refuses", () => {
  const blamed = (change: Partial<LoadedCable>): string => {
    try {
      temperatureOf(change);
    } catch (error) {
      assert.ok(error instanceof InputError, String(error));
      return `${error.field}: ${error.requirement}`;
    }
    return "nothing";
  };

  it("names the input that cannot be", () => {
    const expected: readonly (readonly [Partial<LoadedCable>, RegExp])[] = [
      [{ current: 0 }, /^current: above 0/],
      [{ current: -5 }, /^current: above 0/],
      [{ ambientC: -300 }, /^ambientC: above -273.15/],
      [{ ambientC: -240 }, /^ambientC: where .* copper a resistance/],
      [{ ambientC: 600 }, /^ambientC: below 600/],
      [{ outerDiameter: 0 }, /^outerDiameter: above 0/],
      // By hand: two cores of 4 mm² have 8 mm² of metal, 3.192 mm across.
      [{ outerDiameter: 0.003 }, /^outerDiameter: above the 3.192 mm/],
      [{ loadedCores: 0 }, /^loadedCores: a whole number, 1 or more/],
      [{ loadedCores: 1.5 }, /^loadedCores: a whole number, 1 or more/],
      [{ insulation: "none" }, /^loadedCores: 1 where insulation is "none"/],
      [
        { insulation: "none", loadedCores: 1, outerDiameter: 0.002 },
        /^outerDiameter: about the 2.257 mm/,
      ],
      [{ grouping: 0 }, /^grouping: above 0 and at most 1/],
      [{ grouping: 1.1 }, /^grouping: above 0 and at most 1/],
      [{ altitude: 20001 }, /^altitude: -5000 to 20000 m/],
      [{ sun: -1 }, /^sun: 0 or more/],
      [{ material: ownMaterial(2e-8, -0.01) }, /^material: of a coefficient/],
    ];
    for (const [change, pattern] of expected) assert.match(blamed(change), pattern);
  });

  it("takes a bare wire as wide as its metal, rounded", () => {
    const bare = { insulation: "none", loadedCores: 1 } as const;
    assert.equal(blamed({ ...bare, outerDiameter: 0.00226 }), "nothing");
    assert.equal(blamed({ ...bare, outerDiameter: 0.0022 }), "nothing");
  });
});

describe("the notes of conductorTemperature", () => {
  const codes = (change: Partial<LoadedCable>) =>
    temperatureOf(change).caveats.map(({ code }) => code);
  const always = ["still-air", "local-code"];

  it("say what was assumed", () => {
    assert.deepEqual(codes({ loadedCores: 1 }), [
      "ideal-metal",
      ...always,
      "no-sun",
      "alone",
      "sea-level",
    ]);
    assert.deepEqual(
      codes({
        size: metal(4.1),
        loadedCores: 1,
        sun: 500,
        grouping: 0.8,
        altitude: 100,
      }),
      always,
    );
    assert.ok(codes({}).includes("several-cores"));
  });

  it("tell of insulation that is too hot, and of a doubtful law", () => {
    const hot = { current: 40, loadedCores: 1 };
    const over = "above-insulation-limit";
    assert.ok(!codes(hot).includes(over));
    assert.ok(codes({ ...hot, current: 65 }).includes(over));
    assert.ok(!codes({ ...hot, current: 65, insulation: "PTFE" }).includes(over));
    assert.ok(codes({ ...hot, current: 95 }).includes("outside-linear-range"));
  });

  it("tell of a bare conductor that is wider than its metal", () => {
    const bare = { insulation: "none", loadedCores: 1, current: 5 } as const;
    const wide = (outerDiameter: number) =>
      codes({ ...bare, outerDiameter }).includes("wide-for-bare");
    assert.ok(!wide(0.0026));
    assert.ok(wide(0.004));
  });
});
