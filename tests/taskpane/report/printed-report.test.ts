/** The report as Chromium lays it out for paper: A4 and Letter. */
import assert from "node:assert/strict";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { budgetReport } from "../../../taskpane/report/content/report.js";
import { reportPage } from "../../../taskpane/report/page/report-page.js";
import { ridgeTop } from "../../../taskpane/budgets/samples/ridge-top.js";
import { findBudgets } from "../../../taskpane/workbook/found-budgets.js";
import { axeFaults } from "../../helpers/axe-faults.js";
import { launchChromium } from "../../helpers/chromium.js";
import { HeadlessHost } from "../../helpers/headless-host.js";

/** Between margins of 15 mm, in mm: ISO 216 A4 is 210 × 297, ANSI A (Letter) 215.9 × 279.4. */
const PAPERS = [
  { name: "A4", upright: 180, across: 267 },
  { name: "Letter", upright: 185.9, across: 249.4 },
] as const;

describe("the report on paper", () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    const host = new HeadlessHost();
    await host.insert(budgetPlan(ridgeTop));
    const [budget] = (await findBudgets(host)).budgets;
    const cells = [{ sheet: "Budget", address: "B21" }];
    const report = reportPage(await budgetReport(host, budget!, cells));
    host.dispose();
    browser = await launchChromium();
    page = await browser.newPage();
    await page.setContent(report);
    await page.emulateMedia({ media: "print" });
  });
  afterAll(() => browser.close());

  it.for(PAPERS)("no table and no drawing is wider than a page of $name", async (paper) => {
    const wider = await page.evaluate(({ upright, across }) => {
      const perMm = 96 / 25.4;
      return [...document.querySelectorAll("section")].flatMap((section) => {
        const width = (section.className === "across" ? across : upright) * perMm;
        section.style.width = `${width}px`;
        return [...section.querySelectorAll("table, svg")]
          .filter((part) => part.getBoundingClientRect().width > width + 1)
          .map((part) => part.querySelector("caption")?.textContent ?? part.tagName);
      });
    }, paper);
    assert.deepEqual(wider, []);
  });

  it.for(PAPERS)("no number goes over two lines on $name", async (paper) => {
    const broken = await page.evaluate(({ upright, across }) => {
      const found: string[] = [];
      for (const section of document.querySelectorAll("section")) {
        section.style.width = `${section.className === "across" ? across : upright}mm`;
        const words = document.createTreeWalker(section, NodeFilter.SHOW_TEXT);
        for (let node = words.nextNode(); node; node = words.nextNode())
          for (const match of (node.textContent ?? "").matchAll(/[-−+]?\d[\d.,]*(E[-+]\d+)?%?/g)) {
            const range = document.createRange();
            range.setStart(node, match.index);
            range.setEnd(node, match.index + match[0].length);
            if (range.getClientRects().length > 1) found.push(match[0]);
          }
      }
      return found;
    }, paper);
    assert.deepEqual(broken, []);
  });

  it("has no fault that axe finds", async () => {
    assert.deepEqual(await axeFaults(page), []);
  });

  it("prints pages, upright and across", async () => {
    const file = (await page.pdf({ format: "A4" })).toString("latin1");
    const boxes = [...file.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)];
    const across = boxes.filter(([, width, height]) => Number(width) > Number(height));
    assert.ok(
      across.length > 3 && across.length < boxes.length,
      `${across.length} of ${boxes.length}`,
    );
  });
});
