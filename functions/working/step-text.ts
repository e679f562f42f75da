/** The formula of a step in symbols, in numbers, and as a spreadsheet writes it. */
import { type Token, tokens } from "../../src/quantities/formulas.js";

const NATIVE: Readonly<Record<string, string>> = {
  sqrt: "SQRT",
  ln: "LN",
  exp: "EXP",
  acosh: "ACOSH",
  abs: "ABS",
  min: "MIN",
  max: "MAX",
};

export function inSymbols(
  formula: string,
  symbolOf: (field: string) => string,
): string {
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
export function asNative(
  formula: string,
  cellOf: (field: string) => string,
): string {
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
  const terms: Token[][] = [[]];
  let depth = 0;
  let before: Token | undefined;
  for (const token of tokens(formula)) {
    if (token.text === "(") depth += 1;
    if (token.text === ")") depth -= 1;
    const ends =
      before && (before.kind !== "mark" || before.text === ")") && depth === 0;
    if (ends && (token.text === "+" || token.text === "-")) terms.push([]);
    else terms.at(-1)?.push(token);
    before = token;
  }
  return terms.map((term) => term.map(({ text }) => text).join(" "));
}
