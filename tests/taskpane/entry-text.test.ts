/** What is typed for a figure, with its unit or without, as the number that its cell holds. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { type BlockName, BLOCKS } from "../../src/schedules/columns.js";
import { entryFor } from "../../taskpane/workbook/entry-text.js";

const column = (block: BlockName, header: string) =>
  BLOCKS[block].find((one) => one.header === header)!;

describe("an entry", () => {
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
    ["Cable", "Size", "2.5 mm²", "2.5 mm²"],
    ["Cable", "Size", "2.5", 2.5],
    ["Cable", "Size", "AWG 12", "AWG 12"],
  ] as const)("of %s, %s: %s", (block, header, text, content) => {
    assert.deepEqual(entryFor(column(block, header), text), { content });
  });

  it.each([
    ["Stage", "Tolerance", "25", /write 25 % or 0\.25/],
    ["Cable", "Length", "350 kg", /“kg” is no unit of it; it is typed in m/],
    ["Cable", "Length", "long", /a number is wanted, not “long”/],
    ["Load", "Nominal", "1,250", /two ways/],
    ["Stage", "In parallel", "3 A", /leave the unit off/],
  ] as const)("of %s, %s: %s is refused", (block, header, text, why) => {
    const answer = entryFor(column(block, header), text);
    assert.match("refused" in answer ? answer.refused : "", why);
  });
});
