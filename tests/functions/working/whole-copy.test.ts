/** A second budget out of a first one, as it stands after some work on it. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { wholeCopy } from "../../../functions/working/whole-copy.js";
import { cellAddress, cellPlace } from "../../../src/plans/addresses.js";
import { planFaults } from "../../../src/plans/plan-faults.js";
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { Places } from "../../../taskpane/budgets/places.js";
import { riverFerry } from "../../../taskpane/budgets/samples/river-ferry.js";
import type { HostValue } from "../../../taskpane/hosts/host.js";
import { openBudget } from "../../budgets/open-budget.js";
import { ownFeed } from "../../feeds/own-feed.js";
import { copyRequest } from "../../helpers/copied-budget.js";

type Sheets = Readonly<Record<string, readonly (readonly HostValue[])[]>>;

const KEPT = "Option B, 750 V";

/** A copy of the budget as it stands after the work, with what both show. */
async function copied(
  plan: WorkbookPlan,
  work: (budget: Awaited<ReturnType<typeof openBudget>>) => Promise<void>,
) {
  const budget = await openBudget(plan);
  await work(budget);
  const names = Object.entries(budget.found().ranges).flatMap(([name, range]) =>
    range ? [[name, range] as const] : [],
  );
  const copy = wholeCopy(await copyRequest(budget), {
    id: plan.id,
    title: KEPT,
    stem: `${plan.stem}2`,
    names: Object.fromEntries(names),
  });
  const before = shownBy(budget);
  budget.workbook.dispose();
  return { copy, before };
}

function shownBy({ plan, rows }: Awaited<ReturnType<typeof openBudget>>): Sheets {
  return Object.fromEntries(plan.sheets.map(({ name }) => [name, rows(name)]));
}

/** Equal but for the title, which every sheet shows. */
function assertSame(now: Sheets, before: Sheets, title: string): number {
  let numbers = 0;
  for (const [name, rows] of Object.entries(before))
    rows.forEach((cells, row) =>
      cells.forEach((value, column) => {
        const at = `${name}!${cellAddress({ row, column })}`;
        const found = now[name]?.[row]?.[column] ?? "";
        if (typeof found === "string" && found.includes(KEPT)) {
          assert.equal(found.replace(KEPT, title), value, at);
          return;
        }
        assert.deepEqual(found, value, at);
        if (typeof value === "number") numbers += 1;
      }),
    );
  return numbers;
}

describe("a copy of a budget", () => {
  const places = new Places(ownFeed);
  const load = places.block("Load");
  let made: Awaited<ReturnType<typeof copied>>;
  let second: Awaited<ReturnType<typeof openBudget>>;

  beforeAll(async () => {
    made = await copied(budgetPlan(ownFeed), async ({ workbook }) => {
      await workbook.insertRow("Loads", load.row + 3);
      for (const [column, value] of [
        ["A", "Camera"],
        ["B", "24 V stage"],
        ["D", "power"],
        // A formula is welcome.
        ["H", "=4*3"],
      ] as const)
        await workbook.set("Loads", `${column}${load.row + 3}`, value);
    });
    second = await openBudget(made.copy);
  }, 120_000);
  afterAll(() => second.workbook.dispose());

  it("can be written by every host, under names of its own", () => {
    assert.deepEqual(planFaults(made.copy), []);
    assert.equal(made.copy.stem, "Blank");
    assert.equal(made.copy.title, KEPT);
    const title = made.copy.names.find(({ name }) => name === "Title")!;
    assert.equal(shownBy(second)["Inputs"]?.[cellPlace(title.range).row]?.[1], KEPT);
    assert.deepEqual(
      new Set(made.copy.names.map(({ name }) => name)),
      new Set(budgetPlan(ownFeed).names.map(({ name }) => name)),
    );
    const loads = made.copy.names.find(({ name }) => name === "Loads")!;
    assert.equal(cellPlace(loads.range.split(":")[1]!).row + 1, load.closing + 1);
  });

  it("shows what the first one shows, and calls its functions itself", () => {
    assert.ok(assertSame(shownBy(second), made.before, ownFeed.document.title) > 500);
    const calls = (plan: WorkbookPlan) =>
      plan.sheets.flatMap(({ cells }) =>
        cells.flatMap(({ formula }) => (formula?.includes("{FEED}.") ? [formula] : [])),
      );
    assert.equal(calls(made.copy).length, calls(budgetPlan(ownFeed)).length);
    for (const { cells } of made.copy.sheets)
      for (const { at, formula } of cells) assert.doesNotMatch(formula ?? "", /'|Blank_/, at);
  });

  it("follows what is typed into it, formulas among the figures too", async () => {
    assert.equal(second.workbook.formula("Loads", `H${load.row + 3}`), "=4*3");
    const solved = (item: string) =>
      second.table("Budget", "Item", "Input V").find(({ Item }) => Item === item)!;
    assert.equal(solved("Camera")["Input W"], 1.2 * 12);
    await second.workbook.set("Loads", `H${load.row + 3}`, 20);
    assert.equal(solved("Camera")["Input W"], 24);
    await second.workbook.undo();
  });

  it("keeps the looks of a schedule with one row more: headings, lists, the grey row", () => {
    const loads = made.copy.sheets.find(({ key }) => key === "loads")!;
    const styleAt = (at: string) => loads.cells.find((cell) => cell.at === at)?.style;
    assert.equal(styleAt(`A${load.row}`), "tableHeading");
    assert.equal(styleAt(`H${load.closing}`), "input");
    assert.equal(styleAt(`H${load.closing + 1}`), "closing");
    assert.ok(loads.validations.some(({ kind }) => kind === "offer"));
    assert.equal(loads.frozenColumns, 1);
    assert.ok(loads.cells.some(({ note }) => note?.includes("of one")));
  });

  it("is made of a sample with a day and answers of its own as well", async () => {
    const { copy, before } = await copied(budgetPlan(riverFerry), async () => {});
    const other = await openBudget(copy);
    try {
      assert.ok(assertSame(shownBy(other), before, riverFerry.document.title) > 500);
    } finally {
      other.workbook.dispose();
    }
  }, 120_000);
});
