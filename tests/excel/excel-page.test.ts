/**
 * The add-in's built page in Chromium. office.js comes from Microsoft's address in Excel; here the test stands in for that
 * address and hands out the same library's file for Excel on the web, over a workbook in memory.
 */
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import type { Browser, Page } from "playwright-core";
import sirv from "sirv";
import { afterAll, afterEach, beforeAll, beforeEach, describe, it } from "vitest";
import { catalogue } from "../../functions/catalogue.js";
import { buildIfStale, DIST } from "../../scripts/build.mjs";
import { launchChromium } from "../helpers/chromium.js";
import { ExcelDouble, type Way } from "./excel-double.js";
import type { Answer, WireRequest } from "./office-library.js";

const OFFICE = "https://appsforoffice.microsoft.com/lib/1/hosted/";
const LIBRARY = "excel-web-16.00.debug.js";

/** Has the registry at once and loads the library's file for Excel, as office.js does; then puts the test in Excel's place. */
const OFFICE_JS = `
  window.registered = [];
  window.CustomFunctions = { associate: (id) => void registered.push(id) };
  document.write('<script src="${OFFICE}${LIBRARY}"></' + 'script><script src="${OFFICE}double.js"></' + 'script>')`;

/** Runs in the page: what belongs to the page around Excel, and the wire to the test. */
const DOUBLE_JS = `
  OSF.DDA.RichApi ??= {};
  OSF.DDA.RichApi.executeRichApiRequestAsync = (message, callback) =>
    answerExcel(message[4]).then((body) =>
      callback({ status: "succeeded", value: { data: [200, [], body] } }));
  OfficeExtension._internalConfig.appendTypeNameToObjectPathInfo = true;
  OfficeExtension._testSetRichApiMessageReadyImpl(async () => undefined);
  window.startups = [];
  window.actions = {};
  window.Office = Object.create(Office, {
    actions: { value: { associate: (id, run) => { actions[id] = run; } } },
    onReady: { value: async () => ({ host: "Excel", platform: "OfficeOnline" }) },
    HostType: { value: { Excel: "Excel" } },
    PlatformType: { value: { Mac: "Mac", PC: "PC" } },
    StartupBehavior: { value: { load: "load" } },
    addin: { value: {
      setStartupBehavior: async (behaviour) => void startups.push(behaviour),
      onVisibilityModeChanged: async () => undefined,
      showAsTaskpane: async () => undefined,
    } },
    context: { value: {
      officeTheme: { bodyBackgroundColor: "#262626" },
      document: { settings: { get: () => null } },
      requirements: { isSetSupported: (set, version) =>
        set === "SharedRuntime" || (set === "ExcelApi" && Number(version.split(".")[1]) <= 12) },
    } },
  });`;

let server: Server;
let origin: string;
let browser: Browser;
let page: Page;
let faults: string[];

beforeAll(async () => {
  await buildIfStale();
  server = createServer(sirv(DIST, { dev: true }));
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  browser = await launchChromium();
}, 200_000);

afterAll(async () => {
  await browser?.close();
  server?.close();
});

beforeEach(async () => {
  page = await browser.newPage({ viewport: { width: 350, height: 620 } });
  faults = [];
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (message) => {
    if (message.text().includes("Content Security Policy")) faults.push(message.text());
  });
});

afterEach(() => page.close());

function officeAnswers(files: Readonly<Record<string, string>>) {
  return page.route(`${OFFICE}**`, (route) => {
    const name = new URL(route.request().url()).pathname.split("/").at(-1) ?? "";
    const body = files[name];
    return body === undefined
      ? route.abort()
      : route.fulfill({ contentType: "text/javascript", body });
  });
}

async function openInExcel(namespace: string): Promise<ExcelDouble> {
  let answer: Answer | undefined;
  const way: Way = {
    calculates: false,
    connect: (given) => (answer = given),
    tell: () => undefined,
  };
  const excel = new ExcelDouble(namespace, way);
  await page.exposeFunction("answerExcel", (request: string) => {
    assert.ok(answer);
    const response = answer(JSON.parse(request) as WireRequest);
    return JSON.stringify({ ...response, TraceIds: [] });
  });
  await officeAnswers({
    "office.js": OFFICE_JS,
    [LIBRARY]: readFileSync(`node_modules/@microsoft/office-js/dist/${LIBRARY}`, "utf8"),
    "double.js": DOUBLE_JS,
  });
  await page.goto(`${origin}/taskpane.html?namespace=${namespace}`);
  await page.waitForSelector(".feed-pane");
  return excel;
}

