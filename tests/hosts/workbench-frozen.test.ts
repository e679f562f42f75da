/** As many of a sheet's frozen lines are shown frozen as leave room for what scrolls. */
import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { fittedFreeze } from "../../taskpane/hosts/workbench/display/frozen.js";

/** Three rows of 24 px and a column of 300 px, as the sheets of a budget have them. */
const whole = { ySplit: 3, xSplit: 1, startRow: 3, startColumn: 1 };
const fitted = (width: number, height: number) =>
  fittedFreeze(whole, { width, height, heightOf: () => 24, widthOf: () => 300 });

describe("frozen lines", () => {
  it("all stay in a large window", () => {
    assert.deepEqual(fitted(1000, 800), whole);
  });

  it("are fewer rows where little height is left, and no column that takes the width", () => {
    assert.deepEqual(fitted(400, 100), { ySplit: 2, xSplit: 0, startRow: 2, startColumn: -1 });
    assert.deepEqual(fitted(1000, 40), { ySplit: 0, xSplit: 1, startRow: -1, startColumn: 1 });
  });

  it("of a sheet that was scrolled when they were frozen begin where they began", () => {
    const scrolled = { ySplit: 3, xSplit: 0, startRow: 13, startColumn: -1 };
    const room = { width: 400, height: 100, heightOf: () => 24, widthOf: () => 88 };
    assert.deepEqual(fittedFreeze(scrolled, room), { ...scrolled, ySplit: 2, startRow: 12 });
  });

  it("never take more than their part of the room, and never leave out one that fits", () => {
    const size = fc.integer({ min: 1, max: 400 });
    fc.assert(
      fc.property(
        fc.array(size, { minLength: 1, maxLength: 12 }),
        fc.integer({ min: 1, max: 1200 }),
        (sizes, height) => {
          const count = sizes.length;
          const { ySplit } = fittedFreeze(
            { ySplit: count, xSplit: 0, startRow: count, startColumn: -1 },
            { width: 0, height, heightOf: (row) => sizes[row]!, widthOf: () => 0 },
          );
          const sum = (until: number) => sizes.slice(0, until).reduce((all, one) => all + one, 0);
          assert.ok(sum(ySplit) <= height / 2);
          assert.ok(ySplit === count || sum(ySplit + 1) > height / 2);
        },
      ),
    );
  });
});
