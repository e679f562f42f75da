/** Renews the README's pictures from the build: the workbench, and the pane as narrow as a spreadsheet shows it. */
import { createServer } from "node:http";
import { chromium } from "playwright-core";
import sirv from "sirv";
import { buildIfStale, DIST } from "./build.mjs";
import { findChromium } from "./find-chromium.mjs";

const PICTURES = [
  { file: "taskpane/workbench.png", width: 1400, height: 900 },
  { file: "taskpane/pane.png", width: 350, height: 620 },
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
  for (const { file, width, height } of PICTURES) {
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
    await page.getByText("Budget", { exact: true }).first().click();
    await page.getByRole("tab", { name: /Warnings/ }).click();
    // Other views name the feed too.
    await page.getByText("Ridge-top observatory · Ridge").first().waitFor();
    await page.screenshot({ path: file });
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
