/** Pages that the pane and Excel lead to: help for each function, and support. */
import assert from "node:assert/strict";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, it } from "vitest";
import { axeFaults } from "../helpers/axe-faults.js";
import { sharedWorkbench } from "../helpers/workbench-sitting.js";

describe("a page beside the pane", () => {
  let address: string;
  let page: Page;
  beforeAll(async () => {
    const { browser, dist } = await sharedWorkbench();
    ({ address } = dist);
    page = await browser.newPage();
  }, 240_000);
  afterAll(() => page.context().close());

  it.each(["support.html", "help/CONDUCTOR_DROP.html", "help/CHAIN_CHECKS.html"])(
    "has no fault that axe finds, light or dark: %s",
    async (file) => {
      await page.goto(`${address}${file}`);
      for (const colorScheme of ["light", "dark"] as const) {
        await page.emulateMedia({ colorScheme });
        assert.deepEqual(await axeFaults(page), [], colorScheme);
      }
    },
  );
});
