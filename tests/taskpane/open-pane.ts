import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import type { Browser, Page } from "playwright-core";

export interface PaneBundle {
  readonly script: string;
  readonly style: string;
}

const here = (name: string) => fileURLToPath(new URL(name, import.meta.url));

/** Pane, engine and memory host in one script, and the pane's style as the pane itself imports it. */
export async function bundlePane(): Promise<PaneBundle> {
  const { outputFiles } = await build({
    entryPoints: [here("pane-page.ts")],
    bundle: true,
    format: "iife",
    target: "es2022",
    // It is sent to the page anew for each test.
    minify: true,
    outdir: "out",
    write: false,
    // Only the built page starts threads.
    logOverride: { "empty-import-meta": "silent" },
    // The memory host complains through it; a page has none.
    alias: { "node:assert/strict": here("page-assert.ts") },
  });
  const text = (ending: string) =>
    outputFiles.find(({ path }) => path.endsWith(ending))?.text ?? "";
  return { script: text(".js"), style: text(".css") };
}

export interface PanePage {
  readonly page: Page;
  /** Errors that nothing caught, and what the console called an error. */
  readonly complaints: readonly string[];
}

export interface PaneLook {
  readonly viewport?: { readonly width: number; readonly height: number };
  readonly colorScheme?: "light" | "dark";
  readonly forcedColors?: "active";
  readonly reducedMotion?: "reduce";
}

/** To open panes in, one after the other. */
export async function panePage(browser: Browser): Promise<Page> {
  const page = await browser.newPage({ locale: "en-GB" });
  page.setDefaultTimeout(5_000);
  return page;
}

/** The pane as a host embeds it: alone in a narrow page, within one region. What was open there before is gone. */
export async function openPane(
  page: Page,
  { script, style }: PaneBundle,
  look: PaneLook = {},
): Promise<PanePage> {
  page.removeAllListeners("pageerror");
  page.removeAllListeners("console");
  await page.goto("about:blank");
  await page.setViewportSize(look.viewport ?? { width: 350, height: 620 });
  await page.emulateMedia({
    colorScheme: look.colorScheme ?? "light",
    forcedColors: look.forcedColors ?? "none",
    reducedMotion: look.reducedMotion ?? "no-preference",
  });
  const complaints: string[] = [];
  page.on("pageerror", ({ message }) => complaints.push(message));
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  await page.setContent(
    `<!doctype html><html lang="en"><head><title>Pane</title><meta name="viewport" content="width=device-width">` +
      `<style>body { margin: 0 }</style></head><body><main id="pane" aria-label="Downfeed"></main></body></html>`,
  );
  await page.addStyleTag({ content: style });
  await page.addScriptTag({ content: script });
  await page.waitForSelector(".feed-answer-place:not(:empty)");
  return { page, complaints };
}
