import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { batterySteps, batteryVoltage } from "../../src/supplies/battery-voltage.js";
import { loadedSupply, loadedSupplySteps } from "../../src/supplies/loaded-supply.js";
import { openCircuitCurves } from "../../src/supplies/open-circuit-curves.js";
import { rectifiedPeak, rectifiedPeakSteps } from "../../src/supplies/rectified-peak.js";
import { supplyLimit, supplyLimitSteps } from "../../src/supplies/supply-limit.js";
import { InputError, NoAnswerError } from "../../src/quantities/errors.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { operatingPoint as ngspice, NGSPICE_OPTIONS } from "../helpers/ngspice.js";

const figure = (least: number, most: number) =>
  fc.noBias(
    fc.integer({ min: 0, max: 10_000 }).map((part) => least + ((most - least) * part) / 10_000),
  );

describe("loadedSupply", () => {
  // IEEE 802.3 limits, second-hand table: 44 V and 20 Ω leave 37.0 V and 0.350 A at 12.95 W; 50 V and 12.5 Ω leave
  // 42.5 V and 0.600 A at 25.5 W; 2.45 and 4.5 W are lost.
  it("prints both Power over Ethernet lines", () => {
    const one = loadedSupply({
      openCircuitVoltage: 44,
      resistance: 20,
      load: 12.95,
    });
    assertPrinted(one.voltage, "37.0");
    assertPrinted(one.current, "0.350");
    assertPrinted(one.loss, "2.45");
    const two = loadedSupply({
      openCircuitVoltage: 50,
      resistance: 12.5,
      load: 25.5,
    });
    assertPrinted(two.voltage, "42.5");
    assertPrinted(two.current, "0.600");
    assertPrinted(two.loss, "4.5");
  });

  // Own numbers by the closed form V = (V₀ ± √(V₀² − 4RP)) / 2, worked out with Python and ngspice.
  it("serves 5 kW at 400 V behind 4 Ω at the upper of its two roots, and drops the lower", () => {
    const found = loadedSupply({
      openCircuitVoltage: 400,
      resistance: 4,
      load: 5000,
    });
    assertPrinted(found.voltage, "341.421356");
    assertPrinted(found.drop, "58.578644");
    assertPrinted(found.current, "14.644661");
    assertPrinted(found.loss, "857.864376");
  });

  // J. Bird, Electrical Circuit Theory and Technology, ch. 4 (companion notebook): 2 V behind 0.02 Ω stand at 1.9 V at
  // 5 A; ten cells of 1.5 V and 0.2 Ω in series on 58 Ω at 14.5 V and 0.25 A. The load is their product.
  it("prints the voltages of Bird's loaded cells", () => {
    const one = loadedSupply({
      openCircuitVoltage: 2,
      resistance: 0.02,
      load: 1.9 * 5,
    });
    assertPrinted(one.voltage, "1.9");
    assertPrinted(one.current, "5");
    const ten = loadedSupply({
      openCircuitVoltage: 10 * 1.5,
      resistance: 10 * 0.2,
      load: 14.5 * 0.25,
    });
    assertPrinted(ten.voltage, "14.5");
    assertPrinted(ten.current, "0.25");
  });

  it("has two roots that add up to V₀ and multiply to R·P, with no digit lost at a small load", () => {
    fc.assert(
      fc.property(
        figure(12, 1000),
        figure(0.01, 30),
        figure(-12, -0.01),
        (openCircuitVoltage, resistance, power) => {
          const part = 10 ** power;
          const load = (part * openCircuitVoltage ** 2) / (4 * resistance);
          const { voltage, drop } = loadedSupply({
            openCircuitVoltage,
            resistance,
            load,
          });
          const close = (one: number, other: number) =>
            assert.ok(Math.abs(one / other - 1) <= 1e-12, `${one}, ${other}`);
          close(voltage + drop, openCircuitVoltage);
          close(voltage * drop, resistance * load);
        },
      ),
    );
  });

  it("serves exactly what supplyLimit says, whatever the rounding", () => {
    fc.assert(
      fc.property(figure(12, 1000), figure(0.01, 30), (openCircuitVoltage, resistance) => {
        const supply = { openCircuitVoltage, resistance };
        const load = supplyLimit(supply).power;
        const { voltage } = loadedSupply({ ...supply, load });
        // A square root makes 1e-8 of the last digit of the load.
        assert.ok(Math.abs((2 * voltage) / openCircuitVoltage - 1) <= 1e-7);
        assert.throws(() => loadedSupply({ ...supply, load: load * (1 + 1e-12) }), NoAnswerError);
      }),
    );
  });

  it("is the upper root that ngspice finds from the open-circuit voltage, up to 0.99 of the limit", async () => {
    for (const [openCircuitVoltage, resistance, part] of fc.sample(
      fc.tuple(figure(12, 1000), figure(0.01, 30), figure(0.01, 0.99)),
      { numRuns: 25, seed: 3 },
    )) {
      const load = (part * openCircuitVoltage ** 2) / (4 * resistance);
      const supply = { openCircuitVoltage, resistance, load };
      const found = loadedSupply(supply);
      const circuit = await ngspice(
        `v1 a 0 ${openCircuitVoltage}\nr1 a b ${resistance}\nb1 b 0 i=${load}/v(b)\n.nodeset v(b)=${openCircuitVoltage}\n${NGSPICE_OPTIONS}`,
      );
      assert.ok(Math.abs(found.voltage / circuit["v(b)"]! - 1) <= 1e-6);
      assertSteps(loadedSupplySteps, { ...supply, ...found });
    }
  });

  it("stands at half the voltage at the very limit and has no answer beyond it", () => {
    const supply = { openCircuitVoltage: 400, resistance: 4 };
    expect(loadedSupply({ ...supply, load: 10_000 }).voltage).toBe(200);
    assert.throws(
      () => loadedSupply({ ...supply, load: 10_001 }),
      (error: unknown) => {
        assert.ok(error instanceof NoAnswerError);
        expect(error.message).toMatch(
          /at most V₀²\/4R = 10000 W arrive behind 4 Ω, 1 W less than the load/,
        );
        return true;
      },
    );
  });

  it("is the open-circuit voltage without load or resistance", () => {
    expect(loadedSupply({ openCircuitVoltage: 48, resistance: 0, load: 1e6 }).voltage).toBe(48);
    expect(loadedSupply({ openCircuitVoltage: 48, resistance: 1, load: 0 }).voltage).toBe(48);
  });

  it("notes what was taken for nothing", () => {
    const codes = (resistance: number, load: number) =>
      loadedSupply({ openCircuitVoltage: 48, resistance, load }).caveats.map(({ code }) => code);
    expect(codes(1, 10)).toEqual([]);
    expect(codes(0, 10)).toEqual(["ideal-resistance"]);
    expect(codes(1, 0)).toEqual(["no-load"]);
  });
});

