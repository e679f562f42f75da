/** Installs Chromium for the browser tests where no browser is found; does nothing otherwise. */
import { canInstall, installPackage } from "./debian-package.mjs";
import { findChromium } from "./find-chromium.mjs";

const BY_HAND =
  "Install Chromium, Chrome or Edge, or set CHROMIUM_PATH to one; then run the tests again.";

const found = findChromium();
if (found !== undefined) {
  console.log(`browser: ${found}`);
} else if (canInstall()) {
  installPackage("chromium", BY_HAND);
  console.log(`browser: ${findChromium()}`);
} else {
  console.error(`No browser was found. ${BY_HAND}`);
  process.exitCode = 1;
}
