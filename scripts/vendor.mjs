/** Bundles the workbench's spreadsheet, once for as long as nothing that goes into it changes. */
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { leanSpreadsheet } from "./lean-spreadsheet.mjs";

const PROJECT = fileURLToPath(new URL("..", import.meta.url));
const ENTRY = join(PROJECT, "taskpane/hosts/vendor/univer.ts");
const STUBS = join(PROJECT, "taskpane/hosts/vendor/stubs");
export const VENDOR_CACHE = join(PROJECT, ".cache/vendor");

/** Large parts that a sheet never uses, and what stands in for them. */
const REPLACED = new Map([
  ["cjk-regex", "cjk-characters.mjs"],
  ["franc-min", "language-guess.mjs"],
  ["opentype.js", "font-files.mjs"],
]);

const replaceUnused = {
  name: "replace-unused",
  setup({ onResolve }) {
    onResolve({ filter: /^(cjk-regex|franc-min|opentype\.js)$/ }, ({ path }) => ({
      path: join(STUBS, REPLACED.get(path)),
    }));
    onResolve({ filter: /^\.\/[a-z]{2,4}(-[a-z0-9-]+)?-[\w-]{8}\.js$/ }, ({ importer }) =>
      importer.includes("engine-render") ? { path: join(STUBS, "hyphenation.mjs") } : undefined,
    );
  },
};

/**
 * Names of the files in `VENDOR_CACHE`: the script, its style sheet, and esbuild's account of what is in them.
 * @returns {Promise<{ script: string, style: string, metafile: string }>}
 */
export async function vendorFiles() {
  const name = `univer-${await contentHash()}`;
  const files = {
    script: `${name}.js`,
    style: `${name}.css`,
    metafile: `${name}.json`,
  };
  // Written last, so that it is there only when the others are whole.
  if (!existsSync(join(VENDOR_CACHE, files.metafile))) await bundle(name, files);
  return files;
}

async function bundle(name, { metafile }) {
  console.log("bundling the spreadsheet …");
  await mkdir(VENDOR_CACHE, { recursive: true });
  const result = await build({
    entryPoints: { [name]: ENTRY },
    outdir: VENDOR_CACHE,
    bundle: true,
    format: "esm",
    minify: true,
    target: "es2022",
    legalComments: "none",
    define: { "process.env.NODE_ENV": '"production"' },
    plugins: [replaceUnused, leanSpreadsheet],
    metafile: true,
    logLevel: "warning",
  });
  await writeFile(
    join(VENDOR_CACHE, metafile),
    JSON.stringify(Object.keys(result.metafile.inputs)),
  );
}

async function contentHash() {
  const stubs = (await readdir(STUBS)).sort().map((file) => join(STUBS, file));
  const hash = createHash("sha256");
  const own = ["vendor.mjs", "lean-spreadsheet.mjs"].map((file) => join(PROJECT, "scripts", file));
  for (const file of [ENTRY, ...own, ...stubs]) hash.update(await readFile(file));
  const lockfile = await readFile(join(PROJECT, "package-lock.json"), "utf8");
  const { packages } = JSON.parse(lockfile);
  for (const [path, { version }] of Object.entries(packages)) {
    if (/node_modules\/(@univerjs\/|react|rxjs)/.test(path)) hash.update(`${path}@${version}\n`);
  }
  return hash.digest("hex").slice(0, 12);
}
