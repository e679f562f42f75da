import assert from "node:assert/strict";
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { createContext, runInContext } from "node:vm";
import { gzipSync } from "node:zlib";
import { beforeAll, describe, it } from "vitest";
import { buildIfStale, DIST } from "../../scripts/build.mjs";

function built(file: string): Promise<string> {
  return readFile(join(DIST, file), "utf8");
}

/** Said by the runner and nowhere else, so that it tells where a copy of the engine is. */
const IN_ENGINE = "fault in Downfeed, please report";

/** The page's tags with quotes around every attribute, which the build leaves out where it can. */
async function builtPage(file: string): Promise<string> {
  const page = await built(file);
  return page.replace(/<[^>]+>/g, (tag) => tag.replace(/=([^\s"'>]+)(?=[\s>])/g, '="$1"'));
}

beforeAll(buildIfStale);

describe("functions.js", () => {
  it("is a classic script that publishes the engine, frozen, and registers every function of functions.json", async () => {
    const registered: string[] = [];
    const page = createContext({
      CustomFunctions: {
        associate: (id: string) => void registered.push(id),
      },
    });
    runInContext(await built("functions.js"), page);
    const { functions } = JSON.parse(await built("functions.json")) as {
      functions: { id: string }[];
    };
    const ids = functions.map(({ id }) => id).sort();
    assert.ok(ids.length > 0);
    assert.deepEqual(registered.sort(), ids);
    assert.equal(runInContext("Object.isFrozen(Downfeed)", page), true);
    assert.equal(runInContext('Downfeed.evaluate("CONDUCTOR_AREA", [2.5]).value', page), 2.5);
  });

  it("holds nothing of the workbench's spreadsheet and stays below 180 kB gzipped", async () => {
    const script = await built("functions.js");
    assert.ok(!/univer(?!sity)/i.test(script));
    assert.ok(gzipSync(script, { level: 9 }).length <= 180_000);
  });

  it("holds the only copy of the engine", async () => {
    const chunks = (await readdir(join(DIST, "chunks"))).map((file) => join("chunks", file));
    const scripts = [...(await readdir(DIST)), ...chunks].filter((file) => file.endsWith(".js"));
    assert.ok(scripts.includes("workbench.js") && scripts.length > 5);
    for (const file of scripts)
      assert.equal((await built(file)).includes(IN_ENGINE), file === "functions.js", file);
  });
});

describe("the help pages", () => {
  it("are there for every function of functions.json, in English or German, which links them at the server's own address", async () => {
    for (const folder of ["help", "help/FEEDDEV"]) {
      const pages = await readdir(join(DIST, folder));
      for (const file of ["functions.json", "functions-de.json"]) {
        const { functions } = JSON.parse(await built(file)) as {
          functions: { id: string; helpUrl: string }[];
        };
        assert.ok(functions.length > 0);
        for (const { id, helpUrl } of functions) {
          assert.equal(helpUrl, `https://localhost:3443/help/FEEDDEV/${id}.html`);
          assert.ok(pages.includes(`${id}.html`), id);
        }
      }
      assert.ok(pages.includes("index.html") && pages.includes("help.css"));
    }
  });

  it("are written as the functions are typed: in Excel under development in a namespace of its own", async () => {
    const written = async (folder: string) =>
      /=(\w+)\.CONDUCTOR_DROP\(/.exec(await built(`${folder}/CONDUCTOR_DROP.html`))?.[1];
    assert.equal(await written("help"), "FEED");
    assert.equal(await written("help/FEEDDEV"), "FEEDDEV");
  });
});

describe("the pages", () => {
  it.each(["index.html", "taskpane.html"])(
    "%s states its policy before its first script, and takes all but office.js from beside it",
    async (file) => {
      const page = await builtPage(file);
      const policy = page.indexOf('http-equiv="Content-Security-Policy"');
      assert.ok(policy > 0 && policy < page.indexOf("<script"));
      assert.match(page, /content="default-src 'none'; script-src 'self'/);
      const addresses = [...page.matchAll(/<(?:script|link)\b[^>]*?\b(?:src|href)="([^"]+)"/g)].map(
        ([, address = ""]) => address,
      );
      const elsewhere = addresses.filter((address) => /^(\w+:|\/)/.test(address));
      const allowed =
        file === "taskpane.html"
          ? ["https://appsforoffice.microsoft.com/lib/1/hosted/office.js"]
          : [];
      assert.deepEqual(elsewhere, allowed);
      for (const address of addresses.filter((found) => !elsewhere.includes(found)))
        await built(address.replace(/\?.*/, ""));
    },
  );

  it("load the functions before everything of ours, in Excel right behind office.js", async () => {
    const scriptsOf = async (file: string) =>
      [...(await builtPage(file)).matchAll(/<script[^>]*src="([^"?]+)/g)].map(([, address]) =>
        address?.split("/").at(-1),
      );
    assert.deepEqual(await scriptsOf("index.html"), ["functions.js", "workbench.js"]);
    assert.deepEqual((await scriptsOf("taskpane.html")).slice(0, 2), ["office.js", "functions.js"]);
    const excel = await builtPage("taskpane.html");
    const functions = /<script[^>]*functions\.js[^>]*>/.exec(excel)?.[0] ?? "";
    assert.ok(!/\b(defer|async|type="module")/.test(functions), functions);
  });
});

describe("the manifest", () => {
  it("names files that are there", async () => {
    const manifest = await built("manifest.xml");
    const addresses = [...manifest.matchAll(/"https:\/\/localhost:3443\/([^"?]*)/g)];
    assert.ok(addresses.length > 40);
    for (const [, file = ""] of addresses) await built(file);
  });
});

describe("support.html", () => {
  it("leads to pages that are there, and runs no script", async () => {
    const page = await builtPage("support.html");
    for (const [, address = ""] of page.matchAll(/href="([^"]+)"/g)) await built(address);
    assert.doesNotMatch(page, /<script/);
  });
});

describe("THIRD-PARTY-NOTICES.txt", () => {
  it("names what is in the bundles with its licence, and not what only builds them", async () => {
    const notices = await built("THIRD-PARTY-NOTICES.txt");
    for (const name of ["@univerjs/core", "react-dom", "rxjs", "@borgar/fx"])
      assert.ok(notices.includes(`\n${name} `), name);
    for (const name of ["webpack", "typescript", "opentype.js", "vitest"])
      assert.ok(!notices.includes(`\n${name} `), name);
    assert.match(notices, /Apache License\s+Version 2\.0/);
  });
});
