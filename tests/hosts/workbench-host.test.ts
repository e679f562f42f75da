import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { build } from "esbuild";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe } from "vitest";
import { VENDOR_CACHE, vendorFiles } from "../../scripts/vendor.mjs";
import {
  type Area,
  type Host,
  HostError,
  OccupiedError,
} from "../../taskpane/hosts/host.js";
import { launchChromium } from "../helpers/chromium.js";
import { describeHost } from "./host-contract.js";
import type { Answer } from "./workbench-page.js";

const ORIGIN = "http://workbench.test/";
const PAGE =
  '<!doctype html><title>Contract</title><div id="grid" style="height: 90vh"></div><script src="page.js"></script>';

interface ServedFile {
  readonly contentType: string;
  readonly body: string;
}

async function servedFiles(): Promise<ReadonlyMap<string, ServedFile>> {
  const { script, style } = await vendorFiles();
  const bundle = await build({
    entryPoints: [join(import.meta.dirname, "workbench-page.ts")],
    bundle: true,
    write: false,
    format: "iife",
    target: "es2022",
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
    [
      "/vendor.js",
      { contentType: "text/javascript", body: await text(script) },
    ],
    ["/vendor.css", { contentType: "text/css", body: await text(style) }],
  ]);
}

/** The host in the page, as if it were here. */
class PageHost implements Host {
  readonly namespace = "FEED";
  readonly #changes = new Set<() => void>();
  readonly #selections = new Set<(area: Area) => void>();

  constructor(
    private readonly page: Page,
    private readonly features: readonly string[],
  ) {}

  insert = (...args: Parameters<Host["insert"]>) =>
    this.call("insert", args) as ReturnType<Host["insert"]>;
  read = (...args: Parameters<Host["read"]>) =>
    this.call("read", args) as ReturnType<Host["read"]>;
  sheets = () => this.call("sheets", []) as ReturnType<Host["sheets"]>;
  used = (...args: Parameters<Host["used"]>) =>
    this.call("used", args) as ReturnType<Host["used"]>;
  names = () => this.call("names", []) as ReturnType<Host["names"]>;
  selection = () => this.call("selection", []) as ReturnType<Host["selection"]>;
  goTo = (...args: Parameters<Host["goTo"]>) =>
    this.call("goTo", args) as Promise<void>;
  write = (...args: Parameters<Host["write"]>) =>
    this.call("write", args) as Promise<void>;
  can = (feature: string) => this.features.includes(feature);

  onChange(listener: () => void): () => void {
    this.#changes.add(listener);
    void this.call("listenToChanges", []);
    return () => void this.call("stop", ["change"]);
  }

  onSelection(listener: (area: Area) => void): () => void {
    this.#selections.add(listener);
    void this.call("listenToSelection", []);
    return () => void this.call("stop", ["selection"]);
  }

  told(event: "change" | "selection", area?: Area): void {
    if (event === "change") for (const listener of this.#changes) listener();
    else if (area) for (const listener of this.#selections) listener(area);
  }

  private async call(
    method: string,
    args: readonly unknown[],
  ): Promise<unknown> {
    const answer: Answer = await this.page.evaluate(
      ([name, values]) => contractPage.call(name, values),
      [method, args] as const,
    );
    if (!("error" in answer)) return answer.value;
    const { name, message, at } = answer.error;
    if (name === "OccupiedError" && at) throw new OccupiedError(at);
    throw name === "HostError" ? new HostError(message) : new Error(message);
  }
}

describe("in Chromium", () => {
  let browser: Browser;
  let files: ReadonlyMap<string, ServedFile>;
  beforeAll(async () => {
    files = await servedFiles();
    browser = await launchChromium();
  });
  afterAll(() => browser.close());

  describeHost("the workbench", async () => {
    const page = await browser.newPage({
      viewport: { width: 1200, height: 800 },
    });
    const faults: string[] = [];
    page.on("pageerror", ({ message }) => faults.push(message));
    await page.route(`${ORIGIN}**`, (route) => {
      const file = files.get(new URL(route.request().url()).pathname);
      return file ? route.fulfill(file) : route.fulfill({ status: 204 });
    });
    let host: PageHost | undefined;
    await page.exposeFunction("told", (event: "change", area?: Area) =>
      host?.told(event, area),
    );
    await page.goto(ORIGIN);
    await page.evaluate(() =>
      openContractPage({ script: "/vendor.js", style: "/vendor.css" }),
    );
    const features = await page.evaluate(() => contractPage.features);
    host = new PageHost(page, features);
    return {
      host,
      sheetNames: () => page.evaluate(() => contractPage.sheetNames()),
      undo: () => page.evaluate(() => contractPage.undo()),
      defineConstant: (name, value) =>
        page.evaluate(
          ([wanted, constant]) => contractPage.defineConstant(wanted, constant),
          [name, value] as const,
        ),
      noteAt: (area) => page.evaluate((at) => contractPage.noteAt(at), area),
      breakNextInsertion: () =>
        page.evaluate(() => contractPage.breakNextInsertion()),
      async close() {
        await page.close();
        if (faults.length > 0)
          throw new Error(`the page had faults: ${faults.join("; ")}`);
      },
    };
  });
});
