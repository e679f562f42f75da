/** What a user does at the sheet of the workbench's page. */
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import type { Locator, Page } from "playwright-core";
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
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
  await page.waitForFunction(
    (taken) =>
      document.querySelector<HTMLInputElement>("#sheet input")?.value !== taken ||
      document.querySelector('[role="dialog"]') !== null,
    address,
  );
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
