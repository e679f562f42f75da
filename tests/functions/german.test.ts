import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { describe, it } from "vitest";
import { describedCatalogue as catalogue } from "../../functions/documents/described.js";
import { functionsJson, functionsJsonText } from "../../functions/documents/functions-json.js";
import { GERMAN, GERMAN_TEXTS, GERMAN_WORDS } from "../../functions/languages/german.js";

const english = functionsJson(catalogue);
const german = functionsJson(catalogue, GERMAN);

/** Every description in both languages. */
const descriptions = english.functions.flatMap((one, index) => {
  const other = german.functions[index];
  assert.ok(other);
  return [
    { where: one.id, from: one.description, to: other.description },
    ...one.parameters.map(({ name, description }, at) => ({
      where: `${one.id}, ${name}`,
      from: description,
      to: other.parameters[at]?.description ?? "",
    })),
  ];
});

/** Numbers with a decimal point, whatever the language parts them by. */
function figures(text: string): readonly string[] {
  return (text.match(/\d+(?:[.,/]\d+)*/g) ?? []).map((one) => one.replace(",", ".")).sort();
}

/** Units and signs, and what is written in capitals: PVC, IEC, TN, #N/A. */
function marks(text: string): readonly string[] {
  const found = text.match(/[A-Z]{2,}|mm²|µm|°C|Ω·m|Ω|A²|kcmil|kHz|kWh|m²|[%√×÷±]|#N\/A/g) ?? [];
  return [...new Set(found)].sort();
}

function quotedWords(text: string): readonly string[] {
  return (text.match(/"[^"]+"/g) ?? []).sort();
}

describe("the German descriptions of the cell functions", () => {
  it("are in the file that the manifest names", () => {
    const committed = readFileSync("functions/functions-de.json", "utf8");
    assert.equal(committed, functionsJsonText(catalogue, GERMAN));
  });

  it("change nothing but descriptions and what words mean", () => {
    const bare = ({ functions, enums, ...rest }: typeof english) => ({
      ...rest,
      functions: functions.map(({ parameters, ...one }) => ({
        ...one,
        description: "",
        parameters: parameters.map((parameter) => ({ ...parameter, description: "" })),
      })),
      enums: enums.map(({ values, ...list }) => ({
        ...list,
        values: values.map(({ name, stringValue }) => ({ name, stringValue })),
      })),
    });
    assert.deepEqual(bare(german), bare(english));
  });

  it("are there for every text and word of the catalogue, and for no other", () => {
    const parameters = catalogue.flatMap((entry) => Object.values(entry.parameters));
    const texts = [...catalogue.map(({ purpose }) => purpose), ...parameters.map((p) => p.meaning)];
    assert.deepEqual(Object.keys(GERMAN_TEXTS).sort(), [...new Set(texts)].sort());
    const words = parameters.flatMap((p) => ("choices" in p ? p.choices : []));
    assert.deepEqual(Object.keys(GERMAN_WORDS).sort(), [...new Set(words)].sort());
    for (const text of Object.values({ ...GERMAN_TEXTS, ...GERMAN_WORDS }))
      assert.match(text, /\S/);
    assert.throws(() => GERMAN.text("Voltage drop"), /no German for "Voltage drop"/);
  });

  it("keep to one line of 255 characters, and a word's meaning to 256", () => {
    for (const { where, to } of descriptions) assert.match(to, /^.{1,255}$/, where);
    for (const { values } of german.enums)
      for (const { tooltip } of values) assert.match(tooltip ?? "", /^.{1,256}$/);
  });

  it("state the figures, units and signs of the English ones", () => {
    for (const { where, from, to } of descriptions) {
      assert.deepEqual(figures(to), figures(from), where);
      assert.deepEqual(marks(to), marks(from), where);
    }
  });

  it("name the same words to type, since formulas take the English ones", () => {
    for (const { where, from, to } of descriptions)
      assert.deepEqual(quotedWords(to), quotedWords(from), where);
    for (const { id, parameters } of catalogue)
      for (const { name, meaning, ...parameter } of Object.values(parameters))
        for (const choice of "choices" in parameter ? parameter.choices : []) {
          const word = new RegExp(
            `(?<![\\w-])${choice.replace(/[.*+?^$()|[\]\\]/g, "\\$&")}(?![\\w-])`,
          );
          assert.equal(
            word.test(GERMAN.text(meaning)),
            word.test(meaning),
            `${id}, ${name}: ${choice}`,
          );
        }
  });
});
