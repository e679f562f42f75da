/** Numbers as their cells show them. Expected texts: LibreOffice's TEXT() of the same number and format, en-US. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { headingFormat, MARGIN_FORMAT } from "../../taskpane/budgets/formats.js";
import { percent } from "../../taskpane/pictures/parts/figures.js";
import { FIGURE_FORMAT } from "../../taskpane/pictures/spread/spread-figures.js";
import { formattedNumber } from "../../taskpane/words/formatted-number.js";
import { calculatedByLibreOffice } from "../helpers/libre-office.js";

const SHOWN: readonly (readonly [value: number, format: string, text: string])[] = [
  [400, "0.0##", "400.0"],
  [0.12345, "0.0##", "0.123"],
  [1234.5, "0.0", "1234.5"],
  [4987.5, "#,##0.00", "4,987.50"],
  [0.0622, "0.0%", "6.2%"],
  [0.05, "0.0##%", "5.0%"],
  [-0.2433, "0.0%", "-24.3%"],
  [0.0523, MARGIN_FORMAT, "5.2%"],
  [0, MARGIN_FORMAT, "0.0%"],
  // A hair beyond its limit, and no 0 that holds.
  [-4e-6, MARGIN_FORMAT, "-0.0004%"],
  [-0.000412, MARGIN_FORMAT, "-0.0412%"],
  [-0.0523, MARGIN_FORMAT, "-5.23%"],
  [-20, headingFormat("Limit")!, "-20.00"],
  [0.0412, headingFormat("Found")!, "0.0412"],
  [30000, headingFormat("Limit")!, "30000"],
  [-0.0412, FIGURE_FORMAT, "-0.0412"],
  [2600.4, "[>=100]0;[>=1]0.00;0.0000", "2600"],
  [2.885, "[>=100]0;[>=1]0.00;0.0000", "2.89"],
  [0.0621, "[>=100]0;[>=1]0.00;0.0000", "0.0621"],
  [-3e-13, "0.0E+00", "-3.0E-13"],
  [12, '0.00 "V"', "12.00 V"],
  [-5, "0;(0)", "(5)"],
  [0, '0;-0;"none"', "none"],
  [350, "General", "350"],
  [0.00393, "General", "0.00393"],
  [46354, "yyyy-mm-dd", "2026-11-28"],
];

describe("a margin", () => {
  it("shows below 0 the digits that it fails by, in every column and picture", () => {
    for (const heading of ["Margin", "Least margin", "Margin in service", "Margin after one fault"])
      assert.equal(headingFormat(heading), MARGIN_FORMAT);
    assert.equal(percent(-0.0523), "-5.2\u00a0%");
    assert.equal(percent(-0.0004), "-0.04\u00a0%");
    assert.equal(percent(-0.000004), "-0.0004\u00a0%");
    assert.equal(percent(0), "0.0\u00a0%");
  });
});

describe("a number as its cell shows it", () => {
  // Formats with conditions lose the sign there in all sections but the first.
  it("is so in LibreOffice too", async () => {
    const shown = SHOWN.filter(([, format]) => !/General|y/.test(format));
    const cells = new Map(
      shown.map(([value, format], row) => [
        `A${row + 1}`,
        `=TEXT(${value},"${format.replaceAll('"', '""')}")`,
      ]),
    );
    const read = (await calculatedByLibreOffice({ Shown: cells })).get("Shown")!;
    assert.deepEqual(
      shown.map((_, row) => read.get(`A${row + 1}`)),
      shown.map(([, , text]) => text),
    );
  }, 120_000);

  it.for(SHOWN)("%d by %s is %s", ([value, format, text]) => {
    assert.equal(formattedNumber(value, format), text);
  });
});
