/**
 * Writes the numbers and the workbooks of a release, by that release's own budgets, functions and calculation:
 *
 *   git worktree add <folder> 8932e5c && ln -s "$PWD/node_modules" <folder>/node_modules
 *   node tests/budget/freeze-release.mjs <folder>
 *
 * 8932e5c is 0.2.0. What is written is never renewed by a later version: it is what that version is held against.
 */
import { readFile, writeFile, mkdir, rm } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { format } from "prettier";

const [release] = process.argv.slice(2);
if (!release) throw new Error("which checkout of the release?");
const here = import.meta.dirname;
const { version } = JSON.parse(
  await readFile(join(release, "package.json"), "utf8"),
);
const name = version.replace(/\.0$/, "");

const { workbooks, numbers } = await loaded();
await written(`workbooks-of-${name}.json`, workbooks);
await written(`numbers-of-${name}.json`, numbers);
process.exit(0);

/** Our way of reading, with everything that it imports taken from the release. */
async function loaded() {
  const folder = join(release, ".cache", "freeze");
  await mkdir(folder, { recursive: true });
  const outfile = join(folder, "freeze.mjs");
  const own = ["numbers-by-label", "frozen-plan", "frozen-release"];
  await build({
    entryPoints: [join(here, "frozen-release.ts")],
    outfile,
    bundle: true,
    format: "esm",
    platform: "node",
    target: "node20",
    plugins: [
      {
        name: "of the release",
        setup: ({ onResolve, resolve }) =>
          onResolve({ filter: /^\./ }, ({ path, importer, kind }) => {
            if (!importer.startsWith(here)) return undefined;
            if (own.includes(path.slice(2).replace(/\.js$/, "")))
              return undefined;
            const resolveDir = join(release, "tests", "budget");
            return resolve(path, { kind, resolveDir });
          }),
      },
    ],
  });
  try {
    const { frozenRelease } = await import(pathToFileURL(outfile).href);
    return await frozenRelease();
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** @param {string} file @param {unknown} content */
async function written(file, content) {
  const text = await format(JSON.stringify(content), { parser: "json" });
  await writeFile(join(here, file), text);
  console.log(`${file}: ${(text.length / 1024).toFixed(0)} kB`);
}
