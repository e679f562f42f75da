import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import axe, { type AxeResults } from "axe-core";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, it } from "vitest";
import { budgets } from "../../src/budget/budgets.js";
import { launchChromium } from "../helpers/chromium.js";
import {
  type OpenedPage,
  openWorkbenchPage,
  type ServedDist,
  serveDist,
  settledPage,
} from "../helpers/workbench-page.js";

let browser: Browser;
let dist: ServedDist;
let opened: OpenedPage | undefined;

beforeAll(async () => {
  mkdirSync(".cache/pictures", { recursive: true });
  dist = await serveDist();
  browser = await launchChromium();
}, 240_000);
afterAll(async () => {
  await browser.close();
  await dist.close();
});
afterEach(async () => {
  const complaints = opened?.complaints ?? [];
  await opened?.page.close();
  opened = undefined;
  assert.deepEqual(complaints, []);
});

const BESIDE = 560;

/** The workbench with every budget in it, and a pane of that width. */
async function openPictures(
  paneWidth: number,
  colorScheme: "light" | "dark",
): Promise<{ page: Page; panel: Locator }> {
  opened = await openWorkbenchPage(browser, dist, {
    colorScheme,
    viewport: { width: paneWidth + BESIDE, height: 2600 },
  });
  const { page } = opened;
  await page.addStyleTag({
    content: `.workbench { grid-template: auto minmax(0, 1fr) / minmax(0, 1fr) ${paneWidth}px }`,
  });
  for (const { title } of budgets.slice(1)) {
    await page.getByRole("radio", { name: title }).check();
    await page.getByRole("button", { name: "Insert the budget" }).click();
    await page.getByText(`“${title}” is in`).waitFor();
  }
  await settledPage(page);
  await page.getByRole("tab", { name: "Pictures" }).click();
  const panel = page.getByRole("tabpanel", { name: "Pictures" });
  await panel.getByRole("img").first().waitFor();
  return { page, panel };
}

async function chooseBudget(panel: Locator, stem: string): Promise<void> {
  const chooser = panel.getByLabel("Budget", { exact: true });
  if ((await chooser.inputValue()) === stem) return;
  const before = await panel
    .getByRole("img")
    .first()
    .getAttribute("aria-label");
  await chooser.selectOption(stem);
  await panel
    .getByRole("img")
    .first()
    .and(panel.locator(`:not([aria-label=${JSON.stringify(before)}])`))
    .waitFor();
}

/** Texts that lie over each other or reach out of their drawing, in words. */
function textFaults(panel: Locator): Promise<string[]> {
  return panel.evaluate((view) => {
    const faults: string[] = [];
    for (const svg of view.querySelectorAll("svg")) {
      const frame = svg.getBoundingClientRect();
      const texts = [...svg.querySelectorAll("text")].map((text) => ({
        said: text.textContent,
        box: text.getBoundingClientRect(),
      }));
      texts.forEach(({ said, box }, index) => {
        if (
          box.left < frame.left - 1 ||
          box.right > frame.right + 1 ||
          box.top < frame.top - 1 ||
          box.bottom > frame.bottom + 1
        )
          faults.push(`"${said}" is cut off`);
        for (const other of texts.slice(index + 1)) {
          const across =
            Math.min(box.right, other.box.right) -
            Math.max(box.left, other.box.left);
          const down =
            Math.min(box.bottom, other.box.bottom) -
            Math.max(box.top, other.box.top);
          if (across > 1 && down > 2)
            faults.push(`"${said}" lies over "${other.said}"`);
        }
      });
    }
    return faults;
  });
}

async function axeFaults(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate<AxeResults>(
    'axe.run(".feed-pane", { resultTypes: ["violations"] })',
  );
  return violations.map(({ id, help }) => `${id}: ${help}`);
}

describe("the pictures", () => {
  for (const scheme of ["light", "dark"] as const)
    for (const width of [350, 900])
      it(`are whole and legible for every budget, ${scheme}, ${width} px wide`, async () => {
        const { page, panel } = await openPictures(width, scheme);
        for (const { stem } of budgets) {
          await chooseBudget(panel, stem);
          await page.locator(".workbench-pane").screenshot({
            path: `.cache/pictures/${stem}-${scheme}-${width}.png`,
          });
          assert.deepEqual(await textFaults(panel), [], stem);
          assert.deepEqual(await axeFaults(page), [], stem);
          const overflow = await page
            .locator(".workbench-pane")
            .evaluate((pane) => pane.scrollWidth - pane.clientWidth);
          assert.equal(overflow, 0, stem);
        }
      }, 120_000);
});
