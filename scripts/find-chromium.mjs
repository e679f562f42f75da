/** The machine's own Chromium, Chrome or Edge, for the browser tests and the pictures. */
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";

const COMMANDS = [
  "chromium",
  "chromium-browser",
  "google-chrome",
  "google-chrome-stable",
  "microsoft-edge",
];

const WINDOWS_PROGRAMS = [
  "Google/Chrome/Application/chrome.exe",
  "Microsoft/Edge/Application/msedge.exe",
  "Chromium/Application/chrome.exe",
];

const MAC_PROGRAMS = [
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
];

/**
 * `CHROMIUM_PATH` where it is set, else the first one found.
 * @returns {string | undefined}
 */
export function findChromium(environment = process.env) {
  if (environment.CHROMIUM_PATH) return environment.CHROMIUM_PATH;
  const folders = (environment.PATH ?? "").split(delimiter).filter(Boolean);
  const windowsFolders = [
    environment.PROGRAMFILES,
    environment["PROGRAMFILES(X86)"],
    environment.LOCALAPPDATA,
  ].filter(Boolean);
  return [
    ...folders.flatMap((folder) => COMMANDS.map((command) => join(folder, command))),
    ...MAC_PROGRAMS,
    ...windowsFolders.flatMap((folder) => WINDOWS_PROGRAMS.map((program) => join(folder, program))),
  ].find((path) => existsSync(path));
}