describe("supplyLimit", () => {
  // J. Bird, Electrical Circuit Theory and Technology, examples 13.20 and 13.21 (companion notebook).
  it("prints Bird's 3.6 W and 150 W", () => {
    assertPrinted(supplyLimit({ openCircuitVoltage: 6, resistance: 2.5 }).power, "3.6");
    assertPrinted(supplyLimit({ openCircuitVoltage: 30, resistance: 1.5 }).power, "150");
  });

  // Ch. 4 of the same: 2 V behind 0.02 Ω stand at 1.0 V at 50 A, which is this limit.
  it("is Bird's 50 A at 1.0 V", () => {
    const limit = supplyLimit({ openCircuitVoltage: 2, resistance: 0.02 });
    assertPrinted(limit.voltage, "1.0");
    assertPrinted(limit.power / limit.voltage, "50");
  });

  it("is the most over all load resistances, by trying them", () => {
    fc.assert(
      fc.property(figure(1, 500), figure(0.1, 50), (openCircuitVoltage, resistance) => {
        const supply = { openCircuitVoltage, resistance };
        const limit = supplyLimit(supply);
        for (let part = 1; part < 200; part++) {
          const load = (resistance * part) / 50;
          const power = (openCircuitVoltage / (resistance + load)) ** 2 * load;
          assert.ok(power <= limit.power * (1 + 1e-12));
        }
        assertSteps(supplyLimitSteps, { ...supply, ...limit });
      }),
      { numRuns: 30 },
    );
  });
});

