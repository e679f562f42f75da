import assert from "node:assert/strict";
import { mkdtemp, rm, truncate, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import axe, { type AxeResults } from "axe-core";
import { strToU8 } from "fflate";
import type { Page } from "playwright-core";
import { describe, it } from "vitest";
import { budgets } from "../../taskpane/budgets/budgets.js";
import type {
  CellSnapshot,
  SheetSnapshot,
  WorkbookSnapshot,
} from "../../taskpane/hosts/files/workbook-snapshot.js";
import { FILE_LIMITS } from "../../taskpane/hosts/files/file-limits.js";
import { readXlsx } from "../../taskpane/hosts/files/read/xlsx-reader.js";
import { writeXlsx } from "../../taskpane/hosts/files/write/xlsx-writer.js";
import { madeFile } from "../hosts/files/made-workbook.js";
import { settledPage } from "../helpers/workbench-page.js";
import { workbenchSitting } from "../helpers/workbench-sitting.js";
import { savedBytes, savedWorkbook, sheetTab, typeInto } from "../helpers/workbench-sheet.js";

const FILE_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

const sitting = workbenchSitting();

/** What is saved of the workbook that is opened where nothing is kept. */
let sample: WorkbookSnapshot | undefined;

function pressed(page: Page, name: string): Promise<void> {
  return page.getByRole("button", { name, exact: true }).click();
}

async function chosen(page: Page, name: string, bytes: Uint8Array): Promise<void> {
  await page.setInputFiles("input[type=file]", {
    name,
    mimeType: FILE_TYPE,
    buffer: Buffer.from(bytes),
  });
}

async function said(page: Page, role: "status" | "alert", words: RegExp) {
  await page.locator(`#bar [role=${role}]`).filter({ hasText: words }).waitFor();
}

function cellIn({ sheets }: WorkbookSnapshot, at: string, sheet = 0): CellSnapshot | undefined {
  return sheets[sheet]?.cells.find((cell) => cell.at === at);
}

/** Until what the browser keeps holds the text. */
async function kept(page: Page, text: string): Promise<void> {
  const latest = Date.now() + 10_000;
  while (!(await whatIsKept(page)).includes(text)) {
    assert.ok(Date.now() < latest, `"${text}" is not kept`);
    await page.waitForTimeout(100);
  }
}

function whatIsKept(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const known = await indexedDB.databases();
    if (known.length === 0) return "";
    return new Promise<string>((done) => {
      const request = indexedDB.open("downfeed");
      request.onsuccess = () => {
        const current = request.result
          .transaction("workbooks")
          .objectStore("workbooks")
          .get("current");
        current.onsuccess = () => {
          request.result.close();
          done(String(current.result));
        };
      };
    });
  });
}

async function keepInstead(page: Page, what: unknown): Promise<void> {
  await page.evaluate(
    (content) =>
      new Promise<void>((done) => {
        const request = indexedDB.open("downfeed");
        request.onsuccess = () => {
          const transaction = request.result.transaction("workbooks", "readwrite");
          transaction.objectStore("workbooks").put(content, "current");
          transaction.oncomplete = () => {
            request.result.close();
            done();
          };
        };
      }),
    what,
  );
}

async function reload(page: Page): Promise<void> {
  await page.reload();
  await settledPage(page);
}

