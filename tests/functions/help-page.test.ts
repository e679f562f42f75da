import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import { EXAMPLE_ANSWERS } from "../../functions/documents/examples.js";
import { describedCatalogue as catalogue } from "../../functions/documents/described.js";
import { helpIndex, helpPage } from "../../functions/documents/help-page.js";
import { RELATIONS } from "../../functions/documents/relations.js";
import { RESULTS } from "../../functions/documents/results.js";
import { VALIDITY } from "../../functions/documents/validity.js";
import { citationLine } from "../../src/quantities/citations.js";

/** The page's words without its tags. */
function wordsOf(page: string): string {
  return page
    .replace(/<[^>]*>/g, " ")
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&amp;", "&")
    .replace(/\s+/g, " ");
}

/** Every tag that is opened is closed, in order. */
function assertNested(page: string): void {
  const open: string[] = [];
  for (const [, closing, tag = ""] of page.matchAll(/<(\/?)([a-z][a-z0-9]*)\b[^>]*>/g)) {
    if (["meta", "link"].includes(tag)) continue;
    if (closing) assert.equal(open.pop(), tag);
    else open.push(tag);
  }
  assert.deepEqual(open, []);
}

describe("the help page", () => {
  it("says where it holds of every function, and of no other", () => {
    assert.deepEqual(
      Object.keys(VALIDITY),
      catalogue.map(({ id }) => id),
    );
  });

  for (const entry of catalogue)
    it(`of ${entry.id} tells what it is for, how it is written, its arguments, example, limits, refusals and citations`, () => {
      const page = helpPage(entry, "FEED");
      const words = wordsOf(page);
      assertNested(page);
      const one = (text: string) => expect(words).toContain(text.replace(/\s+/g, " "));
      one(`FEED.${entry.id}`);
      one(entry.purpose);
      one(RELATIONS[entry.id] ?? "");
      one(RESULTS[entry.id]!);
      for (const { name, meaning } of Object.values(entry.parameters)) {
        one(name);
        one(meaning);
      }
      const holds = VALIDITY[entry.id] ?? [];
      assert.ok(holds.length > 0);
      for (const sentence of holds) one(sentence);
      for (const id of entry.citations) one(citationLine(id));
      const { note } = EXAMPLE_ANSWERS[entry.id]!;
      if (note) one(note);
      const required = Object.values(entry.parameters).some(({ optional }) => !optional);
      if (required) expect(words).toMatch(/What it refuses .*#(VALUE|N\/A)/);
      // Nothing but its own style sheet and pages.
      for (const [, address = ""] of page.matchAll(/(?:href|src)="([^"]*)"/g))
        expect(address).toMatch(/^(index\.html|help\.css)$/);
    });

  it("tells how a call is written where the decimal sign is a comma, if it has arguments", () => {
    for (const entry of catalogue) {
      const words = wordsOf(helpPage(entry, "FEED"));
      const told = /comma, it parts arguments by semicolons and takes 2,5 for 2\.5/.test(words);
      assert.equal(told, entry.example.args.length > 0, entry.id);
    }
  });

  it("says what a blank and a 0 are taken for, as the runner takes them", () => {
    const rows = (id: string) => {
      const entry = catalogue.find((one) => one.id === id);
      assert.ok(entry, id);
      return helpPage(entry, "FEED")
        .split("<tr>")
        .map((row) => wordsOf(row.replaceAll("</td>", " |")));
    };
    const said = (id: string, name: string) =>
      rows(id)
        .find((row) => row.trim().startsWith(`${name} |`))
        ?.split("|")
        .slice(3, 6)
        .map((cell) => cell.trim());
    assert.deepEqual(said("SUPPLY_BATTERY", "state of charge"), [
      "refused",
      "a value",
      "a value; a blank cell is 0",
    ]);
    assert.deepEqual(said("CHAIN_SOLVE", "loads"), ["not given", "a value", "a value"]);
    assert.deepEqual(said("CONDUCTOR_DROP", "temperature"), [
      "refused",
      "a value, refused where it cannot be",
      "refused: for 0 °C type 0.001",
    ]);
    assert.deepEqual(said("CONDUCTOR_DROP", "parallel"), [
      "not given",
      "a value, refused where it cannot be",
      "not given",
    ]);
    assert.deepEqual(said("CONDUCTOR_DROP", "build"), ["not given", "refused", "not given"]);
  });

  it("writes text that looks like a tag as text", () => {
    const [entry] = catalogue;
    assert.ok(entry);
    const page = helpPage({ ...entry, purpose: "a < b & <script>alert(1)</script>" }, "FEED");
    expect(page).not.toContain("<script>");
    expect(wordsOf(page)).toContain("a < b & <script>alert(1)</script>");
  });

  it("of all functions lists every one of them once", () => {
    const page = helpIndex(catalogue, "FEED");
    assertNested(page);
    for (const { id } of catalogue) expect(page.split(`href="${id}.html"`).length, id).toBe(2);
  });
});
