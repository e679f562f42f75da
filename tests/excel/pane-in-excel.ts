/**
 * The add-in's page in Chromium over a workbook in memory, bundled from its source. Behind it stands the library's own
 * file for Excel on the web, so what is counted is what that library sends.
 */
import { readFileSync } from "node:fs";
import { build } from "esbuild";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { ExcelDouble } from "./excel-double.js";
import type { Answer, WireRequest } from "./office-library.js";

const PLACE = "http://downfeed.test/";
const OFFICE = "https://appsforoffice.microsoft.com/lib/1/hosted/office.js";
const LIBRARY = "node_modules/@microsoft/office-js/dist/excel-web-16.00.debug.js";

/** How Excel receives the page. */
export interface Reception {
  /** After so long `Office.onReady` answers; at once where it is not given. */
  readonly readyAfter?: number;
  readonly host?: string | null;
  readonly startsHidden?: boolean;
  /** Ground of Excel's theme; undefined on the web. */
  readonly ground?: string;
}

export interface PaneInExcel {
  readonly page: Page;
  readonly excel: ExcelDouble;
  /** As the user closes and opens the pane. */
  show(isShown: boolean): Promise<void>;
  /** Excel's theme becomes another one; it tells nobody. */
  setGround(ground: string): Promise<void>;
  /** Requests until nothing has been asked for a while. */
  requestsOf(action: () => Promise<unknown> | void): Promise<number>;
}

/** Files of the page by name. @param project Where its source stands. */
export async function bundleExcelPage(project = "."): Promise<ReadonlyMap<string, string>> {
  const { outputFiles } = await build({
    entryPoints: { taskpane: `${project}/taskpane/pages/excel/excel-page.ts` },
    bundle: true,
    splitting: true,
    format: "esm",
    target: "es2022",
    outdir: "out",
    write: false,
  });
  return new Map(outputFiles.map(({ path, text }) => [path.split("/").at(-1) ?? "", text]));
}

const HTML = `<!doctype html><html lang="en"><head><meta name="color-scheme" content="light dark" /><title>Downfeed</title>
<link rel="stylesheet" href="taskpane.css" /><link rel="stylesheet" href="excel-pane.css" />
<script src="${OFFICE}"></script><script>globalThis.Downfeed = {}</script>
<script type="module" src="taskpane.js"></script></head><body><main id="pane" aria-label="Downfeed"></main></body></html>`;

/** What belongs to the page around Excel, and the wire to the test. Runs in the page. */
const AROUND = `
  OSF.DDA.RichApi ??= {};
  OSF.DDA.RichApi.executeRichApiRequestAsync = (message, callback) =>
    answerExcel(message[4]).then((body) =>
      callback({ status: "succeeded", value: { data: [200, [], body] } }));
  OfficeExtension._internalConfig.appendTypeNameToObjectPathInfo = true;
  OfficeExtension._testSetRichApiMessageReadyImpl(async () => undefined);
  window.toldByExcel = (type, message) => OfficeExtension._testTriggerRichApiMessageEvent({ entries: [
    { messageCategory: 65536, messageType: type, targetId: "Workbook", message },
  ] });
  const { readyAfter, host, startsHidden, ground } = reception;
  const ofVisibility = [];
  window.toldVisibility = (visibilityMode) => ofVisibility.forEach((tell) => tell({ visibilityMode }));
  window.theme = ground && { bodyBackgroundColor: ground };
  window.Office = Object.create(Office, {
    onReady: { value: async () => {
      if (readyAfter) await new Promise((done) => setTimeout(done, readyAfter));
      return { host: host === undefined ? "Excel" : host, platform: "OfficeOnline",
        addin: { visibilityMode: startsHidden ? "Hidden" : "Taskpane" } };
    } },
    HostType: { value: { Excel: "Excel" } },
    PlatformType: { value: { Mac: "Mac", OfficeOnline: "OfficeOnline" } },
    StartupBehavior: { value: { load: "Load", none: "None" } },
    actions: { value: { associate: () => undefined } },
    addin: { value: {
      setStartupBehavior: async () => undefined,
      getStartupBehavior: async () => "None",
      showAsTaskpane: async () => toldVisibility("Taskpane"),
      onVisibilityModeChanged: async (tell) => { ofVisibility.push(tell); return async () => undefined; },
    } },
    context: { value: {
      get officeTheme() { return window.theme; },
      platform: "OfficeOnline",
      document: { settings: { get: () => null } },
      requirements: { isSetSupported: (set, version) =>
        set === "SharedRuntime" || (set === "ExcelApi" && Number(version.split(".")[1]) <= 12) },
    } },
  });`;

const QUIET_MS = 800;

export async function openPaneInExcel(
  browser: Browser,
  files: ReadonlyMap<string, string>,
  { reception = {}, ...options }: BrowserContextOptions & { readonly reception?: Reception } = {},
  prepare: (excel: ExcelDouble) => void = () => undefined,
): Promise<PaneInExcel> {
  const page = await browser.newPage({ viewport: { width: 350, height: 900 }, ...options });
  let answer: Answer | undefined;
  const excel = new ExcelDouble("FEED", {
    calculates: true,
    connect: (given) => (answer = given),
    tell(type, message) {
      // Nobody is told of what happens before the page is there, or after it is gone.
      page
        .evaluate(
          ([event, text]) =>
            (globalThis as { toldByExcel?: (type: number, message: string) => void }).toldByExcel?.(
              event,
              text,
            ),
          [type, JSON.stringify(message)] as const,
        )
        .catch((error: unknown) => {
          if (!page.isClosed()) throw error;
        });
    },
  });
  prepare(excel);
  let lastAsked = Date.now();
  await page.exposeFunction("answerExcel", (request: string) => {
    lastAsked = Date.now();
    const response = answer?.(JSON.parse(request) as WireRequest, 0);
    return JSON.stringify({ ...response, TraceIds: [] });
  });
  const office = `const reception = ${JSON.stringify(reception)};\n${readFileSync(LIBRARY, "utf8")}\n${AROUND}`;
  await page.route(OFFICE, (route) =>
    route.fulfill({ contentType: "text/javascript", body: office }),
  );
  await page.route(`${PLACE}**`, (route) => {
    const name = new URL(route.request().url()).pathname.slice(1);
    if (name === "taskpane.html") return route.fulfill({ contentType: "text/html", body: HTML });
    const contentType = name.endsWith(".css") ? "text/css" : "text/javascript";
    const body = files.get(name) ?? (name.endsWith(".css") ? "" : undefined);
    return body === undefined
      ? route.fulfill({ status: 404, body: name })
      : route.fulfill({ contentType, body });
  });
  await page.goto(`${PLACE}taskpane.html`);
  /** What it brings about may be asked for a while after it. */
  const acted = () => (lastAsked = Date.now());
  const quiet = async () => {
    while (Date.now() - lastAsked < QUIET_MS) await page.waitForTimeout(50);
  };
  return {
    page,
    excel,
    async show(isShown) {
      await page.evaluate(
        (mode) =>
          (globalThis as unknown as { toldVisibility: (mode: string) => void }).toldVisibility(
            mode,
          ),
        isShown ? "Taskpane" : "Hidden",
      );
      acted();
    },
    async setGround(ground) {
      await page.evaluate((colour) => {
        Object.assign(globalThis, { theme: { bodyBackgroundColor: colour } });
      }, ground);
      acted();
    },
    async requestsOf(action) {
      await quiet();
      const before = excel.requests.length;
      await action();
      acted();
      await quiet();
      return excel.requests.length - before;
    },
  };
}
