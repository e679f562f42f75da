import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { describe, it } from "vitest";
import {
  type DescribedEntry,
  describedCatalogue as catalogue,
} from "../../functions/documents/described.js";
import { defineEntry, type Parameters } from "../../functions/entry.js";
import {
  functionsJson,
  functionsJsonText,
  type FunctionsJson,
} from "../../functions/documents/functions-json.js";
import { functionTable, signature } from "../../functions/documents/function-table.js";
import {
  breakingChanges,
  isLaterVersion,
  type Released,
  type ReleasedFunction,
  releasedFunctions,
} from "../../functions/released.js";
import packageJson from "../../package.json" with { type: "json" };

const committed = readFileSync("functions/functions.json", "utf8");
const read = JSON.parse(committed) as FunctionsJson;

function entryWith(parameters: Parameters, told: Partial<DescribedEntry> = {}): DescribedEntry {
  return {
    purpose: "A trial.",
    ...defineEntry({
      id: "TRIAL_FUNCTION",
      family: "about",
      parameters,
      result: { shape: "number", unit: "V" },
      example: { args: [] },
      citations: [],
      read: () => ({}),
      calculate: () => ({}),
      cells: () => 1,
      caveats: () => [],
      working: () => [],
    }),
    ...told,
  };
}

describe("functions.json", () => {
  it("is what the catalogue says", () => {
    assert.equal(committed, functionsJsonText(catalogue));
  });

  // Office add-ins documentation, "Manually create JSON metadata for custom functions" and "Custom functions naming
  // guidelines" (seen): ids of letters, digits, underscores and full stops; names start with a letter, three characters
  // at least. 1 MB and 255 characters without a line break: reported limits of the Windows client (issue threads, seen).
  it("keeps to the names and lengths that Excel takes", () => {
    assert.ok(committed.length < 1_000_000);
    for (const { id, name, description, parameters } of read.functions) {
      assert.match(id, /^[A-Z][A-Z0-9_]{2,63}$/);
      assert.equal(name, id);
      assert.doesNotMatch(id, /^[A-Z]{1,3}\d+$/, "reads as a cell address");
      for (const text of [description, ...parameters.map((p) => p.description)])
        assert.match(text, /^.{1,255}$/, id);
      for (const { name: parameter } of parameters) assert.match(parameter, /^.{1,64}$/, id);
    }
    const ids = read.functions.map(({ id }) => id.toLowerCase());
    assert.equal(new Set(ids).size, ids.length);
  });

  it("lets no required parameter stand behind an optional one, and nothing behind a repeating one", () => {
    for (const { id, parameters } of read.functions) {
      const optional = parameters.map((p) => p.optional === true);
      assert.deepEqual(optional, [...optional].sort(), id);
      const repeating = parameters.findIndex((p) => p.repeating === true);
      assert.ok(repeating === -1 || repeating === parameters.length - 1, id);
    }
  });

  it("takes every value raw, errors too, but for words out of a list, and never runs by itself", () => {
    assert.equal(read.allowErrorForDataTypeAny, true);
    for (const { id, parameters, options } of read.functions) {
      const entry = catalogue.find((one) => one.id === id);
      const kinds = Object.values(entry?.parameters ?? {}).map(({ kind }) => kind);
      assert.deepEqual(
        parameters.map(({ type }) => type),
        kinds.map((kind) => (kind === "choice" ? "string" : "any")),
        id,
      );
      assert.deepEqual(options, { stream: false, volatile: false });
    }
  });

  // "Manually create JSON metadata for custom functions", enums and customEnumId, and the schema of the unified
  // manifest, version 1.30, extensionFunctionParameter and enum (both seen): ids of 3 to 64 letters, digits, periods
  // and underscores behind a letter, unique whatever their case; a string enum has a stringValue for each name; names
  // and tooltips of at most 256 characters, at most 256 enums.
  it("offers the words of every argument that takes words, as Excel takes lists of words", () => {
    assert.ok(read.enums.length > 10 && read.enums.length <= 256);
    const ids = read.enums.map(({ id }) => id.toLowerCase());
    assert.equal(new Set(ids).size, ids.length);
    for (const { id, type, values } of read.enums) {
      assert.match(id, /^[A-Za-z][A-Za-z0-9._]{2,63}$/);
      assert.equal(type, "string");
      for (const { name, stringValue, tooltip } of values) {
        assert.match(name, /^.{1,256}$/);
        assert.equal(stringValue, name);
        assert.equal(tooltip, undefined);
      }
    }
    const offered = read.functions.flatMap(({ id, parameters }) =>
      parameters.map(({ name, customEnumId }) => {
        const list = read.enums.find((one) => one.id === customEnumId);
        assert.ok(customEnumId === undefined || list, `${id}: ${name}`);
        return [id, name, list?.values.map(({ stringValue }) => stringValue)];
      }),
    );
    const taken = catalogue.flatMap(({ id, parameters }) =>
      Object.values(parameters).map((parameter) => [
        id,
        parameter.name,
        "choices" in parameter ? parameter.choices : undefined,
      ]),
    );
    assert.deepEqual(offered, taken);
    const used = new Set(read.functions.flatMap((f) => f.parameters.map((p) => p.customEnumId)));
    assert.deepEqual(
      read.enums.filter(({ id }) => !used.has(id)),
      [],
    );
  });
});

const text = { name: "word", unit: "", meaning: "a word" } as const;

