/** The page fits its window: the pane's width, the whole page for it, a window at twice its size, and the dark. */
import assert from "node:assert/strict";
import type { Page } from "playwright-core";
import { describe, it } from "vitest";
import { axeFaults } from "../helpers/axe-faults.js";
import { settledPage } from "../helpers/workbench-page.js";
import { workbenchSitting } from "../helpers/workbench-sitting.js";
import { goToCell, savedWorkbook } from "../helpers/workbench-sheet.js";

const sitting = workbenchSitting();

const boxOf = async (page: Page, selector: string) => {
  const box = await page.locator(selector).boundingBox();
  assert.ok(box);
  return box;
};
const paneWidth = async (page: Page) => (await boxOf(page, "#pane")).width;

describe("the width of the pane", () => {
  it("is moved by keys and by dragging, and remembered", async () => {
    const page = await sitting.open();
    const separator = page.getByRole("separator", { name: /^Width of the pane/ });
    assert.equal(await paneWidth(page), 360);
    await separator.focus();
    for (let press = 0; press < 3; press += 1) await page.keyboard.press("ArrowLeft");
    assert.equal(await paneWidth(page), 420);
    assert.equal(await separator.getAttribute("aria-valuenow"), "420");
    await page.reload();
    await settledPage(page);
    assert.equal(await paneWidth(page), 420);
    await separator.focus();
    await page.keyboard.press("Home");
    assert.equal(await paneWidth(page), 280);
    const line = await boxOf(page, "#separator");
    await page.mouse.move(line.x + 3, line.y + 300);
    await page.mouse.down();
    await page.mouse.move(line.x - 200, line.y + 300, { steps: 4 });
    await page.mouse.up();
    assert.ok(Math.abs((await paneWidth(page)) - 483) <= 5);
    await separator.focus();
    await page.keyboard.press("End");
    const sheet = await boxOf(page, "#sheet");
    assert.ok(sheet.width >= 272, String(sheet.width));
    await page.keyboard.press("Enter");
    assert.equal(await paneWidth(page), 360);
  }, 60_000);

  it("gives way in a narrower window and comes back in a wider one", async () => {
    const page = await sitting.goOn();
    await page.getByRole("separator").focus();
    await page.keyboard.press("End");
    const wide = await paneWidth(page);
    await page.setViewportSize({ width: 900, height: 700 });
    assert.ok((await paneWidth(page)) <= 620);
    await page.setViewportSize({ width: 1400, height: 900 });
    assert.equal(await paneWidth(page), wide);
    await page.getByRole("separator").press("Enter");
  }, 60_000);
});

describe("the whole page", () => {
  it("is the pane's for pictures and trade-offs, until the sheet has the keyboard", async () => {
    const page = await sitting.goOn();
    await page.getByRole("tab", { name: "Pictures" }).click();
    const drawing = page.getByRole("tabpanel", { name: "Pictures" }).getByRole("img").first();
    await drawing.waitFor();
    const before = (await drawing.boundingBox())!.width;
    const sheet = await boxOf(page, "#sheet");
    await page.getByRole("button", { name: "Use the whole page" }).click();
    assert.equal(await paneWidth(page), 1400);
    await page.waitForFunction(
      (narrow) => document.querySelector(".feed-picture svg")!.clientWidth > 1.7 * narrow,
      before,
    );
    // What lies under the pane is not to be seen through it.
    const on = await page.evaluate(() => document.elementFromPoint(300, 400)?.closest("#pane")?.id);
    assert.equal(on, "pane");
    assert.deepEqual(await axeFaults(page, ".workbench-pane, .workbench-separator"), []);
    await page.getByRole("button", { name: "Back beside the sheet" }).click();
    assert.equal(await paneWidth(page), 360);
    await page.getByRole("button", { name: "Use the whole page" }).click();
    await page.keyboard.press("Shift+F6");
    await page.getByRole("button", { name: "Use the whole page" }).waitFor();
    assert.deepEqual(await boxOf(page, "#sheet"), sheet);
  }, 60_000);
});

/** The row and column of the cell at a place of the sheet, by clicking there. */
async function cellAt(page: Page, x: number, y: number) {
  await page.mouse.click(x, y);
  const name = await page.locator("#grid input").first().inputValue();
  const [, column = "", row = ""] = /^([A-Z]+)(\d+)/.exec(name) ?? [];
  return { column, row: Number(row) };
}

