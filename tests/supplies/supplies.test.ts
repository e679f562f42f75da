import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  batterySteps,
  batteryVoltage,
} from "../../src/supplies/battery-voltage.js";
import {
  loadedSupply,
  loadedSupplySteps,
} from "../../src/supplies/loaded-supply.js";
import { openCircuitCurves } from "../../src/supplies/open-circuit-curves.js";
import {
  rectifiedPeak,
  rectifiedPeakSteps,
} from "../../src/supplies/rectified-peak.js";
import {
  supplyLimit,
  supplyLimitSteps,
} from "../../src/supplies/supply-limit.js";
import { NoAnswerError } from "../../src/quantities/errors.js";
import { assertPrinted } from "../helpers/assert-printed.js";
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

describe("loadedSupply", () => {
  // IEEE 802.3 limits, second-hand table: 44 V and 20 Ω leave 37.0 V and 0.350 A at 12.95 W; 50 V and 12.5 Ω leave
  // 42.5 V and 0.600 A at 25.5 W.
  it("prints both Power over Ethernet lines", () => {
    const one = loadedSupply({
      openCircuitVoltage: 44,
      resistance: 20,
      load: 12.95,
    });
    assertPrinted(one.voltage, "37.0");
    assertPrinted(one.current, "0.350");
    const two = loadedSupply({
      openCircuitVoltage: 50,
      resistance: 12.5,
      load: 25.5,
    });
    assertPrinted(two.voltage, "42.5");
    assertPrinted(two.current, "0.600");
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
        expect(error.message).toMatch(/at most 10000 W arrive behind 4 Ω/);
        return true;
      },
    );
  });

  it("is the open-circuit voltage without load or resistance", () => {
    expect(
      loadedSupply({ openCircuitVoltage: 48, resistance: 0, load: 1e6 })
        .voltage,
    ).toBe(48);
    expect(
      loadedSupply({ openCircuitVoltage: 48, resistance: 1, load: 0 }).voltage,
    ).toBe(48);
  });
});

describe("supplyLimit", () => {
  // J. Bird, Electrical Circuit Theory and Technology, examples 13.20 and 13.21 (companion notebook).
  it("prints Bird's 3.6 W and 150 W", () => {
    assertPrinted(
      supplyLimit({ openCircuitVoltage: 6, resistance: 2.5 }).power,
      "3.6",
    );
    assertPrinted(
      supplyLimit({ openCircuitVoltage: 30, resistance: 1.5 }).power,
      "150",
    );
  });

  it("is the most over all load resistances, by trying them", () => {
    fc.assert(
      fc.property(
        figure(1, 500),
        figure(0.1, 50),
        (openCircuitVoltage, resistance) => {
          const supply = { openCircuitVoltage, resistance };
          const limit = supplyLimit(supply);
          for (let part = 1; part < 200; part++) {
            const load = (resistance * part) / 50;
            const power =
              (openCircuitVoltage / (resistance + load)) ** 2 * load;
            assert.ok(power <= limit.power * (1 + 1e-12));
          }
          assertSteps(supplyLimitSteps, { ...supply, ...limit });
        },
      ),
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
      assertPrinted(
        batteryVoltage({ ...battery, stateOfCharge: Number(charge) }).voltage,
        volts!,
      );
  });

  // J. Bird, ch. 4: 8 cells of 2.2 V and 0.2 Ω make 17.6 V and 1.6 Ω in series, 0.025 Ω in parallel; a cell of 2 V and
  // 0.02 Ω gives 1.9 V at 5 A. Held here by the drops, as the voltage of our cell is another.
  it("drops in series and in parallel as Bird's cells do", () => {
    const drop = (over: object) => {
      const at = (current: number) =>
        batteryVoltage({ ...battery, ...over, current }).voltage;
      return at(0) - at(1);
    };
    expect(drop({ cellsInSeries: 8, cellResistance: 0.2 })).toBeCloseTo(
      1.6,
      12,
    );
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
        assert.ok(
          at({ stateOfCharge: stateOfCharge + 0.001 }).voltage > here.voltage,
        );
        assert.ok(at({ current: current + 0.1 }).voltage < here.voltage);
        const asked = { ...battery, stateOfCharge, current };
        assertSteps(batterySteps(battery), { ...asked, ...here });
      }),
    );
  });

  it("notes a cell outside its window, and what to use for bands", () => {
    const codes = (over: object) =>
      batteryVoltage({ ...battery, ...over }).notes.map(({ code }) => code);
    expect(codes({})).toEqual(["bands"]);
    expect(codes({ current: 70 })).toContain("below-cell-window");
    expect(codes({ stateOfCharge: 1, current: -1 })).toContain(
      "above-cell-window",
    );
  });

  it("refuses a state of charge in per cent and a current that leaves no voltage", () => {
    assert.throws(
      () => batteryVoltage({ ...battery, stateOfCharge: 60 }),
      /0 to 1: 0.6 for 60 %/,
    );
    assert.throws(
      () => batteryVoltage({ ...battery, current: 500 }),
      NoAnswerError,
    );
  });
});

describe("rectifiedPeak", () => {
  // R. W. Erickson and D. Maksimović, Fundamentals of Power Electronics, problem 3.11: 325 V for a 230 V line.
  it("prints 325 V for 230 V, and 169.7 V for 120 V by hand", () => {
    assertPrinted(
      rectifiedPeak({ lineVoltage: 230, tolerance: 0 }).peak,
      "325",
    );
    assertPrinted(
      rectifiedPeak({ lineVoltage: 230, tolerance: 0 }).peak,
      "325.269",
    );
    assertPrinted(
      rectifiedPeak({ lineVoltage: 120, tolerance: 0 }).peak,
      "169.706",
    );
    assertPrinted(
      rectifiedPeak({ lineVoltage: 230, tolerance: 0.1 }).peak,
      "357.796",
    );
  });

  it("recomputes step by step and refuses per cents", () => {
    const line = { lineVoltage: 400, tolerance: 0.06 };
    assertSteps(rectifiedPeakSteps, { ...line, ...rectifiedPeak(line) });
    assert.throws(
      () => rectifiedPeak({ ...line, tolerance: 10 }),
      /0.1 for 10 %/,
    );
  });
});
