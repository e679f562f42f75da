import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { busbarArea, busbarAreaSteps } from "../../src/conductors/busbar-area.js";
import {
  pairCapacitance,
  pairCapacitanceSteps,
  pairInductance,
  pairInductanceSteps,
} from "../../src/conductors/conductor-pair.js";
import { traceCurrent, traceCurrentSteps } from "../../src/conductors/trace-current.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

const figure = (least: number, most: number) =>
  fc.noBias(
    fc.integer({ min: 0, max: 10_000 }).map((part) => least + ((most - least) * part) / 10_000),
  );

describe("pairInductance", () => {
  // V. K. Mehta, Principles of Power System (companion notebooks): loop inductance of single-phase lines.
  it("prints Mehta's 2.424 mH/km for 2 m and 1.2 cm, and 2.38 mH/km for 3 m and a radius of 1 cm (ex. 9.1, 9.2)", () => {
    assertPrinted(
      pairInductance({ length: 1000, spacing: 2, diameter: 0.012 }).inductance * 1000,
      "2.424",
    );
    assertPrinted(
      pairInductance({ length: 1000, spacing: 3, diameter: 0.02 }).inductance * 1000,
      "2.38",
    );
  });

  // J. Bird, Electrical Circuit Theory and Technology, example 40.19: 1.2 m, radius 8 mm, without the flux inside the
  // wires: 2.0 µH/m. Ours counts that flux, 0.1 µH/m more.
  it("prints Bird's 2.0 µH/m once the flux within the wires is taken off (ex. 40.19)", () => {
    const { inductance } = pairInductance({
      length: 1,
      spacing: 1.2,
      diameter: 0.016,
    });
    assertPrinted((inductance - 1e-7) * 1e6, "2.0");
  });

  it("grows with length and spacing and recomputes", () => {
    fc.assert(
      fc.property(
        figure(1, 1000),
        figure(0.001, 0.02),
        figure(1, 50),
        (length, diameter, times) => {
          const pair = { length, diameter, spacing: diameter * times };
          const record = pairInductance(pair);
          assert.ok(
            Math.abs(
              pairInductance({ ...pair, length: 2 * length }).inductance / record.inductance - 2,
            ) <= 1e-12,
          );
          assert.ok(
            pairInductance({ ...pair, spacing: pair.spacing * 1.1 }).inductance > record.inductance,
          );
          assertSteps(pairInductanceSteps, { ...pair, ...record });
        },
      ),
    );
  });

  // Second opinion: flux counted current by current. The vector potential, averaged over the section of one conductor: its
  // own, by adding up B from each radius to the surface, less the other's, by adding up over rings and angles.
  it("is what adding up the flux linked with each part of the section finds, touching conductors too", () => {
    const RINGS = 200;
    const ANGLES = 60;
    for (const times of [2, 2.5, 8, 100]) {
      // In radii. A ring's weight is its part of the section.
      let linked = 0;
      for (let ring = 0; ring < RINGS; ring++) {
        const r = (ring + 0.5) / RINGS;
        let own = 0;
        for (let part = 0; part < 50; part++)
          own += (r + ((1 - r) * (part + 0.5)) / 50) * ((1 - r) / 50);
        let other = 0;
        for (let step = 0; step < ANGLES; step++) {
          const angle = (2 * Math.PI * (step + 0.5)) / ANGLES;
          const [x, y] = [r * Math.cos(angle), r * Math.sin(angle)];
          other += Math.log(Math.hypot(times - x, y)) / ANGLES;
        }
        linked += ((own + other) * 2 * r) / RINGS;
      }
      // Two conductors, each µ₀/2π = 2e-7 H/m.
      const { inductance } = pairInductance({
        length: 1,
        diameter: 0.004,
        spacing: 0.002 * times,
      });
      assert.ok(
        Math.abs((2 * 2e-7 * linked) / inductance - 1) < 1e-4,
        `${times}: ${2 * 2e-7 * linked}, ${inductance}`,
      );
    }
  });

  it("refuses conductors within each other", () => {
    assert.throws(
      () => pairInductance({ length: 1, diameter: 0.01, spacing: 0.009 }),
      /spacing must be above the diameter, 10 mm/,
    );
  });
});

