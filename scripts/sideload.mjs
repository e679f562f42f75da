/** Excel on this computer told of the add-in under development, and told to forget it, by Microsoft's tool for that. */
import { spawn } from "node:child_process";
import { rm } from "node:fs/promises";
import { homedir } from "node:os";
import { dirname, join } from "node:path";
import { DEVELOPMENT_ID } from "./manifest.mjs";

/** Fetched by npx when it is wanted: some 600 packages, too many for a dependency of all who work here. */
const TOOL = "office-addin-debugging@7.0.0";

/**
 * @typedef {{ manifest: string, npm?: string, tool?: string, platform?: NodeJS.Platform, home?: string }} Sideloading
 * `npm` is the file of npm that runs this, as npm says it.
 */

/**
 * Starts Excel with the add-in.
 * @param {Sideloading} options
 */
export async function startInExcel(options) {
  const { platform = process.platform, home = homedir() } = options;
  // The tool links the manifest there and refuses a second time, although dist/ has another file by then.
  if (platform === "darwin") await rm(linkOnMac(home), { force: true });
  // With its debugging on, Excel stops at a dialog each time it loads the page.
  await run("start", ["desktop", "--no-debug"], options);
}

/**
 * Takes back what `startInExcel` left with Excel: without the server Excel would show an error at each start.
 * @param {Sideloading} options
 */
export async function stopInExcel(options) {
  await run("stop", [], options);
}

/**
 * Excel with the add-in until Ctrl+C, which also has Excel forget it; Ctrl+C again ends without that.
 * @param {Sideloading} options
 * @param {{ failed: (error: Error) => void, close: () => void }} told Excel is not started; the add-in is served no more.
 */
export async function inExcelUntilInterrupted(options, { failed, close }) {
  const interrupted = new Promise((done) => process.once("SIGINT", done));
  const started = startInExcel(options).catch(failed);
  await interrupted;
  close();
  console.log("Excel is told to forget the add-in; Ctrl+C again ends without that.");
  await started;
  await stopInExcel(options);
}

/** @param {string} home */
function linkOnMac(home) {
  return join(
    home,
    "Library/Containers/com.microsoft.Excel/Data/Documents/wef",
    `${DEVELOPMENT_ID}.manifest.xml`,
  );
}

/**
 * Without a shell, which would cut a path at its spaces; Windows starts npx itself through a shell only.
 * @param {string} command @param {readonly string[]} more @param {Sideloading} options
 */
async function run(command, more, { manifest, npm = process.env["npm_execpath"], tool = TOOL }) {
  if (!npm) throw new Error("npm did not start this: use `npm run excel`");
  const npx = join(dirname(npm), "npx-cli.js");
  const child = spawn(process.execPath, [npx, "--yes", tool, command, manifest, ...more], {
    stdio: "inherit",
  });
  const code = await new Promise((done, fail) => {
    child.once("error", fail);
    child.once("exit", done);
  });
  if (code !== 0) throw new Error(`${tool} ${command} ended with ${code}`);
}
