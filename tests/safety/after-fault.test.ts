import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { type Isolation, ISOLATIONS } from "../../src/network/feed-item.js";
import { InputError } from "../../src/quantities/errors.js";
import {
  afterFaultSteps,
  stageAfterFault,
  type StageAfterFault,
  voltageAfterFault,
} from "../../src/safety/after-fault.js";
import { CONDITIONS, type FrameworkName, FRAMEWORKS } from "../../src/safety/touch-bands.js";
import { assertSteps } from "../helpers/assert-steps.js";

function after(
  inputVoltage: number,
  outputVoltage: number,
  isolation: Isolation | undefined,
  framework: FrameworkName = "IEC 62368-1",
  tripVoltage?: number,
): StageAfterFault {
  const condition = "dry";
  return stageAfterFault({
    inputVoltage,
    outputVoltage,
    isolation,
    framework,
    condition,
    tripVoltage,
  });
}

function bandOf({ judgement, notDetermined }: StageAfterFault): string {
  if (notDetermined !== undefined) return "not determined";
  return judgement.outcome === "determined" ? judgement.band.name : judgement.outcome;
}

// IEC 60364-4-41 411.7.4 note (a source without simple separation extends the input circuit) and IEC 62368-1:2018
// 5.2.1.1 (ES1 may rise to ES2 on a fault of a basic safeguard, not further); both seen second-hand.
describe("what one fault does, arrangement by arrangement", () => {
  it("without isolation: the input's band", () => {
    assert.equal(bandOf(after(400, 48, "none")), "ES3");
    assert.equal(bandOf(after(100, 48, "none")), "ES2");
    assert.equal(after(400, 48, "none").voltage, 400);
  });

  it("without isolation, input within 60 V: within 60 V whatever fails in a step-down", () => {
    assert.equal(bandOf(after(57, 12, "none")), "ES1");
  });

  it("functional insulation: taken as absent, the input's band", () => {
    assert.equal(bandOf(after(400, 48, "functional")), "ES3");
    assert.equal(after(400, 48, "functional").voltage, 400);
  });

  it("basic insulation, input above 120 V: the input's band, and the output may not stay ES1", () => {
    const record = after(400, 48, "basic");
    assert.equal(bandOf(record), "ES3");
    assert.equal(record.mayStay, undefined);
  });

  it("basic insulation, input of 60 to 120 V: ES2 after the fault, which lets the output stay ES1", () => {
    const record = after(120, 48, "basic");
    assert.equal(bandOf(record), "ES2");
    assert.equal(record.mayStay, "ES1");
    assert.match(record.text, /^ES2 · .+ the output may stay ES1/);
  });

  it("grants that only to basic insulation, to an ES1 output and under IEC 62368-1", () => {
    assert.equal(after(120, 48, "none").mayStay, undefined);
    assert.equal(after(120, 48, "functional").mayStay, undefined);
    assert.equal(after(120, 72, "basic").mayStay, undefined);
    assert.equal(after(120.1, 48, "basic").mayStay, undefined);
    assert.equal(after(120, 48, "basic", "IEC 60364-4-41").mayStay, undefined);
  });

  it("double or reinforced insulation: the output's own band", () => {
    const record = after(400, 48, "reinforced");
    assert.equal(bandOf(record), "ES1");
    assert.equal(record.voltage, 48);
    assert.match(record.text, /if the insulation is double or reinforced for 400\.0 V/);
  });
});

