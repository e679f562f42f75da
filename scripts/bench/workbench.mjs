/**
 * The workbench in Chromium: how long an edit takes to be shown, in a sample of 13 items and in a feed of 300, and what
 * of it is the spreadsheet's own.
 */
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { VENDOR_CACHE, vendorFiles } from "../vendor.mjs";
import { launchedChromium, openedPage, ORIGIN } from "./chromium-page.mjs";
import { line } from "./measure.mjs";

const PAGE =
  '<!doctype html><meta charset="utf-8"><title>Bench</title><div id="grid" style="height: 90vh"></div><script src="page.js"></script>';

/** The sample and the feed that are edited, and a cell of each that holds a load. */
const EDITED = /** @type {const} */ ([
  ["ridge-top-observatory", "13 items"],
  [297, "297 items"],
]);
const EDITS = 7;

export async function benchWorkbench() {
  const files = await pageFiles();
  const browser = await launchedChromium();
  const widths = [28, 10, 10, 10, 12, 14, 10, 10];
  try {
    line(
      [
        "an edit in Chromium",
        "open ms",
        "shown ms",
        "ratio",
        "host's floor",
        "cell functions",
        "rest",
        "drawing",
      ],
      widths,
    );
    let first;
    for (const [feed, name] of EDITED) {
      const page = await openedPage(browser, files);
      const opened = await page.evaluate(
        ([what, addresses]) => globalThis.bench.open(what, addresses),
        [feed, { script: "/vendor.js", style: `${ORIGIN}vendor.css` }],
      );
      const { floor, shown, functions, drawing } = await page.evaluate(
        (edits) => globalThis.bench.measure(edits),
        EDITS,
      );
      first ??= shown;
      line(
        [
          name,
          opened.toFixed(0),
          shown.toFixed(0),
          `× ${(shown / first).toFixed(1)}`,
          floor.toFixed(0),
          functions.toFixed(0),
          (shown - floor - functions).toFixed(0),
          drawing.toFixed(0),
        ],
        widths,
      );
      await page.close();
    }
    line(["wanted", "", "at most 1000 of 300 items"], widths);
    console.log("");
  } finally {
    await browser.close();
  }
}

/** By path, as the page asks for them. */
async function pageFiles() {
  const vendor = await vendorFiles();
  const bundle = await build({
    entryPoints: [fileURLToPath(new URL("workbench-page.ts", import.meta.url))],
    bundle: true,
    write: false,
    format: "iife",
    target: "es2022",
    loader: { ".css": "empty" },
    // Only the built page starts threads.
    logOverride: { "empty-import-meta": "silent" },
  });
  const file = (contentType, body) => ({ contentType, body });
  const text = (name) => readFile(join(VENDOR_CACHE, name), "utf8");
  return new Map([
    ["/", file("text/html", PAGE)],
    ["/page.js", file("text/javascript", bundle.outputFiles[0]?.text ?? "")],
    ["/vendor.js", file("text/javascript", await text(vendor.script))],
    ["/vendor.css", file("text/css", await text(vendor.style))],
  ]);
}
