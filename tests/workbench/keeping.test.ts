import assert from "node:assert/strict";
import type { BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, it } from "vitest";
import { cellAddress } from "../../src/plans/addresses.js";
import { settledPage } from "../helpers/workbench-page.js";
import { typeInto } from "../helpers/workbench-sheet.js";
import { openEmptyWorkbook, sharedWorkbench } from "../helpers/workbench-sitting.js";

/** Two tabs of one browser, which hold the same storage. */
let address: string;
let context: BrowserContext;
let one: Page;
let two: Page;
/** Every word typed, so that none stands for another. */
let count = 0;

beforeAll(async () => {
  const { browser, dist } = await sharedWorkbench();
  ({ address } = dist);
  context = await browser.newContext({ viewport: { width: 1400, height: 900 } });
  context.setDefaultTimeout(20_000);
  one = await anotherTab();
  // What is kept is small, so that it is there again soon.
  await openEmptyWorkbook(one);
  await shows(one, /^Kept in this browser$/);
  two = await anotherTab();
});
afterAll(() => context.close());

async function anotherTab(): Promise<Page> {
  const page = await context.newPage();
  await page.goto(address);
  await settledPage(page);
  return page;
}

async function reload(page: Page): Promise<void> {
  await page.reload();
  await settledPage(page);
}

/** As a user closes it: the page may ask. */
async function closed(page: Page): Promise<void> {
  const gone = page.waitForEvent("close");
  await page.close({ runBeforeUnload: true });
  await gone;
}

/** @returns the word that is typed */
async function change(page: Page, at: string): Promise<string> {
  // What stands there afterwards is said of this change.
  await page.evaluate(() => document.querySelector("#bar .workbench-kept")!.replaceChildren());
  const word = `word ${(count += 1)};`;
  await typeInto(page, at, word);
  return word;
}

async function shows(page: Page, words: RegExp): Promise<void> {
  await page.locator("#bar .workbench-kept").filter({ hasText: words }).waitFor();
}

async function says(page: Page, words: RegExp): Promise<void> {
  await page.locator("#bar [role=alert]").filter({ hasText: words }).waitFor();
}

/** What the browser keeps, read by the page itself. */
function kept(page: Page): Promise<string> {
  return page.evaluate(
    () =>
      new Promise<string>((done, fail) => {
        const request = indexedDB.open("downfeed");
        request.onerror = () => fail(request.error);
        request.onsuccess = () => {
          const table = request.result.transaction("workbooks").objectStore("workbooks");
          const current = table.get("current");
          current.onsuccess = () => {
            request.result.close();
            done(String(current.result));
          };
        };
      }),
  );
}

/** Questions of the browser whether to leave, while something is done. */
async function questionsDuring(page: Page, action: () => Promise<void>): Promise<number> {
  let questions = 0;
  const answer = (dialog: { accept(): Promise<void> }) => {
    questions += 1;
    void dialog.accept();
  };
  page.on("dialog", answer);
  await action();
  page.off("dialog", answer);
  return questions;
}

/** Some two hundred are worth their half hour before a release: `DOWNFEED_EDITS=200 npx vitest run …`. */
const EDITS = Number(process.env["DOWNFEED_EDITS"] ?? 10);

