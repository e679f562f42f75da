/** What a warning says of its findings: by how much they fail, whatever the size of the limit, and what bands mean. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { Finding } from "../../taskpane/budgets/warnings/warning.js";
import { bandLines, failsBy } from "../../taskpane/views/warnings/warning-item.js";

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

describe("bands that a warning names", () => {
  it("are told in words, the one asked for first and each once", () => {
    const told = bandLines([finding("low", "bare", -12), finding("extra-low", "bare", -1)]);
    assert.deepEqual(
      told.map((line) => line.split(":")[0]),
      ["IEC 60364-4-41 bare", "IEC 60364-4-41 low", "IEC 60364-4-41 extra-low"],
    );
  });

  it("are none where numbers and other words are found", () => {
    assert.deepEqual(bandLines([finding(2.2, 0.2), finding("enclosed", "enclosed or locked")]), []);
  });
});
