/** Serves the workbench on this computer and shows it. */
import { spawn } from "node:child_process";
import { createServer } from "node:http";
import sirv from "sirv";
import { buildIfStale, DIST } from "./build.mjs";

const FIRST_PORT = 3000;
const LAST_PORT = 3099;

await buildIfStale();
const address = await serve(FIRST_PORT);
console.log(`Downfeed workbench: ${address}  (Ctrl+C stops it)`);
if (mayOpen()) open(address);

/** @param {number} port @returns {Promise<string>} */
function serve(port) {
  // Read anew on each request, so that a build beside it is seen on reload.
  const server = createServer(sirv(DIST, { dev: true, etag: true }));
  return new Promise((done, fail) => {
    server.once("error", (error) => {
      const isTaken = "code" in error && error.code === "EADDRINUSE";
      if (isTaken && port < LAST_PORT) done(serve(port + 1));
      else fail(error);
    });
    server.listen(port, "127.0.0.1", () => done(`http://127.0.0.1:${port}`));
  });
}

function mayOpen() {
  const { CI, DISPLAY, WAYLAND_DISPLAY } = process.env;
  if (CI) return false;
  return process.platform !== "linux" || Boolean(DISPLAY || WAYLAND_DISPLAY);
}

/** @param {string} url */
function open(url) {
  const [command, ...options] = {
    darwin: ["open", url],
    win32: ["cmd", "/c", "start", "", url],
  }[process.platform] ?? ["xdg-open", url];
  const opener = spawn(command, options, { stdio: "ignore", detached: true });
  // The address is printed all the same.
  opener.on("error", ({ message }) => console.log(`no browser opened: ${message}`));
  opener.unref();
}
