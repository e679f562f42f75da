import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";
import { describe, it } from "vitest";
import { rangePlace, cellAddress, cellPlace } from "../../src/plans/addresses.js";
import { tablePlace } from "../../src/schedules/columns.js";
import { readXlsx } from "../../taskpane/hosts/files/read/xlsx-reader.js";
import { budgets } from "../../taskpane/budgets/budgets.js";
import { axeFaults } from "../helpers/axe-faults.js";
import { workbenchSitting } from "../helpers/workbench-sitting.js";
import { goToCell, sheetTab } from "../helpers/workbench-sheet.js";

const sitting = workbenchSitting();

/** Where CHAIN_TABLE spills, which works out each cable's resistance. */
const table = budgets[0]?.sheets.find(({ key }) => key === "table");
const anchor = table?.cells.find(({ spill }) => spill)?.at;
assert.ok(table && anchor);
const CABLE_ROW = 3;
const resistanceAt = cellAddress({
  row: cellPlace(anchor).row + CABLE_ROW,
  column: tablePlace("resistance"),
});

async function acceptStoredEnergy(page: Page): Promise<void> {
  await page.getByRole("tab", { name: /Warnings/ }).click();
  const finding = page.locator(".feed-finding").filter({ hasText: "Stored energy" });
  await finding.getByRole("button", { name: /^Accept Stored energy/ }).click();
  await finding.getByLabel(/reason, for the reviewer$/).fill("locked cabinet");
  await finding.getByLabel("Accepted by (optional)").fill("R. Amsel");
  await finding.getByRole("button", { name: "Accept with this reason" }).click();
  await page.getByText("1 warning accepted with a reason").waitFor();
}

async function chooseWorking(page: Page): Promise<void> {
  await page.locator("#sheet").getByText("Table", { exact: true }).click();
  await goToCell(page, resistanceAt);
  await page.getByRole("tab", { name: "Working" }).click();
  await page.getByRole("button", { name: "Add to the report" }).click();
}

async function picture(page: Page, name: string): Promise<void> {
  mkdirSync(".cache/pictures", { recursive: true });
  await page.screenshot({ path: `.cache/pictures/${name}.png` });
}

async function assertAccessible(page: Page): Promise<void> {
  assert.deepEqual(await axeFaults(page, ".feed-pane"), []);
}

describe("the working of a cell", () => {
  it("shows two nested calls and an expression argument step by step, leads to their cells, and lays them out", async () => {
    const page = await sitting.open();
    await goToCell(page, "H3");
    await page.keyboard.type("4");
    await page.keyboard.press("Enter");
    await goToCell(page, "H5");
    await page.keyboard.type(
      '=FEED.RATIO_OUTPUT(400-FEED.CONDUCTOR_DROP(H3+1,350,"4 mm²",40),1/8,H3*8,0.015)',
    );
    await page.keyboard.press("Enter");
    await goToCell(page, "H5");
    await page.getByRole("tab", { name: "Working" }).click();
    const panel = page.getByRole("tabpanel", { name: "Working" });
    await panel.getByText("an argument of the call that follows").waitFor();
    const words = await panel.innerText();
    // 4.61 Ω/km · 0.7 km · 1.0786 = 3.48065 Ω; times 5 A; 400 less that, over 8, less 32 A · 15 mΩ.
    for (const shown of [
      "FEED.CONDUCTOR_DROP(H3+1",
      "FEED.RATIO_OUTPUT(400-FEED.CONDUCTOR_DROP",
      "3.481",
      "17.4",
      "47.34",
      "IEC 60228",
    ])
      assert.ok(words.includes(shown), `${shown} in ${words}`);
    await picture(page, "working");
    await assertAccessible(page);

    await panel.getByRole("button", { name: "Lay out on a new sheet" }).click();
    await panel.getByText(/Laid out on Working/).waitFor();
    await page.getByText("Laid out on Working").waitFor();
    await picture(page, "laid-out");
  }, 60_000);

  it("is laid out beside what the sheet holds, calls no function there and comes to the same", async () => {
    const page = await sitting.goOn();
    await sheetTab(page, "Table").click();
    await goToCell(page, resistanceAt);
    await page.locator("#pane").getByRole("tab", { name: "Working" }).click();
    const panel = page.getByRole("tabpanel", { name: "Working" });
    await panel.getByText("IEC 60228").first().waitFor();
    await panel.getByRole("button", { name: /Lay out beside/ }).click();
    const told = panel.getByText(/Laid out in Table!/);
    await told.waitFor();
    await picture(page, "laid-out-beside");
    const [, address = ""] = /Table!([A-Z0-9:]+)/.exec(await told.innerText())!;
    const { left, bottom } = rangePlace(address);
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save as .xlsx" }).click(),
    ]);
    const { snapshot } = readXlsx(new Uint8Array(await readFile(await download.path())));
    const budget = snapshot.sheets.find(({ name }) => name === "Table");
    const laid = budget!.cells.filter(({ at }) => cellPlace(at).column >= left);
    assert.ok(laid.length > 60);
    assert.ok(laid.every(({ formula = "" }) => !formula.includes("FEED")));
    const last = laid.filter(({ at }) => cellPlace(at).row === bottom);
    assert.ok(last.some(({ value }) => value === "yes"));
    assert.ok(laid.every(({ value }) => value !== "no"));
  }, 60_000);

  it("says so where the cell holds no formula", async () => {
    const page = await sitting.goOn();
    await sheetTab(page, "Inputs").click();
    await page.locator("#pane").getByRole("tab", { name: "Working" }).click();
    const panel = page.getByRole("tabpanel", { name: "Working" });
    await goToCell(page, "B5");
    await panel.getByText("B5 holds no formula").waitFor();
  }, 60_000);
});