describe("pairCapacitance", () => {
  const air = { relativePermittivity: 1 };

  // J. Bird, Electrical Circuit Theory and Technology, example 40.9 (companion notebook): 50 mm, 5 mm, 200 m: 0.00186 µF.
  it("prints Bird's 0.00186 µF (ex. 40.9)", () => {
    const pair = { length: 200, diameter: 0.005, spacing: 0.05, ...air };
    assertPrinted(pairCapacitance(pair).capacitance * 1e6, "0.00186");
  });

  // Example 40.10: 1.2 m, radius 4 mm, 1 km, 15 kV: 73.1 µC and 4.87 nF. Bird reckons with ε₀ = 8.85e-12; with today's
  // 8.854e-12 the last printed digit of both differs (4.877).
  it("prints Bird's 4.87 nF and 73.1 µC with his own permittivity of free space (ex. 40.10)", () => {
    const { capacitance } = pairCapacitance({
      length: 1000,
      diameter: 0.008,
      spacing: 1.2,
      ...air,
    });
    const his = capacitance * (8.85 / 8.8541878128);
    assertPrinted(his * 1e9, "4.87");
    assertPrinted(his * 15e3 * 1e6, "73.1");
  });

  it("comes to πε/ln(D/a) far apart and is above it close by", () => {
    const by = (times: number) => {
      const pair = {
        length: 1,
        diameter: 0.001,
        spacing: 0.001 * times,
        ...air,
      };
      const usual = (Math.PI * 8.8541878128e-12) / Math.log(2 * times);
      return pairCapacitance(pair).capacitance / usual;
    };
    assert.ok(Math.abs(by(1000) - 1) < 1e-6);
    assert.ok(by(2) > 1.02);
  });

  it("makes with the outer inductance the speed of light, as any pair in air does", () => {
    fc.assert(
      fc.property(figure(30, 3000), (times) => {
        const pair = { length: 1, diameter: 0.002, spacing: 0.002 * times };
        const outer = pairInductance(pair).inductance - 1e-7;
        const { capacitance } = pairCapacitance({ ...pair, ...air });
        assert.ok(Math.abs(1 / Math.sqrt(outer * capacitance) / 299_792_458 - 1) < 2e-4);
      }),
    );
  });

  // Second opinion: the two surfaces cut into strips of charge, +q here and −q at the mirrored place, found by Gauss-Seidel
  // so that every strip is at the same potential.
  it("is what charges spread over the two surfaces come to, close by too", () => {
    for (const times of [1.3, 2, 5]) {
      const STRIPS = 80;
      const strips = Array.from({ length: STRIPS }, (_, strip) => {
        const angle = (2 * Math.PI * strip) / STRIPS;
        return [-times / 2 + 0.5 * Math.cos(angle), 0.5 * Math.sin(angle)] as const;
      });
      // A strip is to itself as far as radius/STRIPS: a lone cylinder then comes out exact, as the product of all distances.
      const own = 0.5 / STRIPS;
      const potential = strips.map(([x, y]) =>
        strips.map(([u, v]) => {
          const near = Math.hypot(x - u, y - v) || own;
          return Math.log(Math.hypot(x + u, y - v) / near);
        }),
      );
      const charges = strips.map(() => 1 / STRIPS);
      for (let sweep = 0; sweep < 400; sweep++)
        potential.forEach((row, at) => {
          const others = row.reduce(
            (sum, part, from) => (from === at ? sum : sum + part * (charges[from] ?? 0)),
            0,
          );
          charges[at] = (1 - others) / (row[at] ?? 1);
        });
      // Potential ln(…)/2πε of a charge a metre; 2 of them between the two.
      const charge = charges.reduce((sum, one) => sum + one, 0);
      const found = Math.PI * 8.8541878128e-12 * charge;
      const { capacitance } = pairCapacitance({
        length: 1,
        diameter: 0.004,
        spacing: 0.004 * times,
        ...air,
      });
      assert.ok(Math.abs(found / capacitance - 1) < 1e-3, `${times}: ${found}, ${capacitance}`);
    }
  });

  it("grows with the permittivity and recomputes", () => {
    const pair = {
      length: 100,
      diameter: 0.002,
      spacing: 0.004,
      relativePermittivity: 3,
    };
    const record = pairCapacitance(pair);
    expect(record.capacitance / pairCapacitance({ ...pair, ...air }).capacitance).toBeCloseTo(
      3,
      12,
    );
    assertSteps(pairCapacitanceSteps, { ...pair, ...record });
    assert.throws(() => pairCapacitance({ ...pair, spacing: 0.002 }), /spacing/);
    assert.throws(
      () => pairCapacitance({ ...pair, relativePermittivity: 0.5 }),
      /1 \(air\) or more/,
    );
  });
});

