/** What is typed into the cells of a budget's sheets, as the spreadsheet hands it over before it reads it itself. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { rangePlace } from "../../../src/plans/addresses.js";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { ridgeTop } from "../../../taskpane/budgets/samples/ridge-top.js";
import type { HostName, HostValue } from "../../../taskpane/hosts/host.js";
import type { SheetsNow } from "../../../taskpane/hosts/typed-entry.js";
import { sheetEntry } from "../../../taskpane/workbook/entries/sheet-entry.js";

const plan = budgetPlan(ridgeTop);
const names: readonly HostName[] = plan.names.map(({ name, sheet, range }) => ({
  name: `Ridge_${name}`,
  range: { sheet: plan.sheets.find(({ key }) => key === sheet)!.name, address: range },
}));
const now: SheetsNow = {
  names: () => names,
  values({ sheet, address }) {
    const { cells } = plan.sheets.find(({ name }) => name === sheet)!;
    const { top, left, bottom, right } = rangePlace(address);
    const rows: HostValue[][] = Array.from({ length: bottom - top + 1 }, () =>
      Array<HostValue>(right - left + 1).fill(""),
    );
    for (const { at, value } of cells) {
      const place = rangePlace(at);
      const row = rows[place.top - top];
      if (row && place.left >= left && place.left <= right) row[place.left - left] = value ?? "";
    }
    return rows;
  },
};

/** @param row Of the block, from 1 below its header. */
function typed(block: string, header: string, row: number, text: string) {
  const { range } = names.find(({ name }) => name === `Ridge_${block}`)!;
  const { top, left } = rangePlace(range.address);
  const headers = now.values(range)[0]!;
  const column = headers.findIndex((one) => one === header);
  assert.ok(column >= 0, `${block} has no ${header}`);
  const entry = { sheet: range.sheet, row: top + row, column: left + column, text, format: "" };
  return sheetEntry(entry, now);
}

function asked(label: string, text: string) {
  const { range } = names.find(({ name }) => name === "Ridge_Asked")!;
  const { top, left } = rangePlace(range.address);
  const at = now.values(range).findIndex(([first]) => first === label);
  assert.ok(at > 0, label);
  return sheetEntry({ sheet: range.sheet, row: top + at, column: left + 1, text, format: "" }, now);
}

describe("typed into a figure's cell", () => {
  it.each([
    ["Supplies", "Rated A", "10 A", 10],
    ["Supplies", "Rated A", "12A", 12],
    ["Supplies", "Resistance (Ω)", "0.3 ohm", 0.3],
    ["Cables", "Length (m)", "350 m", 350],
    ["Cables", "Length (m)", "0,35 km", 350],
    ["InLine", "Resistance (mΩ)", "0.02 Ω", 20],
    ["Stages", "Tolerance", "25", 0.25],
    ["Stages", "Tolerance", "2%", 0.02],
    ["Stages", "Tolerance", "0.02", 0.02],
    ["Loads", "Nominal", "440 W", 440],
  ])("%s, %s: %s is taken", (block, header, text, content) => {
    assert.deepEqual(typed(block, header, 1, text), { content });
  });

  it.each([
    ["Supplies", "Rated A", "1/16", "Rated A: enter a number, not “1/16”"],
    [
      "Types",
      "Steps down by",
      "1/16",
      "Steps down by: “1/16” is two numbers: write input ÷ output as one, 16 for 16:1",
    ],
    [
      "Cables",
      "Length (m)",
      "2.5mm2",
      "Length: “mm2” is not a unit of this quantity: enter it in m, or with m, km, ft, mm",
    ],
    ["Stages", "Tolerance", "1.25", "Tolerance: write 1.25 % or 125 %"],
  ])("%s, %s: %s is refused by name", (block, header, text, refused) => {
    assert.deepEqual(typed(block, header, 1, text), { refused });
  });

  it("formulas are the spreadsheet's to read, and so is what is in no budget", () => {
    assert.equal(typed("Cables", "Length (m)", 1, "=2*3"), undefined);
    assert.equal(
      sheetEntry({ sheet: "Notes", row: 200, column: 9, text: "12.5", format: "" }, now),
      undefined,
    );
    assert.equal(
      sheetEntry({ sheet: "Notes", row: 200, column: 9, text: "1/16", format: "" }, now),
      undefined,
    );
  });
});

describe("typed into a cell of words", () => {
  it("a text stays one: 1/16 is no date, 3-4 no date, 10 A no hour", () => {
    assert.deepEqual(typed("Cables", "Cable", 1, "3-4"), { content: "3-4" });
    assert.deepEqual(typed("Cables", "Fed from", 1, "1/16"), { content: "1/16" });
    assert.deepEqual(typed("Cables", "Basis", 1, "10 A"), { content: "10 A" });
    assert.deepEqual(typed("Cables", "Size", 1, "2.5mm2"), { content: "2.5 mm²" });
    assert.deepEqual(typed("Cables", "Size", 1, "2.5"), { content: 2.5 });
  });

  it("of a list is the list's to refuse", () => {
    assert.equal(typed("Loads", "Kind", 1, "powre"), undefined);
    assert.equal(asked("Place", "damp"), undefined);
  });
});

describe("typed where it is said what is asked for", () => {
  it("takes the unit off, and 25 for 25 %", () => {
    assert.deepEqual(asked("Load margin", "25"), { content: 0.25 });
    assert.deepEqual(asked("Largest drop of a cable", "5 %"), { content: 0.05 });
    assert.deepEqual(asked("Discharge to", "60 V"), { content: 60 });
    assert.deepEqual(asked("Load margin", "not asked"), { content: "not asked" });
    assert.deepEqual(asked("Load margin", "1.2"), {
      refused: "Load margin: write 1.2 % or 120 %",
    });
  });
});

const elsewhere = (text: string, format = "") =>
  sheetEntry({ sheet: "Elsewhere", row: 0, column: 0, text, format }, now);

describe("an hour of a clock", () => {
  it("is a text wherever it is typed: ten amperes, two poles", () => {
    for (const text of ["10 A", "12A", "2p", "10:30 A"])
      assert.deepEqual(elsewhere(text), { content: text });
    assert.equal(elsewhere("10:30"), undefined);
  });
});

describe("a bare number in a cell that is shown in per cent", () => {
  it("is per cent from 2 on, a part of one below 1, and asked about between", () => {
    assert.deepEqual(elsewhere("25", "0.0%"), { content: 0.25 });
    assert.deepEqual(elsewhere("12,5", "0%"), { content: 0.125 });
    assert.deepEqual(elsewhere("0.2", "0.0##%"), { content: 0.2 });
    assert.deepEqual(elsewhere("1.2", "0%"), { refused: "write 1.2 % or 120 %" });
    assert.equal(elsewhere("25 %", "0%"), undefined);
    assert.equal(elsewhere("25", "0.00"), undefined);
  });
});
