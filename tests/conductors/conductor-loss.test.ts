import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import {
  type LoadedRun,
  conductorLoss,
  conductorLossGivens,
  conductorLossSteps,
} from "../../src/conductors/conductor-loss.js";
import { conductorMaterials, ownMaterial } from "../../src/conductors/conductor-materials.js";
import type { ConductorSize } from "../../src/conductors/conductor-section.js";
import { METRES_PER_FOOT } from "../../src/quantities/units.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

const metal = (areaMm2: number): ConductorSize => ({
  sizing: "bare metal",
  areaMm2,
});

const run: LoadedRun = {
  size: metal(1),
  material: conductorMaterials.copper,
  build: undefined,
  length: 100,
  conductors: 2,
  parallel: 1,
  temperatureC: 20,
  current: 10,
};

const lossOf = (change: Partial<LoadedRun>) => conductorLoss({ ...run, ...change });

/** A run of which the source states the resistance per metre of its loop, so size and material do not matter. */
const stated = (ohmsPerMetre: number, length: number, current: number) =>
  lossOf({
    material: ownMaterial(ohmsPerMetre * 1e-6, 0),
    conductors: 1,
    length,
    current,
  });

// BS 7671, Appendix 4, read on pages that reproduce the tables: millivolts per ampere and metre of route, d.c.
describe("BS 7671 voltage drop tables", () => {
  const millivolts = (nominalMm2: number, build: LoadedRun["build"], temperatureC: number) =>
    lossOf({
      size: {
        sizing: "metric name",
        nominalMm2,
        written: `${nominalMm2} mm²`,
      },
      build,
      temperatureC,
      length: 1,
      current: 1,
    }).drop * 1000;

  // Table 4E1B: two single-core copper cables at 90 °C. For 240 mm² it prints 0.190: it goes in steps of 0.005 there, so
  // only 0.19 is checked (computed: 0.192).
  for (const [size, printed] of [
    [1, "46"],
    [1.5, "31"],
    [4, "12"],
    [6, "7.9"],
    [16, "2.9"],
    [25, "1.85"],
    [50, "0.99"],
    [95, "0.49"],
    [120, "0.39"],
    [150, "0.32"],
    [185, "0.25"],
    [240, "0.19"],
  ] as const) {
    it(`Table 4E1B, ${size} mm²: ${printed} mV/A/m`, () => {
      assertPrinted(millivolts(size, undefined, 90), printed);
    });
  }

  // Table 4F3B: flexible cables at 60 °C; the figures are those of tinned class 5 conductors.
  for (const [size, printed] of [
    [0.5, "93"],
    [0.75, "62"],
    [1, "46"],
    [1.5, "32"],
    [4, "12"],
  ] as const) {
    it(`Table 4F3B, ${size} mm²: ${printed} mV/A/m`, () => {
      assertPrinted(millivolts(size, "class 5 tinned", 60), printed);
    });
  }
});

describe("feeders of textbooks, stage by stage", () => {
  // V. K. Mehta, Principles of Power System, example 13.1: 0.02 Ω per 1000 m go and return, fed at 300 V;
  // 100, 150, 200 and 50 A taken at 500, 1000, 1600 and 2000 m. Printed: 295, 291, 288, 287.6 V.
  it("gives Mehta's 295, 291, 288 and 287.6 V (example 13.1)", () => {
    const sections = [
      [500, 500, "295"],
      [500, 400, "291"],
      [600, 250, "288"],
      [400, 50, "287.6"],
    ] as const;
    let voltage = 300;
    let loss = 0;
    for (const [length, current, printed] of sections) {
      const section = stated(0.02 / 1000, length, current);
      voltage -= section.drop;
      loss += section.loss;
      assertPrinted(voltage, printed);
    }
    // By hand: 5 V · 500 A + 4 · 400 + 3 · 250 + 0.4 · 50
    assertPrinted(loss, "4870.0");
  });

  // The same, example 13.2: 1.78e-8 Ω·m; 30, 40, 100 and 50 A at 40, 100, 150 and 250 m; at most 10 V.
  // Printed: 1.164 cm² per conductor.
  it("drops Mehta's 10 V in his 1.164 cm² (example 13.2)", () => {
    const material = ownMaterial(1.78e-8, 0.004);
    const sections = [
      [40, 220],
      [60, 190],
      [50, 150],
      [100, 50],
    ] as const;
    const drops = sections.map(
      ([length, current]) => lossOf({ material, size: metal(116.4), length, current }).drop,
    );
    const total = drops.reduce((sum, drop) => sum + drop, 0);
    assertPrinted(total, "10.0");
  });

  // The same, example 13.3: 600 V, 0.28 Ω/km of loop, 40 A at 2 km and 20 A at 6 km. Printed: 566.4 V, 544 V.
  it("gives Mehta's 566.4 and 544 V (example 13.3)", () => {
    const near = 600 - stated(0.28e-3, 2000, 60).drop;
    assertPrinted(near, "566.4");
    assertPrinted(near - stated(0.28e-3, 4000, 20).drop, "544");
  });

  // FAA AC 43.13-1B, Table 11-8: AWG 10 of 0.00126 Ω/ft at 20 A; one wire, return by the airframe.
  it("gives the FAA's 0.98, 3.93 and 6.88 V for 39, 156 and 273 ft", () => {
    const perMetre = 0.00126 / METRES_PER_FOOT;
    const drop = (feet: number) => stated(perMetre, feet * METRES_PER_FOOT, 20).drop;
    assertPrinted(drop(39), "0.98");
    assertPrinted(drop(156), "3.93");
    assertPrinted(drop(273), "6.88");
  });
});

