/**
 * Writes dist/, which runs from any folder of any static server.
 *
 *   DOWNFEED_ORIGIN=https://… node scripts/build.mjs   also puts that address into the manifest
 */
import { fileURLToPath } from "node:url";
import { createHash } from "node:crypto";
import { copyFile, mkdir, readdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import webpack from "webpack";
import configurations from "../webpack.config.mjs";
import { loadTypeScript } from "./load-typescript.mjs";
import { copyIcons, manifestPlace, namespaceOf, writeManifest } from "./manifest.mjs";
import { noticesText } from "./notices.mjs";
import { VENDOR_CACHE, vendorFiles } from "./vendor.mjs";

const PROJECT = fileURLToPath(new URL("..", import.meta.url));
export const DIST = join(PROJECT, "dist");
const CACHE = join(PROJECT, ".cache");
/** What dist/ was last built from. */
const STAMP = join(CACHE, "built-from");
/** Built here and moved when whole, so that who reads dist/ meanwhile never finds half of it. */
const FRESH = join(CACHE, "dist");
const LOCK = join(CACHE, "build-lock");
const LONGEST_BUILD_MS = 180_000;

/** The functions load with every workbook, so they must stay small. */
const MOST_GZIPPED_BYTES = 150_000;

/** Builds unless dist/ is already what it would write; one at a time, whoever asks. */
export async function buildIfStale() {
  await locked(async () => {
    const isBuilt = await present(join(DIST, "index.html"));
    if (!isBuilt || (await present(STAMP)) !== (await inputsHash())) await build();
  });
}

async function build() {
  const from = await inputsHash();
  await rm(STAMP, { force: true });
  await rm(FRESH, { recursive: true, force: true });
  const vendor = await vendorFiles();
  const modules = await bundle(vendor);
  await mkdir(join(FRESH, "vendor"), { recursive: true });
  for (const file of [vendor.script, vendor.style])
    await copyFile(join(VENDOR_CACHE, file), join(FRESH, "vendor", file));
  await writeFunctionsJson();
  await writeHelp();
  await copyIcons(FRESH);
  await writeManifest({
    ...manifestPlace(process.env),
    outFile: join(FRESH, "manifest.xml"),
  });
  const vendorModules = JSON.parse(await readFile(join(VENDOR_CACHE, vendor.metafile), "utf8"));
  await writeFile(
    join(FRESH, "THIRD-PARTY-NOTICES.txt"),
    noticesText([...modules, ...vendorModules]),
  );
  await requireSmall();
  await rm(DIST, { recursive: true, force: true });
  await rename(FRESH, DIST);
  await writeFile(STAMP, from);
}

/** With the server's address before every help page, as Excel wants it. */
async function writeFunctionsJson() {
  const place = manifestPlace(process.env);
  const { helpPath } = await loadTypeScript("functions/documents/help-path.ts");
  for (const file of ["functions.json", "functions-de.json"]) {
    const description = JSON.parse(await readFile(join(PROJECT, "functions", file), "utf8"));
    for (const each of description.functions)
      each.helpUrl = `${place.origin}/${helpPath(each.id, namespaceOf(place))}`;
    await writeFile(join(FRESH, file), `${JSON.stringify(description, null, 2)}\n`);
  }
}

/** For the workbench, and for Excel where the functions are typed otherwise there. */
async function writeHelp() {
  const { catalogue } = await loadTypeScript("functions/catalogue.ts");
  const { helpIndex, helpPage } = await loadTypeScript("functions/documents/help-page.ts");
  const { helpFolder, helpPath } = await loadTypeScript("functions/documents/help-path.ts");
  for (const namespace of new Set(["FEED", namespaceOf(manifestPlace(process.env))])) {
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
  const latest = Date.now() + LONGEST_BUILD_MS;
  while (!(await taken(LOCK))) {
    // Left behind by a build that was killed.
    if (Date.now() > latest) await rm(LOCK, { recursive: true, force: true });
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
async function bundle(vendor) {
  const compiler = webpack(configurations(vendor, FRESH));
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
async function inputsHash() {
  const hash = createHash("sha256");
  hash.update(process.env["DOWNFEED_ORIGIN"] ?? "");
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

async function present(path) {
  return readFile(path, "utf8").catch(() => undefined);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await locked(build);
  console.log("dist/ is built");
}
