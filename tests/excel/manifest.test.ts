import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, stat } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, it } from "vitest";
import {
  copyIcons,
  ICON_SIZES,
  manifestPlace,
  manifestText,
  nextBuild,
  writeManifest,
} from "../../scripts/manifest.mjs";
import packageJson from "../../package.json" with { type: "json" };
import shortcuts from "../../taskpane/pages/excel/shortcuts.json" with { type: "json" };
import { feedWords } from "../../taskpane/words/feed-words.js";
import { words } from "../../taskpane/words/words.js";
import { descendants, type XmlElement, xmlTree } from "./xml-tree.js";

const ORIGIN = "https://example.org/downfeed";
const production = xmlTree(await manifestText({ origin: ORIGIN, development: false }));
const BUILD = 7_993;
const development = xmlTree(await manifestText({ ...manifestPlace(), build: BUILD }));

function all(tree: XmlElement, name: string): readonly XmlElement[] {
  return descendants(tree).filter((element) => element.name === name);
}

function one(tree: XmlElement, name: string): XmlElement {
  const [found, ...more] = all(tree, name);
  assert.ok(found && more.length === 0, `one ${name}`);
  return found;
}

function resources(tree: XmlElement): ReadonlyMap<string, string> {
  return new Map(
    one(tree, "Resources").children.flatMap(({ children }) =>
      children.map(({ attributes: { id = "", DefaultValue = "" } }) => [id, DefaultValue]),
    ),
  );
}

// Office add-ins documentation, "How to find the proper order of manifest elements" (seen).
const TOP_ORDER = [
  "Id",
  "Version",
  "ProviderName",
  "DefaultLocale",
  "DisplayName",
  "Description",
  "IconUrl",
  "HighResolutionIconUrl",
  "SupportUrl",
  "Hosts",
  "Requirements",
  "DefaultSettings",
  "Permissions",
  "VersionOverrides",
  // Below it, not inside: "Custom keyboard shortcuts in Office Add-ins" (seen). The published schema lacks it.
  "ExtendedOverrides",
];

