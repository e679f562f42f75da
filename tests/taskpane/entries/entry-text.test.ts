/** What is typed for a figure, with its unit or without, as the number that its cell holds. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { type BlockName, BLOCKS } from "../../../src/schedules/columns.js";
import { entryFor, typedText } from "../../../taskpane/workbook/entries/entry-text.js";

const column = (block: BlockName, header: string) =>
  BLOCKS[block].find((one) => one.header === header)!;

describe("an entry", () => {
  it.each([
    ["current", "10 A", 10],
    ["current", "500 mA", 0.5],
    ["resistance", "1.2 kΩ", 1200],
    ["resistance", "12 ohm", 12],
    ["heater", "0.2 kW", 200],
    ["", "150 W", 150],
  ])("of a load takes the units of its kind: %s, %s", (kind, text, content) => {
    assert.deepEqual(entryFor(column("Load", "Nominal"), text, kind), { content });
  });

  it.each([
    ["power", "10 A", /“A” is not a unit of this quantity: .*if it is in A, choose its Kind first/],
    ["current", "10 W", /“W” is not a unit of this quantity: enter it in A, or with A, mA/],
  ])("of a load refuses another kind's: %s, %s", (kind, text, why) => {
    const answer = entryFor(column("Load", "Nominal"), text, kind);
    assert.match("refused" in answer ? answer.refused : "", why);
  });

  it("is in the unit that the sheet's header has", () => {
    const inFeet = { ...column("Cable", "Length"), unit: "ft" };
    assert.deepEqual(entryFor(inFeet, "30.48 m"), { content: 100 });
    assert.deepEqual(entryFor(inFeet, "350"), { content: 350 });
    const inPercent = { ...column("Stage", "Tolerance"), unit: "%" };
    assert.deepEqual(entryFor(inPercent, "1.5"), { content: 1.5 });
    assert.deepEqual(entryFor(inPercent, "2 %"), { content: 2 });
  });

  it("is shown in a form as it is typed: parts of one in per cent", () => {
    assert.equal(typedText(column("Stage type", "Efficiency"), 1), "100 %");
    assert.equal(typedText(column("Stage", "Tolerance"), 0.029), "2.9 %");
    assert.equal(typedText(column("Stage", "Tolerance"), "exact"), "exact");
    assert.equal(typedText(column("Cable", "Length"), 350), "350");
  });

  it.each([
    ["Cable", "Length", "350", 350],
    ["Cable", "Length", "350 m", 350],
    ["Cable", "Length", "0.35km", 350],
    ["Cable", "Length", "100 ft", 30.48],
    ["Cable", "Conductor at most", "-5 °C", -5],
    ["Supply", "Rated A", "10 A", 10],
    ["Supply", "Rated A", "500 mA", 0.5],
    ["Supply", "Voltage", "0.4 kV", 400],
    ["Supply", "Resistance", "300 mΩ", 0.3],
    ["Supply", "Resistance", "0.3 ohm", 0.3],
    ["In line", "Resistance", "0.02 Ω", 20],
    ["In line", "Resistance", "20", 20],
    ["Stage", "Tolerance", "2 %", 0.02],
    ["Stage", "Tolerance", "2%", 0.02],
    ["Stage", "Tolerance", "0,02", 0.02],
    ["Stage", "Tolerance", "exact", "exact"],
    ["Load", "Nominal", "1.5 kW", 1500],
    ["Load", "Light", "None", "none"],
    ["Load", "Nominal", "=B2*2", "=B2*2"],
    ["Load", "Nominal", "", ""],
    ["Load", "Nominal", "350 W", 350],
    ["Stage", "Tolerance", "25", 0.25],
    ["Load", "Margin", "12,5", 0.125],
    ["Cable", "Length", "12,5 m", 12.5],
    ["Supply", "Rated A", "12A", 12],
    ["Cable", "Size", "2.5mm2", "2.5 mm²"],
    ["Cable", "Size", "1/0 AWG", "1/0 AWG"],
    ["Cable", "Fed from", "1/16", "1/16"],
    ["Cable", "Basis", "10 A", "10 A"],
    ["Cable", "Size", "2.5 mm²", "2.5 mm²"],
    ["Cable", "Size", "2.5", 2.5],
    ["Cable", "Size", "AWG 12", "12 AWG"],
    ["Cable", "Size", "12awg", "12 AWG"],
    ["Cable", "Size", "00 AWG", "2/0 AWG"],
    ["Cable", "Size", "11 AWG", "11 AWG"],
    ["Cable", "Size", "thin", "thin"],
  ] as const)("of %s, %s: %s", (block, header, text, content) => {
    assert.deepEqual(entryFor(column(block, header), text), { content });
  });

  it.each([
    ["Stage", "Tolerance", "1.5", /write 1\.5 % or 150 %/],
    ["Stage type", "Efficiency", "1", /write 1 % or 100 %/],
    [
      "Stage type",
      "Steps down by",
      "1/16",
      /two numbers: write input ÷ output as one, 16 for 16:1/,
    ],
    ["Supply", "Rated A", "1/16", /enter a number, not “1\/16”/],
    ["Supply", "Rated A", "10:30", /enter a number, not “10:30”/],
    ["Cable", "Length", "1 250", /enter a number/],
    ["Cable", "Length", "350 kg", /“kg” is not a unit of this quantity: enter it in m/],
    ["Cable", "Length", "long", /enter a number, not “long”/],
    ["Load", "Nominal", "1,250", /two ways/],
    ["Stage", "In parallel", "3 A", /leave the unit out/],
  ] as const)("of %s, %s: %s is refused", (block, header, text, why) => {
    const answer = entryFor(column(block, header), text);
    assert.match("refused" in answer ? answer.refused : "", why);
  });
});
