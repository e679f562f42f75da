/**
 * The spreadsheet's packages as Node loads them at once: bundled before the tests start. Left as they are, their files
 * would be transformed anew for every test file that calculates a sheet.
 */
import { join } from "node:path";
import { build } from "esbuild";
import { leanSpreadsheet } from "../../scripts/lean-spreadsheet.mjs";

const PROJECT = join(import.meta.dirname, "../..");
const FOLDER = join(PROJECT, ".cache/node-spreadsheet");

const PACKAGES = ["core", "engine-formula", "sheets", "sheets-formula"].flatMap((name) => [
  { id: `@univerjs/${name}`, file: name },
  { id: `@univerjs/${name}/facade`, file: `${name}-facade` },
]);

/** For each package the bundled file that stands in its place. */
export async function nodeSpreadsheet(): Promise<{ find: RegExp; replacement: string }[]> {
  await build({
    entryPoints: PACKAGES.map(({ id, file }) => ({ in: id, out: file })),
    absWorkingDir: PROJECT,
    outdir: FOLDER,
    outExtension: { ".js": ".mjs" },
    bundle: true,
    plugins: [leanSpreadsheet],
    // One copy of what they share, whichever of them is loaded.
    splitting: true,
    format: "esm",
    platform: "node",
    target: "node20",
    // Some of what they use is not of this kind, and requires what it needs.
    banner: {
      js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);',
    },
    logLevel: "warning",
  });
  return PACKAGES.map(({ id, file }) => ({
    find: new RegExp(`^${id}$`),
    replacement: join(FOLDER, `${file}.mjs`),
  }));
}