describe.each([
  ["production", production],
  ["development", development],
])("the %s manifest", (_, tree) => {
  it("has its elements in the order that Office asks for", () => {
    assert.deepEqual(
      tree.children.map(({ name }) => name),
      TOP_ORDER,
    );
    assert.deepEqual(
      one(tree, "VersionOverrides").children.map(({ name }) => name),
      ["Hosts", "Resources"],
    );
    assert.deepEqual(
      (all(tree, "Host")[1] as XmlElement).children.map(({ name }) => name),
      ["Runtimes", "AllFormFactors", "DesktopFormFactor"],
    );
    assert.deepEqual(
      one(tree, "Resources").children.map(({ name }) => name),
      ["bt:Images", "bt:Urls", "bt:ShortStrings", "bt:LongStrings"],
    );
  });

  it("refers to resources that are there, and holds none that nothing refers to", () => {
    const used = descendants(tree)
      .map(({ attributes }) => attributes["resid"])
      .filter((resid) => resid !== undefined);
    assert.deepEqual([...new Set(used)].sort(), [...resources(tree).keys()].sort());
    for (const id of used) assert.ok(id.length <= 32, id);
  });

  // "Custom functions naming and localization" (seen): an override of the metadata's address for each language.
  it("names the descriptions of the functions in German where Office is German", () => {
    const overrides = all(tree, "bt:Override");
    assert.equal(overrides.length, 1);
    const address = resources(tree).get("Functions.Metadata.Url") ?? "";
    assert.deepEqual(overrides[0]?.attributes, {
      Locale: "de-DE",
      Value: address.replace("functions.json", "functions-de.json"),
    });
    assert.ok(address.endsWith("/functions.json"));
  });

  // "Configure your Office Add-in to use a shared runtime" (seen): one resid for all, or the runtime is not shared.
  it("names one page as runtime, functions page, command page and task pane", () => {
    assert.equal(one(tree, "Runtime").attributes["lifetime"], "long");
    const pages = [
      one(tree, "Runtime"),
      ...one(tree, "Page").children,
      one(tree, "FunctionFile"),
      ...all(tree, "Action").flatMap(({ children }) =>
        children.filter(({ name }) => name === "SourceLocation"),
      ),
    ].map(({ attributes }) => attributes["resid"]);
    assert.equal(pages.length, 4);
    assert.equal(new Set(pages).size, 1);
    assert.ok(pages[0] && resources(tree).get(pages[0])?.includes("taskpane.html"));
  });

  it("opens the same page by itself and as the shared runtime", () => {
    const start = one(tree, "DefaultSettings").children[0];
    const page = one(tree, "Runtime").attributes["resid"] ?? "";
    assert.equal(start?.attributes["DefaultValue"], resources(tree).get(page));
  });

  it("shows icons of every size for the group and each button", () => {
    const files = all(tree, "Icon").map(({ children }) =>
      children.map(({ attributes: { size, resid = "" } }) => [
        Number(size),
        resources(tree).get(resid)?.split("/").at(-1),
      ]),
    );
    assert.deepEqual(
      files,
      ["icon", "icon", "feed", "warnings", "working"].map((name) =>
        ICON_SIZES.map((size) => [size, `${name}-${size}.png`]),
      ),
    );
  });

  it("has a button for the pane and one for each of three views, under the names of their tabs", () => {
    const labels = all(tree, "Control").map(({ children }) => {
      const label = children.find(({ name }) => name === "Label")?.attributes["resid"] ?? "";
      return resources(tree).get(label);
    });
    const { warnings, working } = words.pane;
    assert.deepEqual(labels.slice(1), [feedWords.tab, warnings, working]);
    const named = all(tree, "FunctionName").map(({ text }) => text);
    assert.deepEqual(
      named,
      shortcuts.actions.map(({ id }) => id),
    );
    assert.match(
      one(tree, "ExtendedOverrides").attributes["Url"] ?? "",
      /^https:\/\/.*\/shortcuts\.json$/,
    );
  });

  it("tells each button's keys as they are", () => {
    for (const { action, key } of shortcuts.shortcuts) {
      const told = resources(tree).get(`${action}.Description`) ?? "";
      assert.ok(told.endsWith(`: ${key.default}.`), told);
    }
  });

  // Office add-ins reference, manifest element SupportUrl (seen): a page that helps.
  it("leads to a page of help", () => {
    for (const address of [
      one(tree, "SupportUrl").attributes["DefaultValue"],
      resources(tree).get("LearnMore.Url"),
    ])
      assert.match(address ?? "", /\/support\.html$/);
  });

  it("asks for the requirement sets that the add-in uses without asking", () => {
    assert.deepEqual(
      all(tree, "Set").map(({ attributes }) => [attributes["Name"], attributes["MinVersion"]]),
      [
        ["SharedRuntime", "1.1"],
        ["CustomFunctionsRuntime", "1.3"],
        ["ExcelApi", "1.12"],
      ],
    );
  });

  it("keeps its texts within their lengths", () => {
    const texts = (name: string) =>
      one(tree, name).children.map(({ attributes }) => attributes["DefaultValue"] ?? "");
    for (const text of texts("bt:ShortStrings")) assert.match(text, /^.{1,125}$/);
    for (const text of [
      ...texts("bt:LongStrings"),
      all(tree, "Description")[0]?.attributes["DefaultValue"] ?? "",
    ])
      assert.match(text, /^.{1,250}$/);
    const namespace = resources(tree).get("Functions.Namespace") ?? "";
    assert.match(namespace, /^[A-Z][A-Z0-9]{2,31}$/);
  });

  it("leaves nothing of the template open", async () => {
    assert.doesNotMatch(JSON.stringify(tree), /\{\{|\}\}/);
    assert.match(
      one(tree, "Id").text,
      /^[\da-f]{8}-[\da-f]{4}-4[\da-f]{3}-[89ab][\da-f]{3}-[\da-f]{12}$/,
    );
  });

  it("has the package's version, and under development the number of the build behind it", () => {
    const build = tree === development ? BUILD : 0;
    assert.equal(one(tree, "Version").text, `${packageJson.version}.${build}`);
  });
});

