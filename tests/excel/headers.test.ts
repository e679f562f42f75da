/** That the settings of both servers say what the development server says. nginx 1.22 was run with its file; IIS was not run. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { headersOf, nginxText, webConfigText } from "../../scripts/headers.mjs";
import { descendants, type XmlElement, xmlTree } from "./xml-tree.js";

const FILES = [
  "/taskpane.html",
  "/functions.js",
  "/functions.json",
  "/help/index.html",
  "/assets/icons/feed-32.png",
  "/chunks/85-99173646.js",
  "/vendor/univer-3f38bbab6204.js",
];

describe("the headers of a file", () => {
  it("let any page read it, and refuse no frame", () => {
    for (const file of FILES) {
      const headers = headersOf(file);
      assert.equal(headers["Access-Control-Allow-Origin"], "*");
      assert.ok(!("X-Frame-Options" in headers) && !("Content-Security-Policy" in headers));
    }
  });

  // RFC 9111, section 5.2.2.4 (no-cache), and RFC 8246 (immutable), both from memory.
  it("have it kept where its name changes with it, and asked for anew where not", () => {
    const kept = FILES.filter((file) => headersOf(file)["Cache-Control"]?.includes("immutable"));
    assert.deepEqual(kept, ["/chunks/85-99173646.js", "/vendor/univer-3f38bbab6204.js"]);
    const anew = FILES.filter((file) => headersOf(file)["Cache-Control"] === "no-cache");
    assert.deepEqual(anew, FILES.slice(0, 4));
  });
});

describe("nginx.conf", () => {
  /** By nginx's rule the longest location that a path begins with; an add_header hides those around it. */
  function said(text: string, path: string): Readonly<Record<string, string>> {
    const places = text.split("location ").map((block) => ({
      place: /^(\S+) \{/.exec(block)?.[1],
      block,
    }));
    const [longest] = places
      .filter(({ place }) => place !== undefined && path.startsWith(place))
      .sort((a, b) => b.place!.length - a.place!.length);
    assert.ok(longest);
    return Object.fromEntries(
      [...longest.block.matchAll(/add_header (\S+) "([^"]*)";/g)].map(([, name = "", value]) => [
        name,
        value ?? "",
      ]),
    );
  }

  it.each(["/", "/downfeed/"])("says the same below %s", (folder) => {
    for (const file of FILES)
      assert.deepEqual(said(nginxText(folder), folder + file.slice(1)), headersOf(file), file);
  });
});

describe("web.config", () => {
  const config = xmlTree(webConfigText());
  const named = (tree: XmlElement, name: string) =>
    descendants(tree).filter((element) => element.name === name);
  /** As Microsoft documents the element clientCache of staticContent (seen). */
  const cacheOf = ({ attributes }: XmlElement): string | undefined => {
    const { cacheControlMode: mode, cacheControlMaxAge: age = "", cacheControlCustom } = attributes;
    if (mode === "NoControl") return undefined;
    if (mode === "DisableCache") return "no-cache";
    assert.equal(mode, "UseMaxAge");
    const seconds = Number(/^(\d+)\.00:00:00$/.exec(age)?.[1]) * 86_400;
    return `max-age=${seconds}, ${cacheControlCustom}`;
  };

  it("says the same", () => {
    const [top] = config.children;
    assert.ok(top && top.name === "system.webServer");
    assert.deepEqual(
      named(top, "add").map(({ attributes }) => [attributes["name"], attributes["value"]]),
      [["Access-Control-Allow-Origin", "*"]],
    );
    const folders = new Map(
      named(config, "location").map((location) => [location.attributes["path"], location]),
    );
    for (const file of FILES) {
      const place = folders.get(file.split("/")[1]) ?? top;
      const [cache] = named(place, "clientCache");
      assert.ok(cache);
      assert.equal(cacheOf(cache), headersOf(file)["Cache-Control"], file);
    }
  });

  it("takes away what a site around it may have said of frames", () => {
    const gone = named(config, "remove").map(({ attributes }) => attributes["name"]);
    assert.ok(gone.includes("X-Frame-Options"));
  });
});
