/** Held against the references of @borgar/fx: a formula that is shared reads the same in each cell, relative to it. */
import assert from "node:assert/strict";
import { translateFormulaToR1C1 } from "@borgar/fx";
import fc from "fast-check";
import { describe, it } from "vitest";
import { cellAddress, columnLetters } from "../../../src/plans/addresses.js";
import { movedFormula } from "../../../taskpane/hosts/files/read/shared-formulas.js";

const fixed = fc.constantFrom("", "$");
const column = fc.tuple(fixed, fc.integer({ min: 200, max: 300 }));
const row = fc.tuple(fixed, fc.integer({ min: 201, max: 900 }));
const cell = fc
  .tuple(column, row)
  .map(([[c, at], [r, line]]) => `${c}${columnLetters(at)}${r}${line}`);
const reference = fc.oneof(
  cell,
  fc.tuple(cell, cell).map((ends) => ends.join(":")),
  cell.map((at) => `'It''s B2'!${at}`),
  cell.map((at) => `Run!${at}`),
  // Nothing in these moves.
  fc.constantFrom('"A1"', "LOG10(2)", "Ridge_A1", "TRUE", "1E5", "2.5"),
);
const formula = fc
  .array(reference, { minLength: 1, maxLength: 5 })
  .map((parts) => `SUM(${parts.join(",")})*2`);
const shift = fc.integer({ min: -150, max: 150 });
const HOME = { row: 400, column: 250 };

function relativeTo(written: string, from: typeof HOME): string {
  return translateFormulaToR1C1(`=${written}`, cellAddress(from));
}

describe("a formula that a file writes once for many cells", () => {
  it("reads the same relative to each of them", () => {
    fc.assert(
      fc.property(formula, shift, shift, (written, rows, columns) => {
        const there = {
          row: HOME.row + rows,
          column: HOME.column + columns,
        };
        assert.equal(
          relativeTo(movedFormula(written, rows, columns), there),
          relativeTo(written, HOME),
        );
      }),
    );
  });

  it.each([
    ["B2+$B2+B$2+$B$2", 1, 2, "D3+$B3+D$2+$B$2"],
    ["SUM(A:A)+SUM($A:B)", 3, 1, "SUM(B:B)+SUM($A:C)"],
    ["SUM(1:1)+SUM($1:2)", 3, 1, "SUM(4:4)+SUM($1:5)"],
    ["A1+B1", 0, -1, "#REF!+A1"],
    ["A1", -1, 0, "#REF!"],
  ])("%s, %i down and %i across, is %s", (written, rows, columns, moved) => {
    assert.equal(movedFormula(written, rows, columns), moved);
  });
});
