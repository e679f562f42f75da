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

/**
 * What the environment asks for: `DOWNFEED_ORIGIN` says where the files are served in production; without it the
 * manifest is the one for development.
 * @param {NodeJS.ProcessEnv} environment
 */
export function manifestPlace(environment) {
  const origin = environment["DOWNFEED_ORIGIN"];
  return origin
    ? { origin, development: false }
    : { origin: DEVELOPMENT_ORIGIN, development: true };
}

/** In which the functions are typed in Excel. @param {{ development: boolean }} place */
export function namespaceOf({ development }) {
  return (development ? IDENTITIES.development : IDENTITIES.production).namespace;
}

/**
 * @param {{ origin: string, development: boolean }} place `origin` may end in a folder: `https://example.org/downfeed`.
 * @returns {Promise<string>}
 */
export async function manifestText({ origin, development }) {
  const template = await readFile(join(PROJECT, "manifest.xml"), "utf8");
  const { version } = JSON.parse(await readFile(join(PROJECT, "package.json"), "utf8"));
  const values = {
    ...(development ? IDENTITIES.development : IDENTITIES.production),
    origin: requireOrigin(origin),
    // Excel reads the functions again when this changes, so it follows the package's version.
    version: `${version}.0`,
  };
  return template
    .replace(/^<!-- .*template.* -->\n/m, "")
    .replace(/\{\{(\w+)\}\}/g, (found, key) => {
      if (!(key in values)) throw new Error(`manifest.xml: unknown ${found}`);
      return values[key];
    });
}

/** @param {{ origin: string, development: boolean, outFile: string }} options */
export async function writeManifest({ origin, development, outFile }) {
  const text = await manifestText({ origin, development });
  await mkdir(dirname(outFile), { recursive: true });
  await writeFile(outFile, text);
}

/**
 * The icons to where the manifest looks for them.
 * @param {string} outDir The folder that is served.
 */
export async function copyIcons(outDir) {
  const icons = join(outDir, "assets", "icons");
  await mkdir(icons, { recursive: true });
  for (const size of ICON_SIZES)
    await cp(
      join(PROJECT, "taskpane", "icons", `icon-${size}.png`),
      join(icons, `icon-${size}.png`),
    );
  await cp(join(PROJECT, "taskpane", "icons", "icon.svg"), join(icons, "icon.svg"));
}

/** Excel loads add-ins over https only. @param {string} origin */
function requireOrigin(origin) {
  const plain = origin.replace(/\/+$/, "");
  const { protocol, search, hash } = new URL(plain);
  if (protocol !== "https:" || search || hash || /[<>&"]/.test(plain))
    throw new Error(`DOWNFEED_ORIGIN must be an https address without query, got ${origin}`);
  return plain;
}
