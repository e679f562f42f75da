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

const { copper, hardCopper, aluminium, copperClad10, copperClad15 } =
  conductorMaterials;

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

function core(
  size: ConductorSize,
  build?: ConductorBuild,
  material: ConductorMaterial = copper,
) {
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
      if (perThousandFeet !== undefined)
        assertPrinted(found * METRES_PER_FOOT, perThousandFeet);
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
    for (const [gauge, printed] of rows)
      assertPrinted(ohmsPerKilometre(awg(gauge)), printed);
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
        const perFoot =
          ohmsPerKilometre(awg(gauge), "solid", material) * METRES_PER_FOOT;
        const ratio = perFoot / printed;
        assert.ok(ratio > 1 && ratio < 1.04, `${material.name}: ${ratio}`);
      }
    });
  }
});

describe("which resistance a size takes", () => {
  it("takes a number as bare metal: ρ/A", () => {
    const { basis, notes } = core(bare);
    assert.equal(basis, "solid");
    assert.deepEqual(notes, []);
    assertPrinted(ohmsPerKilometre(bare), "6.8964"); // 17.241 / 2.5
  });

  it("takes a metric name as class 2", () => {
    assert.equal(core(metric(2.5)).basis, "class table");
    assertPrinted(ohmsPerKilometre(metric(2.5)), "7.41");
    assertPrinted(ohmsPerKilometre(metric(16), undefined, aluminium), "1.91");
  });

  it("takes AWG as solid and says so, unless told", () => {
    const { basis, notes } = core(awg(12));
    assert.equal(basis, "solid");
    assert.equal(notes[0]?.text, "taken as solid; stranded: 2 % more");
    assert.deepEqual(core(awg(12), "solid").notes, []);
    assert.deepEqual(core(awg(12), "stranded").notes, []);
  });

  it("takes kcmil as stranded", () => {
    assert.equal(core(kcmil).basis, "stranded");
  });

  it("adds 2 % for stranding", () => {
    for (const size of [bare, awg(12), kcmil]) {
      const ratio =
        core(size, "stranded").resistancePerMetre /
        core(size, "solid").resistancePerMetre;
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
      assert.equal(core(metric(2.5), build).notes[0]?.code, "nominal-area");
    assertPrinted(ohmsPerKilometre(metric(2.5), "geometric"), "6.8964");
  });

  it("notes solid copper of 25 mm² and more, as IEC 60228 does, and not of less or of aluminium", () => {
    assert.equal(core(metric(25), "class 1").notes[0]?.code, "special-cables");
    assert.deepEqual(core(metric(16), "class 1").notes, []);
    assert.deepEqual(core(metric(25), "class 1", aluminium).notes, []);
  });

  it("doubts a resistivity that is unlike a metal's", () => {
    const noted = (resistivity: number) =>
      core(bare, undefined, ownMaterial(resistivity, 0.004)).notes[0]?.code;
    assert.equal(noted(17.241), "unlike-a-metal");
    assert.equal(noted(0.017241), "unlike-a-metal");
    assert.equal(noted(1.7241e-9), "unlike-a-metal");
    assert.equal(noted(1.7241e-8), undefined);
    assert.equal(noted(1.1e-6), undefined);
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
      assert.throws(
        () => core(size, "class 5"),
        /build must be .*AWG or kcmil.*got "class 5"/,
      );
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
        for (const name of read)
          assert.ok(known.has(name), `${field} reads ${name}`);
        known.add(field);
      }
      for (const given of Object.keys(givens))
        assert.ok(values[given] !== undefined, given);
    });
  }

  it("cites memory where a row was typed from it", () => {
    const { steps } = conductorWorking(core(metric(0.5), "class 5"));
    assert.equal(steps.resistancePerMetre?.cite, "iec-60228-memory");
  });

  it("shows no resistivity where a table was used, and a material's own figures as givens", () => {
    assert.equal(
      conductorWorking(core(metric(4))).steps.resistivity,
      undefined,
    );
    const { givens, steps } = conductorWorking(core(bare, "solid", own));
    assert.ok("resistivity" in givens && !("resistivity" in steps));
  });
});