describe("a window at twice its size", () => {
  // 1400 by 900 px at 200 %.
  const twice = workbenchSitting({ viewport: { width: 700, height: 450 }, deviceScaleFactor: 2 });

  it("shows more than one row under the frozen ones, and more than the frozen column", async () => {
    const page = await twice.open();
    const sheet = await boxOf(page, "#sheet");
    const lowest = await cellAt(page, sheet.x + 100, sheet.y + sheet.height - 60);
    assert.ok(lowest.row >= 8, String(lowest.row));
    await page.mouse.move(sheet.x + 200, sheet.y + 200);
    await page.mouse.wheel(400, 0);
    // Once it is scrolled.
    for (let tries = 20; ; tries -= 1) {
      const { column } = await cellAt(page, sheet.x + 200, sheet.y + 200);
      if (column !== "A") break;
      assert.ok(tries > 0, "only the frozen column is in sight");
    }
    const [first] = (await savedWorkbook(page)).sheets;
    assert.deepEqual(first?.frozen, { rows: 3, columns: 1 });
  }, 60_000);

  it("tells what went wrong where it is seen", async () => {
    const page = await twice.goOn();
    const [chooser] = await Promise.all([
      page.waitForEvent("filechooser"),
      page.getByRole("button", { name: "Open .xlsx" }).click(),
    ]);
    const buffer = Buffer.from("no workbook");
    await chooser.setFiles({ name: "notes.xlsx", mimeType: "application/zip", buffer });
    const fault = page.locator("#bar [role=alert]");
    await page.waitForFunction(
      () => document.querySelector("#bar [role=alert]")!.textContent !== "",
    );
    const { x, y, width, height } = (await fault.boundingBox())!;
    assert.ok(x >= 0 && x + width <= 700 && height > 10 && y + height < 225, `${x} ${y} ${width}`);
    await page.getByRole("button", { name: "Open the sample" }).focus();
    const last = (await page.getByRole("button", { name: "Open the sample" }).boundingBox())!;
    assert.ok(last.x + last.width <= 700);
  }, 60_000);

  it("leaves the sheets' tabs within reach", async () => {
    const page = await twice.goOn();
    await page.locator("#grid").getByRole("tab", { name: "Feed", exact: true }).click();
    await page
      .locator("#grid")
      .getByRole("tab", { name: "Feed", exact: true, selected: true })
      .waitFor();
  }, 60_000);
});

describe("the dark", () => {
  /** Of the sheet as it is seen, 0 to 255. */
  async function brightness(page: Page): Promise<number> {
    const png = await page.locator("#grid").screenshot();
    return page.evaluate(async (base64) => {
      const image = new Image();
      image.src = `data:image/png;base64,${base64}`;
      await image.decode();
      const pen = new OffscreenCanvas(image.width, image.height).getContext("2d")!;
      pen.drawImage(image, 0, 0);
      const { data } = pen.getImageData(0, 0, image.width, image.height);
      return (
        data.reduce((sum, part, at) => (at % 4 === 3 ? sum : sum + part), 0) / (0.75 * data.length)
      );
    }, png.toString("base64"));
  }

  async function seen(page: Page, isSo: (brightness: number) => boolean): Promise<void> {
    for (let tries = 20; !isSo(await brightness(page)); tries -= 1) {
      assert.ok(tries > 0, `brightness ${await brightness(page)}`);
      await page.waitForTimeout(200);
    }
  }

  it("is the sheet's too, and follows the system", async () => {
    const page = await sitting.goOn({ colorScheme: "dark" });
    await seen(page, (brightness) => brightness < 70);
    await page.emulateMedia({ colorScheme: "light" });
    await seen(page, (brightness) => brightness > 200);
    await page.emulateMedia({ colorScheme: "dark" });
    await seen(page, (brightness) => brightness < 70);
  }, 60_000);
});

/** How many frames the page asks for while the browser draws 60. */
const framesAskedFor = (page: Page) =>
  page.evaluate(async () => {
    const request = window.requestAnimationFrame.bind(window);
    let asked = 0;
    window.requestAnimationFrame = (callback) => {
      asked += 1;
      return request(callback);
    };
    for (let frame = 0; frame < 60; frame += 1) await new Promise(request);
    window.requestAnimationFrame = request;
    return asked;
  });

describe("a page that nobody touches", () => {
  it("draws no more than a blinking cursor, and draws again what is changed", async () => {
    const page = await sitting.open();
    await framesAskedFor(page);
    const idle = await framesAskedFor(page);
    assert.ok(idle <= 20, `${idle} of 60 frames`);
    const sheet = page.locator("#sheet canvas").first();
    const before = await sheet.screenshot();
    await goToCell(page, "B30");
    await framesAskedFor(page);
    assert.notDeepEqual(await sheet.screenshot(), before);
  });
});
