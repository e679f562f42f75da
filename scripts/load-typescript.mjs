/** Lets a script use the project's TypeScript modules: bundled by esbuild on the fly, imported, and cleared away again. */
import { mkdir, mkdtemp, rm } from "node:fs/promises";
import { basename, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

const PROJECT = fileURLToPath(new URL("..", import.meta.url));

/**
 * The module's exports.
 * @param {string} path From the project's folder, `functions/catalogue.ts`.
 * @param {string} [project] Another checkout of it.
 * @returns {Promise<any>}
 */
export async function loadTypeScript(path, project = PROJECT) {
  // Inside the project, so that packages are found from there.
  const cache = join(project, ".cache");
  await mkdir(cache, { recursive: true });
  const folder = await mkdtemp(join(cache, "load-"));
  const outfile = join(folder, basename(path).replace(/\.ts$/, ".mjs"));
  try {
    await build({
      entryPoints: [join(project, path)],
      outfile,
      bundle: true,
      format: "esm",
      platform: "node",
      target: "node20",
      packages: "external",
      logLevel: "warning",
    });
    return await import(pathToFileURL(outfile).href);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
