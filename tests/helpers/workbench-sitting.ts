/** The workbench for the tests of one file: opened cold once, and started anew in place for each test after that. */
import assert from "node:assert/strict";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll } from "vitest";
import { launchChromium } from "./chromium.js";
import {
  type OpenedPage,
  openWorkbenchPage,
  type ServedDist,
  serveDist,
  settledPage,
} from "./workbench-page.js";

/** What may be changed of a page that is open. */
export interface PageLook {
  readonly viewport?: { readonly width: number; readonly height: number };
  readonly colorScheme?: "light" | "dark";
  readonly forcedColors?: "active";
}

export interface WorkbenchSitting {
  readonly browser: () => Browser;
  /** What was heard of the page that the tests share. */
  readonly heard: () => OpenedPage;
  /** The sample as it is opened, and a pane that nobody has touched. */
  open(look?: PageLook): Promise<Page>;
  /** As the test before left it; undefined where there is none, or that test failed. */
  resume(look?: PageLook): Promise<Page | undefined>;
  /** As the test before left it, or else opened. */
  goOn(look?: PageLook): Promise<Page>;
  /** An empty workbook in the place of what is open. */
  openEmpty(): Promise<Page>;
  /** In a browser that has not seen the workbench; it is closed after the test. */
  openCold(
    options?: BrowserContextOptions,
    visit?: { readonly firstVisit: boolean },
  ): Promise<OpenedPage>;
  /** Until the next test starts. */
  style(page: Page, content: string): Promise<void>;
}

const USUAL = { width: 1400, height: 900 };

/**
 * To be called outside of any test, once for pages of one kind. After each test, neither page nor console may have
 * complained.
 */
export function workbenchSitting(context: BrowserContextOptions = {}): WorkbenchSitting {
  let browser: Browser;
  let dist: ServedDist;
  let kept: OpenedPage | undefined;
  let cold: OpenedPage | undefined;
  let used: { readonly opened: OpenedPage; readonly before: number } | undefined;

  beforeAll(async () => {
    dist = await serveDist();
    browser = await launchChromium();
  }, 240_000);
  afterAll(async () => {
    await browser.close();
    await dist.close();
  });
  afterEach(async ({ task }) => {
    const { opened, before = 0 } = used ?? {};
    const { complaints = [], foreign = [] } = opened ?? {};
    const isFaulty = task.result?.state === "fail" || complaints.length > before;
    used = undefined;
    await cold?.page.context().close();
    cold = undefined;
    if (isFaulty) {
      await kept?.page.context().close();
      kept = undefined;
    }
    assert.deepEqual(complaints.slice(before), []);
    assert.deepEqual(foreign, []);
  });

  async function show(opened: OpenedPage, look: PageLook = {}): Promise<void> {
    const { page, complaints } = opened;
    used = { opened, before: complaints.length };
    await page.evaluate(() => {
      for (const tag of document.querySelectorAll("style.of-test")) tag.remove();
    });
    await page.setViewportSize(look.viewport ?? context.viewport ?? USUAL);
    await page.emulateMedia({
      colorScheme: look.colorScheme ?? "light",
      forcedColors: look.forcedColors ?? "none",
    });
  }

  async function open(look?: PageLook): Promise<Page> {
    const isOpen = kept !== undefined;
    kept ??= await openWorkbenchPage(browser, dist, context);
    await show(kept, look);
    if (isOpen) await startAnew(kept.page);
    // What the page said while it was opened cold is of the first test.
    else used = { opened: kept, before: 0 };
    return kept.page;
  }

  async function resume(look?: PageLook): Promise<Page | undefined> {
    if (kept) await show(kept, look);
    return kept?.page;
  }

  const goOn = async (look?: PageLook) => (await resume(look)) ?? open(look);

  return {
    browser: () => browser,
    heard() {
      assert.ok(kept, "no page is open");
      return kept;
    },
    open,
    resume,
    goOn,
    async openEmpty() {
      const page = await goOn();
      await openEmptyWorkbook(page);
      return page;
    },
    async openCold(options = {}, visit = { firstVisit: false }) {
      cold = await openWorkbenchPage(browser, dist, options, visit);
      used = { opened: cold, before: 0 };
      return cold;
    },
    async style(page, content) {
      const style = await page.addStyleTag({ content });
      await style.evaluate((tag) => (tag as Element).setAttribute("class", "of-test"));
    },
  };
}

/** What is open is replaced, changed or not. */
export async function openEmptyWorkbook(page: Page): Promise<void> {
  const opened = page
    .locator("#bar [role=status]")
    .filter({ hasText: "An empty workbook is open" });
  await page.locator("#bar [role=status]").evaluate((said) => said.replaceChildren());
  await page.getByRole("button", { name: "Empty workbook", exact: true }).click();
  const replace = page.getByRole("button", { name: "Replace it", exact: true });
  await opened.or(replace).waitFor();
  if (!(await replace.isVisible())) return;
  await replace.click();
  await opened.waitFor();
}

/** As a user opens the sample in the place of what is open; the browser keeps nothing of it. */
async function startAnew(page: Page): Promise<void> {
  const status = page.locator("#bar [role=status]");
  await status.evaluate((said) => said.replaceChildren());
  await page.getByRole("button", { name: "Open the sample", exact: true }).click();
  await page.getByRole("button", { name: "Delete it", exact: true }).click();
  await status.filter({ hasText: "The sample is open" }).waitFor();
  await settledPage(page);
}
