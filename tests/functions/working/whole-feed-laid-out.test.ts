/**
 * The functions that judge or solve a whole feed, laid out over the ridge-top budget's own cells and calculated by
 * IronCalc (https://github.com/ironcalc/IronCalc): every number of theirs stands in a formula, and comes to what the
 * function gives; a row that rests on a solved case says so.
 */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { evaluate, isCellTable } from "../../../functions/downfeed.js";
import { callsIn, type FormulaTree } from "../../../functions/working/lines/call-tree.js";
import { laidOut } from "../../../functions/working/native/laid-out.js";
import { cellAddress, cellPlace, rangePlace } from "../../../src/plans/addresses.js";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { ridgeTop } from "../../../taskpane/budgets/samples/ridge-top.js";
import { type OpenBudget, openBudget } from "../../budgets/open-budget.js";
import { callOverCells, placedResult } from "../../helpers/call-trees.js";
import { copyRequest } from "../../helpers/copied-budget.js";
import { ironCalc, type SheetContent } from "../../helpers/iron-calc.js";

let budget: OpenBudget;
let trees: ReadonlyMap<string, FormulaTree>;
const contents: Record<string, SheetContent> = {};

beforeAll(async () => {
  budget = await openBudget(budgetPlan(ridgeTop));
  const request = await copyRequest(budget);
  trees = request.trees;
  for (const { name, values } of request.sheets)
    contents[name] = new Map(
      values.flatMap((row, rowIndex) =>
        row.flatMap((value, column) =>
          value === "" || typeof value === "object"
            ? []
            : [[cellAddress({ row: rowIndex, column }), value] as const],
        ),
      ),
    );
}, 120_000);
afterAll(() => budget.workbook.dispose());

function treeOf(id: string): FormulaTree {
  const found = [...trees.values()].find(({ whole }) =>
    callsIn(whole).some(({ call }) => call.id === id),
  );
  assert.ok(found, id);
  return found;
}

function sheetOf(laid: ReturnType<typeof laidOut> & { readonly ok: true }): SheetContent {
  return new Map(
    laid.cells.flatMap(({ at, value, formula }) => {
      const content = formula === undefined ? value : `=${formula}`;
      return content === undefined ? [] : [[at, content] as const];
    }),
  );
}

/** Numbers in the result's table, right of the lines, and how many of them are typed. */
function numbersOf(laid: ReturnType<typeof laidOut> & { readonly ok: true }) {
  const heading = laid.cells.find(({ value }) => value === "Result");
  assert.ok(heading);
  const { row: top, column: left } = cellPlace(heading.at);
  const inTable = laid.cells.filter(({ at }) => {
    const { row, column } = cellPlace(at);
    return row > top && column >= left;
  });
  const typed = inTable.filter(({ value }) => typeof value === "number");
  const worked = inTable.filter(({ formula }) => formula && !formula.includes('"yes"'));
  return { typed: typed.length, worked: worked.length };
}

function saidFrozen(laid: ReturnType<typeof laidOut> & { readonly ok: true }): number {
  const heading = laid.cells.find(({ value }) => value === "Result");
  const column = cellPlace(heading!.at).column - 1;
  return laid.cells.filter(
    ({ at, value }) =>
      value === "solved: frozen at these inputs" && cellPlace(at).column === column,
  ).length;
}

/** Without the rows that are spare. */
function feedRows() {
  return budget.found().ranges["Feed"]!.values.filter(([item]) => item !== "");
}

