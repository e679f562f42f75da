/** Pages that the pane and Excel lead to: help for each function, and support. */
import assert from "node:assert/strict";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, it } from "vitest";
import { axeFaults } from "../helpers/axe-faults.js";
import { launchChromium } from "../helpers/chromium.js";
import { type ServedDist, serveDist } from "../helpers/workbench-page.js";

describe("a page beside the pane", () => {
  let dist: ServedDist;
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    dist = await serveDist();
    browser = await launchChromium();
    page = await browser.newPage();
  }, 240_000);
  afterAll(async () => {
    await browser.close();
    await dist.close();
  });

  it.each(["support.html", "help/CONDUCTOR_DROP.html", "help/CHAIN_CHECKS.html"])(
    "has no fault that axe finds, light or dark: %s",
    async (file) => {
      await page.goto(`${dist.address}${file}`);
      for (const colorScheme of ["light", "dark"] as const) {
        await page.emulateMedia({ colorScheme });
        assert.deepEqual(await axeFaults(page), [], colorScheme);
      }
    },
  );
});
