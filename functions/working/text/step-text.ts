/** The formula of a step in symbols, in numbers, and as a spreadsheet writes it. */
import { type Token, tokens } from "../../../src/quantities/formulas.js";

const NATIVE: Readonly<Record<string, string>> = {
  sqrt: "SQRT",
  ln: "LN",
  exp: "EXP",
  acosh: "ACOSH",
  atan: "ATAN",
  abs: "ABS",
  min: "MIN",
  max: "MAX",
};

export function inSymbols(formula: string, symbolOf: (field: string) => string): string {
  return spaced(formula, symbolOf);
}

/** @param shown How a number is written; one below 0 is put in brackets here. */
export function inNumbers(
  formula: string,
  valueOf: (field: string) => number,
  shown: (value: number) => string,
): string {
  return spaced(formula, (field) => {
    const value = valueOf(field);
    return value < 0 ? `(${shown(value)})` : shown(value);
  });
}

/** As a spreadsheet's own formula, without `=`. @param cellOf Where a field stands. */
export function asNative(formula: string, cellOf: (field: string) => string): string {
  return tokens(formula)
    .map(({ kind, text }) => {
      if (kind === "field") return cellOf(text);
      if (kind === "constant") return "PI()";
      return kind === "function" ? (NATIVE[text] ?? text) : text;
    })
    .join("");
}

/** Signs between spaces, brackets and powers without. */
function spaced(formula: string, wordOf: (field: string) => string): string {
  const found = tokens(formula);
  return found
    .map((token, index) => textOf(token, found[index - 1], wordOf))
    .join("")
    .trim();
}

function textOf(
  { kind, text }: Token,
  before: Token | undefined,
  wordOf: (field: string) => string,
): string {
  if (kind === "field") return wordOf(text);
  if (kind === "constant") return "π";
  if (kind !== "mark") return text;
  if (text === "*") return " · ";
  if (text === ",") return ", ";
  const isSign =
    (text === "-" || text === "+") &&
    (before === undefined || (before.kind === "mark" && before.text !== ")"));
  const shown = text === "-" ? "−" : text;
  return "()^".includes(text) || isSign ? shown : ` ${shown} `;
}

/** The terms that a formula adds up and takes away, without their signs; the formula itself where it does neither. */
export function termsOf(formula: string): string[] {
  return terms(tokens(formula)).map(written);
}

/**
 * What rounding is to be measured by: the terms wherever they may cancel, behind the brackets and the `abs`, `min` and
 * `max` around them, and the fields that stand there alone.
 */
export function sizesOf(formula: string): string[] {
  return sizes(tokens(formula)).map(written);
}

const PASSING: ReadonlySet<string> = new Set(["abs", "min", "max"]);

function sizes(found: readonly Token[]): (readonly Token[])[] {
  const parts = terms(found);
  if (parts.length > 1) return parts.flatMap((part) => [part, ...sizes(part)]);
  const [first, ...rest] = found;
  if (rest.length === 0) return first?.kind === "field" ? [found] : [];
  const opening = first?.text === "(" ? 0 : 1;
  const isPassing = opening === 0 || PASSING.has(first?.text ?? "");
  if (!isPassing || closingOf(found, opening) !== found.length - 1) return [];
  return split(found.slice(opening + 1, -1), ({ text }) => text === ",").flatMap(sizes);
}

function closingOf(found: readonly Token[], opening: number): number {
  let depth = 0;
  return found.findIndex(({ text }, index) => {
    if (index < opening) return false;
    if (text === "(") depth += 1;
    if (text === ")") depth -= 1;
    return depth === 0;
  });
}

function terms(found: readonly Token[]): (readonly Token[])[] {
  return split(found, ({ text }, before) => {
    const ends = before && (before.kind !== "mark" || before.text === ")");
    return ends === true && (text === "+" || text === "-");
  });
}

/** At the marks outside every bracket that divide. */
function split(
  found: readonly Token[],
  divides: (token: Token, before: Token | undefined) => boolean,
): Token[][] {
  const parts: Token[][] = [[]];
  let depth = 0;
  found.forEach((token, index) => {
    if (token.text === "(") depth += 1;
    if (token.text === ")") depth -= 1;
    if (depth === 0 && divides(token, found[index - 1])) parts.push([]);
    else parts.at(-1)?.push(token);
  });
  return parts;
}

function written(found: readonly Token[]): string {
  return found.map(({ text }) => text).join(" ");
}
