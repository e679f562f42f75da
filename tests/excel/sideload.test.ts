/** Microsoft's tool is some 600 packages: here a package of one file stands in for it, and npm's own npx starts that. */
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, it, vi } from "vitest";
import { DEVELOPMENT_ID, writeManifest } from "../../scripts/manifest.mjs";
import { startInExcel, stopInExcel } from "../../scripts/sideload.mjs";

/**
 * Links the manifest as office-addin-dev-settings 4.0.0 does on a Mac (its dev-settings-mac.js, seen): a link that is
 * there already is refused unless it leads to the same file.
 */
const TOOL = `#!/usr/bin/env node
const { appendFileSync, linkSync, mkdirSync, rmSync, statSync } = require("node:fs");
const { dirname } = require("node:path");
const [command, manifest, ...more] = process.argv.slice(2);
appendFileSync(LOG, JSON.stringify([command, manifest, ...more]) + "\\n");
if (manifest.includes("missing")) process.exit(3);
if (command === "stop") rmSync(LINK);
else {
  mkdirSync(dirname(LINK), { recursive: true });
  if (statSync(LINK, { throwIfNoEntry: false })?.ino !== statSync(manifest).ino)
    linkSync(manifest, LINK);
}
`;

describe("Excel on this computer", () => {
  let folder: string;
  let manifest: string;
  let link: string;
  let log: string;
  const { npm_execpath: npm = "" } = process.env;

  beforeAll(async () => {
    assert.notEqual(npm, "", "npm or npx runs the tests");
    folder = await mkdtemp(join(tmpdir(), "downfeed of Ann Lee "));
    // So that npx keeps nothing of this on the computer.
    vi.stubEnv("npm_config_cache", join(folder, "cache"));
    manifest = join(folder, "dist", "manifest.xml");
    log = join(folder, "log");
    link = join(
      folder,
      `Library/Containers/com.microsoft.Excel/Data/Documents/wef/${DEVELOPMENT_ID}.manifest.xml`,
    );
    const tool = join(folder, "tool");
    await mkdir(tool);
    await writeFile(
      join(tool, "package.json"),
      JSON.stringify({ name: "stand-in", version: "1.0.0", bin: "tool.cjs" }),
    );
    const code = TOOL.replaceAll("LINK", JSON.stringify(link)).replace("LOG", JSON.stringify(log));
    await writeFile(join(tool, "tool.cjs"), code, { mode: 0o755 });
  });
  beforeEach(() => rm(log, { force: true }));
  afterAll(async () => {
    vi.unstubAllEnvs();
    await rm(folder, { recursive: true });
  });

  const on = (platform: NodeJS.Platform, given = manifest) => ({
    manifest: given,
    npm,
    tool: join(folder, "tool"),
    platform,
    home: folder,
  });
  const told = async () =>
    (await readFile(log, "utf8"))
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line) as string[]);
  /** As a build does: the whole folder anew. */
  const build = async (number: number) => {
    await rm(join(folder, "dist"), { recursive: true, force: true });
    await writeManifest({
      origin: "https://localhost:3443",
      development: true,
      build: number,
      outFile: manifest,
    });
  };
  const versionInExcel = async () =>
    /<Version>[^<]*?(\d+)<\/Version>/.exec(await readFile(link, "utf8"))?.[1];

  it("is told of a manifest in a folder whose name has spaces", async () => {
    await build(1);
    await startInExcel(on("win32"));
    assert.deepEqual(await told(), [["start", manifest, "desktop", "--no-debug"]]);
  });

  it("has the newest manifest on a Mac, however often the add-in is built and started", async () => {
    for (const number of [7, 8, 9]) {
      await build(number);
      await startInExcel(on("darwin"));
      assert.equal(await versionInExcel(), String(number));
    }
  });

  it("forgets the add-in when it is told to", async () => {
    await stopInExcel(on("darwin"));
    assert.deepEqual(await told(), [["stop", manifest]]);
    await assert.rejects(readFile(link), /ENOENT/);
  });

  it("has the add-in until Ctrl+C, which ends the server and has Excel forget the add-in", async () => {
    await build(1);
    const script = join(folder, "until-interrupted.mjs");
    const module = new URL("../../scripts/sideload.mjs", import.meta.url);
    await writeFile(
      script,
      `import { createServer } from "node:net";
       import { inExcelUntilInterrupted } from ${JSON.stringify(module)};
       const server = createServer().listen(0);
       await inExcelUntilInterrupted(${JSON.stringify(on("linux"))}, {
         failed: ({ message }) => console.log("failed", message),
         close: () => server.close(),
       });`,
    );
    const child = spawn(process.execPath, [script], { stdio: "ignore" });
    const ended = new Promise((done) => child.once("exit", done));
    await vi.waitUntil(() => told().catch(() => undefined), { timeout: 30_000, interval: 100 });
    child.kill("SIGINT");
    assert.equal(await ended, 0);
    assert.deepEqual(
      (await told()).map(([command]) => command),
      ["start", "stop"],
    );
    await assert.rejects(readFile(link), /ENOENT/);
  });

  it("is said not to be started where the tool fails, or where npm is not there to fetch it", async () => {
    await assert.rejects(
      startInExcel(on("win32", join(folder, "missing.xml"))),
      /start ended with 3/,
    );
    await assert.rejects(startInExcel({ ...on("win32"), npm: "" }), /npm run excel/);
  });
});
