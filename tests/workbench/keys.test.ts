import assert from "node:assert/strict";
import type { Page } from "playwright-core";
import { beforeEach, describe, it } from "vitest";
import { workbenchSitting } from "../helpers/workbench-sitting.js";
import { assertInBox, goToCell, savedWorkbook, typeInto } from "../helpers/workbench-sheet.js";

const sitting = workbenchSitting();
let page: Page;

beforeEach(async () => {
  page = await sitting.goOn();
});

async function showsSheet(name: string): Promise<void> {
  await page.locator("#grid").getByRole("tab", { name, exact: true, selected: true }).waitFor();
}

async function valueOf(sheet: string, at: string): Promise<unknown> {
  const { sheets } = await savedWorkbook(page);
  return sheets.find(({ name }) => name === sheet)?.cells.find((cell) => cell.at === at)?.value;
}

async function inSheet(name: string, at: string): Promise<void> {
  await page.locator("#grid").getByRole("tab", { name, exact: true }).click();
  await goToCell(page, at);
}

describe("a refused entry", () => {
  it("stays in its cell to be mended by the keyboard alone", async () => {
    await inSheet("Inputs", "B19");
    await page.keyboard.type("peaky");
    await page.keyboard.press("Enter");
    const refusal = page.getByRole("dialog").filter({ hasText: "Loads: one of" });
    await refusal.waitFor();
    await page.keyboard.press("Enter");
    await refusal.waitFor({ state: "detached" });
    await page.keyboard.press("Backspace");
    await page.keyboard.press("Enter");
    await assertInBox(page, "B20");
    assert.equal(await valueOf("Inputs", "B19"), "peak");
  });

  it("is given up by Escape, and the keyboard goes on", async () => {
    await inSheet("Inputs", "B19");
    await page.keyboard.type("none of them");
    await page.keyboard.press("Enter");
    const refusal = page.getByRole("dialog").filter({ hasText: "Loads: one of" });
    await refusal.waitFor();
    await page.keyboard.press("Enter");
    await refusal.waitFor({ state: "detached" });
    await page.keyboard.press("Escape");
    await assertInBox(page, "B19");
    await page.keyboard.press("ArrowDown");
    await assertInBox(page, "B20");
    assert.equal(await valueOf("Inputs", "B19"), "peak");
  });
});

