/** How the add-in's page comes to its pane, or says why it does not, and how it looks beside the sheet. */
import assert from "node:assert/strict";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, it } from "vitest";
import { launchChromium } from "../helpers/chromium.js";
import {
  bundleExcelPage,
  openPaneInExcel,
  type PaneInExcel,
  type Reception,
} from "./pane-in-excel.js";

let browser: Browser;
let files: ReadonlyMap<string, string>;
let pane: PaneInExcel;
let page: Page;

beforeAll(async () => {
  [browser, files] = await Promise.all([launchChromium(), bundleExcelPage()]);
}, 60_000);

afterAll(() => browser.close());
afterEach(() => page.close());

async function open(reception: Reception, options: BrowserContextOptions = {}): Promise<void> {
  pane = await openPaneInExcel(browser, files, { reception, ...options });
  page = pane.page;
}

const notice = () => page.getByRole("alert").filter({ has: page.getByRole("heading") });
const isThere = () => page.waitForSelector(".feed-answer-place:not(:empty)");

describe("the page of the add-in", () => {
  it("waits for an Excel that is slow to answer, and says so", async () => {
    await open({ readyAfter: 12_000 });
    await notice().getByText("Still waiting for Excel").waitFor({ timeout: 11_500 });
    await notice().getByRole("button", { name: "Reload the pane" }).waitFor();
    await isThere();
    assert.equal(await notice().count(), 0);
  }, 60_000);

  it("can be loaded anew, and leads to the workbench in another window", async () => {
    await open({ host: null });
    assert.match(await notice().innerText(), /Upload My Add-in/);
    assert.match(await notice().innerText(), /Ctrl\+F5/);
    // The page keeps the cell functions: nothing may take its place.
    const link = notice().getByRole("link");
    assert.equal(await link.getAttribute("target"), "_blank");
    assert.equal(await link.getAttribute("rel"), "noopener");
    await page.evaluate(() => Object.assign(globalThis, { isOld: true }));
    await notice().getByRole("button", { name: "Reload the pane" }).click();
    await page.waitForFunction(() => !("isOld" in globalThis));
    await notice().waitFor();
  }, 60_000);
});

describe("the pane beside a sheet", () => {
  const LIGHT = "rgb(251, 251, 249)";
  const DARK = "rgb(25, 30, 29)";

  /** Ground of the page and of the pane, the browser's own colours, and whether the pane fills the page. */
  const look = () =>
    page.evaluate(() => {
      const own = document.querySelector(".feed-pane")!;
      return {
        page: getComputedStyle(document.body).backgroundColor,
        pane: getComputedStyle(own).backgroundColor,
        scheme: getComputedStyle(document.documentElement).colorScheme,
        fills: own.getBoundingClientRect().height >= innerHeight,
      };
    });
  const all = (colour: string, scheme: string) => ({
    page: colour,
    pane: colour,
    scheme,
    fills: true,
  });

  const themes = [
    ["light in a light Excel, whatever the system is", "#FFFFFF", "dark", all(LIGHT, "light")],
    ["dark in a dark Excel, whatever the system is", "#262626", "light", all(DARK, "dark")],
    ["light in Excel on the web, which tells no theme", undefined, "dark", all(LIGHT, "light")],
  ] as const;
  it.each(themes)("is %s", async (_, ground, colorScheme, expected) => {
    await open({ ...(ground && { ground }) }, { colorScheme });
    await isThere();
    assert.deepEqual(await look(), expected);
  });

  it("follows a theme that becomes another one when its user comes back to it", async () => {
    await open({ ground: "#FFFFFF" });
    await isThere();
    await pane.setGround("#262626");
    await page.evaluate(() => dispatchEvent(new Event("focus")));
    assert.deepEqual(await look(), all(DARK, "dark"));
    await pane.show(false);
    await pane.setGround("#FFFFFF");
    await pane.show(true);
    assert.deepEqual(await look(), all(LIGHT, "light"));
  });
});
