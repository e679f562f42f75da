/** A page in Chromium that is served from memory. */
import { chromium } from "playwright-core";
import { findChromium } from "../find-chromium.mjs";

export const ORIGIN = "http://workbench.test/";

/** @param {ReadonlyMap<string, { contentType: string, body: string }>} files By path. */
export async function pageInChromium(files) {
  const browser = await launchedChromium();
  const page = await openedPage(browser, files);
  return { page, close: () => browser.close() };
}

export async function launchedChromium() {
  const executablePath = findChromium();
  if (executablePath === undefined) throw new Error("run `npm run browser` first");
  const asRoot = process.getuid?.() === 0 ? ["--no-sandbox", "--disable-dev-shm-usage"] : [];
  return chromium.launch({
    executablePath,
    args: ["--disable-background-networking", ...asRoot],
  });
}

/** @param {import("playwright-core").Browser} browser @param {ReadonlyMap<string, { contentType: string, body: string }>} files By path. */
export async function openedPage(browser, files) {
  const page = await browser.newPage({ viewport: { width: 1200, height: 800 } });
  await page.route(`${ORIGIN}**`, (route) => {
    const file = files.get(new URL(route.request().url()).pathname);
    return file ? route.fulfill(file) : route.fulfill({ status: 204 });
  });
  await page.goto(ORIGIN);
  return page;
}