describe("batteryVoltage", () => {
  // Typed a second time: C.-H. Chen et al., J. Electrochem. Soc. 167:080534 (2020), both electrodes' open-circuit
  // functions (seen) over a window from memory; ±10 mV.
  const CURVE =
    `0:2.5 .05:3.1094 .1:3.2959 .15:3.4339 .2:3.4852 .25:3.5286 .3:3.5814 .35:3.629 .4:3.667 .45:3.7054 .5:3.7509
    .55:3.7983 .6:3.8406 .65:3.8896 .7:3.9479 .75:3.9943 .8:4.0421 .85:4.0809 .9:4.0967 .95:4.1236 1:4.2`
      .trim()
      .split(/\s+/)
      .map((pair) => pair.split(":"));

  const battery = {
    cellsInSeries: 1,
    stateOfCharge: 0.5,
    current: 0,
    cellResistance: 0.02,
    chemistry: "NMC" as const,
    strings: 1,
  };

  it("stands on the curve at every point of it", () => {
    expect(openCircuitCurves.NMC.points.length).toBe(CURVE.length);
    for (const [charge, volts] of CURVE)
      assertPrinted(batteryVoltage({ ...battery, stateOfCharge: Number(charge) }).voltage, volts!);
  });

  // The same paper's functions of lithium content, positive less negative (seen in public repositories). Content from
  // empty to full, 0.0263 to 0.9106 and 0.8539 to 0.2638: from memory.
  function published(charge: number): number {
    const { exp, tanh } = Math;
    const x = 0.0263 + (0.9106 - 0.0263) * charge;
    const y = 0.8539 + (0.2638 - 0.8539) * charge;
    const negative =
      1.9793 * exp(-39.3631 * x) +
      0.2482 -
      0.0909 * tanh(29.8538 * (x - 0.1234)) -
      0.04478 * tanh(14.9159 * (x - 0.2769)) -
      0.0205 * tanh(30.4444 * (x - 0.6103));
    const positive =
      4.4875 -
      0.809 * y -
      0.0428 * tanh(18.5138 * (y - 0.5542)) -
      17.7326 * tanh(15.789 * (y - 0.3117)) +
      17.5842 * tanh(15.9308 * (y - 0.312));
    return positive - negative;
  }

  it("stays with the published functions: 10 mV at the points, 14 mV between, never more than 6 mV high, 0.12 V low where it says so", () => {
    const { steepBelow, readsLowBy } = openCircuitCurves.NMC;
    for (let thousandth = 0; thousandth <= 1000; thousandth++) {
      const stateOfCharge = thousandth / 1000;
      const over =
        batteryVoltage({ ...battery, stateOfCharge }).cellOpenVoltage - published(stateOfCharge);
      const low = stateOfCharge < steepBelow ? readsLowBy : 0.014;
      const told = `${stateOfCharge}: ${over}`;
      assert.ok(over <= 0.006 && over >= -low, told);
      if (thousandth % 50 === 0) assert.ok(Math.abs(over) <= 0.01, told);
    }
  });

  // J. Bird, ch. 4: 8 cells of 2.2 V and 0.2 Ω make 17.6 V and 1.6 Ω in series, 0.025 Ω in parallel; a cell of 2 V and
  // 0.02 Ω gives 1.9 V at 5 A. Held here by the drops, as the voltage of our cell is another.
  it("drops in series and in parallel as Bird's cells do", () => {
    const drop = (over: object) => {
      const at = (current: number) => batteryVoltage({ ...battery, ...over, current }).voltage;
      return at(0) - at(1);
    };
    expect(drop({ cellsInSeries: 8, cellResistance: 0.2 })).toBeCloseTo(1.6, 12);
    expect(drop({ strings: 8, cellResistance: 0.2 })).toBeCloseTo(0.025, 12);
    const at5 = batteryVoltage({
      ...battery,
      current: 5,
      cellResistance: 0.02,
    });
    expect(at5.cellOpenVoltage - at5.cellVoltage).toBeCloseTo(2 - 1.9, 12);
  });

  it("rises with the state of charge and falls with the current, charging above rest", () => {
    fc.assert(
      fc.property(figure(0, 0.999), figure(-5, 5), (stateOfCharge, current) => {
        const at = (over: object) =>
          batteryVoltage({ ...battery, stateOfCharge, current, ...over });
        const here = at({});
        assert.ok(at({ stateOfCharge: stateOfCharge + 0.001 }).voltage > here.voltage);
        assert.ok(at({ current: current + 0.1 }).voltage < here.voltage);
        const asked = { ...battery, stateOfCharge, current };
        assertSteps(batterySteps(battery), { ...asked, ...here });
      }),
    );
  });

  it("notes a cell outside its window, and what to use for bands", () => {
    const codes = (over: object) =>
      batteryVoltage({ ...battery, ...over }).caveats.map(({ code }) => code);
    expect(codes({ current: 1 })).toEqual(["bands"]);
    expect(codes({ current: 70 })).toEqual(["bands", "below-cell-window"]);
    expect(codes({ stateOfCharge: 1, current: -1 })).toContain("above-cell-window");
  });

  it("notes a charge or current that may not have been given, and where the curve is steep", () => {
    const codes = (stateOfCharge: number, current: number) =>
      batteryVoltage({ ...battery, stateOfCharge, current })
        .caveats.map(({ code }) => code)
        .filter((code) => code !== "bands");
    expect(codes(0.5, 0)).toEqual(["at-rest"]);
    expect(codes(0, -1)).toEqual(["empty"]);
    expect(codes(0.03, 1)).toEqual(["steep-curve"]);
    expect(codes(0.05, 1)).toEqual([]);
  });

  it("refuses charges beyond the ends of the curve", () => {
    for (const stateOfCharge of [-0.001, 1.001])
      assert.throws(() => batteryVoltage({ ...battery, stateOfCharge }), InputError);
  });

  it("is the cells' voltage times their number, the current shared by the strings", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 300 }),
        fc.integer({ min: 1, max: 40 }),
        figure(0, 1),
        figure(-3, 3),
        (cellsInSeries, strings, stateOfCharge, current) => {
          const at = { ...battery, stateOfCharge };
          const one = batteryVoltage({ ...at, current }).voltage;
          const many = batteryVoltage({
            ...at,
            cellsInSeries,
            strings,
            current: current * strings,
          }).voltage;
          assert.ok(Math.abs(many / (one * cellsInSeries) - 1) <= 1e-12);
        },
      ),
    );
  });

  it("refuses a state of charge in per cent and a current that leaves no voltage", () => {
    assert.throws(() => batteryVoltage({ ...battery, stateOfCharge: 60 }), /0 to 1: 0.6 for 60 %/);
    assert.throws(() => batteryVoltage({ ...battery, current: 500 }), NoAnswerError);
  });
});

