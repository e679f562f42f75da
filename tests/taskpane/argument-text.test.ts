import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { Parameter } from "../../functions/downfeed.js";
import {
  rangeText,
  argumentText,
  callText,
  spillRange,
  withoutOwnSheet,
} from "../../taskpane/formula-reading/argument-text.js";

const told = { name: "given", unit: "m", meaning: "a given" } as const;
const number: Parameter = { ...told, kind: "number" };
const size: Parameter = { ...told, unit: "", kind: "number or text" };
const choice: Parameter = {
  ...told,
  unit: "",
  kind: "choice",
  choices: ["dry", "wet"],
};
const list = { ...told, kind: "numbers", each: "given" } as const;
const numbers: Parameter = list;
const repeating: Parameter = { ...list, repeating: true };
const cells: Parameter = { ...told, unit: "", kind: "cells" };
const names = [{ name: "Ridge_Feed", range: { sheet: "Budget", address: "A1:F9" } }];

describe("argumentText", () => {
  const right: readonly (readonly [Parameter, string, string])[] = [
    [number, "12,5", "12.5"],
    [number, "350 m", "350"],
    [number, "1/8", "1/8"],
    [number, "5 %", "5%"],
    [number, "B4", "B4"],
    [number, "'My sheet'!$B$4", "'My sheet'!$B$4"],
    [number, "=B4*1.2", "B4*1.2"],
    [{ ...number, optional: true }, " ", ""],
    [size, "2.5 mm²", '"2.5 mm²"'],
    [size, "2,5", "2.5"],
    [size, "AWG12", '"AWG12"'],
    [size, 'a "b"', '"a ""b"""'],
    [size, "B4", "B4"],
    [choice, "wet", '"wet"'],
    [numbers, "127; 120; 119,5", "{127,120,119.5}"],
    [numbers, "B2:B9", "B2:B9"],
    [repeating, "0,95; B4; 0.9", "0.95,B4,0.9"],
    [cells, "Ridge_Feed", "Ridge_Feed"],
    [cells, "Budget!A1:F9", "Budget!A1:F9"],
  ];
  for (const [parameter, typed, text] of right) {
    it(`writes ${typed} as ${text} for ${parameter.kind}`, () => {
      assert.deepEqual(argumentText(parameter, typed, names), {
        ok: true,
        text,
      });
    });
  }

  const wrong: readonly (readonly [Parameter, string, RegExp])[] = [
    [number, "", /given is required/],
    [number, "far", /takes a number or a cell, not “far”/],
    [number, "1,250", /two ways/],
    [number, "=(", /not a formula/],
    [number, "=B4*1,2", /not a formula/],
    [cells, "12", /takes a range/],
    [cells, "Unknown_Feed", /takes a range/],
    [numbers, "B4; 3", /one range/],
  ];
  for (const [parameter, typed, why] of wrong) {
    it(`refuses “${typed}” for ${parameter.kind}`, () => {
      const answer = argumentText(parameter, typed, names);
      assert.ok(!answer.ok);
      assert.match(answer.why, why);
    });
  }
});

describe("texts of references and calls", () => {
  it("quotes a sheet's name where a formula needs it", () => {
    const at = (sheet: string) => rangeText({ sheet, address: "B4" });
    assert.equal(at("Inputs"), "Inputs!B4");
    assert.equal(at("My sheet"), "'My sheet'!B4");
    assert.equal(at("Bob's"), "'Bob''s'!B4");
    assert.equal(at("AB12"), "'AB12'!B4");
  });

  it("leaves out the sheet that the formula stands on", () => {
    assert.equal(withoutOwnSheet("Inputs!B4:B9", "Inputs"), "B4:B9");
    assert.equal(withoutOwnSheet("'My sheet'!B4", "My sheet"), "B4");
    assert.equal(withoutOwnSheet("Inputs!B4", "Budget"), "Inputs!B4");
    assert.equal(withoutOwnSheet("12.5", "Budget"), "12.5");
  });

  it("drops empty arguments at the end and keeps those between", () => {
    assert.equal(callText("FEED", "X", ["1", "", "B4", "", ""]), "=FEED.X(1,,B4)");
    assert.equal(callText("FEED", "X", []), "=FEED.X()");
  });

  it("measures a spill from its first cell", () => {
    const at = { sheet: "S", address: "Z9" };
    assert.deepEqual(spillRange(at, 3, 2), { sheet: "S", address: "Z9:AA11" });
  });
});