describe("the add-in's page outside Excel", () => {
  it("says what to do when office.js does not arrive", async () => {
    await officeAnswers({});
    await page.goto(`${origin}/taskpane.html`);
    const notice = page.getByRole("alert");
    await notice.getByRole("heading").waitFor();
    assert.match(await notice.innerText(), /appsforoffice\.microsoft\.com/);
    const [workbench] = await Promise.all([
      page.waitForEvent("popup"),
      notice.getByRole("link").click(),
    ]);
    await workbench.waitForURL(`${origin}/index.html`);
    assert.match(page.url(), /taskpane\.html$/);
  });

  it("says what to do in a plain browser", async () => {
    await officeAnswers({
      "office.js": `window.Office = { onReady: async () => ({ host: null }), HostType: { Excel: "Excel" },
        actions: { associate: () => undefined } };`,
    });
    await page.goto(`${origin}/taskpane.html`);
    const notice = page.getByRole("alert");
    await notice.getByRole("heading").waitFor();
    assert.match(await notice.innerText(), /Upload My Add-in/);
    assert.deepEqual(faults, []);
  });
});

describe("the add-in's page in Excel", () => {
  it("inserts a budget into the workbook with the manifest's namespace", async () => {
    const excel = await openInExcel("FEEDDEV");
    await page.getByRole("button", { name: "Insert the sample budget" }).click();
    // A function, not a string: the page's own policy forbids evaluating text.
    await page.waitForFunction(
      () => ((globalThis as { startups?: unknown[] }).startups ?? []).length > 0,
    );
    assert.deepEqual(excel.sheetNames(), [
      "Start",
      "Inputs",
      "Feed",
      "Loads",
      "Types",
      "Budget",
      "Bands",
      "Cases",
      "Checks",
      "Schedule",
      "Table",
      "Issues",
      "Notes",
      "Notes on cells",
    ]);
    const formulas = excel.requests.flatMap(({ Actions }) =>
      Actions.filter(({ Name }) => Name === "Formulas").map((action) =>
        JSON.stringify(action.ArgumentInfo),
      ),
    );
    assert.match(formulas.join(), /=FEEDDEV\.CHAIN_SOLVE\(/);
    assert.doesNotMatch(formulas.join(), /\{FEED\}|[^A-Z]FEED\./);
    const registered = await page.evaluate("registered");
    assert.deepEqual(
      registered,
      catalogue.map(({ id }) => id),
    );
    assert.deepEqual(faults, []);
  });

  it.each(["Feed", "Warnings", "Working"])(
    "shows the view %s when its button is pressed, with the keyboard on its tab",
    async (action) => {
      await openInExcel("FEED");
      await page.evaluate((id) => {
        const { actions } = globalThis as unknown as {
          actions: Record<string, (event: { completed(): void }) => void>;
        };
        return new Promise<void>((completed) => actions[id]?.({ completed }));
      }, action);
      const tab = page.getByRole("tab", { name: action, selected: true });
      await tab.waitFor();
      await page.waitForFunction(
        (name) => document.activeElement?.textContent?.trim().startsWith(name),
        action,
      );
    },
  );

  it("follows Excel's theme", async () => {
    await openInExcel("FEED");
    assert.equal(await page.locator("html").getAttribute("data-theme"), "dark");
  });

  it("asks no address but its own and Microsoft's for office.js", async () => {
    const asked = new Set<string>();
    page.on("request", (request) => asked.add(new URL(request.url()).origin));
    await openInExcel("FEED");
    assert.deepEqual([...asked].sort(), [origin, "https://appsforoffice.microsoft.com"].sort());
  });
});

describe("a plan's picture for Excel", () => {
  it("is drawn by the page as PNG, twice as many dots as pixels", async () => {
    const { build } = await import("esbuild");
    const { outputFiles } = await build({
      entryPoints: ["taskpane/hosts/plan-pictures.ts"],
      bundle: true,
      format: "iife",
      globalName: "pictures",
      write: false,
    });
    await page.setContent(`<script>${outputFiles[0]?.text ?? ""}</script>`);
    const png = (picture: unknown) =>
      page.evaluate(
        (given) =>
          (
            globalThis as unknown as {
              pictures: { pngOf: (p: unknown) => Promise<string> };
            }
          ).pictures.pngOf(given),
        picture,
      );
    const picture = {
      at: "A1",
      size: [30, 20],
      alternative: "a red field",
      svg: '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 3 2"><rect width="3" height="2" fill="#f00"/></svg>',
    };
    const bytes = Buffer.from(await png(picture), "base64");
    // PNG specification (W3C), section 11.2.2: width and height stand first in the header chunk.
    assert.equal(bytes.toString("latin1", 1, 4), "PNG");
    assert.deepEqual([bytes.readUInt32BE(16), bytes.readUInt32BE(20)], [60, 40]);
    await assert.rejects(png({ ...picture, svg: "no drawing" }), /"a red field" cannot be drawn/);
  });
});
