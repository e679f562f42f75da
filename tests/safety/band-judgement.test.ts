import type { TouchVoltage } from "../../src/safety/touch-voltage.js";
import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { InputError } from "../../src/quantities/errors.js";
import { bandJudgement, type BandJudgement } from "../../src/safety/band-judgement.js";
import { checkSteps } from "../../src/safety/limit-check-steps.js";
import type { SumCheck } from "../../src/safety/limit-check.js";
import {
  CONDITIONS,
  FRAMEWORKS,
  type FrameworkName,
  type TouchCondition,
  VOLTAGE_KINDS,
} from "../../src/safety/touch-bands.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

const plain = {
  framework: "IEC 62368-1",
  condition: "dry",
  kind: "dc",
  rippleRms: undefined,
  ripplePeak: undefined,
} as const;

function judge(
  voltage: number,
  framework: FrameworkName = "IEC 62368-1",
  condition: TouchCondition = "dry",
): BandJudgement {
  return bandJudgement({ ...plain, voltage, framework, condition });
}

function bandOf(judgement: BandJudgement): string {
  return judgement.outcome === "determined" ? judgement.band.name : judgement.outcome;
}

function withRipple(
  voltage: number,
  rippleRms: number,
  ripplePeak?: number,
  framework: FrameworkName = "IEC 62368-1",
): BandJudgement {
  return bandJudgement({
    ...plain,
    framework,
    voltage,
    rippleRms,
    ripplePeak,
  });
}

function sumOf(judgement: BandJudgement): SumCheck {
  assert.equal(judgement.check.rule, "sum");
  return judgement.check as SumCheck;
}

describe("bandJudgement at the published limits", () => {
  // The limits stand in touch-bands.test.ts with their sources. A limit belongs to its band ("not exceeding").
  const EDGES: readonly (readonly [FrameworkName, TouchCondition, number, string, string])[] = [
    ["IEC 62368-1", "dry", 60, "ES1", "ES2"],
    ["IEC 62368-1", "dry", 120, "ES2", "ES3"],
    ["IEC 60364-4-41", "dry", 60, "bare", "extra-low"],
    ["IEC 60364-4-41", "wet", 30, "bare", "extra-low"],
    ["IEC 60364-4-41", "wet", 120, "extra-low", "low"],
    ["IEC 60364-4-41", "dry", 1500, "low", "high"],
    ["ISO 6469-3", "dry", 60, "A", "B"],
    ["ISO 6469-3", "dry", 1500, "B", "above B"],
  ];
  for (const [framework, condition, limit, at, above] of EDGES)
    it(`${framework} ${condition}: ${limit} V is ${at}, more is ${above}`, () => {
      assert.equal(bandOf(judge(limit, framework, condition)), at);
      assert.equal(bandOf(judge(limit + 1e-6, framework, condition)), above);
    });

  it("US workplace: 50 V is no longer below 50 V", () => {
    assert.equal(bandOf(judge(49.999, "US workplace")), "below 50 V");
    assert.equal(bandOf(judge(50, "US workplace")), "50 V or more");
  });

  it("takes ac by its own limits: 30 V rms is ES1, 25 V dry and 12 V wet may be bare", () => {
    const ac = { ...plain, kind: "ac rms" } as const;
    assert.equal(bandOf(bandJudgement({ ...ac, voltage: 30 })), "ES1");
    assert.equal(bandOf(bandJudgement({ ...ac, voltage: 30.1 })), "ES2");
    const bare = { ...ac, framework: "IEC 60364-4-41" } as const;
    assert.equal(bandOf(bandJudgement({ ...bare, voltage: 25 })), "bare");
    const wet = { ...bare, condition: "wet" } as const;
    assert.equal(bandOf(bandJudgement({ ...wet, voltage: 12 })), "bare");
    assert.equal(bandOf(bandJudgement({ ...wet, voltage: 25 })), "extra-low");
  });

  it("answers not determined where a framework has no figure for wet, and the band it is at least", () => {
    for (const framework of FRAMEWORKS.filter((f) => f !== "IEC 60364-4-41")) {
      const judgement = judge(24, framework, "wet");
      assert.equal(judgement.outcome, "not determined");
      assert.match(judgement.text, /^not determined · .+ gives no limit for wet · at least /);
    }
    assert.match(judge(400, "IEC 62368-1", "wet").text, /at least ES3: 400/);
  });

  it("is not thrown off a limit by the last bit of a product", () => {
    assert.ok(600.0000000000001 * 0.1 > 60);
    assert.equal(bandOf(judge(600.0000000000001 * 0.1)), "ES1");
  });
});

