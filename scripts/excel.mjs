/**
 * The add-in under development in Excel: builds it, makes a certificate for this computer, serves dist/ over https, and
 * has Excel load it where Excel can be told to.
 */
import { spawn } from "node:child_process";
import { createServer } from "node:https";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import sirv from "sirv";
import { buildIfStale, DIST } from "./build.mjs";
import { DEVELOPMENT_ORIGIN } from "./manifest.mjs";
import { serverCertificate } from "./certificate.mjs";

const MANIFEST = join(DIST, "manifest.xml");

if (process.argv[1] === fileURLToPath(import.meta.url)) await run();

async function run() {
  // This server is for development, whatever else dist/ is built for.
  delete process.env["DOWNFEED_ORIGIN"];
  await buildIfStale();
  const certificate = await serverCertificate();
  await serve(certificate, Number(new URL(DEVELOPMENT_ORIGIN).port));
  console.log(`Serving dist/ at ${DEVELOPMENT_ORIGIN}  (Ctrl+C stops it)`);
  if (!certificate.isTrusted) console.log(untrusted(certificate.why));
  if (process.platform === "linux" || !certificate.isTrusted) console.log(byHand(MANIFEST));
  else sideload();
}

/**
 * @param {{ key: string | Buffer, cert: string | Buffer }} certificate
 * @param {number} port
 * @returns {Promise<import("node:https").Server>}
 */
export function serve({ key, cert }, port) {
  const files = sirv(DIST, { dev: true, etag: true });
  const server = createServer({ key, cert }, (request, response) => {
    // Excel reads functions.json from another origin.
    response.setHeader("Access-Control-Allow-Origin", "*");
    response.setHeader("Cache-Control", "no-cache");
    files(request, response, () => {
      response.statusCode = 404;
      response.end("not found");
    });
  });
  return new Promise((done, fail) => {
    server.once("error", (error) =>
      fail(
        "code" in error && error.code === "EADDRINUSE"
          ? new Error(
              `port ${port} is taken, and the manifest names it: end what uses it, then try again`,
            )
          : error,
      ),
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

/** @param {string} manifest */
export function byHand(manifest) {
  return [
    "",
    "To load the add-in in Excel on the web, with this server running:",
    "  1. open a workbook at https://excel.cloud.microsoft in a browser on this computer;",
    "  2. choose Home > Add-ins > More Settings > Upload My Add-in;",
    `  3. choose ${manifest};`,
    '  4. choose "Downfeed Dev" on the Home tab; cells know the functions as =FEEDDEV.…',
    process.platform === "linux"
      ? "There is no desktop Excel on Linux, so nothing more is started here."
      : "Desktop Excel was not started.",
  ].join("\n");
}

/** Has the desktop's Excel load the manifest; the tool is fetched by npx, it is no dependency. */
function sideload() {
  const tool = spawn(
    "npx",
    ["--yes", "office-addin-debugging@7.0.0", "start", MANIFEST, "desktop"],
    { stdio: "inherit", shell: process.platform === "win32" },
  );
  const failed = (why) => console.error(`Excel was not started (${why}).\n${byHand(MANIFEST)}`);
  tool.on("error", ({ message }) => failed(message));
  tool.on("exit", (code) => {
    if (code !== 0) failed(`the tool ended with ${code}`);
  });
}
