import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stageDerated, stageDeratedSteps } from "../../src/converters/stage-derated.js";
import { stageEfficiency } from "../../src/converters/stage-efficiency.js";
import { stagePeak, stagePeakSteps } from "../../src/converters/stage-peak.js";
import { NoAnswerError } from "../../src/quantities/errors.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";
import abcPeak from "../reference/abc_peak.json" with { type: "json" };
import bird2016 from "../reference/bird_20_16_17.json" with { type: "json" };
import bird2019 from "../reference/bird_20_19.json" with { type: "json" };
import kosow1210 from "../reference/kosow_12_10.json" with { type: "json" };

const figure = (least: number, most: number) =>
  fc.noBias(
    fc.integer({ min: 0, max: 10_000 }).map((part) => least + ((most - least) * part) / 10_000),
  );

// Textbooks as computed in a public companion notebook (github.com/FOSSEE/Python-Textbook-Companions, commit d34b2ae7,
// seen; the pages not seen). Machines and transformers, but the same polynomial.
describe("stagePeak against textbooks", () => {
  // J. Bird, Electrical Circuit Theory and Technology, example 20.19: 500 kVA, 2.5 kW fixed and 4 kW full-load loss,
  // power factor 0.75: greatest efficiency 98.34 % at 395.28 kVA. Read at 1 V: kVA are kA, and 0.75 V of them are used.
  it("prints Bird's 395.28 kVA and 98.34 % (example 20.19)", () => {
    const { fixed_W, quad_full_load_W, rated_kVA, pf } = bird2019.inputs;
    const peak = stagePeak({
      outputVoltage: pf,
      fixedLoss: fixed_W,
      linearLoss: 0,
      quadraticLoss: quad_full_load_W / (rated_kVA * 1000) ** 2,
    });
    assertPrinted(peak.current / 1000, "395.28");
    assertPrinted(peak.efficiency * 100, "98.34");
  });

  // Bird, examples 20.16 and 20.17: 200 kVA, 1 kW fixed, 1.5 kW full-load loss, power factor 0.85: 0.99 at full load and
  // 98.41 % at half of it.
  it("prints Bird's efficiencies, 0.99 at full load and 98.41 % at half (examples 20.16 and 20.17)", () => {
    const { fixed_W, quad_full_load_W, P_full_W } = bird2016.inputs;
    const at = (part: number) =>
      stageEfficiency({
        outputVoltage: P_full_W / 200e3,
        outputCurrent: 200e3 * part,
        fixedLoss: fixed_W,
        linearLoss: 0,
        quadraticLoss: quad_full_load_W / 200e3 ** 2,
      });
    assertPrinted(at(1).efficiency, "0.99");
    assertPrinted(at(0.5).efficiency * 100, "98.41");
  });

  // I. L. Kosow, Electric Machinery and Transformers, example 12-10: 12.5 kW at 125 V out of 14 920 W, 0.1 Ω, a field of
  // 62.5 Ω. The field's 2 A flow through the armature beside the load's 100 A; the book takes the armature's current as
  // 1.02 of the load's at any load, and 83.91 % as the load's power over that with all losses.
  it("prints Kosow's 117.5 A, 1.15 of the load and 83.91 % (example 12-10)", () => {
    const { Pin_W, Pout_W, Ra_ohm, Rf_ohm } = kosow1210.inputs;
    const volts = 125;
    const fullLoad = Pout_W / volts;
    const field = volts / Rf_ohm;
    const armature = (fullLoad + field) / fullLoad;
    const developed = Pout_W + field * volts + (fullLoad + field) ** 2 * Ra_ohm;
    assertPrinted(developed, "13790");
    assertPrinted((Pin_W - developed) / 10, "113");
    const stage = {
      outputVoltage: volts,
      fixedLoss: Pin_W - developed + field * volts,
      linearLoss: 0,
      quadraticLoss: Ra_ohm * armature ** 2,
    };
    const peak = stagePeak(stage);
    assertPrinted(peak.current * armature, "117.5");
    assertPrinted(peak.current / fullLoad, "1.15");
    assertPrinted(peak.efficiency * 100, "83.91");
    // Seen from the armature alone.
    assertPrinted(stagePeak({ ...stage, quadraticLoss: Ra_ohm }).current, "117.5");
    assertPrinted(stageEfficiency({ ...stage, outputCurrent: fullLoad }).inputPower, "14920");
  });

  // Own numbers, worked out by the calculus of the peak.
  it("is 31.62 A and 96.4535 % for 20 W, 0.5 V and 0.02 Ω at 48 V, as good at half as at twice the current", () => {
    const { a_W, b_V, c_ohm, Vout } = abcPeak.inputs;
    const stage = {
      outputVoltage: Vout,
      fixedLoss: a_W,
      linearLoss: b_V,
      quadraticLoss: c_ohm,
    };
    const peak = stagePeak(stage);
    assertPrinted(peak.current, "31.62");
    assertPrinted(peak.efficiency * 100, "96.4535");
    const { I_peak_A, eta_peak, eta_half, eta_double } = abcPeak.expected;
    expect(peak.current).toBeCloseTo(I_peak_A, 12);
    expect(peak.efficiency).toBeCloseTo(eta_peak, 14);
    const at = (factor: number) =>
      stageEfficiency({ ...stage, outputCurrent: peak.current * factor }).efficiency;
    expect(at(1 / 2)).toBeCloseTo(eta_half, 14);
    expect(at(2)).toBeCloseTo(eta_double, 14);
  });

  it("is at the same current whatever the linear loss", () => {
    fc.assert(
      fc.property(figure(0, 5), (linearLoss) => {
        const stage = { fixedLoss: 20, quadraticLoss: 0.02, linearLoss };
        const { current } = stagePeak({ outputVoltage: 48, ...stage });
        assertPrinted(current, "31.6228");
      }),
    );
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

  it("has no answer without a fixed or without a quadratic loss, and says how the efficiency goes on", () => {
    const stage = {
      outputVoltage: 48,
      fixedLoss: 1,
      linearLoss: 0,
      quadraticLoss: 1,
    };
    const refusal = (losses: Partial<typeof stage>) => {
      try {
        stagePeak({ ...stage, ...losses });
      } catch (error) {
        assert.ok(error instanceof NoAnswerError);
        return `${error.field}: ${error.message}`;
      }
      return "";
    };
    expect(refusal({ fixedLoss: 0 })).toBe(
      "fixedLoss: there is no peak: without fixed loss the efficiency only falls as the current grows",
    );
    expect(refusal({ quadraticLoss: 0 })).toBe(
      "quadraticLoss: there is no peak: without quadratic loss the efficiency only rises as the current grows",
    );
    expect(refusal({ fixedLoss: 0, quadraticLoss: 0 })).toBe(
      "quadraticLoss: there is no peak: without fixed and quadratic loss the efficiency is the same at any current",
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
    expect(at(90).caveats.map(({ code }) => code)).toEqual(["no-power"]);
    for (const ambientC of [20, 70, 100])
      assertSteps(stageDeratedSteps, {
        ratedPower: 600,
        ambientC,
        kneeC: 50,
        zeroC: 90,
        ...at(ambientC),
      });
  });

  // Drawn as figures with few digits, so that the straight line is exact enough to hold by its ends and its slope.
  it("never rises as it gets warmer, and loses the same for every degree between", () => {
    fc.assert(
      fc.property(
        figure(-60, 150),
        figure(0, 40),
        figure(-40, 90),
        figure(1, 80),
        (ambientC, warmer, kneeC, span) => {
          const stage = { ratedPower: 600, kneeC, zeroC: kneeC + span };
          const power = (celsius: number) => stageDerated({ ...stage, ambientC: celsius }).power;
          const here = power(ambientC);
          assert.ok(here >= 0 && here <= 600);
          assert.ok(power(ambientC + warmer) <= here);
          if (ambientC > kneeC && ambientC + warmer < kneeC + span)
            assert.ok(Math.abs(here - power(ambientC + warmer) - (600 * warmer) / span) <= 1e-9);
        },
      ),
      { numRuns: 300 },
    );
  });

  it("refuses a zero at or below the knee", () => {
    assert.throws(
      () => stageDerated({ ratedPower: 600, ambientC: 20, kneeC: 50, zeroC: 50 }),
      /zeroC must be above the knee/,
    );
  });
});
