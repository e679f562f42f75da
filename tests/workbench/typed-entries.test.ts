/** Entries of somebody who types units, ratios and per cent into the cells of the workbench's sheets. */
import assert from "node:assert/strict";
import type { Page } from "playwright-core";
import { beforeEach, describe, it } from "vitest";
import { cellAddress, rangePlace } from "../../src/plans/addresses.js";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import { ridgeTop } from "../../taskpane/budgets/samples/ridge-top.js";
import { workbenchSitting } from "../helpers/workbench-sitting.js";
import {
  assertInBox,
  goToCell,
  savedWorkbook,
  sheetTab,
  typeInto,
} from "../helpers/workbench-sheet.js";

const sitting = workbenchSitting();
let page: Page;

beforeEach(async () => {
  page = await sitting.goOn();
});

const plan = budgetPlan(ridgeTop);

/** Sheet and cell of a column of a block, in its first row. */
function cellOf(name: string, header: string) {
  const named = plan.names.find((one) => one.name === name)!;
  const sheet = plan.sheets.find(({ key }) => key === named.sheet)!;
  const { top } = rangePlace(named.range);
  const head = sheet.cells.find(({ at, value }) => value === header && rangePlace(at).top === top);
  assert.ok(head, `${name} has no ${header}`);
  const { left } = rangePlace(head.at);
  return { sheet: sheet.name, at: cellAddress({ row: top + 1, column: left }) };
}

/** Fed from in the row below the grey line. */
function belowLoads(): string {
  const { bottom } = rangePlace(plan.names.find(({ name }) => name === "Loads")!.range);
  return cellAddress({ row: bottom + 1, column: 1 });
}

async function type(name: string, header: string, text: string) {
  const { sheet, at } = cellOf(name, header);
  await sheetTab(page, sheet).click();
  await typeInto(page, at, text);
}

async function valuesOf(
  columns: readonly (readonly [name: string, header: string])[],
): Promise<readonly unknown[]> {
  const { sheets } = await savedWorkbook(page);
  return columns.map(([name, header]) => {
    const { sheet, at } = cellOf(name, header);
    return sheets.find((one) => one.name === sheet)?.cells.find((cell) => cell.at === at)?.value;
  });
}

async function valueOf(name: string, header: string): Promise<unknown> {
  return (await valuesOf([[name, header]]))[0];
}

