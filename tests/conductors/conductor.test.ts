import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { ConductorBuild } from "../../src/conductors/conductor-build.js";
import {
  type ConductorMaterial,
  conductorMaterials,
  ownMaterial,
} from "../../src/conductors/conductor-materials.js";
import type { ConductorSize } from "../../src/conductors/conductor-section.js";
import { conductor, conductorWorking } from "../../src/conductors/conductor.js";
import { fieldsOf } from "../../src/quantities/formulas.js";
import { METRES_PER_FOOT } from "../../src/quantities/units.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

const { copper, hardCopper, aluminium, copperClad10, copperClad15 } = conductorMaterials;

const awg = (gauge: number): ConductorSize => ({
  sizing: "AWG",
  gauge,
  written: `AWG ${gauge}`,
});
const metric = (nominalMm2: number): ConductorSize => ({
  sizing: "metric name",
  nominalMm2,
  written: `${nominalMm2} mm²`,
});
const bare: ConductorSize = { sizing: "bare metal", areaMm2: 2.5 };
const kcmil: ConductorSize = {
  sizing: "kcmil",
  kcmil: 250,
  written: "250 kcmil",
};

function core(size: ConductorSize, build?: ConductorBuild, material: ConductorMaterial = copper) {
  return conductor({ size, build, material });
}

const ohmsPerKilometre = (...args: Parameters<typeof core>) =>
  core(...args).resistancePerMetre * 1000;

describe("copper wire at 20 °C against published tables", () => {
  // en.wikibooks.org, Engineering Tables, American Wire Gauge: Ω/km and Ω/kft.
  it("gives the resistances of the Wikibooks table", () => {
    const rows = [
      [-3, "0.1608", "0.04901"],
      [0, "0.3224", "0.09827"],
      [4, "0.8152", "0.2485"],
      [8, "2.061", "0.6282"],
      [10, "3.277", undefined],
    ] as const;
    for (const [gauge, perKilometre, perThousandFeet] of rows) {
      const found = ohmsPerKilometre(awg(gauge));
      assertPrinted(found, perKilometre);
      if (perThousandFeet !== undefined) assertPrinted(found * METRES_PER_FOOT, perThousandFeet);
    }
  });

  // wp.1728.org: 12 AWG 5.21 Ω/km. Its finer sizes print more digits than they hold (20 AWG 33.29 for 33.31).
  it("gives 5.21 Ω/km for 12 AWG", () => {
    assertPrinted(ohmsPerKilometre(awg(12)), "5.21");
  });

  // Computed outside this program from 17.241 nΩ·m and the ASTM B258 areas: a check of arithmetic, not a publication.
  it("agrees with ρ/A computed elsewhere, from 4/0 to 40 AWG", () => {
    const rows = [
      [-1, "0.2557"],
      [1, "0.4066"],
      [2, "0.5127"],
      [6, "1.296"],
      [12, "5.211"],
      [14, "8.285"],
      [18, "20.95"],
      [22, "52.96"],
      [26, "133.9"],
      [30, "338.5"],
      [36, "1361"],
      [40, "3441"],
    ] as const;
    for (const [gauge, printed] of rows) assertPrinted(ohmsPerKilometre(awg(gauge)), printed);
  });
});

// Copper-clad aluminium wire table, mwswire.com: Ω per 1000 ft at 20 °C, 10 % and 15 % copper. The table is of nominal
// wire; ours is of the least conductivity it states (62.9 % and 64.4 % IACS), so ours lies above, by 2 to 4 %.
describe("copper-clad aluminium against the wire table", () => {
  const ROWS = [
    [14, 3.91, 3.79],
    [16, 6.23, 6.05],
    [18, 9.9, 9.61],
    [20, 15.7, 15.2],
  ] as const;
  for (const [gauge, ten, fifteen] of ROWS) {
    it(`is never better than the table's ${gauge} AWG, and worse by 4 % at most`, () => {
      for (const [material, printed] of [
        [copperClad10, ten],
        [copperClad15, fifteen],
      ] as const) {
        const perFoot = ohmsPerKilometre(awg(gauge), "solid", material) * METRES_PER_FOOT;
        const ratio = perFoot / printed;
        assert.ok(ratio > 1 && ratio < 1.04, `${material.name}: ${ratio}`);
      }
    });
  }
});

