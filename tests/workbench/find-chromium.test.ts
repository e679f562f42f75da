import assert from "node:assert/strict";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { afterEach, beforeEach, describe, it } from "vitest";
import { findChromium } from "../../scripts/find-chromium.mjs";

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "chromium-"));
});
afterEach(() => rm(folder, { recursive: true }));

describe("findChromium", () => {
  it("takes CHROMIUM_PATH before everything else", async () => {
    await writeFile(join(folder, "chromium"), "");
    assert.equal(findChromium({ CHROMIUM_PATH: "/my/browser", PATH: folder }), "/my/browser");
  });

  it("looks through PATH for each of the usual commands", async () => {
    const path = join(folder, "google-chrome");
    await writeFile(path, "");
    assert.equal(findChromium({ PATH: ["/nowhere", folder].join(delimiter) }), path);
  });

  it.runIf(process.platform === "linux")("finds nothing where there is nothing", () => {
    assert.equal(findChromium({ PATH: folder }), undefined);
    assert.equal(findChromium({}), undefined);
  });
});