describe("handing a budget over", () => {
  it("copies it plainly, and reports it with chosen workings and what was accepted", async () => {
    const page = await sitting.open();
    await acceptStoredEnergy(page);
    await chooseWorking(page);
    await page.getByRole("tab", { name: "Hand over" }).click();
    const panel = page.getByRole("tabpanel", { name: "Hand over" });
    await panel.getByRole("button", { name: "Report" }).click();
    const link = panel.getByRole("link", { name: "Save it as a file" });
    await link.waitFor();
    const [tab] = await Promise.all([
      page.waitForEvent("popup"),
      panel.getByRole("link", { name: "Open the report" }).click(),
    ]);
    await tab.getByRole("heading", { level: 1, name: "Ridge-top observatory" }).waitFor();
    await tab.close();
    const [download] = await Promise.all([page.waitForEvent("download"), link.click()]);
    assert.equal(download.suggestedFilename(), "Ridge-top observatory report.html");
    const told = await readFile(await download.path(), "utf8");
    const report = await sitting.browser().newPage({
      viewport: { width: 1000, height: 1400 },
    });
    await report.setContent(told);
    for (const part of [
      "Single-line diagram",
      "Checks that do not hold",
      "Items solved",
      "Bands",
      "Every check",
      "Cautions",
      "Citations",
      "Ridge-top observatory",
      `Working of Table!${resistanceAt}`,
      "Accepted because: locked cabinet (R. Amsel, on ",
      "What to enter or try",
    ])
      assert.ok(told.includes(part), part);
    mkdirSync(".cache/pictures", { recursive: true });
    await report.screenshot({
      path: ".cache/pictures/report.png",
      fullPage: true,
    });
    await report.close();

    await panel.getByRole("button", { name: "Plain copy as a file" }).click();
    const [plain] = await Promise.all([
      page.waitForEvent("download"),
      panel.getByRole("link", { name: "Save the file" }).click(),
    ]);
    assert.equal(plain.suggestedFilename(), "Ridge-top observatory plain copy.xlsx");
    const file = readXlsx(new Uint8Array(await readFile(await plain.path())));
    assert.deepEqual(
      file.snapshot.sheets.slice(-2).map(({ name }) => name),
      ["Workings", "Inputs as they were"],
    );

    await panel.getByRole("button", { name: "Plain copy on new sheets" }).click();
    await panel
      .getByText(/is copied to/)
      .waitFor()
      .catch(async (error: unknown) => {
        const why = await page.locator(".feed-failure").innerText();
        throw new Error(`${why}; ${await panel.innerText()}`, { cause: error });
      });
    await picture(page, "plain-copy");
    await assertAccessible(page);
  }, 90_000);
});
