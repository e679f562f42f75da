/** Installs Chromium for the browser tests where no browser is found; does nothing otherwise. */
import { spawnSync } from "node:child_process";
import { findChromium } from "./find-chromium.mjs";

const BY_HAND =
  "Install Chromium, Chrome or Edge, or set CHROMIUM_PATH to one; then run the tests again.";

const found = findChromium();
if (found !== undefined) {
  console.log(`browser: ${found}`);
} else if (process.platform === "linux" && process.getuid?.() === 0) {
  run("apt-get", "update");
  run("apt-get", "install", "--yes", "--no-install-recommends", "chromium");
  console.log(`browser: ${findChromium()}`);
} else {
  console.error(`No browser was found. ${BY_HAND}`);
  process.exitCode = 1;
}

function run(command, ...options) {
  const { status, error } = spawnSync(command, options, {
    stdio: "inherit",
    env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
  });
  if (error || status !== 0) {
    console.error(`${command} ${options.join(" ")} failed. ${BY_HAND}`);
    process.exit(status ?? 1);
  }
}
