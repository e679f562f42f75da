/** The search in Chromium, in one thread and in more: how much faster, how long the page stands still, how soon it is cancelled. */
import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { line } from "./measure.mjs";
import { pageInChromium } from "./chromium-page.mjs";

const SIZES = ["2.5 mm²", "4 mm²", "6 mm²", "10 mm²", "16 mm²", "25 mm²", "35 mm²", "50 mm²"];
const FEEDS = ["the trackside cabinet", "the umbilical"];
/** The median of each, taken in turn with the others. */
const ROUNDS = 3;

export async function benchSearchThreads() {
  const cores = availableParallelism();
  // As many as the pane takes, and one on every core.
  const counts = [...new Set([1, Math.max(1, cores - 1), cores])];
  const widths = [44, 14, 14, 12, 16, 12];
  line(
    ["a search in Chromium", "combinations", "ms", "ratio", "longest block ms", "cancel ms"],
    widths,
  );
  const { page, close } = await pageInChromium(await pageFiles());
  try {
    for (const feed of FEEDS) {
      const found = counts.map(() => /** @type {any[]} */ ([]));
      for (let round = 0; round < ROUNDS; round++)
        for (const [at, threads] of counts.entries()) {
          const searched = await page.evaluate(
            ([name, sizes, of]) => globalThis.searches.search(name, sizes, of),
            /** @type {const} */ ([feed, SIZES, threads]),
          );
          const cancel = await page.evaluate(
            ([name, sizes, of]) => globalThis.searches.cancel(name, sizes, of),
            /** @type {const} */ ([feed, SIZES, threads]),
          );
          found[at]?.push({ ...searched, cancel });
        }
      let one;
      for (const [at, threads] of counts.entries()) {
        const runs = found[at] ?? [];
        const middle = (of) => runs.map(of).sort((a, b) => a - b)[runs.length >> 1];
        const time = middle(({ milliseconds }) => milliseconds);
        one ??= time;
        line(
          [
            `${feed}, ${threads === 1 ? "1 thread" : `${threads} threads`} of ${cores} cores`,
            String(runs[0].count),
            time.toFixed(0),
            `× ${(one / time).toFixed(2)}`,
            Math.max(...runs.map(({ longestBlock }) => longestBlock)).toFixed(0),
            Math.max(...runs.map(({ cancel }) => cancel)).toFixed(0),
          ],
          widths,
        );
      }
    }
    line(["wanted", "", "", "", "below 100", "below 100"], widths);
    console.log("");
  } finally {
    await close();
  }
}

/** By path, as the page asks for them: the page is a module, which finds the script of its threads beside it. */
async function pageFiles() {
  const bundled = async (entry, format) => {
    const { outputFiles } = await build({
      entryPoints: [fileURLToPath(new URL(entry, import.meta.url))],
      bundle: true,
      minify: true,
      write: false,
      format,
      target: "es2022",
    });
    return { contentType: "text/javascript", body: outputFiles[0]?.text ?? "" };
  };
  const html =
    '<!doctype html><meta charset="utf-8"><title>Bench</title><script type="module" src="page.js"></script>';
  return new Map([
    ["/", { contentType: "text/html", body: html }],
    ["/page.js", await bundled("search-page.ts", "esm")],
    ["/search-worker.ts", await bundled("../../taskpane/tradeoffs/search-worker.ts", "iife")],
  ]);
}
