/** The eight characters by which a paper and a file are told to hold the same feed. */
import assert from "node:assert/strict";
import { crc32 as crc32OfNode } from "node:zlib";
import { describe, it } from "vitest";
import { crc32, fingerprint } from "../../../taskpane/budgets/issues/fingerprint.js";
import type { FoundBudget, ReadValue } from "../../../taskpane/budgets/reading/found-budget.js";

const CABLES = [
  ["Cable", "Fed from", "", "Length (m)"],
  ["Trunk", "Bus", "", 350],
  ["", "", "", ""],
];
const ASKED = [
  ["Asked for", "Value"],
  ["Largest drop of a cable", 0.05],
];

const SPREAD = [
  ["Spread", "Column", "Tolerance"],
  ["Trunk", "Resistance", 0.05],
];

function printOf(
  cables: ReadValue[][],
  asked: ReadValue[][] = ASKED,
  spread: ReadValue[][] = SPREAD,
): string {
  const range = (values: ReadValue[][]) => ({ sheet: "Feed", address: "A1:D3", values });
  const ranges: FoundBudget["ranges"] = {
    Cables: range(cables),
    Asked: range(asked),
    Spread: range(spread),
    Title: range([["Anything"]]),
  };
  return fingerprint({ ranges });
}

describe("the fingerprint of a budget", () => {
  it("is a CRC-32 as published", () => {
    // R. N. Williams, A Painless Guide to CRC Error Detection Algorithms (1993): check value of "123456789".
    assert.equal(crc32("123456789"), 0xcbf43926);
    assert.equal(crc32(""), 0);
    for (const text of ["350 m, 4 mm²", "Ω".repeat(400)])
      assert.equal(crc32(text), crc32OfNode(text));
  });

  it("has eight characters, the same where only empty rows were added", () => {
    assert.match(printOf(CABLES), /^[0-9A-F]{8}$/);
    assert.equal(printOf([...CABLES, ["", "", "", ""]]), printOf(CABLES));
  });

  it("changes with a figure, a name, a heading's unit, a requirement, what varies and the order of rows", () => {
    const [head = [], row = []] = CABLES;
    const prints = [
      printOf(CABLES),
      printOf([head, ["Trunk", "Bus", "", 351]]),
      printOf([head, ["Trunks", "Bus", "", 350]]),
      printOf([["Cable", "Fed from", "", "Length (ft)"], row]),
      printOf(CABLES, [ASKED[0]!, ["Largest drop of a cable", 0.04]]),
      printOf(CABLES, ASKED, [SPREAD[0]!, ["Trunk", "Resistance", 0.06]]),
      printOf([head, row, ["Spur", "Trunk", "", 5]]),
      printOf([head, ["Spur", "Trunk", "", 5], row]),
    ];
    assert.equal(new Set(prints).size, prints.length);
  });
});
