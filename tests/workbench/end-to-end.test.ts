/**
 * One sitting at the workbench, as a proposal author has it: from an empty workbook to a saved budget that is there again
 * next time. Nothing is shown or stored but by what its user can press and type.
 */
import assert from "node:assert/strict";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, it } from "vitest";
import type { SheetSnapshot } from "../../taskpane/hosts/files/workbook-snapshot.js";
import { launchChromium } from "../helpers/chromium.js";
import {
  type OpenedPage,
  openWorkbenchPage,
  type ServedDist,
  serveDist,
  settledPage,
} from "../helpers/workbench-page.js";
import { savedWorkbook, typeInto } from "../helpers/workbench-sheet.js";

let browser: Browser;
let dist: ServedDist;

beforeAll(async () => {
  dist = await serveDist();
  browser = await launchChromium();
}, 240_000);
afterAll(async () => {
  await browser.close();
  await dist.close();
});

async function openEmpty(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Empty workbook" }).click();
  await page
    .locator("#bar [role=status]")
    .filter({ hasText: "An empty workbook is open" })
    .waitFor();
}

async function view(page: Page, name: string): Promise<Locator> {
  await page.getByRole("tab", { name }).click();
  return page.getByRole("tabpanel", { name });
}

/** Searches the job that the fields start with, and picks the point in the middle of the chart. @returns the candidate's name */
async function pickCandidate(page: Page): Promise<string> {
  const panel = await view(page, "Trade-offs");
  await panel.getByRole("button", { name: "Search" }).click();
  const chart = panel.getByRole("group", { name: "Best trade-offs" });
  await chart.waitFor();
  const points = chart.getByRole("button");
  const point = points.nth((await points.count()) >> 1);
  await point.click();
  const name = (await point.getAttribute("aria-label"))?.split(":")[0];
  assert.ok(name);
  await panel
    .getByRole("region", { name: "Chosen candidate" })
    .getByRole("heading", { name })
    .waitFor();
  return name;
}

async function insertCandidate(page: Page): Promise<void> {
  const panel = await view(page, "Trade-offs");
  await panel.getByLabel("Framework of the voltage bands").selectOption("IEC 62368-1");
  await panel.getByLabel("Place where people can touch").selectOption("dry");
  await panel.getByRole("button", { name: "Insert it as a budget" }).click();
  await panel.getByText(/^Inserted as a budget: Inputs, Feed/).waitFor();
}

function dangersOfFaults(warnings: Locator): Locator {
  return warnings
    .locator(".feed-finding")
    .filter({ hasText: "Danger" })
    .filter({ hasText: "Band after one fault" });
}

async function goToSheet(page: Page, name: string): Promise<void> {
  await page.locator("#sheet").getByText(name, { exact: true }).last().click();
}

function cellBeside(
  sheets: readonly SheetSnapshot[],
  sheet: string,
  label: string,
  column: string,
): string {
  const cells = sheets.find(({ name }) => name === sheet)?.cells ?? [];
  const row = cells.find(({ value }) => value === label)?.at.slice(1);
  assert.ok(row, `no ${label} on ${sheet}`);
  return `${column}${row}`;
}

/** Of the first stage: the column of the block that holds the word. */
function isolationAt(sheets: readonly SheetSnapshot[]): string {
  const cells = sheets.find(({ name }) => name === "Feed")?.cells ?? [];
  const found = cells.find(({ value }) => value === "none");
  assert.ok(found, "no isolation on Feed");
  return found.at;
}

/** Of the only location. */
function accessAt(sheets: readonly SheetSnapshot[]): string {
  const cells = sheets.find(({ name }) => name === "Types")?.cells ?? [];
  const [site, header] = ["Site", "Access"].map((text) =>
    cells.find(({ value }) => value === text),
  );
  assert.ok(site && header, "no access on Types");
  return header.at.replace(/\d+/, "") + site.at.replace(/\D+/, "");
}

