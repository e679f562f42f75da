import assert from "node:assert/strict";
import { describe, it } from "vitest";
import {
  type ConductorSize,
  conductorSection,
  sectionGivens,
  sectionSteps,
  sizeAsGiven,
} from "../../src/conductors/conductor-section.js";
import { fieldsOf } from "../../src/quantities/formulas.js";
import type { Step } from "../../src/quantities/steps.js";
import { SQUARE_METRES_PER_CIRCULAR_MIL } from "../../src/quantities/units.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

function awg(name: string): ConductorSize {
  const [count = "", zero] = name.split("/");
  const gauge = zero === undefined ? Number(count) : 1 - Number(count);
  return { sizing: "AWG", gauge, written: `${name} AWG` };
}

const mm2 = (size: ConductorSize) => conductorSection(size).area * 1e6;

function millimetres(name: string): number {
  const section = conductorSection(awg(name));
  assert.equal(section.sizing, "AWG");
  return section.sizing === "AWG" ? section.diameter * 1000 : Number.NaN;
}

describe("AWG against published figures", () => {
  // ASTM B258: 0.0050 in at 36 AWG and 0.4600 in at 4/0 are the definition.
  it("has the two diameters that define it", () => {
    assertPrinted(millimetres("36") / 25.4, "0.0050");
    assertPrinted(millimetres("4/0") / 25.4, "0.4600");
  });

  // en.wikibooks.org, Engineering Tables, American Wire Gauge.
  it("gives the areas of the Wikibooks table", () => {
    assertPrinted(mm2(awg("4/0")), "107");
    assertPrinted(mm2(awg("1/0")), "53.5");
    assertPrinted(mm2(awg("4")), "21.2");
    assertPrinted(mm2(awg("8")), "8.37");
    assertPrinted(mm2(awg("10")), "5.26");
  });

  // OpenStax, College Physics 2e, Resistance and Resistivity: 12-gauge wire is 2.053 mm across.
  it("gives OpenStax's diameter of 12-gauge wire", () => {
    assertPrinted(millimetres("12"), "2.053");
  });

  // T. R. Kuphaldt, Lessons In Electric Circuits vol. I, Specific resistance: 14 AWG is 4,107 cmil, 2/0 is 133,100 cmil.
  it("gives Kuphaldt's circular mils", () => {
    const cmil = (name: string) =>
      conductorSection(awg(name)).area / SQUARE_METRES_PER_CIRCULAR_MIL;
    assertPrinted(cmil("14"), "4107");
    assertPrinted(cmil("2/0") / 1000, "133.1");
  });
});

// Computed from the ASTM B258 rule outside this program: diameter in mm, area in mm². A check of arithmetic, not a publication.
const COMPUTED = `
4/0 11.6840 107.22
2/0 9.2658 67.431
1/0 8.2515 53.475
1 7.3481 42.408
2 6.5437 33.631
3 5.8273 26.67
4 5.1894 21.151
5 4.6213 16.773
6 4.1154 13.302
7 3.6649 10.549
8 3.2636 8.3656
9 2.9064 6.6342
10 2.5882 5.2612
12 2.0525 3.3088
13 1.8278 2.624
14 1.6277 2.0809
15 1.4495 1.6502
16 1.2908 1.3087
17 1.1495 1.0378
18 1.0237 0.82305
19 0.9116 0.65271
20 0.8118 0.51762
21 0.7229 0.41049
22 0.6438 0.32553
23 0.5733 0.25816
24 0.5106 0.20473
25 0.4547 0.16236
26 0.4049 0.12876
28 0.3211 0.080976
29 0.2859 0.064217
30 0.2546 0.050926
31 0.2268 0.040386
32 0.2019 0.032028
33 0.1798 0.025399
34 0.1601 0.020142
35 0.1426 0.015974
36 0.1270 0.012668
37 0.1131 0.010046
38 0.1007 0.0079668
39 0.0897 0.0063179
40 0.0799 0.0050104`;

