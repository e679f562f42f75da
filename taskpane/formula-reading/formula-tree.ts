/** A cell's formula as a tree. The parsing is @borgar/fx's; here is what the readers ask of it. */
import { type AstExpression, type ReferenceIdentifier, parse, tokenize } from "@borgar/fx";

export type FormulaNode = AstExpression;

/** @throws {SyntaxError} when the text is no formula. */
export function formulaTree(formula: string): FormulaNode {
  try {
    return parse(tokenize(formula, { withLocation: true }));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new SyntaxError(`"${formula}" is not a formula: ${why}`, {
      cause: error,
    });
  }
}

export function childrenOf(node: FormulaNode): FormulaNode[] {
  switch (node.type) {
    case "UnaryExpression":
      return [...node.arguments];
    case "BinaryExpression":
      return [...node.arguments];
    case "CallExpression": {
      // A call of something that is not a name, such as a function held in a cell, has that as its callee.
      const callee = node.callee as FormulaNode | { type: "Identifier" };
      const called = callee.type === "Identifier" ? [] : [callee];
      return [
        ...(called as FormulaNode[]),
        ...node.arguments.filter((argument) => argument !== null),
      ] as FormulaNode[];
    }
    case "ArrayExpression":
      return node.elements.flat() as FormulaNode[];
    case "LetExpression":
      return [...node.declarations.map(({ init }) => init), node.body].filter(
        (part) => part !== null,
      ) as FormulaNode[];
    case "LambdaExpression":
      return [node.body].filter((part) => part !== null) as FormulaNode[];
    default:
      return [];
  }
}

export function referencesIn(node: FormulaNode): ReferenceIdentifier[] {
  if (node.type === "ReferenceIdentifier") return [node as ReferenceIdentifier];
  return childrenOf(node).flatMap(referencesIn);
}

/** The function's name in capitals, without the prefix that files put before newer functions. */
export function calledName(node: FormulaNode): string | undefined {
  if (node.type !== "CallExpression") return undefined;
  const { name } = node.callee as { readonly name?: string };
  return name?.toUpperCase().replace(/^(_XLFN\.|_XLWS\.)+/, "");
}

/** The piece of the formula that the node stands for, with the brackets that belong to it. */
export function partText(formula: string, node: FormulaNode): string {
  return formula.slice(...partSpan(formula, node));
}

/** Where that piece begins and ends. */
export function partSpan(formula: string, node: FormulaNode): [start: number, end: number] {
  const spans = spansOf(node);
  let start = Math.min(...spans.map(([first]) => first));
  let end = Math.max(...spans.map(([, last]) => last));
  for (;;) {
    const depth = bracketDepths(formula.slice(start, end));
    const next = formula[end];
    if (depth.least < 0 && formula[start - 1] === "(") start -= 1;
    else if (depth.last > 0 && next === ")") end += 1;
    else return [start, end];
  }
}

function spansOf(node: FormulaNode): (readonly [number, number])[] {
  const [first, last] = node.loc ?? [];
  const own: (readonly [number, number])[] =
    first === undefined || last === undefined ? [] : [[first, last]];
  return [...own, ...childrenOf(node).flatMap(spansOf)];
}

function bracketDepths(text: string): { least: number; last: number } {
  let [least, last] = [0, 0];
  for (const letter of text.replace(/"[^"]*"/g, "")) {
    if (letter === "(") last += 1;
    if (letter === ")") last -= 1;
    least = Math.min(least, last);
  }
  return { least, last };
}
