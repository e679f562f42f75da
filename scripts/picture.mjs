/**
 * Renews the README's pictures from the build: the workbench with its Feed view, a working, and the report.
 * @import { Page } from "playwright-core"
 */
import { createServer } from "node:http";
import { chromium } from "playwright-core";
import sirv from "sirv";
import { buildIfStale, DIST } from "./build.mjs";
import { findChromium } from "./find-chromium.mjs";

/**
 * What each shows is done as a user does it; undefined where the page itself is the picture, else what is to be taken.
 * @type {readonly { file: string, width: number, height: number, show: (page: Page) => Promise<Page | void> }[]}
 */
const PICTURES = [
  {
    file: "taskpane/workbench.png",
    width: 1400,
    height: 900,
    async show(page) {
      await page.getByText("Budget", { exact: true }).first().click();
      await page.getByRole("treeitem").first().waitFor();
    },
  },
  {
    file: "taskpane/working.png",
    width: 1400,
    height: 900,
    async show(page) {
      await page.getByText("Budget", { exact: true }).first().click();
      const box = page.locator("#sheet input").first();
      await box.fill("B8");
      await box.press("Enter");
      await page.getByRole("tab", { name: "Working" }).click();
      await page.locator(".feed-steps").first().waitFor();
    },
  },
  {
    file: "taskpane/report.png",
    width: 900,
    height: 1200,
    async show(page) {
      await page.getByRole("tab", { name: "Hand over" }).click();
      await page.getByRole("button", { name: "Report", exact: true }).click();
      const [report] = await Promise.all([
        page.waitForEvent("popup"),
        page.getByRole("link", { name: "Open the report" }).click(),
      ]);
      await report.setViewportSize({ width: 900, height: 1200 });
      return report;
    },
  },
];

await buildIfStale();
const server = createServer(sirv(DIST, { dev: true }));
await new Promise((done) => server.listen(0, "127.0.0.1", () => done(null)));
const address = /** @type {import("node:net").AddressInfo} */ (server.address());
const asRoot = process.getuid?.() === 0 ? ["--no-sandbox", "--disable-dev-shm-usage"] : [];
const browser = await chromium.launch({
  executablePath: findChromium() ?? failure("run `npm run browser` first"),
  args: ["--disable-background-networking", ...asRoot],
});
try {
  for (const { file, width, height, show } of PICTURES) {
    const page = await browser.newPage({
      viewport: { width, height },
      colorScheme: "light",
    });
    // As whoever has been here before sees it.
    await page.addInitScript(() => {
      globalThis.localStorage.setItem("downfeed first steps", "closed");
    });
    await page.goto(`http://127.0.0.1:${address.port}/`);
    await page.waitForSelector("#state[hidden]", { state: "attached" });
    await ((await show(page)) ?? page).screenshot({ path: file });
    await page.close();
    console.log(`wrote ${file}`);
  }
} finally {
  await browser.close();
  server.close();
}

/** @param {string} message @returns {never} */
function failure(message) {
  throw new Error(message);
}
