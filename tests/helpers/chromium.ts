/** The machine's Chromium, driven by the tests. */
import { type Browser, chromium } from "playwright-core";
import { findChromium } from "../../scripts/find-chromium.mjs";

/** Nothing that the browser does of its own accord may reach for the network. */
const QUIET = [
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-quic",
  "--disable-sync",
  "--no-first-run",
];

/** @throws {Error} naming the command that installs a browser, where there is none. */
export async function launchChromium(): Promise<Browser> {
  const executablePath = findChromium();
  if (executablePath === undefined)
    throw new Error(
      "No Chromium, Chrome or Edge was found: run `npm run browser`, or set CHROMIUM_PATH.",
    );
  const asRoot = process.getuid?.() === 0 ? ["--no-sandbox", "--disable-dev-shm-usage"] : [];
  return chromium.launch({ executablePath, args: [...QUIET, ...asRoot] });
}
