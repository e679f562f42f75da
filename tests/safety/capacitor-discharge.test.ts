import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  capacitorDischarge,
  capacitorDischargeSteps,
} from "../../src/safety/capacitor-discharge.js";
import { storedEnergy, storedEnergySteps } from "../../src/safety/stored-energy.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { transient } from "../helpers/ngspice.js";

const figure = (least: number, most: number) =>
  fc.noBias(
    fc.integer({ min: 0, max: 10_000 }).map((part) => least + ((most - least) * part) / 10_000),
  );

describe("capacitorDischarge", () => {
  // J. Bird, Electrical Circuit Theory and Technology, ch. 17 (data and answers as a companion notebook computed them).
  it("prints Bird's 0.48867 s for 15 µF and 47 kΩ from 120 V to half (ch. 17, example 1)", () => {
    const { time, timeConstant } = capacitorDischarge({
      capacitance: 15e-6,
      resistance: 47e3,
      startVoltage: 120,
      endVoltage: 60,
    });
    assertPrinted(time, "0.48867");
    assertPrinted(timeConstant, "0.705");
  });

  it("comes in one time constant to where Bird's capacitor, charging, has 75.85 of 120 V (ch. 17, example 1)", () => {
    const { time, timeConstant } = capacitorDischarge({
      capacitance: 15e-6,
      resistance: 47e3,
      startVoltage: 120,
      endVoltage: 120 - 75.85,
    });
    assert.ok(Math.abs(time / timeConstant - 1) < 0.005 / 44.15);
  });

  it("prints Bird's 1.29 s from 100 V to 20 V, 16 µF through 50 kΩ (ch. 17, example 5)", () => {
    const { time } = capacitorDischarge({
      capacitance: 16e-6,
      resistance: 50e3,
      startVoltage: 100,
      endVoltage: 20,
    });
    assertPrinted(time, "1.29");
  });

  // 60 V in 5 s: IEC 60204-1 clause 6.2.4, requirement seen as quoted. 400 V: ln(400/60) = 1.8971.
  it("brings 1 mF from 400 V to 60 V in 5 s through 2635.6 Ω, 60.7 W at the start", () => {
    const { time, startPower, timeConstant } = capacitorDischarge({
      capacitance: 1e-3,
      resistance: 2635.6,
      startVoltage: 400,
      endVoltage: 60,
    });
    assertPrinted(time, "5.0000");
    assertPrinted(startPower, "60.7");
    assertPrinted(time / timeConstant, "1.8971");
  });

  it("is what a step-by-step integration of C dU/dt = −U/R finds", () => {
    fc.assert(
      fc.property(
        figure(1e-6, 1e-2),
        figure(10, 1e5),
        figure(61, 1000),
        (capacitance, resistance, startVoltage) => {
          const capacitor = {
            capacitance,
            resistance,
            startVoltage,
            endVoltage: 60,
          };
          const record = capacitorDischarge(capacitor);
          // Fourth-order Runge-Kutta in 2000 steps of the time found.
          const step = record.time / 2000;
          const slope = (u: number) => -u / (resistance * capacitance);
          let u = startVoltage;
          for (let count = 0; count < 2000; count++) {
            const a = slope(u);
            const b = slope(u + (step / 2) * a);
            const c = slope(u + (step / 2) * b);
            const d = slope(u + step * c);
            u += (step / 6) * (a + 2 * b + 2 * c + d);
          }
          assert.ok(Math.abs(u - 60) < 1e-8, String(u));
          assertSteps(capacitorDischargeSteps, { ...capacitor, ...record });
        },
      ),
      { numRuns: 40 },
    );
  });

  it("is when ngspice's transient of the same circuit comes to the end voltage", async () => {
    for (const [capacitance, resistance, startVoltage, endVoltage] of [
      [1e-3, 2635.6, 400, 60],
      [15e-6, 47e3, 120, 60],
      [470e-6, 1200, 800, 50],
      [2.2e-6, 1e6, 56, 12],
    ] as const) {
      const { time } = capacitorDischarge({
        capacitance,
        resistance,
        startVoltage,
        endVoltage,
      });
      const waves = await transient(
        `c1 a 0 ${capacitance} ic=${startVoltage}\nr1 a 0 ${resistance}\n.options reltol=1e-7 abstol=1e-9 vntol=1e-9 chgtol=1e-16`,
        `${time / 2000} ${time} 0 ${time / 2000} uic`,
      );
      const reached = waves["v(a)"]!.at(-1)!;
      assert.ok(Math.abs(reached / endVoltage - 1) < 1e-5, `${reached} ${endVoltage}`);
    }
  });

  // Limits as quoted on pages that were seen: 40 V in 5 s (Formula SAE rules of 2014), 60 V in 1 s (connectors, FMVSS 305),
  // 2 s after a plug is pulled (IEC 62368-1). Resistances for 1 mF at 400 V by hand: R = t/(C · ln(U₀/U₁)).
  it.each([
    [5, 40, 2171.5],
    [1, 60, 527.12],
    [2, 60, 1054.2],
  ])(
    "comes in %i s to %i V where other rules ask for it, through %f Ω",
    (seconds, endVoltage, resistance) => {
      const { time } = capacitorDischarge({
        capacitance: 1e-3,
        startVoltage: 400,
        endVoltage,
        resistance,
      });
      assert.ok(Math.abs(time / seconds - 1) < 1e-4);
    },
  );

  // ln(1 + x) = x − x²/2 + x³/3 − …, by hand for x = (start − end)/end, which is exact in these doubles.
  it("keeps its digits where start and end lie close together, and recomputes there", () => {
    for (const [startVoltage, endVoltage] of [
      [60.0000001, 60],
      [400.0000000001, 400],
      [48.001, 48],
      [1 + 2 ** -40, 1],
    ] as const) {
      const capacitor = {
        ...{ capacitance: 1e-3, resistance: 1e3 },
        ...{ startVoltage, endVoltage },
      };
      const record = capacitorDischarge(capacitor);
      const x = (startVoltage - endVoltage) / endVoltage;
      const series = x - x ** 2 / 2 + x ** 3 / 3 - x ** 4 / 4;
      assert.ok(Math.abs(record.time / series - 1) < 1e-14, `${record.time} ${series}`);
      assertSteps(capacitorDischargeSteps, { ...capacitor, ...record });
    }
    assert.throws(
      () =>
        capacitorDischarge({
          ...{ capacitance: 1e-3, resistance: 1e3 },
          ...{ startVoltage: 60 * (1 + 2e-16), endVoltage: 60 },
        }),
      /below start V, .*by more than rounding/,
    );
  });

  it("notes more than 5 s to 60 V, whatever end was asked for", () => {
    const codes = (startVoltage: number, endVoltage: number, tau: number) =>
      capacitorDischarge({
        capacitance: 1e-3,
        resistance: tau / 1e-3,
        startVoltage,
        endVoltage,
      }).caveats.map(({ code }) => code);
    // ln(400/60) = 1.897, ln(400/200) = 0.693.
    expect(codes(400, 200, 3)).toContain("over-five-seconds");
    expect(codes(400, 20, 3)).toContain("over-five-seconds");
    expect(codes(400, 20, 2.6)).not.toContain("over-five-seconds");
    expect(codes(60, 20, 100)).not.toContain("over-five-seconds");
  });

  it("notes more than 5 s, always asks for a measurement, and refuses an end above the start", () => {
    const capacitor = {
      capacitance: 1e-3,
      resistance: 2636,
      startVoltage: 400,
      endVoltage: 60,
    };
    const codes = (over: object) =>
      capacitorDischarge({ ...capacitor, ...over }).caveats.map(({ code }) => code);
    expect(codes({})).toEqual(["verify", "over-five-seconds"]);
    expect(codes({ resistance: 2635 })).toEqual(["verify"]);
    assert.throws(
      () => capacitorDischarge({ ...capacitor, endVoltage: 400 }),
      /endVoltage must be below start V/,
    );
  });
});

