/** What a feed is held against, as a range of label and value. */
import {
  CONDITIONS,
  type FrameworkName,
  FRAMEWORKS,
  type TouchCondition,
} from "../../src/safety/touch-bands.js";
import { InputError } from "../../src/quantities/errors.js";
import { PassedOnError, plainWord, requireChoice } from "../arguments.js";
import { type Cell, type CellTable, isBlank, isCellError } from "../cells.js";
import type { Parameter } from "../entry.js";

/** Labels and the words that may stand beside them. */
const LABELS = {
  Framework: FRAMEWORKS,
  Place: CONDITIONS,
} as const;

type Label = keyof typeof LABELS;
const NAMES = Object.keys(LABELS) as Label[];

/** Of a row of headings above the labels; it asks for nothing. */
const HEADING = "Asked for";

export const askedForParameter = {
  name: "asked for",
  unit: "",
  meaning: `range of label and value, further columns not read: Framework (${FRAMEWORKS.join(", ")}) and Place (${CONDITIONS.join(" or ")}; empty counts as wet)`,
  kind: "cells",
} as const satisfies Parameter;

export interface AskedFor {
  readonly framework: FrameworkName;
  readonly condition: TouchCondition | undefined;
}

/** @throws {InputError} naming a label that is unknown, stands there twice, is missing, or has a value it cannot have. */
export function askedFor(cells: CellTable): AskedFor {
  const values = new Map<Label, string>();
  const seen = new Set<Label>();
  for (const [cell = null, value = null] of cells) {
    const label = labelOf(cell, value);
    if (label === undefined) continue;
    if (seen.has(label))
      throw refused(label, `a range with "${label}" in one row`);
    seen.add(label);
    const word = valueOf(label, value);
    if (word !== undefined) values.set(label, word);
  }
  const framework = values.get("Framework");
  if (framework === undefined)
    throw refused(
      null,
      `given: a row with Framework in its first column and ${FRAMEWORKS.map((name) => `"${name}"`).join(" or ")} beside it`,
    );
  return {
    framework: framework as FrameworkName,
    condition: values.get("Place") as TouchCondition | undefined,
  };
}

/** Undefined for a row that asks for nothing. */
function labelOf(cell: Cell, value: Cell): Label | undefined {
  if (isCellError(cell)) throw new PassedOnError("askedFor", cell);
  if (isBlankOrZero(cell)) {
    if (isBlankOrZero(value)) return undefined;
    throw refused(null, "given: a value without a label beside it");
  }
  const text = String(cell);
  if (plainWord(text) === plainWord(HEADING)) return undefined;
  const label = NAMES.find((name) => plainWord(name) === plainWord(text));
  if (label === undefined)
    throw refused(text, NAMES.map((name) => `"${name}"`).join(" or "));
  return label;
}

function valueOf(label: Label, value: Cell): string | undefined {
  if (isCellError(value)) throw new PassedOnError("askedFor", value);
  if (isBlankOrZero(value)) return undefined;
  const text = String(value);
  try {
    return requireChoice("askedFor", LABELS[label], text);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw refused(text, `${error.requirement} beside ${label}`);
  }
}

function refused(value: string | null, must: string): InputError {
  return new InputError("askedFor", value, must);
}

function isBlankOrZero(cell: Cell): boolean {
  return cell === 0 || isBlank(cell);
}
