import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";
import { describe, it } from "vitest";
import { english } from "../../taskpane/words/english.js";
import { type Language, language } from "../../taskpane/words/language.js";

/** Folders where nothing may be said that is not among the words. */
const ROOMS = ["taskpane/views", "taskpane/pages/workbench", "taskpane/pages/excel"];
/** Of elements that a reader sees or hears. */
const SPOKEN_ATTRIBUTES = /^(aria-label|aria-description|title|placeholder|alt)$/;

function sources(): readonly string[] {
  return ROOMS.flatMap((room) =>
    readdirSync(room, { recursive: true, encoding: "utf8" })
      .filter((path) => /\.tsx?$/.test(path))
      .map((path) => join(room, path)),
  );
}

/** Texts between tags, texts that are read out, and sentences in quotes; what is thrown is for who mends the program. */
function strayWords(path: string): readonly string[] {
  const kind = path.endsWith("x") ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const text = readFileSync(path, "utf8");
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true, kind);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isThrowStatement(node) || ts.isImportDeclaration(node)) return;
    if (ts.isJsxText(node) && /\p{L}{2}/u.test(node.text)) found.push(node.text.trim());
    if (ts.isJsxAttribute(node) && SPOKEN_ATTRIBUTES.test(node.name.getText()))
      if (node.initializer && ts.isStringLiteral(node.initializer))
        found.push(node.initializer.text);
    const isText =
      ts.isStringLiteralLike(node) ||
      ts.isTemplateHead(node) ||
      ts.isTemplateMiddle(node) ||
      ts.isTemplateTail(node);
    if (isText && /\p{L}{2,} \p{L}{2,}.*[.…?!:]\s*$/u.test(node.text)) found.push(node.text);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found.map((words) => `${path}: ${words}`);
}

describe("the words of the pane", () => {
  it("are those of one module for the language, and all call sites have them from there", async () => {
    assert.equal(language, english);
    const { words } = await import("../../taskpane/words/words.js");
    const { workbenchWords } = await import("../../taskpane/words/workbench-words.js");
    assert.equal(words, english.pane);
    assert.equal(workbenchWords, english.workbench);
  });

  it("can be had in another language, which does not compile while it lacks any", () => {
    const other: Language = {
      ...english,
      entries: { ...english.entries, noNumber: (typed) => `„${typed}“ ist keine Zahl` },
    };
    assert.equal(other.entries.noNumber("zwei"), "„zwei“ ist keine Zahl");
    const { entries, ...rest } = english;
    // @ts-expect-error the words of what is typed are not there
    const lacking: Language = rest;
    // @ts-expect-error one word is not there
    const shorter: Language = { ...english, entries: { ...entries, noNumber: undefined } };
    // @ts-expect-error a sentence that names a figure must be able to
    const mute: Language = { ...english, entries: { ...english.entries, noNumber: "keine Zahl" } };
    for (const one of [lacking, shorter, mute]) assert.notDeepEqual(one, english);
  });

  it("are not said anywhere else in the views and around the workbench", () => {
    assert.ok(sources().length > 60);
    assert.deepEqual(sources().flatMap(strayWords), []);
  });
});