describe("functionsJson", () => {
  it("asks for a range where a range may be given, and for one cell elsewhere", () => {
    const [shaped] = functionsJson([
      entryWith({
        table: { ...text, kind: "cells" },
        list: { ...text, kind: "numbers", each: "item" },
        metal: {
          ...text,
          kind: "choice or numbers",
          choices: ["copper"],
          row: ["one", "two"],
        },
        size: { ...text, kind: "number or text" },
        load: {
          ...text,
          kind: "number or choice",
          choices: ["peak"],
          optional: true,
        },
        more: { ...text, kind: "numbers", each: "more", repeating: true },
      }),
    ]).functions;
    assert.deepEqual(
      shaped?.parameters.map((p) => [p.dimensionality, p.optional, p.repeating]),
      [
        ["matrix", undefined, undefined],
        ["matrix", undefined, undefined],
        ["matrix", undefined, undefined],
        ["scalar", undefined, undefined],
        ["scalar", true, undefined],
        ["matrix", undefined, true],
      ],
    );
  });

  it("spills rows and tables only", () => {
    const shapes = (["number", "text", "row", "table"] as const).map(
      (shape) =>
        functionsJson([entryWith({}, { result: { shape, unit: "" } })]).functions[0]?.result
          .dimensionality,
    );
    assert.deepEqual(shapes, ["scalar", "scalar", "matrix", "matrix"]);
  });

  it("refuses a purpose that Excel would cut", () => {
    const text = { shape: "text", unit: "" } as const;
    const long = entryWith({}, { purpose: "x".repeat(256), result: text });
    const broken = entryWith({}, { purpose: "one\ntwo" });
    assert.throws(() => functionsJson([long]), /TRIAL_FUNCTION: purpose .* 256/);
    assert.throws(() => functionsJson([broken]), /one line/);
  });

  it("names the unit of a result that is one number of one unit", () => {
    const described = (unit: string, shape: "number" | "row" = "number") =>
      functionsJson([entryWith({}, { result: { shape, unit } })]).functions[0]?.description;
    assert.equal(described("V"), "A trial. Result in V.");
    assert.equal(described("mm²"), "A trial. Result in mm².");
    for (const unit of ["", "1", "as given", "W or 1", "money"])
      assert.equal(described(unit), "A trial.", unit);
    assert.equal(described("V", "row"), "A trial.");
  });

  it("names the choices and the unit in the hint", () => {
    const [hinted] = functionsJson([
      entryWith({
        kind: { ...text, kind: "choice", choices: ["dry", "wet"] },
        drop: {
          name: "drop",
          unit: "V",
          meaning: "largest drop",
          kind: "number",
        },
      }),
    ]).functions;
    assert.deepEqual(
      hinted?.parameters.map(({ description }) => description),
      ['a word: "dry", "wet"', "largest drop (V)"],
    );
  });
});

describe("functionTable", () => {
  it("lists every function of the catalogue once, with brackets around what may be left out", () => {
    const table = functionTable(catalogue, "FEED");
    for (const { id } of catalogue) assert.equal(table.split(`\`FEED.${id}(`).length, 2, id);
    const trial = entryWith({
      one: { ...text, kind: "text" },
      two: { ...text, name: "other", kind: "text", optional: true },
    });
    assert.equal(signature(trial, "FEED"), "FEED.TRIAL_FUNCTION(word, [other])");
  });
});

const released = JSON.parse(readFileSync("functions/released.json", "utf8")) as Released;

describe("released functions", () => {
  it("still work as users' workbooks call them", () => {
    assert.deepEqual(breakingChanges(released.functions, releasedFunctions(catalogue)), []);
  });

  it("come with a later version where functions.json differs from the release", () => {
    const digest = createHash("sha256").update(committed).digest("hex");
    assert.ok(
      digest === released.functionsJson || isLaterVersion(packageJson.version, released.version),
      "raise the version in package.json: functions.json differs from the release",
    );
  });
});

describe("breakingChanges", () => {
  const word = {
    name: "word",
    kind: "choice",
    optional: false,
    repeating: false,
    choices: ["dry"],
  };
  const before: readonly ReleasedFunction[] = [{ id: "ONE", parameters: [word] }];
  const now = (...parameters: ReleasedFunction["parameters"]) => [{ id: "ONE", parameters }];

  it("allows optional arguments at the end, more choices and more functions", () => {
    const appended = { ...word, name: "more", optional: true };
    const changed = now({ ...word, choices: ["dry", "wet"] }, appended);
    const added = { id: "TWO", parameters: [] };
    assert.deepEqual(breakingChanges(before, [...changed, added]), []);
  });

  it.each([
    ["a function gone", []],
    ["an argument gone", now()],
    ["an argument renamed", now({ ...word, name: "text" })],
    ["an argument of another kind", now({ ...word, kind: "text" })],
    ["an argument that may be left out now", now({ ...word, optional: true })],
    ["a choice gone", now({ ...word, choices: [] })],
    ["a required argument at the end", now(word, { ...word, name: "more" })],
  ])("names %s", (_, after) => {
    assert.equal(breakingChanges(before, after).length, 1);
  });
});

describe("isLaterVersion", () => {
  it("compares numbers, not text", () => {
    assert.ok(isLaterVersion("0.10.0", "0.9.9"));
    assert.ok(!isLaterVersion("0.9.9", "0.10.0"));
    assert.ok(!isLaterVersion("1.2.3", "1.2.3"));
  });
});
