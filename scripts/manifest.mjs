/** From the manifest's template to the manifest of one place: where its files are served, and whether it is for development. */
import { cp, mkdir, readFile, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const PROJECT = fileURLToPath(new URL("..", import.meta.url));

/** Where `npm run excel` serves. */
export const DEVELOPMENT_ORIGIN = "https://localhost:3443";

export const ICON_SIZES = [16, 20, 24, 32, 40, 48, 64, 80];

/**
 * Two copies of an add-in in one Excel would fight over one namespace, so the one under development is another add-in
 * with another namespace. An Id is never changed: Excel knows an installed add-in by it.
 */
const IDENTITIES = {
  production: {
    id: "d6bbfb41-fa8d-4039-a5a8-99da66cbd6fb",
    name: "Downfeed",
    namespace: "FEED",
  },
  development: {
    id: "fb61770b-37b6-4b8e-befe-2689e986c28a",
    name: "Downfeed Dev",
    namespace: "FEEDDEV",
  },
};

export const DEVELOPMENT_ID = IDENTITIES.development.id;

/**
 * The manifest of those files: for production where an origin is given, else for development.
 * @param {string} [origin] Where the files are served; may end in a folder: `https://example.org/downfeed`.
 */
export function manifestPlace(origin) {
  return origin === undefined
    ? { origin: DEVELOPMENT_ORIGIN, development: true }
    : { origin: requireOrigin(origin), development: false };
}

/** In which the functions are typed in Excel. @param {{ development: boolean }} place */
export function namespaceOf({ development }) {
  return (development ? IDENTITIES.development : IDENTITIES.production).namespace;
}

/**
 * @param {{ origin: string, development: boolean, build?: number }} place
 * @returns {Promise<string>}
 */
export async function manifestText({ origin, development, build = 0 }) {
  const template = await readFile(join(PROJECT, "manifest.xml"), "utf8");
  const { version } = JSON.parse(await readFile(join(PROJECT, "package.json"), "utf8"));
  const values = {
    ...(development ? IDENTITIES.development : IDENTITIES.production),
    origin,
    // Excel keeps what it has read, functions too, until this changes: with each release, and with each build under development.
    version: `${version}.${development ? build : 0}`,
  };
  return template
    .replace(/^<!-- .*template.* -->\n/m, "")
    .replace(/\{\{(\w+)\}\}/g, (found, key) => {
      if (!(key in values)) throw new Error(`manifest.xml: unknown ${found}`);
      return values[key];
    });
}

/** @param {{ origin: string, development: boolean, build?: number, outFile: string }} options */
export async function writeManifest({ outFile, ...place }) {
  const text = await manifestText(place);
  await mkdir(dirname(outFile), { recursive: true });
  await writeFile(outFile, text);
}

/**
 * The icons to where the manifest looks for them.
 * @param {string} outDir The folder that is served.
 */
export async function copyIcons(outDir) {
  await cp(join(PROJECT, "taskpane", "icons"), join(outDir, "assets", "icons"), {
    recursive: true,
  });
}

const HOUR_MS = 3_600_000;
/** A part of a version has five digits at most: enough for the hours of eleven years. */
const FIRST_HOUR = Date.UTC(2026, 0, 1) / HOUR_MS;

/**
 * Number of a build under development: greater than the last one's, and than that of a folder whose record was lost.
 * @param {number} last @param {number} now in ms since 1970
 */
export function nextBuild(last, now) {
  return Math.max(last + 1, Math.floor(now / HOUR_MS) - FIRST_HOUR);
}

/** Excel loads add-ins over https only. @param {string} origin */
function requireOrigin(origin) {
  const plain = origin.replace(/\/+$/, "");
  const { protocol, search, hash } = new URL(plain);
  if (protocol !== "https:" || search || hash || /[<>&"]/.test(plain))
    throw new Error(`the origin must be an https address without query, got ${origin}`);
  return plain;
}
