import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  stageDerated,
  stageDeratedSteps,
} from "../../src/converters/stage-derated.js";
import { stageEfficiency } from "../../src/converters/stage-efficiency.js";
import { stagePeak, stagePeakSteps } from "../../src/converters/stage-peak.js";
import { NoAnswerError } from "../../src/quantities/errors.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

const figure = (least: number, most: number) =>
  fc.noBias(
    fc
      .integer({ min: 0, max: 10_000 })
      .map((part) => least + ((most - least) * part) / 10_000),
  );

describe("stagePeak against textbooks", () => {
  // J. Bird, Electrical Circuit Theory and Technology, example 20.19: 500 kVA, 2.5 kW fixed and 4 kW full-load loss,
  // power factor 0.75: greatest efficiency 98.34 % at 395.28 kVA. Read at 1 V: kVA are kA, and 0.75 V of them are used.
  it("prints Bird's 395.28 kVA and 98.34 % (example 20.19)", () => {
    const peak = stagePeak({
      outputVoltage: 0.75,
      fixedLoss: 2500,
      linearLoss: 0,
      quadraticLoss: 4000 / 500e3 ** 2,
    });
    assertPrinted(peak.current / 1000, "395.28");
    assertPrinted(peak.efficiency * 100, "98.34");
  });

  // Bird, examples 20.16 and 20.17: 200 kVA, 1 kW fixed, 1.5 kW full-load loss, power factor 0.85: 98.41 % at half load.
  it("prints Bird's efficiency at half load, 98.41 % (example 20.17)", () => {
    const { efficiency } = stageEfficiency({
      outputVoltage: 0.85,
      outputCurrent: 100e3,
      fixedLoss: 1000,
      linearLoss: 0,
      quadraticLoss: 1500 / 200e3 ** 2,
    });
    assertPrinted(efficiency * 100, "98.41");
  });

  // I. L. Kosow, Electric Machinery and Transformers, example 12-10: 12.5 kW at 125 V, fixed loss 1379.6 W, 0.1 Ω:
  // 117.5 A and 83.91 %. The field's 2 A count as output of the armature there; the load's power is what is efficient.
  it("prints Kosow's 117.5 A (example 12-10)", () => {
    const { current } = stagePeak({
      outputVoltage: 125,
      fixedLoss: 1379.6,
      linearLoss: 0,
      quadraticLoss: 0.1,
    });
    assertPrinted(current, "117.5");
  });

  it("is 31.62 A and 96.4535 % for 20 W, 0.5 V and 0.02 Ω at 48 V, worked out by hand", () => {
    const peak = stagePeak({
      outputVoltage: 48,
      fixedLoss: 20,
      linearLoss: 0.5,
      quadraticLoss: 0.02,
    });
    assertPrinted(peak.current, "31.62");
    assertPrinted(peak.efficiency * 100, "96.4535");
  });
});

describe("stagePeak", () => {
  it("is better than every other current", () => {
    fc.assert(
      fc.property(
        figure(0.1, 50),
        figure(0, 1),
        figure(0.0001, 0.1),
        figure(0.05, 20),
        (fixedLoss, linearLoss, quadraticLoss, factor) => {
          const stage = {
            outputVoltage: 48,
            fixedLoss,
            linearLoss,
            quadraticLoss,
          };
          const peak = stagePeak(stage);
          const other = stageEfficiency({
            ...stage,
            outputCurrent: peak.current * factor,
          });
          assert.ok(other.efficiency <= peak.efficiency * (1 + 1e-12));
          assertSteps(stagePeakSteps, { ...stage, ...peak });
        },
      ),
    );
  });

  it("has no answer without a fixed or without a quadratic loss", () => {
    const stage = {
      outputVoltage: 48,
      fixedLoss: 1,
      linearLoss: 0,
      quadraticLoss: 1,
    };
    assert.throws(() => stagePeak({ ...stage, fixedLoss: 0 }), NoAnswerError);
    assert.throws(
      () => stagePeak({ ...stage, quadraticLoss: 0 }),
      NoAnswerError,
    );
  });
});

describe("stageDerated", () => {
  const at = (ambientC: number) =>
    stageDerated({ ratedPower: 600, ambientC, kneeC: 50, zeroC: 90 });

  it("is the rating up to the knee, none from the zero on, and a straight line between", () => {
    expect(at(-40).power).toBe(600);
    expect(at(50).power).toBe(600);
    expect(at(60).power).toBeCloseTo(450, 12);
    expect(at(90).power).toBe(0);
    expect(at(120).power).toBe(0);
    expect(at(90).notes.map(({ code }) => code)).toEqual(["no-power"]);
    for (const ambientC of [20, 70, 100])
      assertSteps(stageDeratedSteps, {
        ratedPower: 600,
        ambientC,
        kneeC: 50,
        zeroC: 90,
        ...at(ambientC),
      });
  });

  it("refuses a zero at or below the knee", () => {
    assert.throws(
      () =>
        stageDerated({ ratedPower: 600, ambientC: 20, kneeC: 50, zeroC: 50 }),
      /zeroC must be above the knee/,
    );
  });
});
