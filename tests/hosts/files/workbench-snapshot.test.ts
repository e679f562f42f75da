import assert from "node:assert/strict";
import { join } from "node:path";
import fc from "fast-check";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, it } from "vitest";
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { budgets } from "../../../taskpane/budgets/budgets.js";
import type { WorkbookSnapshot } from "../../../taskpane/hosts/files/workbook-snapshot.js";
import { readXlsx } from "../../../taskpane/hosts/files/read/xlsx-reader.js";
import { writeXlsx } from "../../../taskpane/hosts/files/write/xlsx-writer.js";
import type { OpeningContent } from "../../../taskpane/hosts/workbench/snapshots/opening.js";
import { launchChromium } from "../../helpers/chromium.js";
import { openVendorPage, VENDOR_ADDRESSES, vendorPageFiles } from "../../helpers/vendor-page.js";
import { workbooks } from "./random-workbook.js";
import "./snapshot-page.js";

let browser: Browser;
let page: Page;
let faults: readonly string[];

beforeAll(async () => {
  browser = await launchChromium();
  const files = await vendorPageFiles(join(import.meta.dirname, "snapshot-page.ts"));
  ({ page, faults } = await openVendorPage(browser, files));
});
afterAll(async () => {
  await browser.close();
  assert.deepEqual(faults, []);
});

function throughWorkbench(content: OpeningContent) {
  return page.evaluate(([what, addresses]) => globalThis.throughWorkbench(what, addresses), [
    content,
    VENDOR_ADDRESSES,
  ] as const);
}

/** By its title: each budget as the workbench first opens it. */
const opened = new Map<string, ReturnType<typeof throughWorkbench>>();

function asFirstOpened(plan: WorkbookPlan) {
  const known = opened.get(plan.title) ?? throughWorkbench({ kind: "plan", plan });
  opened.set(plan.title, known);
  return known;
}

describe("the workbench and a file, in Chromium", () => {
  for (const plan of budgets) {
    it(`${plan.title}: workbench, file, workbench, file are equal cell by cell`, async () => {
      const first = await asFirstOpened(plan);
      assert.deepEqual(first.leftOut, []);
      const written = writeXlsx(first.snapshot);
      assert.deepEqual(written.leftOut, []);
      const read = readXlsx(written.bytes);
      assert.deepEqual(read.leftOut, []);
      assert.deepEqual(read.snapshot, first.snapshot);
      const second = await throughWorkbench({
        kind: "snapshot",
        snapshot: read.snapshot,
        title: plan.title,
      });
      assert.deepEqual(second.leftOut, []);
      assert.deepEqual(second.snapshot, first.snapshot);
    });

    it(`${plan.title}: saved and opened again, equal cell by cell`, async () => {
      const first = await asFirstOpened(plan);
      const again = await throughWorkbench({
        kind: "saved",
        saved: first.saved,
      });
      assert.deepEqual(again.snapshot, first.snapshot);
    });
  }

  it("holds whatever a file may hold", async () => {
    for (const made of fc.sample(workbooks, { numRuns: 10, seed: 11 })) {
      const snapshot = withoutResults(
        // The spreadsheet holds an error as its text.
        JSON.parse(
          JSON.stringify(made).replaceAll('"value":"#N/A"', '"value":"N/A"'),
        ) as WorkbookSnapshot,
      );
      const taken = await throughWorkbench({
        kind: "snapshot",
        snapshot,
        title: "Any",
      });
      assert.deepEqual(taken.leftOut, []);
      assert.deepEqual(withoutResults(taken.snapshot), snapshot);
    }
  }, 60_000);
});

/** What formulas by chance come to is the spreadsheet's to say, as is whether they spill. */
function withoutResults(snapshot: WorkbookSnapshot): WorkbookSnapshot {
  return {
    ...snapshot,
    sheets: snapshot.sheets.map((sheet) => ({
      ...sheet,
      cells: sheet.cells.map((cell) => {
        const { at, formula, look, note } = cell;
        return formula === undefined
          ? cell
          : { at, formula, ...(look && { look }), ...(note && { note }) };
      }),
    })),
  };
}
