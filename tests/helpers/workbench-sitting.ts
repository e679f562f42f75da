/**
 * The workbench for the tests of one file: one page, started anew in place for each test. It is opened cold once, and
 * handed from file to file as it was then.
 */
import assert from "node:assert/strict";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, vi } from "vitest";
import { launchChromium } from "./chromium.js";
import {
  LONGEST_WAIT_MS,
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

/** For all files that a worker runs, one after the other; both end with their worker. */
export interface Shared {
  readonly browser: Browser;
  readonly dist: ServedDist;
}

let shared: Promise<Shared> | undefined;

/** Who takes a browser here closes what is opened in it, and leaves it open. */
export function sharedWorkbench(): Promise<Shared> {
  shared ??= (async () => {
    const dist = await serveDist();
    return { browser: await launchChromium(), dist };
  })();
  return shared;
}

/** The page that the files share, and how it stood when it was opened cold. */
interface WarmPage extends OpenedPage {
  readonly asOpened: unknown;
}

/** Between two files. */
let warm: WarmPage | undefined;

/**
 * To be called outside of any test, once for pages of one kind. After each test, neither page nor console may have
 * complained; after all of them the page is put back, and must stand as it was opened.
 */
export function workbenchSitting(context?: BrowserContextOptions): WorkbenchSitting {
  let browser: Browser;
  let dist: ServedDist;
  let kept: WarmPage | undefined;
  /** Nothing was done in the kept page since it was put back. */
  let isUntouched = false;
  let cold: OpenedPage | undefined;
  let used: { readonly opened: OpenedPage; readonly before: number } | undefined;

  beforeAll(async () => {
    ({ browser, dist } = await sharedWorkbench());
    if (context) return;
    kept = warm;
    isUntouched = kept !== undefined;
    warm = undefined;
  }, 240_000);
  afterAll(async () => {
    if (!kept || context) return kept?.page.context().close();
    if (!isUntouched) await putBack(kept);
    warm = kept;
  }, 60_000);
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
    isUntouched = false;
    await dress(page, look, context?.viewport ?? USUAL);
  }

  async function open(look?: PageLook): Promise<Page> {
    if (kept) {
      const isAsOpened = isUntouched;
      await show(kept, look);
      if (!isAsOpened) await startAnew(kept.page);
      return kept.page;
    }
    const opened = await openWorkbenchPage(browser, dist, context);
    kept = { ...opened, asOpened: await stateOf(opened.page) };
    await show(kept, look);
    // What the page said while it was opened cold is of the first test.
    used = { opened: kept, before: 0 };
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

async function dress(
  page: Page,
  look: PageLook,
  viewport: NonNullable<PageLook["viewport"]>,
): Promise<void> {
  await page.evaluate(() => {
    for (const tag of document.querySelectorAll("style.of-test")) tag.remove();
  });
  await page.setViewportSize(look.viewport ?? viewport);
  await page.emulateMedia({
    colorScheme: look.colorScheme ?? "light",
    forcedColors: look.forcedColors ?? "none",
  });
}

/** For the next file: as the page was opened cold, or the file whose tests leave it otherwise has failed. */
async function putBack({ page, asOpened }: WarmPage): Promise<void> {
  for (const other of page.context().pages()) if (other !== page) await other.close();
  await page.unrouteAll();
  await page.context().clearPermissions();
  page.setDefaultTimeout(LONGEST_WAIT_MS);
  await dress(page, {}, USUAL);
  await startAnew(page);
  await vi.waitFor(async () => assert.deepEqual(await stateOf(page), asOpened), LONGEST_WAIT_MS);
}

/** What a cold start decides: storage, the page around the workbook, and the workbook as it is shown. */
async function stateOf(page: Page): Promise<unknown> {
  await page.locator("#results table").first().waitFor({ state: "attached" });
  return page.evaluate(async () => {
    const all = (selector: string) => [...document.querySelectorAll<HTMLElement>(selector)];
    // An empty one is what is left of one that was taken away.
    const attributesOf = ({ attributes }: Element) =>
      [...attributes].filter(({ value }) => value !== "").map(({ name, value }) => [name, value]);
    const kept = await new Promise<unknown>((done) => {
      const request = indexedDB.open("downfeed");
      // Nothing has been kept yet, and looking for it shall not change that.
      request.onupgradeneeded = () => request.transaction?.abort();
      request.onerror = () => done(undefined);
      request.onsuccess = () => {
        const store = request.result.transaction("workbooks").objectStore("workbooks");
        const current = store.get("current");
        current.onsuccess = () => {
          request.result.close();
          done(current.result);
        };
      };
    });
    return {
      storage: [localStorage, sessionStorage].map((each) => ({ ...each })),
      kept: kept !== undefined,
      cookies: document.cookie,
      frame: [document.documentElement, document.body].map(attributesOf),
      size: [window.innerWidth, window.innerHeight],
      isDark: matchMedia("(prefers-color-scheme: dark)").matches,
      dialogs: all("dialog, [role=dialog]").length,
      faults: all("#bar [role=alert]").map(({ innerText }) => innerText),
      tabs: all("[role=tab]").map((tab) => [tab.innerText, tab.ariaSelected]),
      cell: document.querySelector<HTMLInputElement>("#sheet input")?.value,
      results: document.querySelector<HTMLElement>("#results")?.textContent,
    };
  });
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
