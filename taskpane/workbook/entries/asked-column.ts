/** A line of what is asked for as a column, so that what is typed for it is read as every figure is. */
import {
  type Label,
  NOT_ASKED,
  type Requirement,
  REQUIREMENTS,
} from "../../../src/judgement/requirements.js";
import { plainWord } from "../../../functions/arguments.js";
import type { HeaderQuantity } from "../../../src/quantities/header-units.js";
import type { BlockColumn } from "../../../src/schedules/columns.js";

const QUANTITIES: Readonly<Record<string, HeaderQuantity>> = {
  W: "power",
  s: "time",
  V: "voltage",
  "°C": "temperature",
  m: "length",
  kg: "mass",
};

/** That may stand for its figure. */
export function wordsFor(label: Label): readonly string[] {
  const { content }: Requirement = REQUIREMENTS[label];
  return content.holds === "figure" ? (content.words ?? []) : [];
}

export function askedColumn(label: Label): BlockColumn {
  const { content } = REQUIREMENTS[label];
  const text = { header: label, field: label, means: "", unit: "", quantity: "words" } as const;
  if (content.holds === "word")
    return { ...text, content: { holds: "word", words: [...content.words, NOT_ASKED] } };
  if (content.holds !== "figure") return { ...text, content: { holds: "text" } };
  const words = [NOT_ASKED, ...wordsFor(label)];
  return {
    ...text,
    unit: content.unit,
    quantity: /%/.test(content.bound) ? "fraction" : (QUANTITIES[content.unit] ?? "number"),
    content: {
      holds: "figure",
      bound: "any",
      words: Object.fromEntries(words.map((word) => [plainWord(word), 0])),
    },
  };
}
