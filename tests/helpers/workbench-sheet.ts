/** What a user does at the sheet of the workbench's page. */
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import type { Locator, Page } from "playwright-core";
import { cellAddress } from "../../src/plans/addresses.js";
import type { WorkbookSnapshot } from "../../taskpane/hosts/files/workbook-snapshot.js";
import { readXlsx } from "../../taskpane/hosts/files/read/xlsx-reader.js";

/** By the box left of the formula bar, as a user goes to a cell by its name. */
export async function goToCell(page: Page, address: string): Promise<void> {
  const box = page.locator("#sheet input").first();
  await box.fill(address);
  await box.press("Enter");
  await assertInBox(page, address);
}

/** Waits until the box names the cell. */
export async function assertInBox(page: Page, address: string): Promise<void> {
  await page.waitForFunction(
    (wanted) => document.querySelector<HTMLInputElement>("#sheet input")?.value === wanted,
    address,
  );
}

/** The tab of a sheet; a view of the pane may be called alike. */
export function sheetTab(page: Page, name: string): Locator {
  return page.getByRole("tablist", { name: "Sheet tabs" }).getByRole("tab", { name, exact: true });
}

/** Until the sheet has taken the entry and gone on, or asks: what is typed into the box before that is lost. */
export async function typeInto(page: Page, address: string, text: string): Promise<void> {
  await goToCell(page, address);
  await typeText(page, text);
  await page.keyboard.press("Enter");
  await page.waitForFunction(
    (taken) =>
      document.querySelector<HTMLInputElement>("#sheet input")?.value !== taken ||
      document.querySelector('[role="dialog"]') !== null,
    address,
  );
}

/** The first letter by its key, which begins the entry; the others at once, as an input method hands them over. */
export async function typeText(page: Page, text: string): Promise<void> {
  await page.keyboard.type(text.slice(0, 1));
  await page.keyboard.insertText(text.slice(1));
}

/** Cells of one row, by their columns: from one to the next by Tab. */
export async function typeRow(
  page: Page,
  row: number,
  texts: ReadonlyMap<number, string>,
): Promise<void> {
  const columns = [...texts.keys()].sort((one, other) => one - other);
  await goToCell(page, cellAddress({ row, column: columns[0]! }));
  for (const [index, column] of columns.entries()) {
    await typeText(page, texts.get(column)!);
    const next = columns[index + 1] ?? column + 1;
    for (let step = column; step < next; step += 1) await page.keyboard.press("Tab");
    await assertInBox(page, cellAddress({ row, column: next }));
  }
}

/** What the button of the bar saves. */
export async function savedBytes(page: Page, button = "Save as .xlsx"): Promise<Buffer> {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: button, exact: true }).click(),
  ]);
  assert.match(download.suggestedFilename(), /^[\p{L}\p{N} ._()-]+\.xlsx$/u);
  return readFile(await download.path());
}

/** The saved workbook, which holds all that was in the page. */
export async function savedWorkbook(page: Page): Promise<WorkbookSnapshot> {
  const { snapshot, leftOut } = readXlsx(await savedBytes(page));
  assert.deepEqual(leftOut, []);
  return snapshot;
}
