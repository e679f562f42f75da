/** What a feed is held against, as a range of label and value. */
import {
  LABELS,
  type Label,
  NOT_ASKED,
  REQUIREMENTS,
  Requirements,
} from "../../src/judgement/requirements.js";
import { ASKED_FOR } from "../../src/judgement/check-row.js";
import type { NoFramework } from "../../src/safety/feed-bands.js";
import {
  type FrameworkName,
  FRAMEWORKS,
  type TouchCondition,
} from "../../src/safety/touch-bands.js";
import { InputError } from "../../src/quantities/errors.js";
import { PassedOnError, plainWord, requireChoice } from "../arguments.js";
import { type Cell, type CellTable, isBlank, isCellError } from "../cells.js";
import type { Parameter } from "../entry.js";

export const askedForParameter = {
  name: "asked for",
  unit: "",
  meaning: `range of label and value, further columns not read: Framework (${FRAMEWORKS.join(", ")}), Place (dry, wet or immersed; empty counts as wet) and, for checks, the limits that are asked; or "${NOT_ASKED}"`,
  kind: "cells",
} as const satisfies Parameter;

export interface AskedFor {
  readonly framework: FrameworkName | NoFramework;
  readonly condition: TouchCondition | undefined;
}

/** What bands need of it. @throws {InputError} as `requirementsOf`, and for a range without a row for the framework. */
export function askedFor(cells: CellTable): AskedFor {
  const asked = requirementsOf(cells);
  const { framework } = asked;
  if (framework === "not given" && !hasFramework(cells))
    throw refused(
      null,
      `given: a row with Framework in its first column and ${choices(FRAMEWORKS)} beside it`,
    );
  const place = asked.get("Place");
  const condition = place === "immersed" ? "wet" : place;
  return {
    framework: noFramework(framework) ?? (framework as FrameworkName),
    condition: condition === NOT_ASKED ? undefined : (condition as TouchCondition | undefined),
  };
}

/** A block of requirements that waits for it, or does not ask for it. */
function hasFramework(cells: CellTable): boolean {
  return cells.some(([label]) => typeof label === "string" && plainWord(label) === "framework");
}

function noFramework(framework: Requirements["framework"]): NoFramework | undefined {
  if (framework === NOT_ASKED) return { reason: "no Framework is asked for" };
  return framework === "not given" ? { reason: "enter Framework in Asked for" } : undefined;
}

/** @throws {InputError} naming a label that is unknown or stands there twice, or a value it cannot have. */
export function requirementsOf(cells: CellTable): Requirements {
  const values = new Map<Label, number | string>();
  const seen = new Set<Label>();
  // A host that hands blank cells over as 0 shows itself in the labels' own column.
  const zeroIsBlank = cells.some(([cell]) => cell === 0);
  for (const [cell = null, value = null] of cells) {
    const label = labelOf(cell, value);
    if (label === undefined) continue;
    if (seen.has(label)) throw refused(label, `a range with "${label}" in one row`);
    seen.add(label);
    const read = valueOf(label, value, zeroIsBlank);
    if (read !== undefined) values.set(label, read);
  }
  return new Requirements(values);
}

const LABEL_OF: ReadonlyMap<string, Label> = new Map(
  LABELS.map((label) => [plainWord(label), label]),
);
const HEADER = plainWord(ASKED_FOR);

/** Undefined for a row that asks for nothing. */
function labelOf(cell: Cell, value: Cell): Label | undefined {
  if (isCellError(cell)) throw new PassedOnError("askedFor", cell);
  if (isBlankOrZero(cell)) {
    if (isBlankOrZero(value)) return undefined;
    throw refused(null, "given: a value without a label beside it");
  }
  const text = String(cell);
  const word = plainWord(text);
  if (word === HEADER) return undefined;
  const label = LABEL_OF.get(word);
  if (label === undefined)
    throw refused(text, `one of the labels that are known, "${nearest(text)}" is the nearest`);
  return label;
}

/** Undefined for an empty cell. */
function valueOf(label: Label, value: Cell, zeroIsBlank: boolean): number | string | undefined {
  if (isCellError(value)) throw new PassedOnError("askedFor", value);
  if (isBlank(value)) return undefined;
  const { content } = REQUIREMENTS[label] as (typeof REQUIREMENTS)[Label];
  const mayBeZero = content.holds === "figure" && content.zero === true;
  if (value === 0 && (zeroIsBlank || !mayBeZero)) return undefined;
  if (typeof value === "string" && plainWord(value) === NOT_ASKED) return NOT_ASKED;
  switch (content.holds) {
    case "text":
      return String(value).trim();
    case "word":
      return wordOf(label, content.words, String(value));
    case "figure": {
      const { words = [], allows, bound } = content;
      const word = words.find((one) => plainWord(one) === plainWord(String(value)));
      if (word !== undefined) return word;
      if (typeof value === "number" && Number.isFinite(value) && allows(value)) return value;
      throw refused(
        typeof value === "number" ? value : String(value),
        `${bound}, or "${NOT_ASKED}", beside ${label}`,
      );
    }
  }
}

function wordOf(label: Label, words: readonly string[], text: string): string {
  try {
    return requireChoice("askedFor", words, text);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw refused(text, `${error.requirement} beside ${label}`);
  }
}

function choices(words: readonly string[]): string {
  return words.map((word) => `"${word}"`).join(" or ");
}

/** The label that differs from the text by the fewest letters. */
function nearest(text: string): Label {
  const wanted = plainWord(text);
  const distance = new Map(LABELS.map((label) => [label, changes(wanted, plainWord(label))]));
  return LABELS.reduce((best, label) =>
    distance.get(label)! < distance.get(best)! ? label : best,
  );
}

/** Letters to put in, take out or exchange to make one text of the other. */
function changes(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, place) => place);
  for (const [at, letter] of [...from].entries())
    row = [...to].reduce(
      (next, other, place) => [
        ...next,
        Math.min(row[place]! + (letter === other ? 0 : 1), row[place + 1]! + 1, next[place]! + 1),
      ],
      [at + 1],
    );
  return row.at(-1)!;
}

function refused(value: string | number | null, must: string): InputError {
  return new InputError("askedFor", value, must);
}

function isBlankOrZero(cell: Cell): boolean {
  return cell === 0 || isBlank(cell);
}
