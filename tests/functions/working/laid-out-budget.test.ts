/** Every cell of a worked budget that calls a cell function, laid out and calculated by LibreOffice over the budget's values. */
import assert from "node:assert/strict";
import { beforeAll, describe, it } from "vitest";
import { callsIn } from "../../../functions/working/lines/call-tree.js";
import { laidOut } from "../../../functions/working/native/laid-out.js";
import { budgets } from "../../../taskpane/budgets/budgets.js";
import { cellAddress } from "../../../src/plans/addresses.js";
import { type OpenBudget, openBudget } from "../../budgets/open-budget.js";
import { copyRequest } from "../../helpers/copied-budget.js";
import type { SheetContent } from "../../helpers/iron-calc.js";
import { calculatedByLibreOffice, type OfficeValues } from "../../helpers/libre-office.js";

interface LaidOut {
  readonly contents: Readonly<Record<string, SheetContent>>;
  /** By the sheet of each layout, where it says that it comes to its cell's value. */
  readonly sameAt: ReadonlyMap<string, string>;
}

async function allLaidOut(budget: OpenBudget): Promise<LaidOut> {
  const { sheets, trees } = await copyRequest(budget);
  const contents: Record<string, SheetContent> = {};
  for (const { name, values, formulas } of sheets)
    contents[name] = new Map(
      values.flatMap((row, rowIndex) =>
        row.flatMap((value, column) => {
          const at = cellAddress({ row: rowIndex, column });
          if (typeof value === "object") return [[at, "=NA()"] as const];
          if (value !== "") return [[at, value] as const];
          // A formula that gives text of no length is no empty cell.
          const isEmpty = (formulas[rowIndex]?.[column] ?? "") === "";
          return isEmpty ? [] : [[at, '=""'] as const];
        }),
      ),
    );
  const sameAt = new Map<string, string>();
  for (const [where, tree] of trees) {
    if (callsIn(tree.whole).length === 0) continue;
    const laid = laidOut(tree);
    assert.ok(laid.ok, where);
    const sheet = where.replace("!", " ");
    sameAt.set(sheet, laid.sameAt);
    contents[sheet] = new Map(
      laid.cells.flatMap(({ at, value, formula }) => {
        const content = formula === undefined ? value : `=${formula}`;
        return content === undefined ? [] : [[at, content] as const];
      }),
    );
  }
  return { contents, sameAt };
}

const laid = new Map<string, LaidOut & { readonly values: OfficeValues }>();

beforeAll(async () => {
  const all: (readonly [id: string, LaidOut])[] = [];
  for (const plan of budgets) {
    const budget = await openBudget(plan);
    all.push([plan.id, await allLaidOut(budget)]);
    budget.workbook.dispose();
  }
  await Promise.all(
    all.map(async ([id, own]) =>
      laid.set(id, { ...own, values: await calculatedByLibreOffice(own.contents) }),
    ),
  );
}, 300_000);

for (const { id, title, sheets } of budgets)
  describe(`the layouts of ${title}`, () => {
    it("say the same as their cells", () => {
      const { sameAt, values } = laid.get(id)!;
      const called = sheets.flatMap(({ cells }) =>
        cells.filter(({ formula }) => formula?.includes("{FEED}")),
      );
      assert.equal(sameAt.size, called.length);
      for (const [sheet, at] of sameAt) assert.equal(values.get(sheet)?.get(at), "yes", sheet);
    });
  });
