/** Takes the types off a file for webpack. */
import { readFile } from "node:fs/promises";
import { extname } from "node:path";
import { fileURLToPath } from "node:url";
import { transform } from "esbuild";

const TSCONFIG = fileURLToPath(new URL("../tsconfig.json", import.meta.url));

/** @this {import("webpack").LoaderContext<{}>} @param {string} source */
export default async function scriptLoader(source) {
  const { code } = await transform(source, {
    loader: extname(this.resourcePath) === ".tsx" ? "tsx" : "ts",
    sourcefile: this.resourcePath,
    target: "es2022",
    tsconfigRaw: await readFile(TSCONFIG, "utf8"),
  });
  return code;
}