describe("storedEnergy", () => {
  it("is 80 J in 1 mF at 400 V, by hand, and grows with the square of the voltage", () => {
    const capacitor = { capacitance: 1e-3, voltage: 400 };
    const record = storedEnergy(capacitor);
    expect(record.energy).toBeCloseTo(80, 12);
    expect(storedEnergy({ ...capacitor, voltage: 800 }).energy).toBeCloseTo(320, 12);
    assertSteps(storedEnergySteps, { ...capacitor, ...record });
  });

  // ISO 6469-4 5.2.3 (0.2 J), DOE-HDBK-1092-98 figure 10-1 (0.25 J), the US laboratories' scheme (10 J and 10 kJ from
  // 100 V, 100 J below it), IEC 60950-1 1.2.8.10 (20 J or more): all seen second-hand but the scheme. NFPA 70E article
  // 360 (1 J from 100 V, 0.25 J from 400 V) from memory.
  it.each([
    [0.19, 400, []],
    [0.21, 400, ["crash-energy"]],
    [0.26, 399, ["crash-energy", "startling-energy"]],
    [0.26, 400, ["crash-energy", "startling-energy", "shock-energy"]],
    [0.99, 399, ["crash-energy", "startling-energy"]],
    [1.01, 99, ["crash-energy", "startling-energy"]],
    [1.01, 100, ["crash-energy", "startling-energy", "shock-energy"]],
    [10.1, 99, ["crash-energy", "startling-energy"]],
    [10.1, 100, ["crash-energy", "startling-energy", "shock-energy", "laboratory-shock-energy"]],
    [19.9, 48, ["crash-energy", "startling-energy"]],
    [20.1, 48, ["crash-energy", "startling-energy", "hazardous-energy"]],
    [20.1, 1.9, ["crash-energy", "startling-energy"]],
    [101, 48, ["crash-energy", "startling-energy", "hazardous-energy", "burning-energy"]],
    [
      10_001,
      400,
      [
        "crash-energy",
        "startling-energy",
        "shock-energy",
        "laboratory-shock-energy",
        "hazardous-energy",
        "arc-energy",
      ],
    ],
  ] as const)("notes of %f J at %f V which limits they cross", (energy, voltage, wanted) => {
    const record = storedEnergy({
      capacitance: (2 * energy) / voltage ** 2,
      voltage,
    });
    expect(record.caveats.map(({ code }) => code)).toEqual(wanted);
  });

  it("notes the shock of 9.8 J: ½ · 1 mF · (140 V)²", () => {
    const { energy, caveats } = storedEnergy({ capacitance: 1e-3, voltage: 140 });
    assertPrinted(energy, "9.8");
    expect(caveats.find(({ code }) => code === "shock-energy")?.cite).toBe("nfpa-70e-360");
  });

  it("takes 20 J itself for hazardous", () => {
    // ½ · 0.1 F · (20 V)²
    const { caveats } = storedEnergy({ capacitance: 0.1, voltage: 20 });
    expect(caveats.map(({ code }) => code)).toContain("hazardous-energy");
  });

  // By hand: 0.2 J are 111 µF at 60 V, 2.5 µF at 400 V and 0.625 µF at 800 V; 1 mF at 60 V still holds 1.8 J.
  it.each([
    [111.1e-6, 60, "0.200"],
    [2.5e-6, 400, "0.200"],
    [0.625e-6, 800, "0.200"],
    [1e-3, 60, "1.8"],
  ])("holds at %f F and %f V %s J", (capacitance, voltage, printed) => {
    assertPrinted(storedEnergy({ capacitance, voltage }).energy, printed);
  });
});