describe("rectifiedPeak", () => {
  // R. W. Erickson and D. Maksimović, Fundamentals of Power Electronics, problem 3.11: 325 V for a 230 V line.
  it("prints 325 V for 230 V, and 169.7 V for 120 V by hand", () => {
    assertPrinted(rectifiedPeak({ lineVoltage: 230, tolerance: 0 }).peak, "325");
    assertPrinted(rectifiedPeak({ lineVoltage: 230, tolerance: 0 }).peak, "325.269");
    assertPrinted(rectifiedPeak({ lineVoltage: 120, tolerance: 0 }).peak, "169.706");
    assertPrinted(rectifiedPeak({ lineVoltage: 230, tolerance: 0.1 }).peak, "357.796");
  });

  // The same problem's bus goes 20 % up, to 390 V.
  it("prints 390 V at 20 % over", () => {
    assertPrinted(rectifiedPeak({ lineVoltage: 230, tolerance: 0.2 }).peak, "390");
  });

  it("recomputes step by step and refuses per cents", () => {
    const line = { lineVoltage: 400, tolerance: 0.06 };
    assertSteps(rectifiedPeakSteps, { ...line, ...rectifiedPeak(line) });
    assert.throws(() => rectifiedPeak({ ...line, tolerance: 10 }), /0.02 for 2 %/);
  });
});
