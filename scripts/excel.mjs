/**
 * The add-in under development in Excel: builds it, makes a certificate for this computer, serves dist/ over https, and
 * has Excel load it where Excel can be told to. `npm run excel -- stop` takes that back, as Ctrl+C does.
 */
import { createServer } from "node:https";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import sirv from "sirv";
import { buildIfStale, DIST } from "./build.mjs";
import { headersOf } from "./headers.mjs";
import { DEVELOPMENT_ORIGIN } from "./manifest.mjs";
import { serverCertificate } from "./certificate.mjs";
import { inExcelUntilInterrupted, stopInExcel } from "./sideload.mjs";

const manifest = join(DIST, "manifest.xml");

/** @param {string | undefined} wish */
async function run(wish) {
  if (wish !== undefined && wish !== "stop") throw new Error(`stop or nothing, not ${wish}`);
  await buildIfStale();
  if (wish === "stop") return stopInExcel({ manifest });
  const certificate = await serverCertificate();
  let server;
  try {
    server = await serve(certificate, Number(new URL(DEVELOPMENT_ORIGIN).port));
  } catch (error) {
    if (!(error instanceof PortTaken)) throw error;
    console.error(error.message);
    process.exitCode = 1;
    return;
  }
  console.log(`Serving dist/ at ${DEVELOPMENT_ORIGIN}  (Ctrl+C stops it)`);
  if (!certificate.isTrusted) console.log(untrusted(certificate.why));
  const isStarted = process.platform !== "linux" && certificate.isTrusted;
  console.log(toDo(process.platform, isStarted));
  if (!isStarted) return;
  try {
    await inExcelUntilInterrupted(
      { manifest },
      {
        failed: ({ message }) =>
          console.error(`Excel was not started (${message}).\n${byHand(process.platform)}`),
        close() {
          server.close();
          server.closeAllConnections();
        },
      },
    );
  } catch (error) {
    console.error(`${error.message}: try npm run excel -- stop`);
    process.exitCode = 1;
  }
}

/** The manifest names the port, so there is no other. */
class PortTaken extends Error {
  /** @param {number} port */
  constructor(port) {
    super(`Port ${port} is taken, and the manifest names it: end what uses it, then try again.`);
    this.name = "PortTaken";
  }
}

/**
 * @param {{ key: string | Buffer, cert: string | Buffer }} certificate
 * @param {number} port
 * @returns {Promise<import("node:https").Server>}
 */
export function serve({ key, cert }, port) {
  // Read anew on each request, so that a build beside it is seen on reload.
  const files = sirv(DIST, { dev: true, etag: true });
  // Not these: what is read anew is sent with a word on caching, and Excel takes no such icon.
  const icons = sirv(DIST, { etag: true });
  const server = createServer({ key, cert }, (request, response) => {
    const { pathname } = new URL(request.url ?? "/", DEVELOPMENT_ORIGIN);
    const headers = headersOf(pathname);
    for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
    const found = "Cache-Control" in headers ? files : icons;
    found(request, response, () => {
      response.statusCode = 404;
      response.end("not found");
    });
  });
  return new Promise((done, fail) => {
    server.once("error", (error) =>
      fail("code" in error && error.code === "EADDRINUSE" ? new PortTaken(port) : error),
    );
    server.listen(port, "localhost", () => done(server));
  });
}

/** @param {string} why */
export function untrusted(why) {
  return [
    "",
    "The certificate of this server is NOT trusted on this computer:",
    `  ${why}`,
    `Excel and browsers refuse such a server until you have opened ${DEVELOPMENT_ORIGIN}/taskpane.html`,
    "in the browser once and accepted it there. That is enough for Excel on the web; desktop Excel needs a",
    "trusted certificate: run `npx office-addin-dev-certs install` where you may add one, then try again.",
  ].join("\n");
}

/**
 * What is said before Excel starts, or instead of that.
 * @param {NodeJS.Platform} platform @param {boolean} isStarted
 */
export function toDo(platform, isStarted) {
  if (!isStarted) return byHand(platform);
  const lines = [
    "",
    "Excel is told of the add-in by Microsoft's tool, which npx fetches the first time: some 600 packages, a",
    "minute or more without a word. Excel then starts with a new workbook; choose “Downfeed Dev” on its Home",
    "tab. Cells know the functions as =FEEDDEV.…",
    "If the tool tells an error, load the add-in by hand: README, In Excel.",
    "Ctrl+C here also has Excel forget the add-in again; if this window was closed: npm run excel -- stop",
  ];
  if (platform === "win32")
    lines.push(
      "If Excel says that it cannot open the add-in from localhost: end this with Ctrl+C, and in a command window",
      "opened as administrator run",
      "  CheckNetIsolation LoopbackExempt -a -n=Microsoft.Win32WebViewHost_cw5n1h2txyewy",
      "then start this again. The tool leaves a log of add-ins on, for all of them; this turns it off:",
      "  npx office-addin-dev-settings runtime-log --disable",
    );
  return lines.join("\n");
}

/** @param {NodeJS.Platform} platform */
function byHand(platform) {
  return [
    "",
    "To load the add-in in Excel on the web, with this server running:",
    "  1. open a workbook at https://excel.cloud.microsoft in a browser on this computer;",
    "  2. choose Home > Add-ins > More Settings > Upload My Add-in;",
    `  3. choose ${manifest};`,
    "  4. where the browser asks whether the page may reach this computer or the local network, choose Allow: after",
    "     Block nothing of the add-in arrives, without a word, until it is allowed in the browser's settings of that site;",
    '  5. choose "Downfeed Dev" on the Home tab; cells know the functions as =FEEDDEV.…',
    "This browser keeps the add-in until its stored data of that site are cleared.",
    platform === "linux"
      ? "There is no desktop Excel on Linux, so nothing more is started here."
      : "Desktop Excel was not started.",
  ].join("\n");
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await run(process.argv[2]);
