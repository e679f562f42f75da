/** Numbers as their cells show them. Expected texts: LibreOffice's TEXT() of the same number and format, en-US. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { formattedNumber } from "../../taskpane/words/formatted-number.js";

const SHOWN: readonly (readonly [value: number, format: string, text: string])[] = [
  [400, "0.0##", "400.0"],
  [0.12345, "0.0##", "0.123"],
  [1234.5, "0.0", "1234.5"],
  [4987.5, "#,##0.00", "4,987.50"],
  [0.0622, "0.0%", "6.2%"],
  [0.05, "0.0##%", "5.0%"],
  [-0.2433, "0.0%", "-24.3%"],
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

describe("a number as its cell shows it", () => {
  it.for(SHOWN)("%d by %s is %s", ([value, format, text]) => {
    assert.equal(formattedNumber(value, format), text);
  });
});
