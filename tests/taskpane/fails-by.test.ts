/** By how much a finding fails, in words that can be read whatever the size of the limit. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { Finding } from "../../taskpane/budgets/warnings/warning.js";
import { failsBy } from "../../taskpane/views/warnings/warning-item.js";

function finding(found: Finding["found"], limit: Finding["limit"], margin?: number): Finding {
  const nothing = { id: "", item: "", worstIn: "", unit: "J", remedy: "", toChange: undefined };
  return { ...nothing, found, limit, margin, at: { sheet: "Checks", address: "A1" } };
}

describe("what fails", () => {
  it.each([
    ["a little", finding(0.0521, 0.05, -0.042), /^fails by 4[.,]2\s?%$/],
    ["up to eleven times the limit", finding(2.2, 0.2, -10), /^fails by 1[.,]?000\s?%$/],
    ["far beyond a tiny limit", finding(31.94, 0.25, -126.76), /^is 128 times the limit$/],
    ["below what is asked at least", finding(-0.5, 0.02, -26), /^fails by 2[.,]?600\s?%$/],
    ["in words", finding("low", "bare", -12), /^fails by 1[.,]?200\s?%$/],
  ])("%s is told so", (_, one, told) => {
    assert.match(failsBy(one), told);
  });

  it("says nothing of what holds", () => {
    assert.equal(failsBy(finding(0.04, 0.05, 0.2)), "");
    assert.equal(failsBy(finding("low", "bare")), "");
  });
});