describe("what the browser keeps, with two tabs", () => {
  it("is the work of the tab that was edited first, also when that tab is loaded anew", async () => {
    const first = await change(one, "J2");
    await shows(one, /^Kept in this browser$/);
    const second = await change(two, "J3");
    await says(two, /Another tab/);
    await shows(two, /^Not kept/);
    assert.equal(await questionsDuring(one, () => reload(one)), 0);
    await says(two, /Another tab has kept a newer workbook/);
    const now = await kept(one);
    assert.ok(now.includes(first));
    assert.ok(!now.includes(second));
  });

  it("goes on to be that tab's", async () => {
    const word = await change(one, "J4");
    await shows(one, /^Kept in this browser$/);
    assert.ok((await kept(one)).includes(word));
  });

  it("is offered as a file in the tab that is not kept, which asks before it is left until then", async () => {
    await change(two, "J3");
    assert.equal(await two.getByRole("button", { name: "Save a copy as .xlsx" }).count(), 1);
    let questions = 0;
    two.on("dialog", (dialog) => {
      questions += 1;
      void dialog.dismiss();
    });
    await two.evaluate(() => location.reload());
    await two.waitForFunction(() => document.querySelector("#bar button") !== null);
    assert.equal(questions, 1);
    const [download] = await Promise.all([
      two.waitForEvent("download"),
      two.getByRole("button", { name: "Save a copy as .xlsx" }).click(),
    ]);
    assert.match(download.suggestedFilename(), /\.xlsx$/);
    two.removeAllListeners("dialog");
    assert.equal(await questionsDuring(two, () => reload(two)), 0);
  });

  it("passes to the other tab once the first is gone and the other holds the newest", async () => {
    await change(two, "J5");
    await says(two, /Another tab of the workbench keeps its workbook/);
    await one.goto("about:blank");
    await shows(two, /^Kept in this browser$/);
    assert.equal(await two.locator("#bar [role=alert]").innerText(), "");
    await one.goto(address);
    await settledPage(one);
  });

  it(
    "holds no less than was shown as kept, whatever two tabs do",
    async () => {
      // A fixed course of edits, loads and closings, from a small generator.
      let seed = 7;
      const below = (limit: number) => {
        seed = (seed * 48271) % 2147483647;
        return seed % limit;
      };
      let tabs: readonly Page[] = [one, two];
      let shown: string[] = [];
      let loads = 0;
      let closings = 0;
      const since = new Map<Page, string[]>(tabs.map((tab) => [tab, []]));
      for (let turn = 0, edits = 0; edits < EDITS; turn += 1) {
        const tab = tabs[below(2)]!;
        // Mostly edits: a load of the page takes as long as several of them.
        const action = below(8);
        if (action < 6) {
          edits += 1;
          // Every word in a cell of its own, so that no edit hides one before it.
          const place = { row: 19 + (count % 40), column: 9 + Math.floor(count / 40) };
          const word = await change(tab, cellAddress(place));
          since.get(tab)!.push(word);
          await shows(tab, /^Kept|^Not kept/);
          const isKept = (await tab.locator("#bar .workbench-kept").innerText()).startsWith("Kept");
          if (isKept) shown = [...shown, ...since.get(tab)!.splice(0)];
        } else if (action === 6) {
          loads += 1;
          await questionsDuring(tab, () => reload(tab));
          since.set(tab, []);
        } else {
          closings += 1;
          const other = tabs.find((each) => each !== tab)!;
          await questionsDuring(tab, () => closed(tab));
          const fresh = await anotherTab();
          tabs = [other, fresh];
          since.set(fresh, []);
        }
        const now = await kept(tabs[0]!);
        assert.deepEqual(
          shown.filter((word) => !now.includes(word)),
          [],
          `lost in turn ${turn}`,
        );
      }
      assert.ok(shown.length > 2, `${shown.length} edits were shown as kept`);
      assert.ok(loads > 0 && closings > 0, `${loads} loads, ${closings} closings`);
      [one, two] = tabs as [Page, Page];
      const course = `${EDITS} edits, ${loads} loads, ${closings} closings`;
      console.log(`${course}: ${shown.length} shown as kept, none of them lost`);
    },
    180_000 + EDITS * 10_000,
  );
});

describe("the last edit", () => {
  beforeAll(async () => {
    await Promise.all([one.close(), two.close()]);
    one = await anotherTab();
  });

  it("is kept when the page is loaded anew at once", async () => {
    await change(one, "J6");
    await shows(one, /^Kept in this browser$/);
    const word = await change(one, "J7");
    assert.equal(await questionsDuring(one, () => reload(one)), 0);
    assert.ok((await kept(one)).includes(word));
  });

  it("is kept when the page is closed at once", async () => {
    await change(one, "J6");
    await shows(one, /^Kept in this browser$/);
    two = await anotherTab();
    const word = await change(one, "J8");
    assert.equal(await questionsDuring(one, () => closed(one)), 0);
    one = two;
    await reload(one);
    assert.ok((await kept(one)).includes(word));
  });

  it("is asked about while it is only being typed", async () => {
    await change(one, "J9");
    await shows(one, /^Kept in this browser$/);
    await one.keyboard.type("half a wo");
    assert.equal(await questionsDuring(one, () => reload(one)), 1);
  });
});

describe("the browser's storage", () => {
  it("that is full is told of, and what was kept stays until there is room again", async () => {
    const earlier = await change(one, "J10");
    await shows(one, /^Kept in this browser$/);
    // A quota set from outside does not reach a database that is open: the browser's answer is given in its place.
    await one.evaluate(() => {
      const { put } = IDBObjectStore.prototype;
      IDBObjectStore.prototype.put = () => {
        throw new DOMException("The storage is full.", "QuotaExceededError");
      };
      Object.assign(window, { roomAgain: () => (IDBObjectStore.prototype.put = put) });
    });
    const word = await change(one, "J11");
    await shows(one, /^Not kept in this browser$/);
    await says(
      one,
      /The browser does not keep this workbook \(The storage is full\.\)\. Save it as \.xlsx/,
    );
    const now = await kept(one);
    assert.ok(now.includes(earlier) && !now.includes(word));
    await one.evaluate(() => (window as unknown as { roomAgain(): void }).roomAgain());
    // The next change is kept with the one before it.
    const next = await change(one, "J12");
    await shows(one, /^Kept in this browser$/);
    const then = await kept(one);
    assert.ok(then.includes(word) && then.includes(next));
  });

  it("that is cleared while the page is open is given the whole workbook again", async () => {
    const earlier = await change(one, "J13");
    await shows(one, /^Kept in this browser$/);
    const devtools = await one.context().newCDPSession(one);
    const { origin } = new URL(address);
    await devtools.send("Storage.clearDataForOrigin", { origin, storageTypes: "indexeddb" });
    await shows(one, /^Keeping/);
    await shows(one, /^Kept in this browser$/);
    assert.ok((await kept(one)).includes(earlier));
    const next = await change(one, "J14");
    await shows(one, /^Kept in this browser$/);
    const now = await kept(one);
    assert.ok(now.includes(earlier) && now.includes(next));
  });
});
