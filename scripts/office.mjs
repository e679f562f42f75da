/** Installs LibreOffice for the tests that recalculate sheets in it, where it is not there; does nothing otherwise. */
import { spawnSync } from "node:child_process";
import { canInstall, installPackage } from "./debian-package.mjs";

const BY_HAND =
  "Install LibreOffice so that soffice is found on the PATH; then run the tests again.";

const { status, stdout } = spawnSync("soffice", ["--version"], {
  encoding: "utf8",
});
if (status === 0) {
  console.log(`office: ${stdout.trim()}`);
} else if (canInstall()) {
  installPackage("libreoffice-calc-nogui", BY_HAND);
} else {
  console.error(`LibreOffice was not found. ${BY_HAND}`);
  process.exitCode = 1;
}
