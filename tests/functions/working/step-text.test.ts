import assert from "node:assert/strict";
import fc from "fast-check";
import { evaluate } from "mathjs";
import { describe, it } from "vitest";
import {
  asNative,
  inNumbers,
  inSymbols,
  sizesOf,
  termsOf,
} from "../../../functions/working/text/step-text.js";
import { stepValue } from "../../../functions/working/text/step-value.js";
import { ironCalc } from "../../helpers/iron-calc.js";

const FORMULAS = [
  "a * b + c",
  "a - b - c",
  "a / b / c",
  "a - (b - c)",
  "-a * b",
  "a * -b",
  "(a + b)^2",
  "(-a)^2 - b^3",
  "a^(b - 2 * c)",
  "sqrt(a) + ln(b) * exp(-c)",
  "acosh(1 + a) / pi",
  "atan(a) + pi",
  "abs(a - b) + min(a, b, c) - max(a, 0.5)",
  "1.02 * a / (b + 0.25 * c)",
  "a * (1 / b - 1)",
];

const figures = fc.record({
  a: fc.noBias(fc.integer({ min: 1, max: 5000 })).map((drawn) => drawn / 1000),
  b: fc.noBias(fc.integer({ min: 1, max: 5000 })).map((drawn) => drawn / 1000),
  c: fc.noBias(fc.integer({ min: 1, max: 5000 })).map((drawn) => drawn / 1000),
});

type Figures = Readonly<Record<string, number>>;

const CELLS: Readonly<Record<string, string>> = { a: "A1", b: "B1", c: "C1" };

function near(found: number, expected: number, size: number): void {
  assert.ok(Math.abs(found - expected) <= 1e-12 * size, `${found}, expected ${expected}`);
}

describe("the formula of a step", () => {
  for (const formula of FORMULAS) {
    // mathjs and IronCalc share nothing with this project; sizes of the terms bound what a difference may cancel.
    it(`${formula} comes to the same here, in mathjs and as a native formula in IronCalc`, () => {
      fc.assert(
        fc.property(figures, (drawn: Figures) => {
          const valueOf = (field: string) => drawn[field] ?? Number.NaN;
          const size = Math.max(
            ...termsOf(formula).map((term) => Math.abs(stepValue(term, valueOf))),
          );
          const expected = Number(evaluate(formula.replaceAll("ln(", "log("), { ...drawn }));
          near(stepValue(formula, valueOf), expected, size);
          const native = asNative(formula, (field) => CELLS[field] ?? "?");
          const shown = ironCalc({
            Sheet: new Map<string, string | number>([
              ["A1", valueOf("a")],
              ["B1", valueOf("b")],
              ["C1", valueOf("c")],
              ["D1", `=${native}`],
            ]),
          });
          near(Number(shown("Sheet", "D1")), expected, size);
        }),
        { numRuns: 8 },
      );
    });
  }

  it("is written in symbols with the signs that people use", () => {
    const symbols: Readonly<Record<string, string>> = { a: "ΔU", b: "R′₂₀" };
    assert.equal(
      inSymbols("-a * (b - 2)^2 / pi + min(a, b)", (field) => symbols[field]!),
      "−ΔU · (R′₂₀ − 2)^2 / π + min(ΔU, R′₂₀)",
    );
  });

  it("is written in numbers with those below 0 in brackets", () => {
    const drawn: Figures = { a: -3, b: 0.5 };
    assert.equal(
      inNumbers("a^2 - b * a", (field) => drawn[field]!, String),
      "(-3)^2 − 0.5 · (-3)",
    );
  });

  it("has the terms that it adds up and takes away, brackets left whole", () => {
    assert.deepEqual(termsOf("a * b - (a + b) / c + max(a, b - c)"), [
      "a * b",
      "( a + b ) / c",
      "max ( a , b - c )",
    ]);
    assert.deepEqual(termsOf("-a * -b"), ["- a * - b"]);
  });

  it("is rounded by what may cancel in it, behind brackets and the functions that pass it on", () => {
    assert.deepEqual(sizesOf("max(abs(a * b - c), (a))"), ["a * b", "c", "c", "a"]);
    assert.deepEqual(sizesOf("a"), ["a"]);
    assert.deepEqual(sizesOf("a * (b - c)"), []);
    assert.deepEqual(sizesOf("(a) * (b)"), []);
    assert.deepEqual(sizesOf("sqrt(a - b)"), []);
  });

  it("refuses what is not in the grammar", () => {
    assert.throws(() => stepValue("a b", () => 1), SyntaxError);
    assert.throws(() => stepValue("(a", () => 1), SyntaxError);
    assert.throws(() => stepValue("min a", () => 1), SyntaxError);
  });
});