function valueAt(sheets: readonly SheetSnapshot[], sheet: string, address: string) {
  const cells = sheets.find(({ name }) => name === sheet)?.cells ?? [];
  return cells.find(({ at }) => at === address)?.value;
}

/** Until the browser has kept the workbook with the text in it. */
async function kept(page: Page, text: string): Promise<void> {
  await page.waitForFunction(
    (wanted) =>
      new Promise<boolean>((done) => {
        const request = indexedDB.open("downfeed");
        request.onsuccess = () => {
          const current = request.result
            .transaction("workbooks")
            .objectStore("workbooks")
            .get("current");
          current.onsuccess = () => {
            request.result.close();
            done(String(current.result).includes(wanted));
          };
        };
      }),
    text,
  );
}

describe("a sitting at the workbench", () => {
  it("goes from an empty workbook by a picked candidate to a budget that is saved and there again", async () => {
    const opened: OpenedPage = await openWorkbenchPage(browser, dist);
    const { page } = opened;
    await openEmpty(page);
    const before = await view(page, "Warnings");
    await before.getByText(/no .*budget in this workbook/i).waitFor();

    const name = await pickCandidate(page);
    await insertCandidate(page);

    // Its warnings: nothing was said of isolation, so a fault lets the supply through.
    const warnings = await view(page, "Warnings");
    await warnings.getByRole("heading", { name: /Candidate/ }).waitFor();
    const dangers = dangersOfFaults(warnings);
    await dangers.first().waitFor();
    const all = await warnings.locator(".feed-finding").count();
    const first = (await savedWorkbook(page)).sheets;
    const isolation = isolationAt(first);
    assert.equal(valueAt(first, "Feed", isolation), "none");

    // Mended on the sheet, and gone from the list.
    await goToSheet(page, "Feed");
    await typeInto(page, isolation, "reinforced");
    // What comes before the stage stays hazardous, and out of reach.
    await goToSheet(page, "Types");
    await typeInto(page, accessAt(first), "locked");
    await dangers.first().waitFor({ state: "detached" });
    assert.equal(await dangers.count(), 0);
    const left = await warnings.locator(".feed-finding").count();
    assert.ok(left < all, `${left} of ${all} are left`);

    // What is drawn says the sheet's own sums.
    const pictures = await view(page, "Pictures");
    const flow = pictures.getByRole("img", { name: /from the supply .* reach the loads/ }).first();
    await flow.waitFor();
    const told = ((await flow.getAttribute("aria-label")) ?? "").replace(/\s+/g, " ");

    const second = (await savedWorkbook(page)).sheets;
    const supplied = valueAt(second, "Budget", cellBeside(second, "Budget", "Supply power", "B"));
    assert.ok(told.includes(`${Number(supplied).toFixed(1)} W from the supply`), told);
    assert.deepEqual(second.map((sheet) => sheet.name).slice(0, 4), [
      "Sheet1",
      "Inputs",
      "Feed",
      "Loads",
    ]);
    assert.equal(valueAt(second, "Feed", isolation), "reinforced");
    assert.ok(
      String(valueAt(second, "Inputs", "A1")).includes(name),
      "the title does not say which candidate it is",
    );
    const closing = cellBeside(second, "Budget", "Closing error", "B");
    assert.ok(Math.abs(Number(valueAt(second, "Budget", closing))) < 1e-6);

    await kept(page, "reinforced");
    await page.reload();
    await settledPage(page);
    await page.locator("#bar [role=status]").filter({ hasText: "from last time" }).waitFor();
    const again = await view(page, "Warnings");
    await again.getByRole("heading", { name: /Candidate/ }).waitFor();
    assert.equal(await again.locator(".feed-finding").count(), left);
    assert.equal(await dangersOfFaults(again).count(), 0);
    assert.deepEqual((await savedWorkbook(page)).sheets, second);

    assert.deepEqual(opened.complaints, []);
    assert.deepEqual(opened.foreign, []);
    await page.context().close();
  }, 120_000);
});