describe("trade facts (common practice, no source)", () => {
  it("dc above about 60 V is not treated as fit to touch", () => {
    assert.deepEqual(
      FRAMEWORKS.map((framework) => bandOf(judge(60.5, framework))),
      ["ES2", "extra-low", "B", "50 V or more"],
    );
    assert.notEqual(bandOf(judge(60.5, "IEC 60364-4-41", "wet")), "bare");
  });

  it("an extra-low-voltage bus is commonly 12, 24 or 48 V, dry in the lowest band of every framework", () => {
    for (const framework of FRAMEWORKS)
      for (const voltage of [12, 24, 48]) {
        const judgement = judge(voltage, framework);
        assert.ok(judgement.outcome === "determined" && judgement.rank === 0);
      }
  });

  it("a 440 V supply at 1/8 + 2 % is within ES1 and above 30 V wet; 706 V at 1/12 + 1 % is close below 60 V", () => {
    const summit = 440 * (1 / 8) * 1.02;
    assertPrinted(summit, "56.1");
    assert.equal(bandOf(judge(summit)), "ES1");
    assert.equal(bandOf(judge(summit, "IEC 60364-4-41", "wet")), "extra-low");
    const ferry = 706 * (1 / 12) * 1.01;
    assertPrinted(ferry, "59.4");
    assert.equal(bandOf(judge(ferry)), "ES1");
  });
});

