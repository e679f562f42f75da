import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  capacitorDischarge,
  capacitorDischargeSteps,
} from "../../src/safety/capacitor-discharge.js";
import {
  storedEnergy,
  storedEnergySteps,
} from "../../src/safety/stored-energy.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

const figure = (least: number, most: number) =>
  fc.noBias(
    fc
      .integer({ min: 0, max: 10_000 })
      .map((part) => least + ((most - least) * part) / 10_000),
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

  it("prints Bird's 1.29 s from 100 V to 20 V with τ = 0.8 s (ch. 17, example 5)", () => {
    const { time } = capacitorDischarge({
      capacitance: 0.5e-6,
      resistance: 1.6e6,
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

  it("notes more than 5 s, always asks for a measurement, and refuses an end above the start", () => {
    const capacitor = {
      capacitance: 1e-3,
      resistance: 2636,
      startVoltage: 400,
      endVoltage: 60,
    };
    const codes = (over: object) =>
      capacitorDischarge({ ...capacitor, ...over }).notes.map(
        ({ code }) => code,
      );
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
    expect(storedEnergy({ ...capacitor, voltage: 800 }).energy).toBeCloseTo(
      320,
      12,
    );
    assertSteps(storedEnergySteps, { ...capacitor, ...record });
  });
});
