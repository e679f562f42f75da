import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { HostError } from "../../taskpane/hosts/host.js";
import { savedData } from "../../taskpane/hosts/workbench/snapshots/saved.js";

const sheet = { id: "a", name: "A", cellData: { 0: { 0: { v: 1 } } } };
const whole = {
  id: "book",
  sheetOrder: ["a"],
  sheets: { a: sheet },
  styles: {},
  resources: [{ name: "SHEET_NOTE_PLUGIN", data: '{"a":{}}' }],
};

describe("what the workbench saved of itself", () => {
  it("is taken as it is", () => {
    assert.deepEqual(savedData(JSON.stringify(whole)), whole);
  });

  for (const [name, text] of [
    ["empty", ""],
    ["cut off", JSON.stringify(whole).slice(0, 60)],
    ["a number", "12"],
    ["a list", "[]"],
    ["nothing", "null"],
    ["without id", JSON.stringify({ ...whole, id: undefined })],
    ["without order", JSON.stringify({ ...whole, sheetOrder: [] })],
    ["without sheets", JSON.stringify({ ...whole, sheets: {} })],
    ["without a name", JSON.stringify({ ...whole, sheets: { a: { ...sheet, name: 3 } } })],
    [
      "with rows that are none",
      JSON.stringify({ ...whole, sheets: { a: { ...sheet, cellData: [1] } } }),
    ],
    ["damaged in a part", JSON.stringify({ ...whole, resources: [{ name: "x", data: "{" }] })],
  ] as const)
    it(`is refused when it is ${name}`, () => {
      assert.throws(() => savedData(text), HostError);
    });
});
