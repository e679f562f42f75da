import assert from "node:assert/strict";
import { describe, it } from "vitest";
import {
  type ClassMaterial,
  type ConductorClass,
  classesOf,
  classResistance,
  STANDARD_SIZES_MM2,
} from "../../src/conductors/conductor-classes.js";
import { NoAnswerError } from "../../src/quantities/errors.js";
import { assertPrinted } from "../helpers/assert-printed.js";

// IEC 60228:2004, greatest resistance at 20 °C in Ω/km, typed a second time from pages that reproduce the standard:
// kabelmetal-indonesia.com (classes 1 and 2), uecables.com (classes 2 and 5, plain and tinned),
// electrika.com flip book 8940 page 211 (class 1). An asterisk: from memory. "-": the table has no such row.
// Columns: size; copper class 1, 2, 5, 5 tinned; aluminium class 1, 2.
const PRINTED = `
0.5   36.0    36.0    39.0*   40.1*   -       -
0.75  24.5    24.5    26.0*   26.7*   -       -
1     18.1    18.1    19.5    20.0    -       -
1.5   12.1    12.1    13.3    13.7    -       -
2.5   7.41    7.41    7.98    8.21    -       -
4     4.61    4.61    4.95    5.09    -       -
6     3.08    3.08    3.30    3.39    -       -
10    1.83    1.83    1.91    1.95    3.08    3.08
16    1.15    1.15    1.21    1.24    1.91    1.91
25    0.727   0.727   0.780   0.795   1.20    1.20
35    0.524   0.524   0.554   0.565   0.868   0.868
50    0.387   0.387   0.386   0.393   0.641   0.641
70    0.268   0.268   0.272   0.277   0.443   0.443
95    0.193   0.193   0.206   0.210   0.320   0.320
120   0.153   0.153   0.161   0.164   0.253   0.253
150   0.124   0.124   0.129   0.132   0.206   0.206
185   0.101   0.0991  0.106   0.108   0.164   0.164
240   0.0775  0.0754  0.0801  0.0817  0.125   0.125
300   0.0620  0.0601  0.0641  0.0654  0.100   0.100
400   0.0465  0.0470  0.0486  0.0495  0.0778  0.0778*
500   -       0.0366  0.0384  0.0391  0.0605  0.0605*
630   -       0.0283  0.0287  0.0292  0.0469  0.0469*
800   -       0.0221  -       -       0.0367  0.0367*
1000  -       0.0176  -       -       0.0291  0.0291*`;

const COLUMNS: readonly [ClassMaterial, ConductorClass][] = [
  ["copper", "class 1"],
  ["copper", "class 2"],
  ["copper", "class 5"],
  ["copper", "class 5 tinned"],
  ["aluminium", "class 1"],
  ["aluminium", "class 2"],
];

const rows = PRINTED.trim()
  .split("\n")
  .map((line) => line.split(/\s+/));

describe("IEC 60228 tables, typed twice", () => {
  it("lists every standard size from 0.5 to 1000 mm²", () => {
    assert.deepEqual(
      STANDARD_SIZES_MM2,
      rows.map(([size]) => Number(size)),
    );
    assert.equal(rows.length, 24);
  });

  COLUMNS.forEach(([material, conductorClass], column) => {
    it(`${material} ${conductorClass}`, () => {
      for (const [size = "", ...figures] of rows) {
        const printed = figures[column] ?? "";
        const find = () => classResistance(material, conductorClass, Number(size));
        if (printed === "-") {
          assert.throws(find, NoAnswerError);
          continue;
        }
        const { resistancePerMetre, cite, table } = find();
        assertPrinted(resistancePerMetre * 1000, printed.replace("*", ""));
        const remembered = printed.endsWith("*");
        assert.equal(cite, remembered ? "iec-60228-memory" : "iec-60228", size);
        assert.equal(table, `IEC 60228 ${conductorClass}, ${material}`);
      }
    });
  });

  it("has classes 1, 2, 5 and 5 tinned for copper, 1 and 2 for aluminium", () => {
    const all = COLUMNS.map(([, name]) => name);
    assert.deepEqual(classesOf("copper"), all.slice(0, 4));
    assert.deepEqual(classesOf("aluminium"), all.slice(4));
  });

  it("says which sizes a class has when asked for another", () => {
    assert.throws(
      () => classResistance("copper", "class 5", 800),
      /size 800 mm² is not in IEC 60228 class 5 for copper \(it has 0.5 to 630 mm²\)/,
    );
  });

  // The greatest resistance allowed is above that of the full nominal area, by less than a fifth.
  it("has no row below what the nominal area of the metal would have, as a slip of the decimal point would", () => {
    for (const [material, conductorClass] of COLUMNS) {
      const resistivity = material === "copper" ? 17.241e-3 : 28.264e-3;
      for (const size of STANDARD_SIZES_MM2) {
        const geometric = resistivity / size;
        let found: number;
        try {
          found = classResistance(material, conductorClass, size).resistancePerMetre;
        } catch (error) {
          assert.ok(error instanceof NoAnswerError);
          continue;
        }
        const ratio = found / geometric;
        assert.ok(ratio > 1 && ratio < 1.2, `${material} ${conductorClass} ${size}: ${ratio}`);
      }
    }
  });
});