// IEC 62368-1 Table 4: U/60 + rms/30 ≤ 1 and U/60 + peak/42.4 ≤ 1. The rows are computed from it for a sine.
describe("the ES1 sum rule, computed rows for sine ripple", () => {
  const ALLOWED_DC = [
    [0.01, "58.8"],
    [0.02, "57.7"],
    [0.03, "56.6"],
    [0.05, "54.5"],
    [0.1, "50.0"],
  ] as const;
  for (const [part, printed] of ALLOWED_DC)
    it(`allows ${printed} V dc at ${part * 100} % rms`, () => {
      assertPrinted(
        highestWithin((u) => withRipple(u, part * u, Math.SQRT2 * part * u)),
        printed,
      );
    });

  it("allows 60.0 V without ripple", () => {
    assertPrinted(
      highestWithin((u) => judge(u)),
      "60.0",
    );
  });

  const ALLOWED_RIPPLE = [
    [48, "6.0"],
    [54, "3.0"],
    [56, "2.0"],
    [57, "1.5"],
    [58.8, "0.6"],
  ] as const;
  for (const [dc, printed] of ALLOWED_RIPPLE)
    it(`allows ${printed} V rms at ${dc} V dc`, () => {
      assertPrinted(
        highestWithin((ripple) => withRipple(dc, ripple, Math.SQRT2 * ripple)),
        printed,
      );
    });

  it("fails a 57 V bus with 10 % rms that IEC 60364-4-41 still takes as ripple-free", () => {
    assert.equal(bandOf(withRipple(57, 5.7)), "ES2");
    assert.equal(bandOf(withRipple(57, 5.7, undefined, "IEC 60364-4-41")), "bare");
  });

  it("takes the worse of rms and peak", () => {
    const square = sumOf(withRipple(48, 6, 6));
    assert.ok(square.rmsSum > square.peakSum);
    assert.equal(square.sum, square.rmsSum);
    const spiky = sumOf(withRipple(48, 2, 8));
    assertPrinted(spiky.rmsSum, "0.867");
    assertPrinted(spiky.peakSum, "0.989");
    assert.equal(spiky.sum, spiky.peakSum);
    assert.equal(bandOf(withRipple(48, 2, 8)), "ES1");
    assert.equal(bandOf(withRipple(48, 2, 12)), "ES2");
  });

  it("takes the peak as √3 × rms, a triangular wave's, and says so", () => {
    const judgement = withRipple(48, 2);
    assertPrinted(sumOf(judgement).peak, "3.464");
    assertPrinted(sumOf(judgement).sum, "0.882");
    assert.ok(judgement.caveats.some((n) => n.code === "ripple-peak-assumed"));
    assert.deepEqual(
      withRipple(48, 2, 3).caveats.map((n) => n.code),
      [],
    );
  });

  it("lets 0.35 V rms take 59.42 V out of ES1, and says of 59.42 V alone that no ripple is counted", () => {
    const dry = judge(59.42);
    assert.equal(bandOf(dry), "ES1");
    assert.match(dry.text, /^ES1 · 59\.42 V ≤ 60 V dc · no ripple counted · /);
    assert.deepEqual(dry.caveats.map(({ code }) => code).slice(0, 1), ["no-ripple"]);
    // 59.42/60 + 0.35/30 = 1.002
    const rippled = withRipple(59.42, 0.35);
    assert.equal(bandOf(rippled), "ES2");
    assert.doesNotMatch(rippled.text, /no ripple counted/);
    assert.ok(rippled.caveats.every(({ code }) => code !== "no-ripple"));
    const ac = bandJudgement({ ...plain, kind: "ac rms", voltage: 20 });
    assert.doesNotMatch(ac.text, /ripple/);
    assert.doesNotMatch(judge(400).text, /ripple/);
  });

  it("gives the dc that the ripple leaves, and the margin to it", () => {
    const { limit, margin } = sumOf(withRipple(48, 3, 3));
    assertPrinted(limit, "54.0");
    assertPrinted(margin, "6.0");
  });

  it("notes that ES2 with ripple is read off a figure", () => {
    const judgement = withRipple(57, 5.7);
    assert.ok(judgement.caveats.some((n) => n.code === "sum-beyond-first-band"));
    assert.equal(bandOf(withRipple(110, 20)), "ES3");
  });

  /** By halving, so that the rule under test is only asked whether it holds. */
  function highestWithin(judgementAt: (value: number) => BandJudgement) {
    let [low, high] = [1e-9, 100];
    for (let round = 0; round < 60; round++) {
      const middle = (low + high) / 2;
      if (bandOf(judgementAt(middle)) === "ES1") low = middle;
      else high = middle;
    }
    return low;
  }
});

describe("ripple in the other frameworks", () => {
  // IEV entry SELV: ripple-free is 10 % rms at most, peak 70 V for a 60 V system.
  it("IEC 60364-4-41: up to 10 % rms counts as ripple-free, more is not determined", () => {
    const at = (rms: number) => bandOf(withRipple(50, rms, rms * 1.5, "IEC 60364-4-41"));
    assert.equal(at(5), "bare");
    assert.equal(at(5.01), "not determined");
  });

  it("IEC 60364-4-41: peaks above 70 V leave the bare band although the dc is within 60 V", () => {
    const at = (peak: number) => withRipple(60, 5, peak, "IEC 60364-4-41");
    assert.equal(bandOf(at(10)), "bare");
    assert.equal(bandOf(at(10.1)), "extra-low");
    assert.match(at(10.1).text, /peaks > 70 V, ≤ 120 V \(peaks ≤ 140 V\)/);
  });

  it("IEC 60364-4-41 wet: 35 V for the peaks is a proportion of its own, and is said to be one", () => {
    const at = (voltage: number, condition: TouchCondition) =>
      bandJudgement({
        ...plain,
        framework: "IEC 60364-4-41",
        condition,
        voltage,
        rippleRms: 1,
        ripplePeak: 5.1,
      });
    const wet = at(29.9, "wet");
    assert.equal(bandOf(wet), "bare");
    const own = (judgement: BandJudgement) =>
      judgement.caveats.filter(({ code }) => code === "ripple-peak-own");
    assert.deepEqual(
      own(wet).map(({ text, cite }) => [text, cite]),
      [
        [
          "35 V for the peaks is worked out here: no work is known that prints it",
          "ripple-peak-proportion",
        ],
      ],
    );
    assert.deepEqual(own(at(29.9, "dry")), []);
    assert.deepEqual(own(at(50, "wet")), []);
  });

  it("US workplace: the peaks count", () => {
    const at = (peak: number) => bandOf(withRipple(48, 1, peak, "US workplace"));
    assert.equal(at(1.9), "below 50 V");
    assert.equal(at(2), "50 V or more");
  });

  it("ISO 6469-3: not determined", () => {
    assert.match(
      withRipple(48, 1, 2, "ISO 6469-3").text,
      /^not determined · no rule for ripple .+ · at least A: 48\.0 V/,
    );
  });
});

