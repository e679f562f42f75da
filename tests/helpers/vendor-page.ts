/** A page of the tests' own around the workbench's spreadsheet, without a server. */
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { build } from "esbuild";
import type { Browser, Page } from "playwright-core";
import { VENDOR_CACHE, vendorFiles } from "../../scripts/vendor.mjs";

const ORIGIN = "http://workbench.test/";
const PAGE =
  '<!doctype html><meta charset="utf-8"><title>Contract</title><div id="grid" style="height: 90vh"></div><script src="page.js"></script>';

export const VENDOR_ADDRESSES = {
  script: "/vendor.js",
  style: `${ORIGIN}vendor.css`,
};

interface ServedFile {
  readonly contentType: string;
  readonly body: string;
}

export type ServedFiles = ReadonlyMap<string, ServedFile>;

/** @param script What runs in the page, as a file of the project. */
export async function vendorPageFiles(script: string): Promise<ServedFiles> {
  const vendor = await vendorFiles();
  const bundle = await build({
    entryPoints: [script],
    bundle: true,
    write: false,
    format: "iife",
    target: "es2022",
    // Only the built page starts threads.
    logOverride: { "empty-import-meta": "silent" },
  });
  const text = (name: string) => readFile(join(VENDOR_CACHE, name), "utf8");
  return new Map([
    ["/", { contentType: "text/html", body: PAGE }],
    [
      "/page.js",
      {
        contentType: "text/javascript",
        body: bundle.outputFiles[0]?.text ?? "",
      },
    ],
    ["/vendor.js", { contentType: "text/javascript", body: await text(vendor.script) }],
    ["/vendor.css", { contentType: "text/css", body: await text(vendor.style) }],
  ]);
}

/** `faults` grows with what the page throws. */
export async function openVendorPage(
  browser: Browser,
  files: ServedFiles,
): Promise<{ readonly page: Page; readonly faults: readonly string[] }> {
  // Nobody looks at the sheet: a small one is drawn fast.
  const page = await browser.newPage({ viewport: { width: 400, height: 300 } });
  const faults: string[] = [];
  page.on("pageerror", ({ message }) => faults.push(message));
  await page.route(`${ORIGIN}**`, (route) => {
    const file = files.get(new URL(route.request().url()).pathname);
    return file ? route.fulfill(file) : route.fulfill({ status: 204 });
  });
  await page.goto(ORIGIN);
  return { page, faults };
}