describe("AWG against the ASTM B258 rule computed elsewhere", () => {
  for (const line of COMPUTED.trim().split("\n")) {
    const [name = "", diameter = "", area = ""] = line.split(" ");
    it(`${name} AWG`, () => {
      assertPrinted(millimetres(name), diameter);
      assertPrinted(mm2(awg(name)), area);
    });
  }
});

describe("kcmil", () => {
  // A circular mil is the area of a circle 0.001 in across: 1 kcmil = π/4 · 25.4² · 1e-3 mm² = 0.5067075 mm².
  it("is areas of circles", () => {
    const kcmil = (count: number) =>
      mm2({ sizing: "kcmil", kcmil: count, written: `${count} kcmil` });
    assertPrinted(kcmil(1), "0.5067075");
    assertPrinted(kcmil(250), "126.68");
    assertPrinted(kcmil(300), "152.01");
    assertPrinted(kcmil(400), "202.68");
    assertPrinted(kcmil(500), "253.35");
  });
});

function reads(step: Step): readonly string[] {
  if (step.kind === "lookup") return [step.key];
  return fieldsOf(step.kind === "formula" ? step.formula : step.residual);
}

const metric = (nominalMm2: number): ConductorSize => ({
  sizing: "metric name",
  nominalMm2,
  written: `${nominalMm2} mm²`,
});

describe("conductorSection", () => {
  it("takes a number as bare metal and says nothing", () => {
    const { area, caveats } = conductorSection({
      sizing: "bare metal",
      areaMm2: 3,
    });
    assert.equal(area, 3e-6);
    assert.deepEqual(caveats, []);
  });

  it("says that a metric name's area is nominal", () => {
    const { area, caveats } = conductorSection(metric(2.5));
    assert.equal(area, 2.5e-6);
    assert.equal(caveats[0]?.code, "nominal-area");
  });

  it("refuses sizes that no standard lists, and says which it does", () => {
    const section = (size: ConductorSize) => () => conductorSection(size);
    assert.throws(section(metric(3)), /3 mm².*nearest are 2.5 and 4 mm²/);
    assert.throws(section(metric(0.2)), /smallest is 0.5 mm²/);
    assert.throws(section(metric(1200)), /largest is 1000 mm²/);
    assert.throws(section(awg("5/0")), /"5\/0 AWG" is not in ASTM B258/);
    assert.throws(section(awg("57")), /1 to 56/);
    assert.throws(section(awg("12.5")), /"12.5 AWG" is not in ASTM B258/);
  });

  it("refuses areas that are none", () => {
    for (const areaMm2 of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      assert.throws(
        () => conductorSection({ sizing: "bare metal", areaMm2 }),
        new RegExp(`size must be above 0 mm².*got ${areaMm2}`),
      );
    }
    assert.throws(() => conductorSection(metric(0)), /size must be above 0 mm², got "0 mm²"/);
    assert.throws(
      () => conductorSection({ sizing: "kcmil", kcmil: 0, written: "0 kcmil" }),
      /size must be above 0 kcmil, got "0 kcmil"/,
    );
  });

  const sizes: readonly ConductorSize[] = [
    { sizing: "bare metal", areaMm2: 3 },
    metric(2.5),
    awg("12"),
    awg("4/0"),
    { sizing: "kcmil", kcmil: 250, written: "250 kcmil" },
  ];
  for (const size of sizes) {
    it(`has steps for ${sizeAsGiven(size)} that another engine computes to the same numbers`, () => {
      const section = conductorSection(size);
      const steps = sectionSteps[section.sizing];
      const values = { size: sizeAsGiven(size), ...section };
      assertSteps(steps, values);
      const known = new Set(Object.keys(sectionGivens(section)));
      for (const [field, step] of Object.entries(steps)) {
        const read = reads(step);
        for (const name of read) assert.ok(known.has(name), `${field}: ${name}`);
        known.add(field);
      }
    });
  }
});
