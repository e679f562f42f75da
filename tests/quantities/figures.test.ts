import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { figure } from "../../src/quantities/figures.js";

describe("a figure in a message", () => {
  it.each([
    [0, "0"],
    [0.005021, "0.005021"],
    [0.001, "0.001"],
    [12, "12"],
    [12.5, "12.5"],
    [999.96, "1000"],
    [9999.6, "10000"],
    [123_456, "123500"],
    [-48.05, "-48.05"],
    [6.693e-10, "6.693e-10"],
  ])("shows %s as %s", (value, text) => {
    expect(figure(value)).toBe(text);
  });

  it("is the nearest number of four digits", () => {
    const exponents = fc.double({ min: -12, max: 9, noNaN: true });
    fc.assert(
      fc.property(exponents, fc.boolean(), (exponent, below) => {
        const value = (below ? -1 : 1) * 10 ** exponent;
        const shown = Number(figure(value));
        const lastDigit = 10 ** (Math.floor(exponent) - 3);
        expect(shown).toBe(Number(shown.toPrecision(4)));
        expect(Math.abs(shown - value)).toBeLessThanOrEqual(lastDigit * (0.5 + 1e-9));
      }),
      { numRuns: 2_000 },
    );
  });
});
