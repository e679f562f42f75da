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

/**
 * The address bar's own pages, of which each window prepares two in a process of its own. The browser heeds the last
 * list of features alone: what Playwright turns off (1.65.1) is said again.
 */
const FEATURES_OFF = [
  ...["WebUIOmniboxPopup", "WebUIOmniboxAimPopup"],
  ...["AvoidUnnecessaryBeforeUnloadCheckSync", "DestroyProfileOnBrowserClose", "HttpsUpgrades"],
  ...["HttpsFirstBalancedModeAutoEnable", "LensOverlay", "MediaRouter", "PaintHolding"],
  ...["ThirdPartyStoragePartitioning", "AvoidCorsURLLoaderRestartOnRedirect"],
  ...["OptimizationHints", "NetworkTimeServiceQuerying", "AimEnabled", "PreconnectToSearch"],
];

/** @throws {Error} naming the command that installs a browser, where there is none. */
export async function launchChromium(): Promise<Browser> {
  const executablePath = findChromium();
  if (executablePath === undefined)
    throw new Error(
      "No Chromium, Chrome or Edge was found: run `npm run browser`, or set CHROMIUM_PATH.",
    );
  const asRoot = process.getuid?.() === 0 ? ["--no-sandbox", "--disable-dev-shm-usage"] : [];
  return chromium.launch({
    executablePath,
    args: [...QUIET, ...asRoot, `--disable-features=${FEATURES_OFF.join(",")}`],
  });
}
