/** What the bundled spreadsheet remembers, as scripts/lean-spreadsheet.mjs has it: texts, and where a value stands in a column. */
import assert from "node:assert/strict";
import { getNumfmtParseValueFilter } from "@univerjs/core";
import { CELL_INVERTED_INDEX_CACHE } from "@univerjs/engine-formula";
import fc from "fast-check";
import { afterEach, describe, it } from "vitest";

const PLACE = ["book", "sheet", 0] as const;

afterEach(() => CELL_INVERTED_INDEX_CACHE.clear());

/** Rows by value, in ascending order. */
function rowsByValue(): ReadonlyMap<unknown, readonly number[]> {
  const positions = CELL_INVERTED_INDEX_CACHE.getCellValuePositions(...PLACE) ?? new Map();
  return new Map(
    [...positions].map(([value, rows]) => [value, [...rows].sort((one, other) => one - other)]),
  );
}

const write = (row: number, value: number | string) =>
  CELL_INVERTED_INDEX_CACHE.set(...PLACE, value, row, true);

describe("the values of a column", () => {
  it("are forgotten when no row has them any more", () => {
    for (let value = 1; value <= 50; value += 1) write(3, value);
    assert.deepEqual([...rowsByValue()], [[50, [3]]]);
  });

  it("are those of the last calculation of each row, whatever was calculated before", () => {
    const calculated = fc.tuple(
      fc.integer({ min: 0, max: 9 }),
      fc.oneof(fc.integer({ min: 1, max: 5 }), fc.constantFrom("holds", "fails")),
    );
    fc.assert(
      fc.property(fc.array(calculated, { maxLength: 60 }), (all) => {
        CELL_INVERTED_INDEX_CACHE.clear();
        for (const [row, value] of all) write(row, value);
        const expected = new Map<unknown, number[]>();
        for (const [row, value] of [...new Map(all)].sort(([one], [other]) => one - other))
          expected.set(value, [...(expected.get(value) ?? []), row]);
        const found = rowsByValue();
        assert.equal(found.size, expected.size);
        for (const [value, rows] of expected) assert.deepEqual(found.get(value), rows);
      }),
    );
  });
});

describe("a text", () => {
  it("is read alike whenever it is met, whatever was done with what it was read as", () => {
    const texts = [
      "8",
      "8.5",
      "1,234.5",
      "20%",
      "2/3",
      "8:30",
      "5 A",
      "2025-09-17",
      "holds",
      "4 mm²",
      "",
    ];
    const readAll = () => texts.map((text) => getNumfmtParseValueFilter(text));
    const first = readAll();
    assert.deepEqual(
      texts.filter((_, at) => first[at] === null),
      ["holds", "4 mm²", ""],
    );
    const kept = structuredClone(first);
    for (const read of first) if (read) read.v = -1;
    assert.deepEqual(readAll(), kept);
  });
});