describe("the layout of a whole feed's function", () => {
  // Of 0.2.0 110, 65 and 69 numbers 71, 65 and 69 were typed.
  for (const [id, least] of [
    ["CHAIN_SOLVE", 110],
    ["CHAIN_BANDS", 65],
    ["CHAIN_WORST", 69],
  ] as const)
    it(`${id}: holds no typed number in its result, and comes to the function's`, () => {
      const laid = laidOut(treeOf(id));
      assert.ok(laid.ok);
      const { typed, worked } = numbersOf(laid);
      assert.equal(typed, 0);
      assert.ok(worked >= least, String(worked));
      const shown = ironCalc({ ...contents, Working: sheetOf(laid) });
      assert.equal(shown("Working", laid.sameAt), "yes");
      assert.match(String(shown("Working", "A3")), /frozen at these inputs/);
    });

  it("says of each row that rests on a solved case that it is frozen", () => {
    const rows = feedRows().length - 1;
    for (const id of ["CHAIN_SOLVE", "CHAIN_WORST"]) {
      const laid = laidOut(treeOf(id));
      assert.ok(laid.ok);
      assert.equal(saidFrozen(laid), rows, id);
    }
  });

  it("lays out one check: its margin is worked out, and what is found and asked is linked where it stands", () => {
    const tree = treeOf("CHAIN_CHECKS");
    const checks = budget.found().ranges["Checks"]!.values;
    let numbers = 0;
    let typed = 0;
    const sheets: Record<string, SheetContent> = {};
    const same: string[] = [];
    checks.forEach((cells, row) => {
      const own = cells.filter((cell) => typeof cell === "number").length;
      if (row === 0 || own === 0) return;
      const laid = laidOut(tree, undefined, row);
      assert.ok(laid.ok);
      const counted = numbersOf(laid);
      assert.equal(counted.typed + counted.worked, own, String(cells[1]));
      numbers += own;
      typed += counted.typed;
      // Each would be a sheet; some of every kind of check are enough.
      if (row % 9 !== 1) return;
      sheets[`Check ${row}`] = sheetOf(laid);
      same.push(laid.sameAt);
    });
    assert.ok(numbers > 150, String(numbers));
    // Of 0.2.0 every one was. Left are margins of words: to a band in service and after one fault.
    assert.ok(typed <= 2, `${typed} of ${numbers}`);
    const shown = ironCalc({ ...contents, ...sheets });
    Object.keys(sheets).forEach((sheet, index) =>
      assert.equal(shown(sheet, same[index]!), "yes", sheet),
    );
  });

  it("of a total is the sum of its rows, in its own unit", () => {
    const table = feedRows().map((row) =>
      row.map((cell) => (cell === "" || typeof cell === "object" ? null : cell)),
    );
    for (const [quantity, unit] of [
      ["supply power", "W"],
      ["loss", "W"],
      ["closing error", "W"],
      ["efficiency", ""],
      ["lowest margin", ""],
    ] as const) {
      const args = [table, quantity];
      const { tree, inputs } = callOverCells("CHAIN_TOTAL", args);
      const laid = laidOut(tree);
      assert.ok(laid.ok);
      const result = laid.cells.find(({ value }) => value === "Result");
      const row = result!.at.replace("A", "");
      const cellAt = (column: string) => laid.cells.find(({ at }) => at === `${column}${row}`);
      assert.notEqual(cellAt("D")?.formula, undefined, quantity);
      assert.equal(cellAt("E")?.value ?? "", unit);
      const shown = ironCalc({
        Inputs: inputs,
        Results: placedResult("CHAIN_TOTAL", args),
        Working: sheetOf(laid),
      });
      assert.equal(shown("Working", laid.sameAt), "yes", quantity);
      const outcome = evaluate("CHAIN_TOTAL", args);
      assert.ok(outcome.ok && !isCellTable(outcome.value));
      const wanted = Number(outcome.value);
      const found = Number(shown("Working", `D${row}`));
      assert.ok(Math.abs(found - wanted) <= 1e-9 * Math.max(1, Math.abs(wanted)), quantity);
    }
  });

  it("asks nothing that is settled already", () => {
    for (const id of ["CHAIN_SOLVE", "CHAIN_BANDS", "CHAIN_WORST"]) {
      const laid = laidOut(treeOf(id));
      assert.ok(laid.ok);
      assert.ok(rangePlace(laid.range).bottom > 20);
      for (const { formula = "" } of laid.cells) {
        assert.doesNotMatch(formula, /ISNUMBER\("/);
        assert.doesNotMatch(formula, /"[^"]*"="/);
        assert.doesNotMatch(formula, /IF\([\d.]+=/);
      }
    }
  });
});
