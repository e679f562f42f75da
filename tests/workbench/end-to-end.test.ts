/**
 * One sitting at the workbench, as a proposal author has it: from an empty workbook to a saved budget that is there again
 * next time. Nothing is shown or stored but by what its user can press and type.
 */
import assert from "node:assert/strict";
import type { Locator, Page } from "playwright-core";
import { describe, it } from "vitest";
import type { SheetSnapshot } from "../../taskpane/hosts/files/workbook-snapshot.js";
import { settledPage } from "../helpers/workbench-page.js";
import { openEmptyWorkbook, workbenchSitting } from "../helpers/workbench-sitting.js";
import { savedWorkbook } from "../helpers/workbench-sheet.js";

const SAMPLE = "Ridge-top observatory";

const sitting = workbenchSitting();

async function view(page: Page, name: string): Promise<Locator> {
  await page.getByRole("tab", { name }).click();
  return page.getByRole("tabpanel", { name });
}

/** A larger size of the long cable beside its own: searched, chosen and written into the schedules. */
async function chooseCable(page: Page): Promise<void> {
  const panel = await view(page, "Trade-offs");
  const name = "Size of Cable to the summit";
  await panel.getByLabel("Figure", { exact: true }).selectOption(name);
  await panel.getByRole("button", { name: "Add", exact: true }).click();
  const mark = panel.getByRole("group", { name });
  const typed = {
    Size: "6 mm²",
    "Outer diameter (mm)": "13.5",
    "Rated A": "32",
    "Core spacing (mm)": "4.8",
    "Mass (kg/m)": "0.25",
    "Price per m": "12.5",
  };
  for (const [header, text] of Object.entries(typed))
    await mark.getByLabel(`${header}, choice 2`, { exact: true }).fill(text);
  await panel.getByRole("button", { name: "Search", exact: true }).click();
  await panel.locator("tbody").getByRole("button", { name: "6 mm²", exact: true }).click();
  const chosen = panel.getByRole("region", { name: "Chosen combination" });
  await chosen.getByRole("button", { name: "Write into the schedules" }).click();
  await chosen.getByText("6 mm² is in the schedules.").waitFor();
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
  it("goes from an empty workbook by a sample and a chosen cable to a budget that is saved and there again", async () => {
    const page = await sitting.open();
    await openEmptyWorkbook(page);
    const warnings = await view(page, "Warnings");
    await warnings.getByText(/no .*budget in this workbook/i).waitFor();

    await (await view(page, "Insert")).getByRole("radio", { name: SAMPLE }).check();
    await page.getByRole("button", { name: "Insert the budget" }).click();
    await page.getByText(`Inserted “${SAMPLE}” on`).waitFor();
    await view(page, "Warnings");
    await warnings.getByRole("heading", { name: SAMPLE }).waitFor();
    const findings = warnings.locator(".feed-finding");
    await findings.first().waitFor();
    const all = await findings.count();

    await chooseCable(page);
    await view(page, "Warnings");
    // The cable dropped too much.
    await page.waitForFunction(
      (before) => document.querySelectorAll(".feed-finding").length < before,
      all,
    );
    const left = await findings.count();
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
    const size = second
      .find(({ name }) => name === "Feed")
      ?.cells.filter(({ value }) => value === "6 mm²");
    assert.equal(size?.length, 1);
    const closing = cellBeside(second, "Budget", "Closing error", "B");
    assert.ok(Math.abs(Number(valueAt(second, "Budget", closing))) < 1e-6);

    await kept(page, "6 mm²");
    await page.reload();
    await settledPage(page);
    await page.locator("#bar [role=status]").filter({ hasText: "from last time" }).waitFor();
    const again = await view(page, "Warnings");
    await again.getByRole("heading", { name: SAMPLE }).waitFor();
    assert.equal(await again.locator(".feed-finding").count(), left);
    assert.deepEqual((await savedWorkbook(page)).sheets, second);
  }, 120_000);
});
