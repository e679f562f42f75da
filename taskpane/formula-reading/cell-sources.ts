/**
 * Which cells a native formula comes from: of a look-up the cell that was found, of a sum or a count the cells that are
 * in it, of a condition the branch that is taken. What is merely looked through or asked about does not count.
 */
import { type Cell, isCellError } from "../../functions/downfeed.js";
import type { SheetRange } from "../../functions/working/lines/call-tree.js";
import { rangePlace, cellAddress } from "../../src/plans/addresses.js";
import { UnreadError, type Value, cellsOf, numberIn, singleCell } from "./cell-arithmetic.js";
import type { TreeSurroundings } from "./call-tree-reading.js";
import { type FormulaNode, calledName, childrenOf, partSpan, partText } from "./formula-tree.js";
import { readFormula } from "./formula-value.js";
import { countedPlaces } from "./native-functions.js";
import { takenBranch } from "./taken-branch.js";

export interface SourceCell {
  readonly cell: SheetRange;
  readonly value: Cell;
}

/** How the cells of one part enter the formula. */
export type SourceWay =
  "repeated" | "found" | "summed" | "counted" | "of those the smallest" | "of those the largest";

export interface SourcePart {
  readonly way: SourceWay;
  /** The piece of the formula that reads them. */
  readonly text: string;
  readonly value: Value;
  readonly cells: readonly SourceCell[];
}

export interface CellSources {
  /** The formula without the branches that are not taken, and without `=`. */
  readonly taken: string;
  readonly parts: readonly SourcePart[];
}

/** @throws {UnreadError} naming the part that cannot be followed. */
export function cellSources(
  formula: string,
  tree: FormulaNode,
  around: TreeSurroundings,
): CellSources {
  const reader = new SourceReader(formula, around);
  return { taken: reader.taken(tree, true), parts: withoutRepeats(reader.parts(tree)) };
}

/** A cell that a formula names twice is told once. */
function withoutRepeats(parts: readonly SourcePart[]): SourcePart[] {
  const seen = new Set<string>();
  return parts.filter(({ way, text }) => {
    const key = `${way} ${text}`;
    return !seen.has(key) && seen.add(key);
  });
}

type Call = FormulaNode & { readonly type: "CallExpression" };
type Reference = FormulaNode & { readonly type: "ReferenceIdentifier" };

class SourceReader {
  constructor(
    private readonly formula: string,
    private readonly around: TreeSurroundings,
  ) {}

  /** @param alone Whether nothing stands around it that would bind tighter than what is in it. */
  taken(node: FormulaNode, alone: boolean): string {
    const branch = this.branchOf(node);
    if (branch === "none") return "FALSE";
    if (branch) {
      const text = this.taken(branch, alone);
      return alone || branch.type !== "BinaryExpression" ? text : `(${text})`;
    }
    const [start, end] = partSpan(this.formula, node);
    const insideCall = node.type === "CallExpression";
    let from = start;
    let text = "";
    for (const child of inOrder(this.formula, childrenOf(node))) {
      const [first, last] = partSpan(this.formula, child);
      text += this.formula.slice(from, first) + this.taken(child, insideCall);
      from = last;
    }
    return text + this.formula.slice(from, end);
  }

  parts(node: FormulaNode): SourcePart[] {
    const branch = this.branchOf(node);
    if (branch === "none") return [];
    if (branch) return this.parts(branch);
    if (node.type === "ReferenceIdentifier") return [this.part(node, "repeated", () => true)];
    if (node.type !== "CallExpression") return childrenOf(node).flatMap((one) => this.parts(one));
    return this.called(node);
  }

