import assert from "node:assert/strict";
import { type ChildProcess, spawn } from "node:child_process";
import { createServer } from "node:http";
import { join } from "node:path";
import { afterEach, beforeAll, describe, it } from "vitest";
import { buildIfStale } from "../../scripts/build.mjs";

const PROJECT = join(import.meta.dirname, "../..");

const started: ChildProcess[] = [];
beforeAll(buildIfStale);
afterEach(() => {
  for (const child of started.splice(0)) child.kill();
});

/** As `npm start` runs it; resolves with the address that it prints. */
function start(): Promise<string> {
  const child = spawn(process.execPath, ["scripts/start.mjs"], {
    cwd: PROJECT,
    env: { ...process.env, CI: "1" },
  });
  started.push(child);
  let printed = "";
  return new Promise((resolve, reject) => {
    const onText = (text: Buffer) => {
      printed += text.toString();
      const address = /http:\/\/127\.0\.0\.1:\d+/.exec(printed)?.[0];
      if (address) resolve(address);
    };
    child.stdout.on("data", onText);
    child.stderr.on("data", onText);
    child.on("exit", (code) => reject(new Error(`ended with ${code}: ${printed}`)));
  });
}

describe("npm start", () => {
  it("serves the workbench on this computer, on another port where one is taken", async () => {
    const taken = createServer();
    await new Promise<void>((resolve) => {
      // Taken already by something else: just as good here.
      taken.once("error", () => resolve());
      taken.listen(3000, "127.0.0.1", resolve);
    });
    try {
      const address = await start();
      assert.notEqual(new URL(address).port, "3000");
      const answer = await fetch(address);
      assert.equal(answer.status, 200);
      assert.match(await answer.text(), /<title>Downfeed workbench<\/title>/);
      const script = await fetch(`${address}/functions.js`);
      assert.match(script.headers.get("content-type") ?? "", /javascript/);
      assert.equal((await fetch(`${address}/no-such-file`)).status, 404);
    } finally {
      taken.close();
    }
  }, 60_000);
});
