/** The built workbench, served and opened as a user's browser does it. */
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import sirv from "sirv";
import { buildIfStale, DIST } from "../../scripts/build.mjs";

export interface ServedDist {
  /** With a folder behind the origin, as on many a static server; ends in `/`. */
  readonly address: string;
  close(): Promise<void>;
}

/** Well below a test's own limit, so that a failure names what it waited for. */
export const LONGEST_WAIT_MS = 20_000;

const FOLDER = "/some/folder/";

/** Builds what is stale first. */
export async function serveDist(): Promise<ServedDist> {
  await buildIfStale();
  const files = sirv(DIST, { dev: true });
  const server = createServer((request, response) => {
    if (!request.url?.startsWith(FOLDER)) {
      response.writeHead(404).end();
      return;
    }
    request.url = request.url.slice(FOLDER.length - 1);
    files(request, response, () => void response.writeHead(404).end());
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const { port } = server.address() as AddressInfo;
  return {
    address: `http://127.0.0.1:${port}${FOLDER}`,
    close: () => closed(server),
  };
}

function closed(server: Server): Promise<void> {
  server.closeAllConnections();
  return new Promise((done) => server.close(() => done()));
}

export interface OpenedPage {
  readonly page: Page;
  /** What the console showed and what the page threw, in sentences. */
  readonly complaints: readonly string[];
  /** Addresses that were asked for outside the page's own origin. */
  readonly foreign: readonly string[];
  /** Status and address of each answer that was not a success. */
  readonly missing: readonly string[];
}

/** Resolves when the sheet is there and calculated. */
export async function openWorkbenchPage(
  browser: Browser,
  { address }: ServedDist,
  options: BrowserContextOptions = {},
  { firstVisit = false } = {},
): Promise<OpenedPage> {
  const page = await browser.newPage({
    viewport: { width: 1400, height: 900 },
    ...options,
  });
  page.setDefaultTimeout(LONGEST_WAIT_MS);
  if (!firstVisit)
    await page.addInitScript(() => {
      // A page that is left for another has no storage.
      if (location.protocol === "http:") localStorage.setItem("downfeed first steps", "closed");
    });
  const complaints: string[] = [];
  const foreign: string[] = [];
  const missing: string[] = [];
  page.on("console", (message) => complaints.push(`${message.type()}: ${message.text()}`));
  page.on("pageerror", ({ message }) => complaints.push(message));
  page.on("request", (request) => {
    const { protocol, origin } = new URL(request.url());
    const isOwn = ["data:", "blob:"].includes(protocol);
    if (!isOwn && origin !== new URL(address).origin) foreign.push(request.url());
  });
  page.on("response", (response) => {
    if (!response.ok()) missing.push(`${response.status()} ${response.url()}`);
  });
  await page.goto(address);
  await settledPage(page);
  return { page, complaints, foreign, missing };
}

/** The sheet is there and calculated. */
export async function settledPage(page: Page): Promise<void> {
  await page.waitForSelector("#state[hidden]", { state: "attached" });
}