describe("the text of a judgement", () => {
  it("begins with the band and says what it rests on", () => {
    assert.equal(
      judge(48).text,
      "ES1 · 48.0 V ≤ 60 V dc · no ripple counted · if within the limit in service and after a fault",
    );
    assert.equal(
      judge(56.1, "IEC 60364-4-41", "wet").text,
      "extra-low · 56.1 V > 30 V, ≤ 120 V dc wet · no ripple counted · live parts enclosed or insulated, if within the limit in service and after a fault",
    );
    assert.equal(judge(400).text, "ES3 · 400.0 V > 120 V dc · above every limit of IEC 62368-1");
    assert.match(judge(50, "US workplace").text, /^50 V or more · 50\.0 V ≥ 50 V dc · /);
  });

  it("never rounds down: 60.04 V is above 60 V also to read, 49.996 V is not shown as 50.0 V", () => {
    assert.match(judge(60.04).text, /^ES2 · 60\.04 V > 60 V/);
    assert.match(judge(60.000001).text, /^ES2 · 60\.01 V > 60 V/);
    assert.match(judge(59.42166).text, /^ES1 · 59\.43 V ≤ 60 V/);
    assert.match(judge(440 * 0.125 * 1.02).text, /^ES1 · 56\.1 V ≤/);
    assert.match(judge(49.996, "US workplace").text, /^below 50 V · 49\.996 V < 50 V/);
    assert.match(withRipple(59.999, 0.02, 0.02).text, /sum 1\.001 > 1 of ES1/);
  });

  it("shows a voltage that is not lower than the real one and stands to its limits as the real one does", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...FRAMEWORKS),
        fc.oneof(
          fc.double({ min: 0.01, max: 2000, noNaN: true }),
          fc.double({ min: 49.9, max: 50.1, noNaN: true }),
          fc.double({ min: 59.9, max: 60.1, noNaN: true }),
        ),
        (framework, voltage) => {
          const { relation } = judge(voltage, framework);
          const shown = Number(/^[\d.]+/.exec(relation)?.[0]);
          assert.ok(shown >= voltage * (1 - 1e-11), relation);
          for (const [, sign, limit] of relation.matchAll(/([≤<>≥]) ([\d.]+) V/g)) {
            const holds = {
              "≤": shown <= Number(limit),
              "<": shown < Number(limit),
              ">": shown > Number(limit),
              "≥": shown >= Number(limit),
            }[sign as "≤" | "<" | ">" | "≥"];
            assert.ok(holds, `${voltage}: ${relation}`);
          }
        },
      ),
    );
  });
});

