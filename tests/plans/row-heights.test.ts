import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { rowHeights } from "../../src/plans/row-heights.js";
import type { PlanCell, SheetPlan } from "../../src/plans/sheet-plan.js";

function sheet(cells: readonly PlanCell[], merges: readonly string[] = []): SheetPlan {
  return {
    key: "notes",
    name: "Notes",
    columnWidths: [100, 300],
    frozenRows: 0,
    cells,
    merges,
    validations: [],
    conditionalFormats: [],
    pictures: [],
  };
}

const LONG = "words of a caution ".repeat(12);

describe("rowHeights", () => {
  it("leaves rows alone that one line fits into", () => {
    const heights = rowHeights(
      sheet([
        { at: "A1", value: "short", style: "text" },
        { at: "A2", value: LONG, style: "label" },
        { at: "A3", value: 12, style: "text" },
        { at: "A4", formula: '"text"', style: "text" },
      ]),
    );
    assert.equal(heights.size, 0);
  });

  it("grows as the width shrinks, and takes the tallest cell of a row", () => {
    const narrow = rowHeights(sheet([{ at: "A1", value: LONG, style: "text" }]));
    const wide = rowHeights(sheet([{ at: "B1", value: LONG, style: "text" }]));
    const both = rowHeights(
      sheet([
        { at: "A1", value: LONG, style: "text" },
        { at: "B1", value: LONG, style: "text" },
      ]),
    );
    assert.ok((narrow.get(0) ?? 0) > 2.5 * (wide.get(0) ?? 0));
    assert.equal(both.get(0), narrow.get(0));
  });

  it("gives large type the room that it needs", () => {
    const heights = rowHeights(
      sheet([
        { at: "A1", value: "A title", style: "title" },
        { at: "A2", value: "A heading", style: "heading" },
      ]),
    );
    // 16 points and nothing around them.
    assert.ok((heights.get(0) ?? 0) > 16 * (4 / 3));
    assert.equal(heights.has(1), false);
  });

  it("counts merged columns together, and line breaks", () => {
    const merged = rowHeights(sheet([{ at: "A1", value: LONG, style: "text" }], ["A1:B1"]));
    const wide = rowHeights(sheet([{ at: "B1", value: LONG, style: "text" }]));
    assert.ok((merged.get(0) ?? 0) < (wide.get(0) ?? 0));
    const broken = rowHeights(sheet([{ at: "B5", value: "one\ntwo\nthree", style: "text" }]));
    // Three lines of 11 points.
    assert.ok((broken.get(4) ?? 0) >= 3 * 11 * (4 / 3));
  });
});