describe("keys in the sheet", () => {
  it.each(["Control+", "Control+Shift+"])("change sheets: %sPageDown and PageUp", async (held) => {
    await inSheet("Inputs", "B6");
    await page.keyboard.press(`${held}PageUp`);
    await showsSheet("Inputs");
    await page.keyboard.press(`${held}PageDown`);
    await showsSheet("Feed");
    await page.keyboard.press(`${held}PageDown`);
    await showsSheet("Loads");
    await page.keyboard.press(`${held}PageUp`);
    await showsSheet("Feed");
  });

  it("take what is being typed before the sheet changes", async () => {
    await inSheet("Inputs", "B6");
    await page.keyboard.type("Ridge road");
    await page.keyboard.press("Control+PageDown");
    await showsSheet("Feed");
    assert.equal(await valueOf("Inputs", "B6"), "Ridge road");
  });

  it("go to the start of the row and of the sheet", async () => {
    await inSheet("Inputs", "D26");
    await page.keyboard.press("Home");
    await assertInBox(page, "A26");
    await goToCell(page, "D26");
    await page.keyboard.press("Control+Home");
    await assertInBox(page, "A1");
  });

  it("open the list of a cell, walk it, choose from it and leave it", async () => {
    await inSheet("Loads", "D6");
    const list = page.locator('[data-u-comp="sheets-dropdown-list"]');
    const focused = () => page.evaluate(() => document.activeElement?.textContent);
    await page.keyboard.press("Alt+ArrowDown");
    await list.waitFor();
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowDown");
    assert.equal(await focused(), "current");
    await page.keyboard.press("Escape");
    await list.waitFor({ state: "detached" });
    assert.equal(await valueOf("Loads", "D6"), "power");
    await goToCell(page, "D6");
    await page.keyboard.press("Alt+ArrowDown");
    await list.waitFor();
    await page.keyboard.press("End");
    await page.keyboard.press("ArrowUp");
    const chosen = await focused();
    await page.keyboard.press("Enter");
    await list.waitFor({ state: "detached" });
    await page.keyboard.press("ArrowDown");
    await assertInBox(page, "D7");
    assert.equal(await valueOf("Loads", "D6"), chosen);
  });

  it("find a text, and put another in its place as one undo step", async () => {
    await inSheet("Loads", "A6");
    await page.keyboard.press("Control+h");
    await page.getByPlaceholder("Find in this Sheet").fill("Cameras and coolers");
    await page.getByPlaceholder("Input Replace String").fill("Cameras");
    await page.getByRole("button", { name: "Find", exact: true }).click();
    await page.getByRole("button", { name: "Replace All" }).click();
    await page.getByRole("button", { name: "OK", exact: true }).click();
    assert.equal(await valueOf("Loads", "A6"), "Cameras");
    await goToCell(page, "A6");
    await page.keyboard.press("Control+z");
    assert.equal(await valueOf("Loads", "A6"), "Cameras and coolers");
  });

  it("fill down", async () => {
    await inSheet("Notes", "J2");
    await typeInto(page, "J2", "=2*3");
    await goToCell(page, "J2:J4");
    await page.keyboard.press("Control+d");
    assert.equal(await valueOf("Notes", "J4"), 6);
  });

  it("save the workbook, from the sheet and from the pane, with what is being typed", async () => {
    await inSheet("Notes", "J6");
    await page.keyboard.type("saved as typed");
    const [file] = await Promise.all([
      page.waitForEvent("download"),
      page.keyboard.press("Control+s"),
    ]);
    assert.equal(file.suggestedFilename(), "Ridge-top observatory.xlsx");
    assert.equal(await valueOf("Notes", "J6"), "saved as typed");
    await goToCell(page, "J6");
    await page.keyboard.press("F6");
    await Promise.all([page.waitForEvent("download"), page.keyboard.press("Control+s")]);
  });
});

describe("F6", () => {
  const isIn = (where: string) =>
    page.waitForFunction((selector) => document.activeElement?.closest(selector) !== null, where);

  it("goes round the sheet, the pane, the bar and the tabs, and back with Shift", async () => {
    await inSheet("Inputs", "B6");
    const round = ["#pane", "#bar", "#grid [role=tablist]", "#grid [contenteditable]"];
    for (const where of round) {
      await page.keyboard.press("F6");
      await isIn(where);
    }
    await assertInBox(page, "B6");
    for (const where of ["#grid [role=tablist]", "#bar", "#pane", "#grid [contenteditable]"]) {
      await page.keyboard.press("Shift+F6");
      await isIn(where);
    }
  });

  it("reaches the tabs, where the arrows change the sheet and nothing is typed into a cell", async () => {
    await inSheet("Inputs", "B6");
    await page.keyboard.press("Shift+F6");
    await isIn("#grid [role=tablist]");
    await page.keyboard.press("ArrowRight");
    await showsSheet("Feed");
  });
});

describe("a sideways swipe over the sheet", () => {
  it("does not leave the page", async () => {
    assert.equal(
      await page.evaluate(() => getComputedStyle(document.documentElement).overscrollBehaviorX),
      "none",
    );
    await page.evaluate(() => history.pushState({}, "", "#later"));
    const sheet = await page.locator("#sheet").boundingBox();
    assert.ok(sheet);
    await page.mouse.move(sheet.x + 300, sheet.y + 300);
    for (let swipe = 0; swipe < 3; swipe += 1) await page.mouse.wheel(-600, 0);
    await page.mouse.move(sheet.x + 320, sheet.y + 320);
    assert.equal(await page.evaluate(() => location.hash), "#later");
  });
});