describe("line losses of textbooks", () => {
  // OpenStax, College Physics 2e, Alternating Current versus Direct Current: 100 MW over a line of 1.00 Ω.
  // Printed: 250 kW at 200 kV (500 A), 16.0 MW at 25 kV (4.00 kA).
  it("gives OpenStax's 250 kW at 200 kV and 16.0 MW at 25 kV", () => {
    assertPrinted(stated(1, 1, 100e6 / 200e3).loss / 1e3, "250");
    assertPrinted(stated(1, 1, 100e6 / 25e3).loss / 1e6, "16.0");
  });

  // OpenStax, College Physics 2e, Electric Power and Energy: cords of 0.0600 Ω and 0.300 Ω at 5.00 A.
  it("gives OpenStax's 1.50 W and 7.50 W for two extension cords", () => {
    assertPrinted(stated(0.06, 1, 5).loss, "1.50");
    assertPrinted(stated(0.3, 1, 5).loss, "7.50");
  });

  // OpenStax, University Physics vol. 2, Resistivity and Resistance: 60 km, 42.40 mm², 1.68e-8 Ω·m, 100 A.
  it("gives OpenStax's 2.377e5 W for 60 km of copper line at 100 A", () => {
    const { loss } = lossOf({
      material: ownMaterial(1.68e-8, 0.0039),
      size: metal(42.4),
      length: 60e3,
      conductors: 1,
      current: 100,
    });
    assertPrinted(loss, "2.377e5");
  });

  // OpenStax, University Physics vol. 2, Electrical Energy and Power: 50 MW at 200 kV over 25 km of aluminium, 7 cm².
  it("gives OpenStax's 5.9e4 W for 25 km of aluminium", () => {
    const { loss } = lossOf({
      material: ownMaterial(2.65e-8, 0.0039),
      size: metal(700),
      length: 25e3,
      conductors: 1,
      current: 50e6 / 200e3,
    });
    assertPrinted(loss, "5.9e4");
  });

  // The same: a line of 200 Ω, 2.0 A at 12 kV or 100 A at 240 V. Printed: 800 W, 2e6 W.
  it("gives OpenStax's 800 W and 2e6 W for one line at two voltages", () => {
    assertPrinted(stated(200, 1, 2).loss, "800");
    assertPrinted(stated(200, 1, 100).loss, "2e6");
  });

  // Mehta, example 7.1: the same power and the same loss at 400 V instead of 200 V saves 75 % of the copper.
  it("loses the same at twice the voltage with a quarter of the copper (Mehta 7.1)", () => {
    const low = lossOf({ size: metal(40), current: 10e3 / 200 });
    const high = lossOf({ size: metal(40 * (1 - 0.75)), current: 10e3 / 400 });
    assertPrinted(high.loss / low.loss, "1.00000000");
  });
});

// Common practice, no source: I = P/U, so loss goes with 1/U².
describe("what the trade knows of distribution voltage", () => {
  const lost = (watts: number, volts: number) => lossOf({ current: watts / volts }).loss;

  it("quarters the loss at twice the voltage", () => {
    assertPrinted(lost(1000, 48) / lost(1000, 96), "4.00000000");
  });

  it("loses 1/10 000 at 100 V of what it loses at 1 V, for 100 W", () => {
    assertPrinted(lost(100, 1) / lost(100, 100), "10000.0000");
  });
});

describe("conductorLoss", () => {
  it("refuses a current that is none, by name and value", () => {
    for (const current of [0, -5, Number.NaN, Number.POSITIVE_INFINITY]) {
      assert.throws(
        () => lossOf({ current }),
        new RegExp(`^InputError: current must be above 0, got ${current}`),
      );
    }
    assert.throws(() => lossOf({ current: 1e200 }), /current must be small/);
  });

  const loads = fc.record({
    current: fc.double({ min: 0.001, max: 1e4, noNaN: true }),
    length: fc.double({ min: 0.01, max: 1e5, noNaN: true }),
    areaMm2: fc.double({ min: 0.01, max: 2000, noNaN: true }),
    parallel: fc.integer({ min: 1, max: 6 }),
    temperatureC: fc.double({ min: -60, max: 120, noNaN: true }),
  });
  const close = (actual: number, expected: number) =>
    assert.ok(Math.abs(actual - expected) <= 1e-12 * Math.abs(expected), `${actual}, ${expected}`);

  it("loses drop times current; loss goes with I², drop with I and with length, both against area and cores", () => {
    fc.assert(
      fc.property(loads, ({ areaMm2, ...load }) => {
        const size = metal(areaMm2);
        const one = lossOf({ ...load, size });
        close(one.loss, one.drop * load.current);
        const twice = lossOf({ ...load, size, current: 2 * load.current });
        close(twice.loss, 4 * one.loss);
        close(twice.drop, 2 * one.drop);
        const longer = lossOf({ ...load, size, length: 2 * load.length });
        close(longer.drop, 2 * one.drop);
        const wider = lossOf({ ...load, size: metal(2 * areaMm2) });
        close(wider.drop, one.drop / 2);
        close(wider.loss, one.loss / 2);
        const more = lossOf({ ...load, size, parallel: 2 * load.parallel });
        close(more.drop, one.drop / 2);
        const hotter = lossOf({
          ...load,
          size,
          temperatureC: load.temperatureC + 1,
        });
        assert.ok(hotter.loss > one.loss);
      }),
    );
  });

  it("has steps that another engine computes to the same numbers", () => {
    fc.assert(
      fc.property(loads, ({ areaMm2, ...load }) => {
        const record = lossOf({ ...load, size: metal(areaMm2) });
        assertSteps(conductorLossSteps, { ...load, ...record });
        assert.deepEqual(Object.keys(conductorLossGivens), ["current"]);
      }),
    );
  });
});
