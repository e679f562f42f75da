/** Installing a program from Debian's packages, as root. */
import { spawnSync } from "node:child_process";

export function canInstall() {
  return process.platform === "linux" && process.getuid?.() === 0;
}

/** @param {string} name @param {string} byHand What a person does where it fails. */
export function installPackage(name, byHand) {
  run(byHand, "apt-get", "update");
  run(byHand, "apt-get", "install", "--yes", "--no-install-recommends", name);
}

function run(byHand, command, ...options) {
  const { status, error } = spawnSync(command, options, {
    stdio: "inherit",
    env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
  });
  if (error || status !== 0) {
    console.error(`${command} ${options.join(" ")} failed. ${byHand}`);
    process.exit(status ?? 1);
  }
}
