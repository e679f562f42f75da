/** Draws every icon of taskpane/icons at the sizes that Excel shows: `feed.svg` gives `feed-16.png` and so on. */
import { readdir, readFile } from "node:fs/promises";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";
import { findChromium } from "./find-chromium.mjs";
import { ICON_SIZES } from "./manifest.mjs";

const ICONS = fileURLToPath(new URL("../taskpane/icons", import.meta.url));

const asRoot = process.getuid?.() === 0 ? ["--no-sandbox", "--disable-dev-shm-usage"] : [];
const browser = await chromium.launch({ executablePath: findChromium(), args: asRoot });
try {
  const page = await browser.newPage();
  for (const file of (await readdir(ICONS)).filter((name) => name.endsWith(".svg"))) {
    const drawing = await readFile(join(ICONS, file), "utf8");
    await page.setContent(
      `<style>body { margin: 0 } svg { display: block; width: 100vw; height: 100vh }</style>${drawing}`,
    );
    const name = basename(file, ".svg");
    for (const size of ICON_SIZES) {
      await page.setViewportSize({ width: size, height: size });
      await page.screenshot({ path: join(ICONS, `${name}-${size}.png`), omitBackground: true });
    }
    console.log(`drew ${name}`);
  }
} finally {
  await browser.close();
}
