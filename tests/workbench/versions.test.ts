/** A version is kept, a size in it changed, both are held against each other, and all is taken back. */
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, it } from "vitest";
import { budgets } from "../../taskpane/budgets/budgets.js";
import { axeFaults } from "../helpers/axe-faults.js";
import { workbenchSitting } from "../helpers/workbench-sitting.js";
import { goToCell, savedWorkbook, sheetTab, typeInto } from "../helpers/workbench-sheet.js";

const sitting = workbenchSitting();
mkdirSync(".cache/pictures", { recursive: true });

const feed = budgets[0]?.sheets.find(({ key }) => key === "feed");
const sizeCell = feed?.cells.find(({ value }) => value === "4 mm²")?.at;
assert.ok(sizeCell, "the sample has its cable on Feed");

/** Texts and numbers of a sheet by their cells. */
async function cellsOf(page: Page, name: string) {
  const { sheets } = await savedWorkbook(page);
  const sheet = sheets.find((one) => one.name === name);
  assert.ok(sheet, `no sheet ${name}`);
  return new Map(sheet.cells.map(({ at, value }) => [at, value]));
}

/** The cells of the row that begins with an item and a figure: A, B, difference, relative, unit, verdict. */
async function comparedRow(page: Page, item: string, figure: string) {
  const cells = await cellsOf(page, "Compare");
  const row = [...cells.keys()].find(
    (at) => /^A\d/.test(at) && cells.get(at) === item && cells.get(`B${at.slice(1)}`) === figure,
  );
  assert.ok(row, `no ${figure} of ${item}`);
  return [..."CDEFGH"].map((column) => cells.get(`${column}${row.slice(1)}`));
}

async function assertAccessible(page: Page): Promise<void> {
  assert.deepEqual(await axeFaults(page, ".feed-pane"), []);
}

describe("versions of a feed", () => {
  it("are kept, changed, held against each other on a sheet and in a picture, and taken back", async () => {
    const page = await sitting.open({ viewport: { width: 1500, height: 1000 } });
    await sitting.style(page, ".workbench { --workbench-pane-width: 350px !important }");
    const before = (await savedWorkbook(page)).sheets.map(({ name }) => name);
    await page.getByRole("tab", { name: "Hand over" }).click();
    const panel = page.getByRole("tabpanel", { name: "Hand over" });
    await panel.getByRole("button", { name: "Keep this version" }).press("Enter");
    const title = panel.getByLabel("Title of the version");
    assert.equal(await title.inputValue(), "Ridge-top observatory, version 2");
    await title.fill("ridge-top observatory");
    await page.keyboard.press("Enter");
    await panel.getByText("there is a budget called ridge-top observatory already").waitFor();
    await page.screenshot({ path: ".cache/pictures/versions-keep.png" });
    await assertAccessible(page);
    await title.fill("Option B, 6 mm²");
    await page.keyboard.press("Enter");
    await panel.getByText("“Option B, 6 mm²” is a budget of its own on Inputs 2").waitFor();
    await sheetTab(page, "Inputs 2").waitFor();

    await panel.getByRole("button", { name: "Go to Inputs 2" }).click();
    await page.locator("#grid").getByRole("tab", { name: "Inputs 2", selected: true }).waitFor();
    await sheetTab(page, "Feed 2").click();
    await typeInto(page, sizeCell, "6 mm²");

    await panel.getByRole("button", { name: "Compare on a new sheet" }).click();
    await panel.getByText("The comparison is on sheet Compare.").waitFor();
    await assertAccessible(page);
    await panel.getByRole("button", { name: "Go to Compare" }).click();
    await page.locator("#grid").getByRole("tab", { name: "Compare", selected: true }).waitFor();
    const [inA, inB, difference, relative, unit, verdict] = await comparedRow(
      page,
      "Cable to the summit",
      "Loss W",
    );
    const [, amperes] = await comparedRow(page, "Cable to the summit", "Input A");
    // IEC 60228 class 2, 6 mm²: 3.08 Ω/km at 20 °C; 350 m out and back, at 40 °C (0.00393 per kelvin).
    const ohms = 3.08 * 0.7 * (1 + 0.00393 * 20);
    assert.ok(Math.abs(Number(inB) - Number(amperes) ** 2 * ohms) < 0.01, String(inB));
    assert.ok(Number(inB) < Number(inA));
    assert.ok(Math.abs(Number(difference) - (Number(inB) - Number(inA))) < 1e-9);
    assert.ok(Math.abs(Number(relative) - Number(difference) / Number(inA)) < 1e-9);
    assert.deepEqual([unit, verdict], ["W", "better"]);
    const whole = await comparedRow(page, "Whole feed", "Highest loss");
    assert.equal(whole.at(-1), "better");
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      await page.screenshot({ path: `.cache/pictures/versions-sheet-${colorScheme}.png` });
    }

    await page.getByRole("tab", { name: "Pictures" }).click();
    const picture = page.getByRole("region", { name: /^Two versions: A Ridge-top observatory/ });
    await picture.scrollIntoViewIfNeeded();
    await picture.getByText(/Highest loss .* → /).waitFor();
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      await picture.screenshot({ path: `.cache/pictures/versions-picture-${colorScheme}.png` });
    }

    await goToCell(page, "A1");
    for (let step = 0; step < 3; step += 1) await page.keyboard.press("Control+z");
    await sheetTab(page, "Feed 2").waitFor({ state: "detached" });
    assert.deepEqual(
      (await savedWorkbook(page)).sheets.map(({ name }) => name),
      before,
    );
  }, 240_000);
});
