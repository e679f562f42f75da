import assert from "node:assert/strict";
import { describe, it } from "vitest";
import {
  airPressure,
  airProperties,
  airSteps,
  pressureStep,
} from "../../src/conductors/air-properties.js";
import { InputError } from "../../src/quantities/errors.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

// Mechanical Engineers' Handbook, volume 4, Thermophysical Properties of Fluids, Table 6: the standard atmosphere by
// geopotential altitude in m, in bar.
describe("the standard atmosphere", () => {
  for (const [altitude, printed] of [
    [0, "1.0133"],
    [1999, "0.7950"],
    [2999, "0.7012"],
    [3997, "0.6166"],
    [4996, "0.5405"],
    [5994, "0.4722"],
    [6992, "0.4111"],
    [7990, "0.3565"],
    [8987, "0.3080"],
    [9984, "0.2650"],
    [10981, "0.2270"],
    [11977, "0.1940"],
    [12973, "0.1658"],
  ] as const) {
    it(`has ${printed} bar at ${altitude} m`, () => {
      // The printed altitude is rounded to the metre, worth a few units of the fifth decimal.
      const bar = airPressure(altitude) / 1e5;
      assert.ok(Math.abs(bar - Number(printed)) <= 0.6e-4, `${bar}`);
    });
  }

  it("joins at 11 km", () => {
    const below = airPressure(11000);
    assert.ok(Math.abs(airPressure(11000.001) / below - 1) < 1e-5);
    assertPrinted(below / 100, "226.32");
  });

  // The standard atmosphere at sea level, 288.15 K, figures from memory.
  it("has 1.225 kg/m³, 1.7894e-5 Pa·s, 1.4607e-5 m²/s and 2.5326e-2 W/(m·K) at sea level", () => {
    const air = airProperties(288.15, airPressure(0));
    assertPrinted(air.airDensity, "1.2250");
    assertPrinted(air.viscosity, "1.7894e-5");
    assertPrinted(air.kinematicViscosity, "1.4607e-5");
    assertPrinted(air.airConductivity, "2.5326e-2");
  });

  it("is not asked beyond what its formulas cover", () => {
    for (const altitude of [-5001, 20001, Number.NaN])
      assert.throws(
        () => airPressure(altitude),
        (error) => error instanceof InputError && error.field === "altitude",
      );
  });
});

/**
 * Incropera, Fundamentals of Heat and Mass Transfer, Table A.4, as printed in its examples. Its density at 300 K,
 * 1.1614 kg/m³, is that of air at 100 kPa, so it is compared at that pressure. Where a figure is printed with two
 * digits the printed digits decide, elsewhere the two sources agree to:
 */
const AGREE = { airConductivity: 0.005, kinematicViscosity: 0.0105 } as const;
const AGREE_PRANDTL = 0.016;
const AGREE_DIFFUSIVITY = 0.003;

describe("air as Incropera's Table A.4 has it", () => {
  const near = (found: number, printed: number, part: number) =>
    assert.ok(Math.abs(found / printed - 1) <= part, `${found}, printed ${printed}`);
  const at = (kelvin: number) => airProperties(kelvin, 100e3);

  for (const [kelvin, viscosity, conductivity, prandtl] of [
    [285, 14.56e-6, 0.0252, 0.712],
    [298, 15.7e-6, undefined, undefined],
    [300, 15.89e-6, 0.0263, 0.707],
    [323, 18.2e-6, 0.028, 0.7],
    [350, undefined, 0.03, 0.7],
    [367, 22.8e-6, 0.0313, 0.697],
    [400, 26.41e-6, 0.0338, 0.69],
    [437, 30.84e-6, 0.0364, 0.687],
  ] as const) {
    it(`at ${kelvin} K`, () => {
      const air = at(kelvin);
      if (viscosity) near(air.kinematicViscosity, viscosity, AGREE.kinematicViscosity);
      if (conductivity) near(air.airConductivity, conductivity, AGREE.airConductivity);
      if (prandtl) near(air.prandtl, prandtl, AGREE_PRANDTL);
    });
  }

  it("in density, viscosity and diffusivity where it prints them", () => {
    assertPrinted(at(300).airDensity, "1.16");
    near(at(350).viscosity, 20.82e-6, 0.005);
    near(at(300).diffusivity, 22.5e-6, AGREE_DIFFUSIVITY);
    near(at(367).diffusivity, 32.8e-6, AGREE_DIFFUSIVITY);
    // From memory:
    near(at(350).kinematicViscosity, 20.92e-6, AGREE.kinematicViscosity);
    near(at(350).diffusivity, 29.9e-6, AGREE_DIFFUSIVITY);
    near(at(400).diffusivity, 38.3e-6, AGREE_DIFFUSIVITY);
  });

  it("to the digits where two or three are printed", () => {
    assertPrinted(at(298).kinematicViscosity * 1e6, "15.7");
    assertPrinted(at(300).airConductivity, "0.0263");
    assertPrinted(at(323).airConductivity, "0.028");
    assertPrinted(at(323).prandtl, "0.70");
    assertPrinted(at(350).airConductivity, "0.030");
    assertPrinted(at(350).prandtl, "0.70");
    assertPrinted(at(367).airConductivity, "0.0313");
  });
});

describe("air at an altitude", () => {
  it("spreads momentum and heat faster, as 1/density, and conducts and drags the same", () => {
    const low = airProperties(320, airPressure(0));
    const high = airProperties(320, airPressure(5000));
    const ratio = low.airDensity / high.airDensity;
    const close = (a: number, b: number) => assert.ok(Math.abs(a / b - 1) < 1e-14);
    close(high.kinematicViscosity / low.kinematicViscosity, ratio);
    close(high.diffusivity / low.diffusivity, ratio);
    assert.equal(high.viscosity, low.viscosity);
    assert.equal(high.airConductivity, low.airConductivity);
    close(high.prandtl, low.prandtl);
  });

  it("has steps that another engine computes to the same numbers", () => {
    for (const altitude of [-300, 0, 2500, 11000, 15000])
      for (const filmK of [230, 300, 450, 700]) {
        const pressure = airPressure(altitude);
        const values = {
          altitude,
          filmK,
          pressure,
          ...airProperties(filmK, pressure),
        };
        assertSteps({ pressure: pressureStep(altitude), ...airSteps }, values);
      }
  });
});