describe("files of the workbench", () => {
  it("saves, opens what it saved and saves again, equal cell by cell", async () => {
    const page = await sitting.open();
    await typeInto(page, "J2", '\'=HYPERLINK("http://example.org")');
    await typeInto(page, "J3", "=SUM(1,2)");
    const first = await savedWorkbook(page);
    assert.deepEqual(
      first.sheets.map(({ name }) => name),
      budgets[0]?.sheets.map(({ name }) => name),
    );
    assert.equal(cellIn(first, "J3")?.formula, "SUM(1,2)");
    assert.equal(cellIn(first, "J3")?.value, 3);
    assert.equal(cellIn(first, "J2")?.value, '=HYPERLINK("http://example.org")');
    assert.equal(cellIn(first, "J2")?.formula, undefined);
    await chosen(page, "ours.xlsx", writeXlsx(first).bytes);
    await said(page, "status", /ours\.xlsx is open/);
    assert.deepEqual(await savedWorkbook(page), first);
  });

  it("shows an opened budget in the pane and the tables, and calculates on", async () => {
    const page = await sitting.goOn();
    const table = page.locator("#results table").first();
    await table.waitFor({ state: "attached" });
    const before = await table.innerText();
    const bytes = await savedBytes(page);
    await chosen(page, "ours.xlsx", bytes);
    await said(page, "status", /ours\.xlsx is open/);
    await page.waitForFunction(
      (text) => document.querySelector<HTMLElement>("#results table")?.innerText === text,
      before,
    );
    const feed = budgets[0]?.sheets.find(({ key }) => key === "feed");
    const at = feed?.cells.find(({ value }) => value === 350)?.at;
    assert.ok(feed && at);
    await sheetTab(page, feed.name).click();
    await typeInto(page, at, "400");
    await page.waitForFunction(
      (text) => document.querySelector<HTMLElement>("#results table")?.innerText !== text,
      before,
    );
  });

  it("lists what it left out of a file, in a dialog that Escape closes", async () => {
    const page = await sitting.openEmpty();
    const macros = madeFile({ "xl/vbaProject.bin": "not read" });
    await chosen(page, "macros.xlsm", macros);
    const dialog = page.getByRole("dialog", { name: "What was left out" });
    await dialog.getByText("macros (they are not run)").waitFor();
    await page.evaluate(axe.source);
    const found = await page.evaluate(() =>
      (
        globalThis as unknown as {
          axe: { run(where: string): Promise<AxeResults> };
        }
      ).axe.run(".workbench-dialog"),
    );
    assert.deepEqual(
      found.violations.map(({ id }) => id),
      [],
    );
    await dialog.getByRole("button", { name: "Close" }).press("Escape");
    await dialog.waitFor({ state: "detached" });
  });

  it("leaves the open workbook alone when a file is refused, and says why", async () => {
    const page = await sitting.goOn();
    const before = await savedWorkbook(page);
    await chosen(page, "text.xlsx", strToU8("no workbook at all"));
    await said(page, "alert", /not an \.xlsx workbook/);
    assert.deepEqual(await savedWorkbook(page), before);
  });

  it("ends the thread that a file keeps too long, leaves the workbook alone and opens the next file", async () => {
    const page = await sitting.openEmpty();
    await typeInto(page, "J2", "mine");
    // Stands for a file that is read for ever.
    await page.route(/chunks\/.*\.js/, (route) =>
      route.fulfill({
        contentType: "text/javascript",
        body: "for (;;) {}",
      }),
    );
    // The time that a file may take passes at once.
    await page.evaluate((longest) => {
      const { setTimeout } = window;
      window.setTimeout = ((action: () => void, wait?: number) => {
        if (wait !== longest) return setTimeout(action, wait);
        window.setTimeout = setTimeout;
        return setTimeout(action, 100);
      }) as typeof window.setTimeout;
    }, FILE_LIMITS.readMs);
    await chosen(page, "slow.xlsx", madeFile());
    await said(page, "alert", /longer than 10 s/);
    await page.unroute(/chunks\/.*\.js/);
    assert.equal(cellIn(await savedWorkbook(page), "J2")?.value, "mine");
  });

  it("refuses a file of more than 20 MB before it is read", async () => {
    const page = await sitting.goOn();
    const folder = await mkdtemp(join(tmpdir(), "downfeed-files-"));
    const large = join(folder, "large.xlsx");
    await writeFile(large, "");
    await truncate(large, 20_000_001);
    await page.setInputFiles("input[type=file]", large);
    await said(page, "alert", /more than 20,000,000 bytes/);
    await rm(folder, { recursive: true });
  });

  it("saves values alone for spreadsheets without the functions", async () => {
    const page = await sitting.open();
    sample ??= await savedWorkbook(page);
    const { snapshot } = readXlsx(await savedBytes(page, "Save values only"));
    const cells = snapshot.sheets.flatMap((sheet) => sheet.cells);
    assert.deepEqual(
      cells.filter(({ formula }) => formula !== undefined),
      [],
    );
    const results = (of: WorkbookSnapshot) =>
      of.sheets.flatMap((sheet) =>
        sheet.cells
          .filter(({ value }) => value !== undefined && value !== "")
          .map(({ at, value }) => [`${sheet.name}!${at}`, value]),
      );
    assert.deepEqual(results(snapshot), results(sample));
  });

  it("asks before an opened file replaces changes, and keeps them when told so", async () => {
    const page = await sitting.openEmpty();
    await typeInto(page, "J2", "mine");
    await chosen(page, "other.xlsx", madeFile());
    const question = page.getByRole("dialog", {
      name: "Replace the workbook?",
    });
    await question.getByRole("button", { name: "Cancel" }).click();
    assert.equal(cellIn(await savedWorkbook(page), "J2")?.value, "mine");
  });

  it("keeps changes over a reload and opens a new workbook when asked", async () => {
    const page = await sitting.open();
    sample ??= await savedWorkbook(page);
    await typeInto(page, "J2", "kept over a reload");
    await kept(page, "kept over a reload");
    const changed = await savedWorkbook(page);
    await reload(page);
    await said(page, "status", /from last time/);
    assert.deepEqual(await savedWorkbook(page), changed);
    assert.equal(cellIn(changed, "J2")?.value, "kept over a reload");
    await pressed(page, "Open the sample");
    await pressed(page, "Delete it");
    await said(page, "status", /The sample is open/);
    assert.deepEqual(await savedWorkbook(page), sample);
    await reload(page);
    assert.deepEqual(await savedWorkbook(page), sample);
  });

  it("keeps the workbook of one tab only, and says so in the other", async () => {
    const { page } = await sitting.openCold();
    await typeInto(page, "J2", "in the first tab");
    await kept(page, "in the first tab");
    const [other] = await Promise.all([
      page.context().waitForEvent("page"),
      page.evaluate(() => void window.open(location.href)),
    ]);
    await settledPage(other);
    await typeInto(other, "J3", "in the second tab");
    await said(other, "alert", /Another tab/);
    assert.ok(!(await whatIsKept(page)).includes("in the second tab"));
    // The tab is left, which a page that is closed with its browser is not.
    await page.goto("about:blank");
    await kept(other, "in the second tab");
  });

  it("keeps an opened file over a reload", async () => {
    const page = await sitting.goOn();
    await chosen(page, "mine.xlsx", madeFile());
    await said(page, "status", /mine\.xlsx is open/);
    await kept(page, '"name":"Run"');
    await reload(page);
    const { sheets } = await savedWorkbook(page);
    assert.deepEqual(
      sheets.map(({ name }: SheetSnapshot) => name),
      ["Run"],
    );
  });

  for (const [name, what] of [
    ["cut off", '{"id":"x","sheetOrder":["a"],"sheets":{"a":{"na'],
    ["no text", { some: "record" }],
  ] as const)
    it(`sets aside what was kept when it is ${name}, and opens`, async () => {
      sample ??= await savedWorkbook(await sitting.open());
      const page = await sitting.goOn();
      await typeInto(page, "J2", "soon damaged");
      await kept(page, "soon damaged");
      await keepInstead(page, what);
      await reload(page);
      await said(page, "alert", /set aside/);
      assert.deepEqual(await savedWorkbook(page), sample);
      await reload(page);
      assert.equal(await page.locator("#bar [role=alert]").innerText(), "");
    });
});
