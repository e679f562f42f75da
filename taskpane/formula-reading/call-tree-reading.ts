/** Reads the calls of a parsed formula and their arguments, for the working of a cell. */
import type {
  CallPart,
  ExpressionPart,
  FormulaPart,
  FormulaTree,
  SheetRange,
} from "../../functions/working/lines/call-tree.js";
import { UnreadError, type Value } from "./cell-arithmetic.js";
import { type FormulaNode, calledName, childrenOf, partSpan, partText } from "./formula-tree.js";
import { type FormulaReading, type FormulaSurroundings, readFormula } from "./formula-value.js";
import { untakenNodes } from "./taken-branch.js";

export interface TreeSurroundings extends FormulaSurroundings {
  /** Where a reference or a name points, or why it cannot be followed. */
  readonly range: (reference: string) => SheetRange | UnreadError;
}

/** A formula with the cells that it names, and what it comes to. */
export interface ReadSource {
  readonly formula: string;
  readonly tree: FormulaNode;
  readonly around: TreeSurroundings;
  readonly reading: FormulaReading;
}

/** @param at The cell that the formula stands in. */
export function callTree(
  formula: string,
  tree: FormulaNode,
  at: SheetRange,
  around: TreeSurroundings,
): FormulaTree {
  return {
    at,
    text: formula,
    whole: new PartReader(formula, tree, around).part(tree),
  };
}

class PartReader {
  private readonly untaken: ReadonlySet<FormulaNode>;

  constructor(
    private readonly formula: string,
    tree: FormulaNode,
    private readonly around: TreeSurroundings,
  ) {
    this.untaken = untakenNodes(tree, (node) => {
      const { value } = readFormula(formula, node, around);
      if (value.ok === true) return value.value;
      throw new UnreadError(value.why, value.part);
    });
  }

  part(node: FormulaNode): FormulaPart {
    const text = partText(this.formula, node);
    const id = this.idOf(node);
    if (id !== undefined) return this.call(node, id);
    const value = this.valueOf(node);
    switch (node.type) {
      case "Literal":
      case "ErrorLiteral":
      case "ArrayExpression":
        return { kind: "literal", text, value: value ?? null };
      case "ReferenceIdentifier": {
        const range = this.around.range(node.value as string);
        const followed = range instanceof UnreadError ? undefined : range;
        return { kind: "reference", text, range: followed, value };
      }
      default:
        return this.expression(node, value);
    }
  }

  private call(node: FormulaNode, id: string): CallPart {
    const { arguments: args } = node as FormulaNode & {
      readonly type: "CallExpression";
    };
    return {
      kind: "call",
      id,
      text: partText(this.formula, node),
      args: (args as readonly (FormulaNode | null)[]).map((argument) =>
        argument ? this.part(argument) : undefined,
      ),
      ...(this.untaken.has(node) && { untaken: true as const }),
    };
  }

  private expression(node: FormulaNode, value: Value | undefined): ExpressionPart {
    const [start, end] = partSpan(this.formula, node);
    const pieces: (string | FormulaPart)[] = [];
    let from = start;
    for (const leaf of this.leaves(node)) {
      const [first, last] = partSpan(this.formula, leaf);
      pieces.push(this.formula.slice(from, first), this.part(leaf));
      from = last;
    }
    pieces.push(this.formula.slice(from, end));
    const text = this.formula.slice(start, end);
    return { kind: "expression", text, pieces, value };
  }

  /** References and outermost calls in the order in which they stand. */
  private leaves(node: FormulaNode): FormulaNode[] {
    return childrenOf(node)
      .flatMap((child) =>
        child.type === "ReferenceIdentifier" || this.idOf(child) !== undefined
          ? [child]
          : this.leaves(child),
      )
      .sort((a, b) => this.startOf(a) - this.startOf(b));
  }

  private startOf(node: FormulaNode): number {
    return partSpan(this.formula, node)[0];
  }

  /** The function's id for a call of one of ours. */
  private idOf(node: FormulaNode): string | undefined {
    const prefix = `${this.around.namespace.toUpperCase()}.`;
    const name = calledName(node);
    return name?.startsWith(prefix) ? name.slice(prefix.length) : undefined;
  }

  private valueOf(node: FormulaNode): Value | undefined {
    const { value } = readFormula(this.formula, node, this.around);
    return value.ok === true ? value.value : undefined;
  }
}
