/** The branch that a condition in a formula takes as its cells stand. */
import { isCellError } from "../../functions/downfeed.js";
import { UnreadError, type Value, singleCell, truthIn } from "./cell-arithmetic.js";
import { type FormulaNode, calledName, childrenOf } from "./formula-tree.js";

/**
 * Of IF what is taken; of what catches errors, what is tried or what stands for it. `none`: the branch that is taken
 * was left out. Undefined for any other node.
 * @param valueOf Throws UnreadError for what is not worked out here.
 * @throws {UnreadError}
 */
export function takenBranch(
  node: FormulaNode,
  valueOf: (node: FormulaNode) => Value,
): FormulaNode | "none" | undefined {
  if (node.type !== "CallExpression") return undefined;
  const name = calledName(node);
  if (name !== "IF" && name !== "IFERROR" && name !== "IFNA") return undefined;
  const [first, second, third] = node.arguments as readonly (FormulaNode | null)[];
  if (!first) return undefined;
  if (name === "IF") {
    const truth = truthIn(singleCell(valueOf(first)));
    if (isCellError(truth)) return first;
    return (truth ? second : third) ?? "none";
  }
  const given = [valueOf(first)].flat(2);
  const isCaught = given.some(
    (cell) => isCellError(cell) && (name === "IFERROR" || cell.error === "#N/A"),
  );
  return (isCaught ? second : first) ?? "none";
}

/** Every node of branches that are not taken. Where a condition cannot be worked out, both of its branches may be. */
export function untakenNodes(
  node: FormulaNode,
  valueOf: (node: FormulaNode) => Value,
): ReadonlySet<FormulaNode> {
  const untaken = new Set<FormulaNode>();
  visit(node);
  return untaken;

  function visit(one: FormulaNode): void {
    const branch = branchIfRead(one);
    const [condition] = childrenOf(one);
    for (const child of childrenOf(one)) {
      const isAsked = branch === undefined || child === branch || child === condition;
      if (isAsked) visit(child);
      else leave(child);
    }
  }

  function leave(one: FormulaNode): void {
    untaken.add(one);
    childrenOf(one).forEach(leave);
  }

  function branchIfRead(one: FormulaNode): FormulaNode | "none" | undefined {
    try {
      return takenBranch(one, valueOf);
    } catch (error) {
      if (error instanceof UnreadError) return undefined;
      throw error;
    }
  }
}