describe("shortcuts.json", () => {
  // "Custom keyboard shortcuts in Office Add-ins" (seen): three modifiers, where no command of Excel's own or of a browser is.
  it("has keys of three modifiers and one letter, each its own", () => {
    const keys = shortcuts.shortcuts.map(({ key }) => [key.default, key.mac]);
    for (const [anywhere, mac] of keys) {
      assert.match(anywhere ?? "", /^Ctrl\+Alt\+Shift\+[A-Z]$/);
      assert.equal(mac, anywhere?.replace("Ctrl", "Command"));
    }
    assert.equal(new Set(keys.flat()).size, 2 * keys.length);
  });

  // extended-manifest.schema.json of Microsoft's json-schemas (seen): letters, digits, -, _ and + only.
  it("names an action for each of them, as the schema allows", () => {
    assert.deepEqual(
      shortcuts.shortcuts.map(({ action }) => action),
      shortcuts.actions.map(({ id }) => id),
    );
    for (const { id, name, type } of shortcuts.actions) {
      assert.match(name, /^[A-Za-z0-9_+-]+$/);
      assert.equal(name, id);
      assert.equal(type, "ExecuteFunction");
    }
  });

  it("stands in the page of help as it is", async () => {
    const page = await readFile("taskpane/pages/excel/support.html", "utf8");
    for (const { action, key } of shortcuts.shortcuts) {
      const row = new RegExp(`<td>${action}</td>\\s*<td>([^<]+)</td>\\s*<td>([^<]+)</td>`);
      const [, anywhere, mac] = row.exec(page) ?? [];
      // Apple's keyboards call Alt Option.
      assert.deepEqual([anywhere, mac?.replace("Option", "Alt")], [key.default, key.mac]);
    }
  });
});

describe("nextBuild", () => {
  const NOON = Date.UTC(2026, 10, 29, 12);

  it("grows with every build, also within an hour", () => {
    const first = nextBuild(0, NOON);
    assert.equal(nextBuild(first, NOON), first + 1);
    assert.ok(nextBuild(first, NOON + 36e5 * 24) > first + 1);
  });

  it("is no smaller where the record of the last one is lost an hour later", () => {
    assert.ok(nextBuild(0, NOON + 36e5) > nextBuild(0, NOON));
  });

  it("has at most five digits for years", () => {
    assert.ok(nextBuild(0, Date.UTC(2036, 0, 1)) <= 99_999);
  });
});

describe("manifestText", () => {
  it("makes the one under development another add-in with another namespace", () => {
    for (const name of ["Id", "DisplayName"])
      assert.notDeepEqual(one(production, name), one(development, name));
    assert.equal(resources(production).get("Functions.Namespace"), "FEED");
    assert.equal(resources(development).get("Functions.Namespace"), "FEEDDEV");
  });

  it("puts every address below the origin", () => {
    const addresses = descendants(production)
      .map(({ attributes }) => attributes["DefaultValue"] ?? "")
      .filter((value) => value.includes("://"));
    assert.ok(addresses.length > 10);
    for (const address of addresses) assert.ok(address.startsWith(`${ORIGIN}/`), address);
  });

  it("refuses an origin that Excel would not load", () => {
    for (const origin of ["http://example.org", "https://example.org/?a=1", "example", ""])
      assert.throws(() => manifestPlace(origin));
  });

  it("takes an origin with or without a slash", async () => {
    const place = manifestPlace(`${ORIGIN}/`);
    assert.equal(place.development, false);
    assert.deepEqual(xmlTree(await manifestText(place)), production);
  });
});

describe("what is written to the served folder", () => {
  it("holds the manifest and every icon at the size in its name", async () => {
    const folder = await mkdtemp(join(tmpdir(), "downfeed-"));
    try {
      const outFile = join(folder, "manifest.xml");
      await writeManifest({ origin: ORIGIN, development: false, outFile });
      await copyIcons(folder);
      assert.deepEqual(xmlTree(await readFile(outFile, "utf8")), production);
      for (const [id, address] of resources(production)) {
        const size = Number(/Icon\.(\d+)$/.exec(id)?.[1]);
        if (Number.isNaN(size)) continue;
        const path = join(folder, address.slice(ORIGIN.length));
        assert.ok((await stat(path)).size > 0);
        assert.deepEqual(pngSize(await readFile(path)), [size, size]);
      }
    } finally {
      await rm(folder, { recursive: true });
    }
  });
});

/** PNG specification (W3C), section 11.2.2: width and height stand first in the header chunk. */
function pngSize(png: Buffer): readonly number[] {
  assert.equal(png.toString("latin1", 1, 4), "PNG");
  return [png.readUInt32BE(16), png.readUInt32BE(20)];
}

describe("xmlTree", () => {
  it("refuses what does not close in turn", () => {
    assert.throws(() => xmlTree("<a><b></a>"), /closes/);
    assert.throws(() => xmlTree("<a><b></b>"), /does not close/);
  });
});
