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
  writeManifest,
} from "../../scripts/manifest.mjs";
import packageJson from "../../package.json" with { type: "json" };
import { descendants, type XmlElement, xmlTree } from "./xml-tree.js";

const ORIGIN = "https://example.org/downfeed";
const production = xmlTree(await manifestText({ origin: ORIGIN, development: false }));
const development = xmlTree(await manifestText(manifestPlace({})));

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
      ...one(tree, "Action").children,
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

  it("shows icons of every size for the group and the button", () => {
    const icons = all(tree, "Icon");
    assert.equal(icons.length, 2);
    for (const { children } of icons)
      assert.deepEqual(
        children.map(({ attributes: { size, resid = "" } }) => [
          Number(size),
          resources(tree).get(resid)?.split("/").at(-1),
        ]),
        ICON_SIZES.map((size) => [size, `icon-${size}.png`]),
      );
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
    assert.equal(one(tree, "Version").text, `${packageJson.version}.0`);
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

  it("refuses an origin that Excel would not load", async () => {
    for (const origin of ["http://example.org", "https://example.org/?a=1", "example"])
      await assert.rejects(manifestText({ origin, development: false }));
  });

  it("takes the place from the environment, with or without a slash", async () => {
    const place = manifestPlace({ DOWNFEED_ORIGIN: `${ORIGIN}/` });
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
        if (!id.startsWith("Icon.")) continue;
        const path = join(folder, address.slice(ORIGIN.length));
        assert.ok((await stat(path)).size > 0);
        assert.deepEqual(pngSize(await readFile(path)), [Number(id.slice(5)), Number(id.slice(5))]);
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