describe("busbarArea", () => {
  // Copper Development Association, Publication 22, section 10, case I: 100 × 6.3 mm is 630 mm².
  it("prints 630 mm² for 100 × 6.3 mm", () => {
    const bar = { width: 0.1, thickness: 0.0063 };
    assertPrinted(busbarArea(bar).area * 1e6, "630");
    assertSteps(busbarAreaSteps, { ...bar, ...busbarArea(bar) });
  });
});

describe("traceCurrent", () => {
  const MIL = 25.4e-6;
  // IPC-2221A 6.2, constants seen as restated; points worked out from them by another program: A in mil² for a current and
  // a rise. 1.378 mil is 35 µm.
  const POINTS = [
    [1, 10, "outer", 16.296],
    [1, 10, "inner", 42.393],
    [3, 10, "outer", 74.16],
    [5, 20, "outer", 98.51],
    [5, 20, "inner", 256.27],
    [10, 20, "outer", 256.27],
    [10, 20, "inner", 666.67],
  ] as const;

  for (const [amperes, temperatureRise, layer, squareMils] of POINTS)
    it(`gives ${amperes} A for ${squareMils} mil² on an ${layer} layer at ${temperatureRise} K`, () => {
      const thickness = 1.378 * MIL;
      const width = (squareMils / 1.378) * MIL;
      const trace = { width, thickness, temperatureRise, layer };
      const record = traceCurrent(trace);
      assert.ok(Math.abs(record.current / amperes - 1) < 5e-5, String(record.current));
      assertSteps(traceCurrentSteps, { ...trace, ...record });
    });

  it("needs 2.6015 times the area on an inner layer", () => {
    const trace = { width: 0.001, thickness: 35e-6, temperatureRise: 20 };
    const outer = traceCurrent({ ...trace, layer: "outer" }).current;
    const inner = traceCurrent({
      ...trace,
      width: 0.001 * 2.6015,
      layer: "inner",
    }).current;
    assert.ok(Math.abs(inner / outer - 1) < 1e-4);
  });

  it("notes what lies outside the charts", () => {
    const codes = (over: object) =>
      traceCurrent({
        width: 0.001,
        thickness: 35e-6,
        temperatureRise: 20,
        layer: "outer",
        ...over,
      }).caveats.map(({ code }) => code);
    const outside = ["outside-charts", "outer-layer"];
    expect(codes({})).toEqual(["outer-layer"]);
    expect(codes({ temperatureRise: 5 })).toEqual(outside);
    expect(codes({ width: 0.011 })).toEqual(outside);
    // 10 mm of 105 µm at 40 K: 52 A.
    expect(codes({ width: 0.01 })).toEqual(["outer-layer"]);
    expect(codes({ width: 0.01, thickness: 105e-6, temperatureRise: 40 })).toEqual(outside);
    expect(codes({ layer: "inner" })).toEqual(["inner-layer"]);
  });

  // The measurements behind IPC-2152 (from memory): 2.54 mm of 35 µm, 20 K above a board without planes, about 4.5 A.
  it("says that an outer trace without planes stays well below the curve", () => {
    const { current, caveats } = traceCurrent({
      width: 2.54e-3,
      thickness: 35e-6,
      temperatureRise: 20,
      layer: "outer",
    });
    assertPrinted(current, "6.38");
    const [caveat] = caveats;
    assert.equal(caveat?.cite, "ipc-2152");
    expect(caveat?.text).toMatch(
      /without copper planes.*about 0\.7 of it, 4\.5 A where this gives 6\.38 A/,
    );
    assertPrinted(4.5 / current, "0.7");
  });
});
