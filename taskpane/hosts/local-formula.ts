/** Formulas as a spreadsheet in another language writes them: its separators, and its names of native functions. */
import { tokenize } from "@borgar/fx";

export interface Separators {
  readonly decimal: string;
  /** Between the arguments of a call. */
  readonly list: string;
}

/** What parts arguments cannot be asked for; where a comma is the decimal sign, it is a semicolon. */
export function separatorsWith(decimal: string): Separators {
  return { decimal, list: decimal === "," ? ";" : "," };
}

/**
 * @param formula En-US, or a part of one.
 * @returns it as it is where it holds a constant array: what parts the columns of one differs from language to
 * language, and cannot be asked for.
 */
export function withSeparators(formula: string, { decimal, list }: Separators): string {
  const tokens = tokenize(formula);
  if (tokens.some(({ value }) => value === "{")) return formula;
  return tokens
    .map(({ type, value }) => {
      if (type === "number") return value.replace(".", decimal);
      return type === "operator" && value === "," ? list : value;
    })
    .join("");
}

/** A formula in both forms, as the spreadsheet itself gives them. */
export interface FormulaPair {
  readonly formula: string;
  readonly local: string;
}

/**
 * @param part Of the en-US formula.
 * @returns the same part of the local one; undefined where it is not in the formula, or where the two cannot be held
 * side by side.
 */
export function localPart(part: string, { formula, local }: FormulaPair): string | undefined {
  const start = formula.indexOf(part);
  const ends = start < 0 ? undefined : tokenEnds(formula, local);
  const from = ends?.get(start);
  const to = ends?.get(start + part.length);
  return from === undefined || to === undefined ? undefined : local.slice(from, to);
}

/** What parts arguments there; undefined where no call has two, or where the two cannot be held side by side. */
export function listSeparatorIn({ formula, local }: FormulaPair): string | undefined {
  const ends = tokenEnds(formula, local);
  let [at, arrays] = [0, 0];
  for (const { value } of tokenize(formula)) {
    if (value === "{") arrays += 1;
    if (value === "}") arrays -= 1;
    const localAt = ends?.get(at);
    if (value === "," && arrays === 0 && localAt !== undefined) return local[localAt];
    at += value.length;
  }
  return undefined;
}

/** Where each word of the formula begins and ends, in the one and in the other. */
function tokenEnds(formula: string, local: string): ReadonlyMap<number, number> | undefined {
  const ends = new Map([[0, 0]]);
  let [at, localAt] = [0, 0];
  for (const { type, value } of tokenize(formula)) {
    const length = lengthInLocal(type, value, local.slice(localAt));
    if (length === undefined) return undefined;
    at += value.length;
    localAt += length;
    ends.set(at, localAt);
  }
  return localAt === local.length ? ends : undefined;
}

/** How many characters at the head of the local text stand for the word. */
function lengthInLocal(type: string, value: string, rest: string): number | undefined {
  const headed = (pattern: RegExp) => pattern.exec(rest)?.[0].length;
  switch (type) {
    case "func":
      return headed(/^[\p{L}\p{N}._]+(?=\()/u);
    case "bool":
      return headed(/^\p{L}+/u);
    case "error":
      return headed(/^#[\p{L}\p{N}/]+[!?]?/u);
  }
  if (rest.startsWith(value)) return value.length;
  if (type === "number") return rest.startsWith(value.replace(".", ",")) ? value.length : undefined;
  return value === "," || value === ";" ? headed(/^[;,.\\|]/) : undefined;
}