  private called(node: Call): SourcePart[] {
    const args = argumentsOf(node);
    const [first, second, third] = args;
    switch (calledName(node)) {
      case "SUM":
      case "PRODUCT":
      case "AVERAGE":
        return args.flatMap((one) => this.overCells(one, node, "summed"));
      case "COUNT":
        return args.flatMap((one) => this.overCells(one, node, "counted"));
      case "MIN":
      case "MAX": {
        const way = calledName(node) === "MAX" ? "of those the largest" : "of those the smallest";
        const extreme = singleCell(this.value(node));
        // What is worked out first counts where it is what was found.
        return args.flatMap((one) => {
          if (one.type !== "ReferenceIdentifier")
            return singleCell(this.value(one)) === extreme ? this.parts(one) : [];
          const part = this.part(one, way, (cell) => cell === extreme, node);
          return part.cells.length > 0 ? [part] : [];
        });
      }
      case "COUNTIF":
      case "COUNTIFS": {
        const places = countedPlaces(args.map((one) => this.value(one)));
        return first ? [this.part(first, "counted", (_, at) => places[at] === true, node)] : [];
      }
      case "SUMIF": {
        if (!first || !second) return [];
        const places = countedPlaces([this.value(first), this.value(second)]);
        const isIn = (cell: Cell, at: number) => places[at] === true && isFigure(cell);
        return [this.part(third ?? first, "summed", isIn, node)];
      }
      case "INDEX":
        return this.found(node);
      default:
        return args.flatMap((one) => this.parts(one));
    }
  }

  /** A range that is given whole, by its numbers; what is worked out first, by what it comes from. */
  private overCells(node: FormulaNode, call: Call, way: SourceWay): SourcePart[] {
    if (node.type !== "ReferenceIdentifier") return this.parts(node);
    return [this.part(node, way, isFigure, call)];
  }

  private found(node: Call): SourcePart[] {
    const [searched, row, column] = argumentsOf(node);
    if (!searched || searched.type !== "ReferenceIdentifier" || !row) return [];
    const range = this.rangeOf(searched);
    const { top, left, bottom, right } = rangePlace(range.address);
    const number = (one: FormulaNode | undefined, none: number): number => {
      const value = one ? numberIn(singleCell(this.value(one))) : none;
      if (isCellError(value)) throw new UnreadError(`gives ${value.error}`, this.text(node));
      return Math.trunc(value);
    };
    // A single number counts along a lone row.
    const isRow = top === bottom && !column;
    const down = isRow ? 1 : number(row, 1);
    const across = isRow ? number(row, 1) : number(column, left === right ? 1 : 0);
    if (down < 1 || across < 1)
      throw new UnreadError("gives a whole row or column", this.text(node));
    const address = cellAddress({ row: top + down - 1, column: left + across - 1 });
    const value = this.value(node);
    const cells = [{ cell: { sheet: range.sheet, address }, value: singleCell(value) }];
    return [{ way: "found", text: this.text(node), value, cells }];
  }

  private part(
    node: FormulaNode,
    way: SourceWay,
    counts: (cell: Cell, at: number) => boolean,
    whole: FormulaNode = node,
  ): SourcePart {
    if (node.type !== "ReferenceIdentifier")
      throw new UnreadError("is no range of cells", this.text(node));
    const { sheet, address } = this.rangeOf(node);
    const { top, left, right } = rangePlace(address);
    const wide = right - left + 1;
    const cells = cellsOf(this.value(node)).flatMap((value, at): SourceCell[] => {
      const place = { row: top + Math.floor(at / wide), column: left + (at % wide) };
      return counts(value, at) ? [{ cell: { sheet, address: cellAddress(place) }, value }] : [];
    });
    return { way, text: this.text(whole), value: this.value(whole), cells };
  }

  private branchOf(node: FormulaNode): FormulaNode | "none" | undefined {
    return takenBranch(node, (one) => this.value(one));
  }

  private rangeOf(node: Reference): SheetRange {
    const range = this.around.range(node.value);
    if (range instanceof UnreadError) throw new UnreadError(range.why, this.text(node));
    return range;
  }

  private value(node: FormulaNode): Value {
    const { value } = readFormula(this.formula, node, this.around);
    if (value.ok === true) return value.value;
    throw new UnreadError(value.why, value.part);
  }

  private text(node: FormulaNode): string {
    return partText(this.formula, node);
  }
}

function isFigure(cell: Cell): boolean {
  return typeof cell === "number";
}

function argumentsOf(node: Call): readonly FormulaNode[] {
  return (node.arguments as readonly (FormulaNode | null)[]).filter((one) => one !== null);
}

function inOrder(formula: string, nodes: readonly FormulaNode[]): FormulaNode[] {
  return [...nodes].sort((a, b) => partSpan(formula, a)[0] - partSpan(formula, b)[0]);
}