describe("which resistance a size takes", () => {
  it("takes a number as bare metal: ρ/A", () => {
    const { basis, caveats } = core(bare);
    assert.equal(basis, "solid");
    assertPrinted(ohmsPerKilometre(bare), "6.8964"); // 17.241 / 2.5
    assert.deepEqual(
      caveats.map(({ code }) => code),
      ["ideal-metal"],
    );
  });

  // IEC 60228, class 2, copper: 4.61 Ω/km for 4 mm² where 17.241/4 is 4.310, 0.727 for 25 mm² where 17.241/25 is 0.6896;
  // aluminium: 1.91 for 16 mm² where 28.264/16 is 1.7665.
  it("says by how much a number is best case where it is a standard size, and how to write that size", () => {
    const noted = (
      areaMm2: number,
      ...rest: [build?: ConductorBuild, material?: ConductorMaterial]
    ) => core({ sizing: "bare metal", areaMm2 }, ...rest).caveats.map(({ text }) => text);
    assert.deepEqual(noted(4), [
      'ideal metal of 4 mm²; for the standard size write "4 mm²" (class 2: up to 7 % more resistance)',
    ]);
    assert.match(String(noted(25)), /"25 mm²" \(class 2: up to 6 % more/);
    assert.match(String(noted(16, undefined, aluminium)), /up to 9 % more/);
    // 4.61 / (1.02 · 4.310) is 1.0486.
    assert.match(String(noted(4, "stranded")), /up to 5 % more/);
    assert.match(String(noted(1.5)), /write "1.5 mm²"/);
    for (const silent of [
      noted(4.1),
      noted(4, "geometric"),
      noted(4, undefined, aluminium),
      noted(4, undefined, hardCopper),
      noted(4, undefined, ownMaterial(2e-8, 0.004)),
    ])
      assert.deepEqual(silent, []);
  });

  it("takes a metric name as class 2", () => {
    assert.equal(core(metric(2.5)).basis, "table");
    assertPrinted(ohmsPerKilometre(metric(2.5)), "7.41");
    assertPrinted(ohmsPerKilometre(metric(16), undefined, aluminium), "1.91");
  });

  it("takes AWG as solid and says so, unless told", () => {
    const { basis, caveats } = core(awg(12));
    assert.equal(basis, "solid");
    // 2.02 Ω/kft (below) where 12 AWG as solid has 1.588.
    assert.equal(
      caveats[0]?.text,
      "taken as solid, the best case; stranded: 2 % more, stranded tinned: up to 28 % more",
    );
    assert.equal(
      core(awg(12), undefined, aluminium).caveats[0]?.text,
      "taken as solid, the best case; stranded: 2 % more",
    );
    assert.deepEqual(core(awg(12), "solid").caveats, []);
    assert.deepEqual(core(awg(12), "stranded").caveats, []);
  });

  it("takes kcmil as stranded", () => {
    assert.equal(core(kcmil).basis, "stranded");
  });

  it("adds 2 % for stranding", () => {
    for (const size of [bare, awg(12), kcmil]) {
      const ratio =
        core(size, "stranded").resistancePerMetre / core(size, "solid").resistancePerMetre;
      assertPrinted(ratio, "1.02000000");
    }
  });

  it("takes the class that was asked for", () => {
    assertPrinted(ohmsPerKilometre(metric(185), "class 1"), "0.101");
    assertPrinted(ohmsPerKilometre(metric(185), "class 2"), "0.0991");
    assertPrinted(ohmsPerKilometre(metric(185), "class 5"), "0.106");
    assertPrinted(ohmsPerKilometre(metric(185), "class 5 tinned"), "0.108");
  });

  it("computes ρ/A of a metric name where asked, and doubts it", () => {
    for (const build of ["geometric", "solid", "stranded"] as const)
      assert.equal(core(metric(2.5), build).caveats[0]?.code, "nominal-area");
    assertPrinted(ohmsPerKilometre(metric(2.5), "geometric"), "6.8964");
  });

  it("notes solid copper of 25 mm² and more, as IEC 60228 does, and not of less or of aluminium", () => {
    assert.equal(core(metric(25), "class 1").caveats[0]?.code, "special-cables");
    assert.deepEqual(core(metric(16), "class 1").caveats, []);
    assert.deepEqual(core(metric(25), "class 1", aluminium).caveats, []);
  });

  it("doubts a resistivity that is unlike a metal's", () => {
    const noted = (resistivity: number) =>
      core(bare, undefined, ownMaterial(resistivity, 0.004)).caveats[0]?.code;
    assert.equal(noted(17.241), "unlike-a-metal");
    assert.equal(noted(0.017241), "unlike-a-metal");
    assert.equal(noted(1.7241e-9), "unlike-a-metal");
    assert.equal(noted(1.7241e-8), undefined);
    assert.equal(noted(1.1e-6), undefined);
  });
});

// FAA AC 43.13-1B, CHG 1, Table 11-9 (page 11-23): greatest resistance of tin-plated copper wire at 20 °C, Ω per 1000 ft.
describe("tin-plated stranded wire by its gauge", () => {
  const PRINTED = [
    [24, "28.40"],
    [22, "16.20"],
    [20, "9.88"],
    [18, "6.23"],
    [16, "4.81"],
    [14, "3.06"],
    [12, "2.02"],
    [10, "1.26"],
    [8, "0.70"],
    [6, "0.44"],
    [4, "0.28"],
    [2, "0.18"],
    [1, "0.15"],
    [0, "0.12"],
    [-1, "0.09"],
    [-2, "0.07"],
    [-3, "0.06"],
  ] as const;

  it("has the greatest resistance that the table prints, in every row", () => {
    for (const [gauge, printed] of PRINTED) {
      const found = core(awg(gauge), "stranded tinned");
      assertPrinted(found.resistancePerMetre * 304.8, printed);
      const { steps } = conductorWorking(found);
      assert.equal(steps.resistancePerMetre?.kind, "lookup");
      assert.equal(steps.resistancePerMetre?.cite, "faa-wire-table");
    }
  });

  it("has 10.04, 6.63 and 4.13 Ω/km for 14, 12 and 10 AWG, 21 to 27 % above the solid wire", () => {
    for (const [gauge, printed, above] of [
      [14, "10.04", 1.21],
      [12, "6.63", 1.27],
      [10, "4.13", 1.26],
    ] as const) {
      const found = ohmsPerKilometre(awg(gauge), "stranded tinned");
      assertPrinted(found, printed);
      const ratio = found / ohmsPerKilometre(awg(gauge));
      assert.equal(ratio.toFixed(2), above.toFixed(2));
    }
  });

  it("is told at a gauge taken as solid, whatever the gauge", () => {
    const noted = (gauge: number) => core(awg(gauge)).caveats[0]?.text ?? "";
    for (const [gauge, printed] of PRINTED) {
      const above = Number(printed) / 304.8 / core(awg(gauge)).resistancePerMetre;
      const told = Number(/tinned: up to (\d+) % more/.exec(noted(gauge))?.[1]);
      if (above > 1.02) assert.equal(told, Math.ceil(100 * (above - 1)));
      else assert.match(noted(gauge), /of other gauges: up to 28 % more$/);
    }
    for (const gauge of [26, 30, 9, 3])
      assert.match(noted(gauge), /of other gauges: up to 28 % more$/);
  });

  it("doubts rows of few digits, and rows whose wire has more metal than the gauge", () => {
    const codes = (gauge: number) =>
      core(awg(gauge), "stranded tinned").caveats.map(({ code }) => code);
    assert.deepEqual(codes(14), []);
    assert.deepEqual(codes(8), []);
    // 0.005 of 0.44 is 1.1 %, of 0.06 8.3 %.
    assert.deepEqual(codes(6), ["coarse-table"]);
    assert.match(String(core(awg(-3), "stranded tinned").caveats[0]?.text), /up to 9 % more/);
    // 1216 circular mils of wire where 20 AWG has 1022: 9.88 Ω/kft, solid 10.15, stranded 10.36.
    assert.deepEqual(codes(20), ["more-metal"]);
    assert.match(
      String(core(awg(20), "stranded tinned").caveats[0]?.text),
      /about 5 % more resistance \(build "stranded"\)/,
    );
  });

  it("refuses gauges that the table does not list, other sizes and other metals", () => {
    for (const gauge of [26, 23, 9, 3])
      assert.throws(
        () => core(awg(gauge), "stranded tinned"),
        /is not in FAA AC 43.13-1B Table 11-9/,
      );
    for (const size of [bare, metric(2.5), kcmil])
      assert.throws(
        () => core(size, "stranded tinned"),
        /build must be another where size is not AWG/,
      );
    for (const material of [aluminium, hardCopper, ownMaterial(2e-8, 0)])
      assert.throws(
        () => core(awg(12), "stranded tinned", material),
        /the table is of copper wire/,
      );
  });
});

describe("what a size refuses", () => {
  it("refuses a class for a number, and tells the way out", () => {
    assert.throws(
      () => core(bare, "class 2"),
      /build must be "geometric", "solid" or "stranded" where size is a number \(for a class give the size as text, "2.5 mm²"\), got "class 2"/,
    );
  });

  it("refuses a class for AWG and kcmil", () => {
    for (const size of [awg(12), kcmil]) {
      assert.throws(() => core(size, "class 5"), /build must be .*AWG or kcmil.*got "class 5"/);
    }
  });

  it("refuses a class that the material has no table for", () => {
    assert.throws(
      () => core(metric(16), "class 5", aluminium),
      /build must be "class 1", "class 2", "geometric".* with aluminium, got "class 5"/,
    );
    for (const material of [hardCopper, copperClad10, ownMaterial(2e-8, 0)]) {
      assert.throws(() => core(metric(16), "class 2", material), /build must/);
      assert.throws(
        () => core(metric(16), undefined, material),
        /build must be "geometric".*class 2 unless told otherwise.*got nothing/,
      );
    }
  });

  it("refuses a size that the class has no row for", () => {
    assert.throws(() => core(metric(1000), "class 5"), /size 1000 mm²/);
    assert.throws(() => core(metric(4), undefined, aluminium), /10 to 1000/);
  });
});

describe("conductorWorking", () => {
  const own = ownMaterial(2.2e-8, 0.0041);
  const cores = [
    core(bare),
    core(bare, "stranded", own),
    core(metric(2.5)),
    core(metric(10), "class 1", aluminium),
    core(metric(10), "geometric", hardCopper),
    core(awg(-3)),
    core(awg(22), "stranded", copperClad15),
    core(awg(22), "stranded tinned"),
    core(kcmil, undefined, own),
  ];
  for (const one of cores) {
    const { steps, givens, values } = conductorWorking(one);
    it(`can be followed by another engine: ${values.size}, ${values.material}, ${one.basis}`, () => {
      assertSteps(steps, values);
      const known = new Set(Object.keys(givens));
      for (const [field, step] of Object.entries(steps)) {
        assert.ok(Number.isFinite(values[field]), field);
        const read =
          step.kind === "formula"
            ? fieldsOf(step.formula)
            : step.kind === "lookup"
              ? [step.key]
              : [];
        for (const name of read) assert.ok(known.has(name), `${field} reads ${name}`);
        known.add(field);
      }
      for (const given of Object.keys(givens)) assert.ok(values[given] !== undefined, given);
    });
  }

  it("cites memory where a row was typed from it", () => {
    const { steps } = conductorWorking(core(metric(0.5), "class 5"));
    assert.equal(steps.resistancePerMetre?.cite, "iec-60228-memory");
  });

  it("shows no resistivity where a table was used, and a material's own figures as givens", () => {
    assert.equal(conductorWorking(core(metric(4))).steps.resistivity, undefined);
    const { givens, steps } = conductorWorking(core(bare, "solid", own));
    assert.ok("resistivity" in givens && !("resistivity" in steps));
  });
});
