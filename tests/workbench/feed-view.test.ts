/** A feed of one's own, entered and changed in the pane alone; its figures are those of the feed that is typed on the sheets. */
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, it } from "vitest";
import { type BlockName, BLOCKS, headerText } from "../../src/schedules/columns.js";
import { OWN_ASKED, OWN_SCHEDULES, type Typed } from "../feeds/own-feed.js";
import { launchChromium } from "../helpers/chromium.js";
import {
  openWorkbenchPage,
  type OpenedPage,
  type ServedDist,
  serveDist,
} from "../helpers/workbench-page.js";

let browser: Browser;
let dist: ServedDist;
let opened: OpenedPage;
let page: Page;

beforeAll(async () => {
  dist = await serveDist();
  browser = await launchChromium();
  opened = await openWorkbenchPage(browser, dist);
  ({ page } = opened);
  page.setDefaultTimeout(30_000);
}, 240_000);
afterAll(async () => {
  await browser.close();
  await dist.close();
});

const panel = () => page.getByRole("tabpanel", { name: "Feed" });
const item = (name: string) =>
  panel()
    .getByRole("treeitem")
    .filter({ has: page.getByText(name, { exact: true }) });
const press = (name: string) => panel().getByRole("button", { name, exact: true }).click();
const names = () => panel().locator(".feed-outline-name").allInnerTexts();
const depthOf = async (name: string) => Number(await item(name).getAttribute("aria-level"));
const told = (text: string | RegExp) => panel().getByText(text).first().waitFor();

/** Fills the fields of a row's form; columns that are not open at once are behind one more press. */
async function fill(form: Locator, block: BlockName, typed: Typed): Promise<void> {
  for (const [header, text] of Object.entries(typed)) {
    const column = BLOCKS[block].find((one) => headerText(one) === header);
    const field = form.getByLabel(column ? header : block, { exact: true });
    if (!(await field.isVisible())) await form.locator("summary").click();
    if ((await field.evaluate((each) => each.tagName)) === "SELECT") await field.selectOption(text);
    else await field.fill(text);
  }
}

async function add(block: BlockName, typed: Typed): Promise<void> {
  const name = typed[block]!;
  await item(typed["Fed from"]!).click();
  await press(block);
  await fill(panel().getByRole("form"), block, typed);
  await press("Write to the sheet");
  await told(`${name} is in ${block} on `);
  await item(name).waitFor();
}

const rowsOf = (block: BlockName) =>
  OWN_SCHEDULES.find(([, name]) => name === block)![2] as readonly Typed[];

