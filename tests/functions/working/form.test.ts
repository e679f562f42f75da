/**
 * Which functions choose between formulas by the numbers they are given. A native copy cannot choose again, so each such
 * function is declared, and its copy is void once its inputs change.
 */
import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import {
  type Argument,
  type Cell,
  type Entry,
  catalogue,
  evaluate,
  isCellError,
  isCellTable,
} from "../../../functions/downfeed.js";
import { plainCopy } from "../../../functions/working/copy/plain-copy.js";
import { answersOf } from "../../../functions/working/lines/call-answer.js";
import { callWorking } from "../../../functions/working/lines/call-working.js";
import { callOverCells } from "../../helpers/call-trees.js";
import { contentOf } from "../../helpers/copied-budget.js";
import { formOf } from "../../helpers/form-of.js";
import { type SheetContent, ironCalc } from "../../helpers/iron-calc.js";
import { randomArguments } from "../../helpers/random-call.js";

const FACTORS = [0.2, 0.5, 0.8, 0.95, 1.05, 1.25, 2, 5] as const;

function cellsOf(argument: Argument): readonly Cell[] {
  return isCellTable(argument) ? argument.flat() : [argument ?? null];
}

function withCell(argument: Argument, place: number, cell: Cell): Argument {
  if (!isCellTable(argument)) return cell;
  const width = argument[0]?.length ?? 1;
  return argument.map((row, rowIndex) =>
    row.map((own, column) => (rowIndex * width + column === place ? cell : own)),
  );
}

/** One number changed: scaled, or made the same as another number of the call. */
function variations(args: readonly Argument[]): Argument[][] {
  const numbers = args.flatMap((argument, index) =>
    cellsOf(argument).flatMap((cell, place) =>
      typeof cell === "number" && cell !== 0 ? [{ index, place, cell }] : [],
    ),
  );
  return numbers.flatMap(({ index, place, cell }) =>
    [...FACTORS.map((factor) => factor * cell), ...numbers.map((other) => other.cell)].map(
      (changed) =>
        args.map((argument, at) => (at === index ? withCell(argument, place, changed) : argument)),
    ),
  );
}

function formAt({ id }: Entry, args: readonly Argument[]): string | undefined {
  const outcome = evaluate(id, args);
  if (!outcome.ok) return undefined;
  // A row that cannot be is refused in its place; a copy refuses nothing.
  const refuses = isCellTable(outcome.value) ? outcome.value.flat().some(isCellError) : false;
  return refuses ? undefined : formOf(outcome.working());
}

function isClosedForm({ id }: Entry, args: readonly Argument[]): boolean {
  const [answer] = answersOf(callOverCells(id, args).tree).values();
  return answer !== undefined && callWorking(answer).kind === "closed form";
}

/** Cells from A1 on, row by row. */
function rectangle(cells: SheetContent, rows: number) {
  return Array.from({ length: rows }, (_, row) =>
    ["A", "B", "C"].map((column) => cells.get(`${column}${row + 1}`) ?? ""),
  );
}

/** The call's plain copy, its inputs then others, run by IronCalc. */
function copied(id: string, args: readonly Argument[], later: typeof args) {
  const { tree, inputs } = callOverCells(id, args);
  const values = rectangle(inputs, 2 * args.length);
  const blank = values.map((row) => row.map(() => ""));
  const general = values.map((row) => row.map(() => "General"));
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok && typeof outcome.value === "number");
  const { plan, holdsAt } = plainCopy({
    title: id,
    sheets: [
      { name: "Inputs", values, formulas: blank, formats: general },
      {
        name: "Results",
        values: [[outcome.value]],
        formulas: [[tree.text]],
        formats: [["General"]],
      },
    ],
    trees: new Map([["Results!A1", tree]]),
  });
  const contents = contentOf(plan);
  const shown = ironCalc({
    ...contents,
    "Inputs plain": callOverCells(id, later).inputs,
  });
  return {
    result: shown("Results plain", "A1"),
    holds: shown("Workings", holdsAt),
  };
}

describe("the formulas of a function's steps", () => {
  for (const entry of catalogue) {
    if (entry.form === "depends on inputs") continue;
    it(`${entry.id}: are the same whatever its numbers`, () => {
      const drawn = fc.sample(randomArguments(entry), { numRuns: 6, seed: 3 });
      const calls = [entry.example.args, ...drawn];
      for (const args of calls.filter((one) => evaluate(entry.id, one).ok)) {
        if (!isClosedForm(entry, args)) continue;
        const own = formAt(entry, args);
        for (const varied of variations(args)) {
          const form = formAt(entry, varied) ?? own;
          assert.equal(form, own, JSON.stringify(varied));
        }
      }
    });
  }
});

describe("a plain copy", () => {
  const rates = (discount: number, rise: number) =>
    [
      ["PRESENT_COST", [1000, 0.25, 12, discount, rise]],
      [
        "CONDUCTOR_ECONOMIC_AREA",
        [10, 4000, 0.2, 12, discount, 0.2, 60, undefined, undefined, rise],
      ],
    ] as const;
  rates(0.1, 0.02).forEach(([id, args], index) => {
    // 0.02 for both: 12 payments of the same worth, each 1/1.02 of the first year's (no source needed: the sum itself).
    for (const rate of [0.02, 0.0200001])
      it(`of ${id} is right or void where the price is set to rise as money is discounted: ${rate}`, () => {
        const later = rates(rate, 0.02)[index]![1];
        const outcome = evaluate(id, later);
        assert.ok(outcome.ok);
        const { result, holds } = copied(id, args, later);
        if (result === "#N/A") assert.match(holds, /^no: /);
        else
          assert.ok(
            Math.abs(Number(result) / Number(outcome.value) - 1) <= 1e-12,
            `${result}, ${String(outcome.value)}`,
          );
      });

    it(`of ${id} holds while nothing is changed`, () => {
      const outcome = evaluate(id, args);
      assert.ok(outcome.ok);
      const { result, holds } = copied(id, args, args);
      assert.ok(Math.abs(Number(result) / Number(outcome.value) - 1) <= 1e-12);
      assert.equal(holds, "yes");
    });
  });

  it("shows no number of a formula that its inputs no longer call for", () => {
    // 28 V behind 0.05 Ω and 10 µH with 220 µF: damping ends at 1.1 S. With 10 mF it is the collapse at 1/R = 20 S.
    const args = [28, 400, 0.05, 0.00001, 0.00022];
    const later = [28, 400, 0.05, 0.00001, 0.01];
    const { result, holds } = copied("STABILITY_MARGIN", args, later);
    assert.equal(result, "#N/A");
    assert.match(holds, /^no: /);
  });
});
