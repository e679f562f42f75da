/**
 * The native formulas of a budget come to the same in IronCalc, a spreadsheet engine of other people's making
 * (https://www.ironcalc.com). Cells with a cell function hold there what the workbench calculated.
 */
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { initSync, Model } from "@ironcalc/wasm";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import { Places } from "../../taskpane/budgets/places.js";
import { ridgeTop } from "../../taskpane/budgets/samples/ridge-top.js";
import { cellPlace, columnLetters } from "../../src/plans/addresses.js";
import { fillPlaceholders, plainNames } from "../../src/plans/placeholders.js";
import type { SheetPlan } from "../../src/plans/sheet-plan.js";
import type { HostValue } from "../../taskpane/hosts/host.js";
import { type OpenBudget, openBudget } from "./open-budget.js";

/** IronCalc gives numbers as shown, with so many digits. */
const SHOWN_SHARE = 1e-8;

let budget: OpenBudget;
beforeAll(async () => {
  initSync({
    module: readFileSync(createRequire(import.meta.url).resolve("@ironcalc/wasm/wasm_bg.wasm")),
  });
  budget = await openBudget(budgetPlan(ridgeTop));
});
afterAll(() => budget.workbook.dispose());

/** Values of a sheet's native cells as text, by address. */
type Shown = (sheet: number, at: string) => string;

function ironCalc(): { readonly shown: Shown; readonly free: () => void } {
  const { plan } = budget;
  const model = new Model("budget", "en", "UTC", "en");
  model.pauseEvaluation();
  const sheets = plan.sheets.length;
  plan.sheets.forEach(({ name }, index) => {
    if (index > 0) model.newSheet();
    model.renameSheet(index, name);
  });
  plan.sheets.forEach((sheet, index) => {
    // Beside each sheet one that reads it through `=cell&""`, which gives numbers unformatted.
    model.newSheet();
    for (const [at, content] of contentOf(sheet)) {
      const { row, column } = cellPlace(at);
      model.setUserInput(index, row + 1, column + 1, content);
      const reading = `='${sheet.name}'!${at}&""`;
      model.setUserInput(sheets + index, row + 1, column + 1, reading);
    }
  });
  model.evaluate();
  return {
    shown(sheet, at) {
      const { row, column } = cellPlace(at);
      return model.getFormattedCellValue(sheets + sheet, row + 1, column + 1);
    },
    free: () => model.free(),
  };
}

/** Native formulas as they are; everything else, spills too, as the workbench's value. */
function contentOf(sheet: SheetPlan): ReadonlyMap<string, string> {
  const used = plainNames(budget.plan, "FEED");
  const contents = new Map<string, string>();
  budget.rows(sheet.name).forEach((cells, row) =>
    cells.forEach((value, column) => {
      if (value !== "") contents.set(`${columnLetters(column)}${row + 1}`, typed(value));
    }),
  );
  for (const { at, formula } of nativeCells(sheet))
    contents.set(at, `=${fillPlaceholders(formula, used)}`);
  return contents;
}

function nativeCells({ cells }: SheetPlan) {
  return cells.flatMap(({ at, formula }) =>
    formula === undefined || formula.includes("{FEED}") ? [] : [{ at, formula }],
  );
}

/** A text that looks like a number or a formula stays text. */
function typed(value: HostValue): string {
  if (typeof value === "object") return value.error;
  if (typeof value !== "string" || value === "") return String(value);
  return /^[\d=+.'-]/.test(value) ? `'${value}` : value;
}

describe("the native formulas", () => {
  const lengthAt = new Places(ridgeTop)
    .block("Cable")
    .cell("Cable to the summit", "Length")
    .replace(/.*!|\$/g, "");
  const CASES = [
    ["nominal", "nominal", 350],
    ["peak", "lowest", 350],
    ["peak", "lowest", 700],
  ] as const;
  for (const [loads, supply, length] of CASES) {
    it(`come to the same for ${loads} loads, ${supply} supply and ${length} m`, async () => {
      await budget.enter("Loads", loads);
      await budget.enter("Supply voltage", supply);
      await budget.workbook.set("Feed", lengthAt, length);
      const { shown, free } = ironCalc();
      let compared = 0;
      budget.plan.sheets.forEach((sheet, index) => {
        for (const { at } of nativeCells(sheet)) {
          const expected = budget.workbook.value(sheet.name, at);
          assertSame(`${sheet.name}!${at}`, shown(index, at), expected);
          compared += 1;
        }
      });
      assert.ok(compared > 300, String(compared));
      free();
    });
  }

  function assertSame(where: string, found: string, expected: HostValue) {
    // What is left over of two sums is rounding, and differs from engine to engine.
    if (where === closingErrorAt()) return;
    if (typeof expected === "number")
      assert.ok(
        Math.abs(Number(found) - expected) <= SHOWN_SHARE * Math.max(1e-3, Math.abs(expected)),
        `${where}: ${found}, ${expected}`,
      );
    else assert.equal(found, expected, where);
  }

  function closingErrorAt(): string {
    const row = budget.rows("Budget").findIndex(([label]) => label === "Closing error");
    return `Budget!B${row + 1}`;
  }
});
