/**
 * The formulas of steps, as text that any engine can run.
 *
 * Grammar: decimal numbers without an exponent, field names, `+ - * / ( )`, `^` only on a name or a bracket and never
 * twice in a row, no sign before a power; the functions `sqrt ln exp acosh atan abs min max` and the constant `pi`.
 * The limits on `^` keep clear of `-2^2` (4 in a spreadsheet, −4 elsewhere) and `2^3^2`, on which engines differ.
 */
export type Token =
  | { readonly kind: "number"; readonly text: string }
  | { readonly kind: "field"; readonly text: string }
  | { readonly kind: "function"; readonly text: string }
  | { readonly kind: "constant"; readonly text: string }
  | { readonly kind: "mark"; readonly text: string };

export const FORMULA_FUNCTIONS: ReadonlySet<string> = new Set([
  "sqrt",
  "ln",
  "exp",
  "acosh",
  "atan",
  "abs",
  "min",
  "max",
]);

const PATTERN = /\s*(?:(\d+(?:\.\d+)?)|([A-Za-z][A-Za-z0-9]*)|([-+*/^(),]))/y;

/**
 * Numbers, names and signs of a formula, in their order.
 * @throws {SyntaxError} where the text leaves the grammar.
 */
export function tokens(formula: string): Token[] {
  const found: Token[] = [];
  let at = 0;
  while (at < formula.trimEnd().length) {
    PATTERN.lastIndex = at;
    const match = PATTERN.exec(formula);
    if (!match)
      throw new SyntaxError(`"${formula}": not in the grammar of steps at "${formula.slice(at)}"`);
    at = PATTERN.lastIndex;
    const [, number, word, mark] = match;
    if (number !== undefined) found.push({ kind: "number", text: number });
    else if (word !== undefined) found.push(wordToken(word));
    else found.push({ kind: "mark", text: mark ?? "" });
  }
  requirePowersPlain(formula, found);
  return found;
}

function wordToken(word: string): Token {
  if (word === "pi") return { kind: "constant", text: word };
  return {
    kind: FORMULA_FUNCTIONS.has(word) ? "function" : "field",
    text: word,
  };
}

function requirePowersPlain(formula: string, found: readonly Token[]): void {
  found.forEach((token, index) => {
    if (token.text !== "^") return;
    const why = faultOfPower(found, index);
    if (why !== undefined) throw new SyntaxError(`"${formula}": ${why}`);
  });
}

function faultOfPower(found: readonly Token[], at: number): string | undefined {
  const base = found[at - 1];
  if (base?.kind !== "field" && base?.text !== ")")
    return "a power stands on a name or a bracket only";
  const start = base.text === ")" ? openingBracket(found, at - 1) : at - 1;
  const before = found[start - 1];
  if (before?.text === "^" || found[at + 2]?.text === "^") return "two powers in a row";
  const signed = before?.text === "-" || before?.text === "+";
  return signed && !endsValue(found[start - 2]) ? "a sign before a power" : undefined;
}

/** Whether a sign behind this token joins two values. */
function endsValue(token: Token | undefined): boolean {
  return token !== undefined && (token.kind !== "mark" || token.text === ")");
}

function openingBracket(found: readonly Token[], closing: number): number {
  let depth = 0;
  for (let index = closing; index >= 0; index--) {
    if (found[index]?.text === ")") depth++;
    if (found[index]?.text === "(" && --depth === 0) {
      return found[index - 1]?.kind === "function" ? index - 1 : index;
    }
  }
  throw new SyntaxError("a bracket without its opening");
}

/** The fields that a formula reads. */
export function fieldsOf(formula: string): string[] {
  return tokens(formula).flatMap((token) => (token.kind === "field" ? [token.text] : []));
}

/** The formula with each token written anew: into symbols, numbers, cell addresses or another engine's words. */
export function rewritten(formula: string, write: (token: Token) => string): string {
  return tokens(formula).map(write).join(" ");
}