describe("an entry on the sheet", () => {
  it("keeps every letter while the sheets are calculated", async () => {
    await sheetTab(page, "Loads").click();
    const [{ at }, { at: fedFrom }] = [cellOf("Loads", "Load"), cellOf("Loads", "Fed from")];
    await goToCell(page, at);
    await page.keyboard.type("Dome drives");
    await page.keyboard.press("Tab");
    // One letter before the other cells follow, the rest after that.
    await page.keyboard.type("4");
    await page.getByRole("treeitem", { name: /^Dome drives/ }).waitFor();
    await page.keyboard.type("8 V bus of the summit");
    await page.keyboard.press("Enter");
    assert.equal(await valueOf("Loads", "Fed from"), "48 V bus of the summit");
    for (const [cell, text] of [
      [fedFrom, "Summit stage"],
      [at, "Dome and mount drives"],
    ] as const)
      await typeInto(page, cell, text);
  });

  it("below the last row of a block is refused: nobody would count the item", async () => {
    await sheetTab(page, "Loads").click();
    const at = belowLoads();
    await typeInto(page, at, "24 V cable");
    const dialog = page.getByRole("dialog");
    await dialog.getByText(/^Nothing below the grey line counts\./).waitFor();
    await dialog.getByRole("button").last().click();
    await page.keyboard.press("Escape");
    const { sheets } = await savedWorkbook(page);
    const loads = sheets.find(({ name }) => name === "Loads");
    assert.equal(loads?.cells.find((cell) => cell.at === at)?.value, undefined);
  });

  it("takes its unit off before it becomes an hour of a clock", async () => {
    await type("Supplies", "Rated A", "10 A");
    await type("Cables", "Length (m)", "0.35 km");
    await type("Supplies", "Resistance (Ω)", "0.3 ohm");
    await type("InLine", "Resistance (mΩ)", "0,02 Ω");
    const values = await valuesOf([
      ["Supplies", "Rated A"],
      ["Cables", "Length (m)"],
      ["Supplies", "Resistance (Ω)"],
      ["InLine", "Resistance (mΩ)"],
    ]);
    assert.deepEqual(values, [10, 350, 0.3, 20]);
  });

  it("of 25 in a cell that is shown in per cent is 25 %", async () => {
    await type("Stages", "Tolerance", "25");
    assert.equal(await valueOf("Stages", "Tolerance"), 0.25);
    await type("Stages", "Tolerance", "2 %");
    assert.equal(await valueOf("Stages", "Tolerance"), 0.02);
  });

  it("stays a text in a cell of words, and anywhere else where it names amperes", async () => {
    await type("Cables", "Basis", "3-4");
    await type("Cables", "Size", "1/0 AWG");
    const values = await valuesOf([
      ["Cables", "Basis"],
      ["Cables", "Size"],
    ]);
    assert.deepEqual(values, ["3-4", "1/0 AWG"]);
    await type("Cables", "Size", "2.5mm2");
    assert.equal(await valueOf("Cables", "Size"), "2.5 mm²");
  });

  it("that is no figure is refused by name, keeps its text and the keyboard, and leaves the cell as it was", async () => {
    const before = await valueOf("Types", "Steps down by");
    const { at } = cellOf("Types", "Steps down by");
    await type("Types", "Steps down by", "1/16");
    const refusal = page.getByRole("dialog").filter({ hasText: "16 for 16:1" });
    await refusal.waitFor();
    await page.keyboard.press("Enter");
    await refusal.waitFor({ state: "detached" });
    // The text is still in the cell: all of it is taken away by the keyboard, and a number typed.
    for (let key = 0; key < 4; key += 1) await page.keyboard.press("Backspace");
    await page.keyboard.press("Escape");
    await assertInBox(page, at);
    assert.equal(await valueOf("Types", "Steps down by"), before);
    await goToCell(page, at);
    await page.keyboard.type("16:1");
    await page.keyboard.press("Enter");
    await refusal.waitFor();
    await page.keyboard.press("Enter");
    await refusal.waitFor({ state: "detached" });
    for (let key = 0; key < 2; key += 1) await page.keyboard.press("Backspace");
    await page.keyboard.press("Enter");
    assert.equal(await valueOf("Types", "Steps down by"), 16);
  });

  it("is one step to undo", async () => {
    await type("Supplies", "Rated A", "14 A");
    assert.equal(await valueOf("Supplies", "Rated A"), 14);
    await goToCell(page, cellOf("Supplies", "Rated A").at);
    await page.keyboard.press("Control+z");
    assert.equal(await valueOf("Supplies", "Rated A"), 10);
  });
});

describe("a text for a number in a function", () => {
  it("is refused in the cell as in the pane", async () => {
    await sheetTab(page, "Notes").click();
    await typeInto(page, "J40", '=FEED.CONDUCTOR_DROP("10 A",50,"2.5 mm²",70)');
    await typeInto(page, "J41", "10 A");
    await typeInto(page, "J42", '=FEED.CONDUCTOR_DROP(J41,50,"2.5 mm²",70)');
    const { sheets } = await savedWorkbook(page);
    const cells = sheets.find(({ name }) => name === "Notes")!.cells;
    const value = (address: string) => cells.find(({ at }) => at === address)?.value;
    assert.deepEqual(value("J40"), { error: "#VALUE!" });
    assert.equal(value("J41"), "10 A");
    assert.deepEqual(value("J42"), { error: "#VALUE!" });
  });
});
