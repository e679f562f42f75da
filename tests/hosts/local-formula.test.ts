import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { localPart, separatorsWith, withSeparators } from "../../taskpane/hosts/local-formula.js";

const COMMA = separatorsWith(",");
const DROP = '=FEED.CONDUCTOR_DROP(10, 2.5E-3,"2.5 mm², bare",Inputs!$B$2,,1.5)*2.5%';

// What German Excel shows, from memory: semicolons between arguments, a comma in numbers, text in quotes as it is,
// SUM is SUMME, IF is WENN, TRUE is WAHR, #N/A is #NV, a full stop between the columns of a constant array.
describe("a formula where a comma is the decimal sign", () => {
  it("has semicolons between arguments and commas in numbers, and its texts as they are", () => {
    assert.equal(
      withSeparators(DROP, COMMA),
      '=FEED.CONDUCTOR_DROP(10; 2,5E-3;"2.5 mm², bare";Inputs!$B$2;;1,5)*2,5%',
    );
    assert.equal(withSeparators("SUM(A1:A3, B1)", COMMA), "SUM(A1:A3; B1)");
    assert.equal(withSeparators("A1>0.5", COMMA), "A1>0,5");
    assert.equal(withSeparators("'a,b.c'!A1+.5", COMMA), "'a,b.c'!A1+,5");
  });

  it("stays in the English form where it holds a constant array", () => {
    const formula = "=FEED.CHAIN_EFFICIENCY({0.95,0.9})*1.5";
    assert.equal(withSeparators(formula, COMMA), formula);
  });

  it("is the English one where a point is the decimal sign", () => {
    assert.equal(withSeparators(DROP, separatorsWith(".")), DROP);
  });
});

describe("a part of a formula that the spreadsheet shows in its own language", () => {
  const pair = {
    formula: '=IF(A1>0.5,FEED.CHAIN_EFFICIENCY({0.95,0.9},SUM(B1:B3)),"TRUE, or 1.5")&TRUE&#N/A',
    local: '=WENN(A1>0,5;FEED.CHAIN_EFFICIENCY({0,95.0,9};SUMME(B1:B3));"TRUE, or 1.5")&WAHR&#NV',
  };

  it("is the same part of what it shows, native functions by their names there", () => {
    for (const [part, local] of [
      [pair.formula, pair.local],
      [
        "FEED.CHAIN_EFFICIENCY({0.95,0.9},SUM(B1:B3))",
        "FEED.CHAIN_EFFICIENCY({0,95.0,9};SUMME(B1:B3))",
      ],
      ["SUM(B1:B3)", "SUMME(B1:B3)"],
      ["A1>0.5", "A1>0,5"],
      ["TRUE&#N/A", "WAHR&#NV"],
    ] as const)
      assert.equal(localPart(part, pair), local);
  });

  it("is not told where it is no part of the formula, cuts a word, or the two do not go side by side", () => {
    assert.equal(localPart("SUM(B1:B4)", pair), undefined);
    assert.equal(localPart("UM(B1:B3)", pair), undefined);
    assert.equal(localPart("SUM(A1)", { formula: "=SUM(A1)", local: "=SUMME(Z1S1)" }), undefined);
    assert.equal(localPart("SUM(A1)", { formula: "=SUM(A1)", local: "=SUMME(A1)+1" }), undefined);
  });
});