describe("the feed in the pane", () => {
  it("is entered without a key on the sheet", async () => {
    const begun = Date.now();
    await press("New feed");
    const form = panel().getByRole("form", { name: "New feed" });
    const figures = {
      "Name of the feed": "Trackside hut 7",
      "Supply voltage, nominal (V)": "750",
      "Lowest (V)": "500",
      "Highest (V)": "900",
      "Coldest air (°C)": "-25",
      "Hottest air (°C)": "55",
      "Altitude (m)": "1500",
    };
    for (const [label, text] of Object.entries(figures)) await form.getByLabel(label).fill(text);
    await form.getByLabel("Voltage bands of").selectOption(OWN_ASKED["Framework"]!);
    await form.getByLabel("Where people can touch it").selectOption(OWN_ASKED["Place"]!);
    await press("Create its sheets");
    await told(/^The feed is on the sheets /);

    // The place and the types that many items name.
    await panel().locator("summary", { hasText: "Places and stage types" }).click();
    await press("Change Everywhere");
    await fill(panel().getByRole("form"), "Location", rowsOf("Location")[0]!);
    await press("Write to the sheet");
    await told("Trackside is in Location on ");
    for (const typed of rowsOf("Stage type")) {
      await press("Add a stage type");
      await fill(panel().getByRole("form"), "Stage type", typed);
      await press("Write to the sheet");
      await told(`${typed["Stage type"]!} is in Stage type on `);
    }

    // The supply stands there already.
    await item("Supply").click();
    await press("Change its figures");
    await fill(panel().getByRole("form"), "Supply", rowsOf("Supply")[0]!);
    await press("Write to the sheet");
    await item("Substation").waitFor();

    const items = (["In line", "Cable", "Stage", "Load"] as const).flatMap((block) =>
      rowsOf(block).map((typed) => ({ block, typed })),
    );
    while (items.length > 0) {
      const there = await names();
      const next = items.findIndex(({ typed }) => there.includes(typed["Fed from"]!));
      const [{ block, typed }] = items.splice(next, 1) as [(typeof items)[number]];
      await add(block, typed);
    }
    await panel().locator("summary", { hasText: "What is asked for" }).click();
    const asked = panel().getByRole("form", { name: "What is asked for" });
    for (const [label, text] of Object.entries(OWN_ASKED)) {
      const field = asked.getByLabel(label, { exact: true });
      if ((await field.evaluate((each) => each.tagName)) === "SELECT")
        await field.selectOption(text);
      else await field.fill(text);
    }
    await asked.getByRole("button", { name: "Write to the sheet" }).click();
    await told(/^What is asked for is written on /);
    console.log(`entered in the pane in ${Math.round((Date.now() - begun) / 1000)} s`);

    assert.equal((await names()).length, 12);
    // As worked out by hand in the test of the sheets: 1.2 · (150 + 16) W at 24 V, and its losses.
    const losses = 2 + 0.1 * 8.3 + 0.02 * 8.3 ** 2;
    const figure = await item("24 V stage").locator(".feed-outline-figures").innerText();
    const watts = Number(/([\d.]+)\s*W$/.exec(figure)?.[1]);
    assert.ok(Math.abs(watts - (1.2 * 166 + losses)) < 0.1, figure);
    assert.match(await item("24 V stage").innerText(), /✖ \d+ fail/);
    mkdirSync(".cache/pictures", { recursive: true });
    await page.screenshot({ path: ".cache/pictures/feed-view.png" });
    assert.deepEqual(opened.complaints, []);
  }, 400_000);

  it("is walked and changed by keys alone, each change one undo step", async () => {
    await item("Substation").click();
    await page.keyboard.press("End");
    await page.keyboard.press("Home");
    await page.keyboard.press("ArrowRight");
    assert.equal(await focusedItem(), "Track fuse");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowLeft");
    assert.equal(await focusedItem(), "Track fuse");

    // Renamed: what it feeds follows.
    const before = await names();
    await page.keyboard.press("F2");
    await panel().getByLabel("New name of Track fuse").waitFor();
    await page.keyboard.type("Hut fuse");
    await page.keyboard.press("Enter");
    await told("Track fuse is called Hut fuse now");
    assert.equal(await depthOf("Trackside cable"), 3);
    await undoOnSheet();
    await item("Track fuse").waitFor();
    assert.deepEqual(await names(), before);

    // Fed from elsewhere.
    await item("Heater").click();
    await press("Feed from elsewhere");
    await page.keyboard.type("24 V stage");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await told("Heater is fed from 24 V stage now.");
    assert.equal(await depthOf("Heater"), (await depthOf("24 V stage")) + 1);
    await undoOnSheet();
    await page.waitForFunction(() => document.querySelectorAll('[role="treeitem"]').length === 12);

    // Once more with all that hangs on it.
    await item("24 V stage").click();
    await press("Duplicate with what it feeds");
    await told("24 V stage and what it feeds are copied, as 24 V stage 2.");
    assert.equal((await names()).length, 15);
    await undoOnSheet();
    await page.waitForFunction(() => document.querySelectorAll('[role="treeitem"]').length === 12);

    // Taken out, with and without what it feeds.
    await item("5 V stage").click();
    await page.keyboard.press("Delete");
    await panel().getByRole("alertdialog").getByText("5 V stage feeds 2 other items").waitFor();
    await page.keyboard.press("Escape");
    assert.equal((await names()).length, 12);
    await item("5 V stage").click();
    await page.keyboard.press("Delete");
    await press("Feed them from Bus units");
    await told("Removed: 5 V stage.");
    assert.equal(await depthOf("Radio"), await depthOf("24 V stage"));
    await undoOnSheet();
    await item("5 V stage").waitFor();
    assert.deepEqual(await names(), before);

    // Enter goes to the row on the sheet.
    await item("Radio").click();
    await page.keyboard.press("Enter");
    await page.waitForFunction(() =>
      document.querySelector<HTMLInputElement>("#sheet input")?.value.startsWith("A"),
    );
    assert.deepEqual(opened.complaints, []);
  }, 240_000);
});

const focusedItem = () =>
  page.evaluate(
    () => document.activeElement?.querySelector(".feed-outline-name")?.textContent ?? "",
  );

/** As a user does: on the sheet. */
async function undoOnSheet(): Promise<void> {
  await page.mouse.click(400, 500);
  await page.keyboard.press("Control+z");
}
