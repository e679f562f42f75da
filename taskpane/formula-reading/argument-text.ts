/** Turns what is typed beside an argument into its text in the formula. */
import { parseA1Ref } from "@borgar/fx";
import { isRepeating, type Parameter } from "../../functions/downfeed.js";
import { rangeAddress, rangePlace, quotedSheet } from "../../src/plans/addresses.js";
import type { CellRange, HostName } from "../hosts/host.js";
import { formulaTree } from "./formula-tree.js";
import { typedNumber } from "../words/shown-numbers.js";
import { words } from "../words/words.js";

export type ArgumentText =
  { readonly ok: true; readonly text: string } | { readonly ok: false; readonly why: string };

const said = words.argument;

/** @param names Of ranges, so that a word can be told from a name. */
export function argumentText(
  parameter: Parameter,
  typed: string,
  names: readonly HostName[],
): ArgumentText {
  const text = typed.trim();
  if (text === "") {
    return parameter.optional
      ? { ok: true, text: "" }
      : { ok: false, why: said.needed(parameter.name) };
  }
  if (text.startsWith("=")) return expression(text.slice(1));
  if (isReference(text, parameter, names)) return { ok: true, text };
  if (parameter.kind === "cells") return ranges(parameter, text, names);
  if (parameter.kind === "numbers") return numberList(parameter, text);
  return oneArgument(parameter, text);
}

function oneArgument(parameter: Parameter, text: string): ArgumentText {
  const number = numberText(withoutUnit(text, parameter.unit));
  const takesText = parameter.kind !== "number" && parameter.kind !== "numbers";
  const onlyText = parameter.kind === "text" || parameter.kind === "choice";
  if (number === "ambiguous")
    return takesText ? { ok: true, text: quoted(text) } : { ok: false, why: said.ambiguous(text) };
  if (number !== undefined && !onlyText) return { ok: true, text: number };
  if (takesText) return { ok: true, text: quoted(text) };
  return { ok: false, why: said.noNumber(parameter.name, text) };
}

/** The ranges of a range argument; a repeating argument takes several, separated as numbers are. */
function ranges(parameter: Parameter, text: string, names: readonly HostName[]): ArgumentText {
  const parts = text.split(";").map((part) => part.trim());
  return isRepeating(parameter) && parts.every((part) => isReference(part, parameter, names))
    ? { ok: true, text: parts.join(",") }
    : { ok: false, why: said.needsRange(parameter.name) };
}

/** Parted by semicolons, since a comma may be a decimal sign. */
function numberList(parameter: Parameter, text: string): ArgumentText {
  const parts = text.split(";").map((part) => part.trim());
  const read = parts.map((part) =>
    parseA1Ref(part) ? { ok: true as const, text: part } : oneArgument(parameter, part),
  );
  const wrong = read.find(({ ok }) => !ok);
  if (wrong) return wrong;
  const texts = read.map((part) => (part.ok ? part.text : ""));
  if (isRepeating(parameter) || texts.length === 1) return { ok: true, text: texts.join(",") };
  // Several values for one argument are a constant array, which holds no references.
  if (parts.some((part) => parseA1Ref(part)))
    return { ok: false, why: said.oneRange(parameter.name) };
  return { ok: true, text: `{${texts.join(",")}}` };
}

function expression(text: string): ArgumentText {
  try {
    formulaTree(`=${text}`);
    return { ok: true, text };
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    return { ok: false, why: said.noFormula(text) };
  }
}

/** `1/8` and `5%` stay as they are typed: a reader of the formula recognises them. */
function numberText(text: string): string | "ambiguous" | undefined {
  const parts = /^([^/%]+)(?:\/([^/%]+)|(\s*%))?$/.exec(text);
  if (!parts) return undefined;
  const [, first = "", below, percent] = parts;
  const number = typedNumber(first);
  if (typeof number !== "number") return number;
  if (percent !== undefined) return `${number}%`;
  if (below === undefined) return String(number);
  const divisor = typedNumber(below);
  return typeof divisor === "number" ? `${number}/${divisor}` : divisor;
}

function withoutUnit(text: string, unit: string): string {
  return unit !== "" && unit !== "1" && text.endsWith(unit)
    ? text.slice(0, -unit.length).trim()
    : text;
}

function isReference(text: string, parameter: Parameter, names: readonly HostName[]): boolean {
  const parsed = parseA1Ref(text);
  if (!parsed) return false;
  // `AWG12` is a cell too, but nobody means column AWG.
  const takesText = parameter.kind === "number or text";
  if (takesText && /^AWG\d+$/i.test(text)) return false;
  if (!("name" in parsed)) return true;
  const wanted = parsed.name.toLowerCase();
  return names.some(({ name }) => name.toLowerCase() === wanted);
}

function quoted(text: string): string {
  const bare = /^"(.*)"$/.exec(text)?.[1];
  return `"${(bare ?? text).replaceAll('"', '""')}"`;
}

export function rangeText({ sheet, address }: CellRange): string {
  return /^[A-Za-z_][A-Za-z0-9_]*$/.test(sheet) && !looksLikeCell(sheet)
    ? `${sheet}!${address}`
    : `${quotedSheet(sheet)}!${address}`;
}

function looksLikeCell(text: string): boolean {
  return /^[A-Z]{1,3}\d+$/i.test(text) || /^R\d*(C\d*)?$|^C\d*$/i.test(text);
}

/** A reference to the sheet that the formula stands on needs no sheet name. */
export function withoutOwnSheet(text: string, sheet: string): string {
  const parsed = parseA1Ref(text);
  if (!parsed || "name" in parsed || parsed.context?.length !== 1) return text;
  return parsed.context[0] === sheet ? text.slice(text.lastIndexOf("!") + 1) : text;
}

/** Empty arguments at the end are left out. */
export function callText(namespace: string, id: string, args: readonly string[]): string {
  const given = [...args];
  while (given.at(-1) === "") given.pop();
  return `=${namespace}.${id}(${given.join(",")})`;
}

/** The range that a result of this size takes when its first cell is `at`. */
export function spillRange(at: CellRange, rows: number, columns: number): CellRange {
  const { top, left } = rangePlace(at.address);
  const [bottom, right] = [top + rows - 1, left + columns - 1];
  return {
    sheet: at.sheet,
    address: rangeAddress({ top, left, bottom, right }),
  };
}