describe("bandJudgement", () => {
  const anyTouch = fc.record({
    voltage: fc.double({ min: 0.1, max: 3000, noNaN: true }),
    framework: fc.constantFrom(...FRAMEWORKS),
    condition: fc.constantFrom(...CONDITIONS, undefined),
    kind: fc.constantFrom(...VOLTAGE_KINDS),
    ripple: fc.option(
      fc.tuple(
        fc.double({ min: 0.01, max: 50, noNaN: true }),
        fc.option(fc.double({ min: 1, max: 4, noNaN: true }), {
          nil: undefined,
        }),
      ),
      { nil: undefined },
    ),
  });

  function touchOf({
    ripple,
    ...rest
  }: typeof anyTouch extends fc.Arbitrary<infer T> ? T : never): TouchVoltage {
    const [rms, crest] = rest.kind === "dc" ? (ripple ?? []) : [];
    return {
      ...rest,
      rippleRms: rms,
      ripplePeak: rms === undefined || crest === undefined ? undefined : rms * crest,
    };
  }

  const rankOf = (judgement: BandJudgement) =>
    judgement.outcome === "determined" ? judgement.rank : undefined;

  it("never gives a lower band to a higher voltage", () => {
    fc.assert(
      fc.property(anyTouch, fc.double({ min: 1, max: 4, noNaN: true }), (drawn, factor) => {
        const touch = touchOf(drawn);
        const low = rankOf(bandJudgement(touch));
        const high = rankOf(bandJudgement({ ...touch, voltage: touch.voltage * factor }));
        assert.ok(low === undefined || high === undefined || high >= low);
      }),
      { numRuns: 500 },
    );
  });

  it("never gives a lower band for more ripple, or for wet than for dry", () => {
    fc.assert(
      fc.property(anyTouch, (drawn) => {
        const touch = touchOf(drawn);
        const band = rankOf(bandJudgement(touch));
        const calm = rankOf(
          bandJudgement({
            ...touch,
            rippleRms: undefined,
            ripplePeak: undefined,
          }),
        );
        const dry = rankOf(bandJudgement({ ...touch, condition: "dry" }));
        for (const milder of [calm, dry])
          assert.ok(band === undefined || milder === undefined || band >= milder);
      }),
      { numRuns: 500 },
    );
  });

  it("has a margin below 0 exactly where the check fails", () => {
    fc.assert(
      fc.property(anyTouch, (drawn) => {
        const { check } = bandJudgement(touchOf(drawn));
        if (Math.abs(check.margin) > 1e-9) assert.equal(check.within, check.margin > 0);
      }),
    );
  });

  it("counts an unknown condition as wet and says so", () => {
    const judgement = bandJudgement({
      ...plain,
      framework: "IEC 60364-4-41",
      voltage: 48,
      condition: undefined,
    });
    assert.equal(bandOf(judgement), "extra-low");
    assert.equal(judgement.condition, "wet");
    assert.equal(judgement.caveats[0]?.code, "condition-unknown");
  });

  it("notes the strictest limit that is crossed elsewhere", () => {
    const codes = (voltage: number) =>
      judge(voltage)
        .caveats.filter(({ code }) => code === "crossed-elsewhere")
        .map(({ cite }) => cite);
    assert.deepEqual(codes(56.1), ["osha-50-v"]);
    assert.deepEqual(codes(49), []);
  });

  it("prints steps that an independent evaluator computes to the same numbers", () => {
    fc.assert(
      fc.property(anyTouch, (drawn) => {
        const touch = touchOf(drawn);
        const { check } = bandJudgement(touch);
        const peakGiven = touch.ripplePeak !== undefined;
        assertSteps(checkSteps(check, "iec-62368-1", peakGiven), {
          ...touch,
          ...check,
        });
      }),
    );
  });

  it("names field, value and bound of an impossible input", () => {
    const refused = (touch: Partial<TouchVoltage>, error: InputError) =>
      assert.throws(() => bandJudgement({ ...plain, voltage: 48, ...touch }), {
        message: error.message,
      });
    for (const voltage of [0, -48, Number.NaN, Infinity])
      refused({ voltage }, new InputError("voltage", voltage, "above 0"));
    refused({ kind: "ac rms", rippleRms: 1 }, new InputError("rippleRms", 1, "blank for ac rms"));
    refused({ rippleRms: -1 }, new InputError("rippleRms", -1, "above 0"));
    refused(
      { ripplePeak: 3 },
      new InputError("ripplePeak", 3, "left out where no ripple rms is given"),
    );
    refused({ rippleRms: 4, ripplePeak: 3 }, new InputError("ripplePeak", 3, "4 (rms) or more"));
  });
});