describe("stageAfterFault", () => {
  it("counts unknown isolation as none and says so", () => {
    const record = after(400, 48, undefined);
    assert.equal(record.voltage, 400);
    assert.equal(record.caveats[0]?.code, "isolation-unknown");
  });

  it("counts an unknown condition as wet", () => {
    const record = stageAfterFault({
      inputVoltage: 48,
      outputVoltage: 24,
      isolation: "reinforced",
      framework: "IEC 62368-1",
      condition: undefined,
      tripVoltage: undefined,
    });
    assert.match(record.text, /^not determined · IEC 62368-1 gives no limit/);
  });

  it("does not say what a step-up reaches with its regulation lost unless its trip is given", () => {
    for (const isolation of [...ISOLATIONS, undefined]) {
      const blank = after(12, 48, isolation);
      assert.match(
        blank.text,
        /^not determined · what a step-up reaches with its regulation lost is not known: give trip V .+ · at least ES1: 48\.0 V ≤ 60 V dc after one fault/,
      );
      const stopped = after(12, 48, isolation, "IEC 62368-1", 65);
      assert.equal(stopped.voltage, 65);
      assert.match(stopped.text, /^ES2 · 65\.0 V > 60 V, ≤ 120 V dc after/);
    }
  });

  it("says that a step-up puts its output on its input, unless its isolation is reinforced", () => {
    const noteOf = (isolation: Isolation, trip?: number) =>
      after(57, 465, isolation, "IEC 62368-1", trip).caveats.find(({ code }) => code === "step-up")
        ?.text;
    const rest = "on the input and on all that shares it";
    assert.equal(noteOf("basic", 470), `the same fault puts 470.0 V ${rest}`);
    assert.equal(noteOf("none"), `the same fault puts 465.0 V or more ${rest}`);
    assert.equal(noteOf("reinforced", 470), undefined);
  });

  it("counts the lost regulation of a step-down without a trip as its input at its output, and says so", () => {
    const record = after(57, 12, "none");
    assert.equal(record.voltage, 57);
    assert.match(record.text, / · lost regulation counts as the input at the output · /);
    const codes = (isolation: Isolation, trip?: number) =>
      after(57, 12, isolation, "IEC 62368-1", trip)
        .caveats.map(({ code }) => code)
        .filter((code) => /regulation|trips/.test(code));
    assert.deepEqual(codes("none"), []);
    assert.deepEqual(codes("basic"), ["lost-regulation"]);
    assert.deepEqual(codes("basic", 15), []);
    assert.deepEqual(codes("basic", 11), ["trips-in-service"]);
  });

  it("says that no ripple is counted wherever ripple could change the band", () => {
    assert.match(after(57, 12, "none").text, / · no ripple counted · /);
    assert.doesNotMatch(after(400, 12, "none").text, /ripple/);
  });

  const voltage = fc.double({ min: 0.1, max: 2000, noNaN: true });
  const isolation = fc.constantFrom(...ISOLATIONS, undefined);

  it("never gives less than the output in service, and never more for more isolation", () => {
    const byStrength = [undefined, ...ISOLATIONS];
    fc.assert(
      fc.property(voltage, voltage, (input, output) => {
        const found = byStrength.map((one) => voltageAfterFault(input, output, one));
        found.forEach((now, at) => {
          assert.ok(now >= output);
          assert.ok(at === 0 || now <= found[at - 1]!);
        });
      }),
    );
  });

  it("begins with the band, never says safe or is SELV, and has steps that another evaluator repeats", () => {
    fc.assert(
      fc.property(
        voltage,
        voltage,
        isolation,
        fc.constantFrom(...FRAMEWORKS),
        fc.constantFrom(...CONDITIONS),
        fc.option(voltage, { nil: undefined }),
        (inputVoltage, outputVoltage, isolation, framework, condition, tripVoltage) => {
          const stage = {
            inputVoltage,
            outputVoltage,
            isolation,
            framework,
            condition,
            tripVoltage,
          };
          const record = stageAfterFault(stage);
          assert.ok(record.text.startsWith(`${bandOf(record)} · `));
          assert.doesNotMatch(record.text, /\bsafe\b|\bis SELV\b/i);
          assertSteps(afterFaultSteps(stage), { ...stage, ...record });
        },
      ),
    );
  });

  it("names field, value and bound of an impossible input", () => {
    assert.throws(() => after(0, 48, "none"), new InputError("inputVoltage", 0, "above 0"));
    assert.throws(
      () => after(400, Number.NaN, "none"),
      new InputError("outputVoltage", Number.NaN, "above 0"),
    );
  });
});
