import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { shownNumber, typedNumber } from "../../taskpane/words/shown-numbers.js";

// SI Brochure (9th edition), table 7: the prefixes; four significant digits by design.
describe("shownNumber", () => {
  const cases: readonly (readonly [number, string, string])[] = [
    [43.50768, "V", "43.51 V"],
    [0.0034806, "Ω", "3.481 mΩ"],
    [1250, "W", "1.25 kW"],
    [999.96, "W", "1 kW"],
    [-0.25, "A", "-250 mA"],
    [4.7e-5, "F", "47 µF"],
    [0, "V", "0 V"],
    [0.91234, "1", "0.9123"],
    [1250, "m", "1,250 m"],
    [0.004, "kg", "0.004 kg"],
  ];
  for (const [value, unit, text] of cases) {
    it(`${value} ${unit} is ${text}`, () => {
      assert.equal(shownNumber(value, unit).text.replace("\u00a0", " "), text);
    });
  }

  it("keeps every digit for the title", () => {
    assert.equal(shownNumber(43.50768123456, "V").full, "43.50768123456\u00a0V");
  });
});

describe("typedNumber", () => {
  it("takes either decimal sign", () => {
    assert.equal(typedNumber("12,5"), 12.5);
    assert.equal(typedNumber(" 12.5 "), 12.5);
    assert.equal(typedNumber("−3,25"), -3.25);
    assert.equal(typedNumber("1.5e-3"), 0.0015);
    assert.equal(typedNumber("0,125"), 0.125);
  });

  it("does not choose where a comma may part thousands", () => {
    assert.equal(typedNumber("1,250"), "ambiguous");
  });

  it("leaves text alone", () => {
    for (const text of ["", "copper", "1.2.3", "4 mm²", "1e", "B4"])
      assert.equal(typedNumber(text), undefined, text);
  });
});
