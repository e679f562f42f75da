import assert from "node:assert/strict";
import { describe, it } from "vitest";
import {
  conductorMaterials,
  MATERIAL_NAMES,
  materialNamed,
  ownMaterial,
} from "../../src/conductors/conductor-materials.js";
import { METRES_PER_FOOT, SQUARE_METRES_PER_CIRCULAR_MIL } from "../../src/quantities/units.js";
import { assertPrinted } from "../helpers/assert-printed.js";

// Typed a second time, never copied from src: resistivity at 20 °C in nΩ·m, coefficient per K.
const PRINTED = {
  // NBS Handbook 100: 0.017241 Ω·mm²/m. Industrial Power Engineering and Applications Handbook, Table 30.1: 3.93e-3.
  copper: ["17.241", "0.00393"],
  // IEC 60028 and textbooks, 97 % IACS: 0.01777 Ω·mm²/m, 0.00381 (from memory).
  "hard copper": ["17.77", "0.00381"],
  // IEC 60889: 28.264 nΩ·m. Industrial Power Engineering and Applications Handbook, Table 30.1: 4.03e-3.
  aluminium: ["28.264", "0.00403"],
  // Wire table at mwswire.com: at least 62.9 % IACS; 58 MS/m · 0.629 = 36.482 MS/m. Coefficient: aluminium's.
  "copper-clad aluminium 10 %": ["27.411", "0.00403"],
  // The same table: at least 64.4 % IACS; 58 MS/m · 0.644 = 37.352 MS/m.
  "copper-clad aluminium 15 %": ["26.772", "0.00403"],
} as const;

describe("conductorMaterials against the printed figures", () => {
  it("has these materials and no others", () => {
    assert.deepEqual(MATERIAL_NAMES, Object.keys(PRINTED));
  });

  for (const [name, [nanoOhmMetres, perKelvin]] of Object.entries(PRINTED)) {
    it(name, () => {
      const material = materialNamed(name);
      assertPrinted(material.resistivity * 1e9, nanoOhmMetres);
      assertPrinted(material.temperatureCoefficient, perKelvin);
    });
  }

  // NBS Handbook 100: annealed copper is 1/58 Ω·mm²/m, 0.15328 Ω·g/m² at 8.89 g/cm³; IACS 61 % for aluminium (IEC 60889).
  it("agrees with the other forms of the same figures", () => {
    const { copper, aluminium } = conductorMaterials;
    assertPrinted(1 / copper.resistivity / 1e6, "58.00");
    assertPrinted(copper.resistivity * 8.89e6, "0.1533");
    assertPrinted(copper.resistivity / aluminium.resistivity, "0.610");
    const perCircularMilFoot =
      (copper.resistivity * METRES_PER_FOOT) / SQUARE_METRES_PER_CIRCULAR_MIL;
    assertPrinted(perCircularMilFoot, "10.371");
  });

  // FAA AC 43.13-1B, page 11-22: copper's resistance is 0 at −234.5 °C. IEC 60364-5-54: aluminium's at −228 °C.
  it("has no resistance where the published straight lines cross 0", () => {
    const { copper, aluminium } = conductorMaterials;
    assertPrinted(20 - 1 / copper.temperatureCoefficient, "-234.5");
    assertPrinted(20 - 1 / aluminium.temperatureCoefficient, "-228");
  });

  // Note 2 to NEC Chapter 9 Table 8 prints the coefficients at 75 °C: copper 0.00323, aluminium 0.00330.
  it("gives the coefficients at 75 °C of NEC Table 8", () => {
    const { copper, aluminium } = conductorMaterials;
    assertPrinted(1 / (1 / copper.temperatureCoefficient + 55), "0.00323");
    assertPrinted(1 / (1 / aluminium.temperatureCoefficient + 55), "0.00330");
  });
});

describe("ownMaterial", () => {
  it("keeps the figures it was given", () => {
    const { resistivity, temperatureCoefficient } = ownMaterial(4.9e-7, 0);
    assert.deepEqual([resistivity, temperatureCoefficient], [4.9e-7, 0]);
  });

  it("refuses figures that no conductor has", () => {
    assert.throws(() => ownMaterial(0, 0.004), /material must be .*above 0/);
    assert.throws(() => ownMaterial(-1e-8, 0.004), /got -1e-8/);
    assert.throws(() => ownMaterial(Number.NaN, 0.004), /got NaN/);
    assert.throws(() => ownMaterial(1e-8, Number.NaN), /coefficient.*got NaN/);
  });

  it("refuses a material it does not know, with the list", () => {
    assert.throws(() => materialNamed("gold"), /copper or .*got "gold"/);
  });
});
