/**
 * Writes dist/, which runs from any folder of a static server.
 *
 *   npm run build -- --origin https://…   for others: the manifest names that address
 */
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { createHash } from "node:crypto";
import { copyFile, mkdir, readdir, readFile, rename, rm, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import webpack from "webpack";
import configurations from "../webpack.config.mjs";
import { loadTypeScript } from "./load-typescript.mjs";
import { nginxText, webConfigText } from "./headers.mjs";
import { copyIcons, manifestPlace, namespaceOf, nextBuild, writeManifest } from "./manifest.mjs";
import { noticesText } from "./notices.mjs";
import { VENDOR_CACHE, vendorFiles } from "./vendor.mjs";

const PROJECT = fileURLToPath(new URL("..", import.meta.url));
export const DIST = join(PROJECT, "dist");
const CACHE = join(PROJECT, ".cache");
/** What dist/ was last built from. */
const STAMP = join(CACHE, "built-from");
/** Number of the last build under development. */
const BUILDS = join(CACHE, "builds");
/** Built here and moved when whole, so that who reads dist/ meanwhile never finds half of it. */
const FRESH = join(CACHE, "dist");
const LOCK = join(CACHE, "build-lock");
const LONGEST_BUILD_MS = 180_000;

/** The functions load with every workbook, so they must stay small. */
const MOST_GZIPPED_BYTES = 180_000;

/** On Windows a folder is neither removed nor moved while a scanner has a file of it open: a moment later it is. */
const PATIENT = { recursive: true, force: true, maxRetries: 5 };

/** Builds for development unless dist/ is already what it would write; one at a time, whoever asks. */
export async function buildIfStale() {
  await locked(async () => {
    const isBuilt = await present(join(DIST, "index.html"));
    if (!isBuilt || (await present(STAMP)) !== (await inputsHash(manifestPlace())))
      await build(manifestPlace());
  });
}

/** @param {{ origin: string, development: boolean }} place */
async function build(place) {
  const from = await inputsHash(place);
  await rm(STAMP, PATIENT);
  await rm(FRESH, PATIENT);
  const vendor = await vendorFiles();
  const modules = await bundle(vendor, place);
  await mkdir(join(FRESH, "vendor"), { recursive: true });
  for (const file of [vendor.script, vendor.style])
    await copyFile(join(VENDOR_CACHE, file), join(FRESH, "vendor", file));
  await writeFunctionsJson(place);
  await writeHelp(place);
  await copyIcons(FRESH);
  for (const file of ["shortcuts.json", "support.html"])
    await copyFile(join(PROJECT, "taskpane/pages/excel", file), join(FRESH, file));
  const number = nextBuild(Number((await present(BUILDS)) ?? 0), Date.now());
  await writeFile(BUILDS, String(number));
  await writeManifest({ ...place, build: number, outFile: join(FRESH, "manifest.xml") });
  await writeFile(join(FRESH, "web.config"), webConfigText());
  const folder = `${new URL(place.origin).pathname.replace(/\/$/, "")}/`;
  await writeFile(join(FRESH, "nginx.conf"), nginxText(folder));
  const vendorModules = JSON.parse(await readFile(join(VENDOR_CACHE, vendor.metafile), "utf8"));
  await writeFile(
    join(FRESH, "THIRD-PARTY-NOTICES.txt"),
    noticesText([...modules, ...vendorModules]),
  );
  await requireSmall();
  await rm(DIST, PATIENT);
  await moved(FRESH, DIST);
  await writeFile(STAMP, from);
}

/**
 * With the server's address before every help page, as Excel wants it.
 * @param {{ origin: string, development: boolean }} place
 */
async function writeFunctionsJson(place) {
  const { helpPath } = await loadTypeScript("functions/documents/help-path.ts");
  for (const file of ["functions.json", "functions-de.json"]) {
    const description = JSON.parse(await readFile(join(PROJECT, "functions", file), "utf8"));
    for (const each of description.functions)
      each.helpUrl = `${place.origin}/${helpPath(each.id, namespaceOf(place))}`;
    await writeFile(join(FRESH, file), `${JSON.stringify(description, null, 2)}\n`);
  }
}

/**
 * For the workbench, and for Excel where the functions are typed otherwise there.
 * @param {{ development: boolean }} place
 */
async function writeHelp(place) {
  const { describedCatalogue: catalogue } = await loadTypeScript(
    "functions/documents/described.ts",
  );
  const { helpIndex, helpPage } = await loadTypeScript("functions/documents/help-page.ts");
  const { helpFolder, helpPath } = await loadTypeScript("functions/documents/help-path.ts");
  for (const namespace of new Set(["FEED", namespaceOf(place)])) {
    const folder = join(FRESH, helpFolder(namespace));
    await mkdir(folder, { recursive: true });
    for (const entry of catalogue)
      await writeFile(join(FRESH, helpPath(entry.id, namespace)), helpPage(entry, namespace));
    await writeFile(join(folder, "index.html"), helpIndex(catalogue, namespace));
    await copyFile(join(PROJECT, "taskpane/help.css"), join(folder, "help.css"));
  }
}

/** @param {() => Promise<void>} work */
async function locked(work) {
  await mkdir(CACHE, { recursive: true });
  while (!(await taken(LOCK))) {
    // Left behind by a build that was killed.
    const since = (await stat(LOCK).catch(() => undefined))?.mtimeMs ?? Date.now();
    if (Date.now() > since + LONGEST_BUILD_MS) await rm(LOCK, { recursive: true, force: true });
    await new Promise((done) => setTimeout(done, 200));
  }
  try {
    await work();
  } finally {
    await rm(LOCK, { recursive: true, force: true });
  }
}

async function taken(folder) {
  try {
    await mkdir(folder);
    return true;
  } catch (error) {
    if (error.code === "EEXIST") return false;
    throw error;
  }
}

/** @returns {Promise<string[]>} the files that went into the bundles */
async function bundle(vendor, { development }) {
  const compiler = webpack(configurations(vendor, { outDir: FRESH, development }));
  const stats = await new Promise((done, fail) =>
    compiler.run((error, result) => (error ? fail(error) : done(result))),
  );
  await new Promise((done) => compiler.close(done));
  if (stats.hasErrors() || stats.hasWarnings())
    throw new Error(
      stats.toString({
        all: false,
        errors: true,
        warnings: true,
        colors: false,
      }),
    );
  return stats.stats.flatMap(({ compilation }) =>
    [...compilation.modules].flatMap((module) =>
      // Modules that were joined into one are listed inside it.
      [module, ...(module.modules ?? [])].flatMap(({ resource }) => resource ?? []),
    ),
  );
}

async function requireSmall() {
  const script = await readFile(join(FRESH, "functions.js"));
  const bytes = gzipSync(script, { level: 9 }).length;
  const size = (count) => `${(count / 1000).toFixed(1)} kB`;
  console.log(`functions.js: ${size(bytes)} gzipped`);
  if (bytes > MOST_GZIPPED_BYTES)
    throw new Error(`functions.js may have ${size(MOST_GZIPPED_BYTES)} gzipped at most`);
}

/** Of everything that dist/ is made from. */
async function inputsHash({ origin }) {
  const hash = createHash("sha256");
  hash.update(origin);
  const files = ["package-lock.json", "package.json", "tsconfig.json"];
  files.push("webpack.config.mjs", "manifest.xml");
  for (const folder of ["functions", "scripts", "src", "taskpane"]) {
    const found = await readdir(join(PROJECT, folder), {
      recursive: true,
      withFileTypes: true,
    });
    for (const entry of found) if (entry.isFile()) files.push(join(entry.parentPath, entry.name));
  }
  for (const file of files.sort()) {
    const path = file.startsWith(PROJECT) ? file : join(PROJECT, file);
    hash.update(path.slice(PROJECT.length));
    hash.update(await readFile(path));
  }
  return hash.digest("hex");
}

/** As `rm` with `PATIENT`. */
async function moved(from, to) {
  for (let tries = 1; ; tries += 1) {
    try {
      return await rename(from, to);
    } catch (error) {
      if (!["EACCES", "EBUSY", "EPERM"].includes(error.code) || tries > PATIENT.maxRetries)
        throw error;
      await new Promise((done) => setTimeout(done, 100 * tries));
    }
  }
}

async function present(path) {
  return readFile(path, "utf8").catch(() => undefined);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { values } = parseArgs({ options: { origin: { type: "string" } } });
  if ("DOWNFEED_ORIGIN" in process.env)
    throw new Error("DOWNFEED_ORIGIN is no longer read: npm run build -- --origin https://…");
  const place = manifestPlace(values.origin);
  await locked(() => build(place));
  console.log(`dist/ is built for ${place.origin}`);
}
