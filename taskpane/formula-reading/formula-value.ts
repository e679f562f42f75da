/**
 * What a formula comes to, worked out in the pane from what its cells hold, with a record of every Downfeed call met
 * on the way. The engine is pure, so its answer here is the answer in the cell.
 */
import {
  type Argument,
  type CellError,
  type Outcome,
  isCellTable,
} from "../../functions/downfeed.js";
import { UnreadError, type Value, binary, unary } from "./cell-arithmetic.js";
import { type FormulaNode, calledName, partText } from "./formula-tree.js";
import { type Later, nativeFunction } from "./native-functions.js";

/** Where values come from. */
export interface FormulaSurroundings {
  readonly namespace: string;
  readonly evaluate: (id: string, args: readonly Argument[]) => Outcome;
  /** The cells that a reference or a name stands for. @throws {UnreadError} */
  readonly cells: (reference: string) => Value;
}

/** One call of a Downfeed function; `args` as they reached it. */
export interface ReadCall {
  readonly id: string;
  readonly text: string;
  /** 0 for a call that stands in no other Downfeed call. */
  readonly depth: number;
  readonly args: readonly Argument[];
  readonly argumentTexts: readonly string[];
  readonly outcome: Outcome | UnreadPart;
}

export interface UnreadPart {
  readonly ok: "unread";
  /** The piece of the formula that cannot be worked out, and why. */
  readonly part: string;
  readonly why: string;
}

export interface FormulaReading {
  /** What the whole formula comes to. */
  readonly value: { readonly ok: true; readonly value: Value } | UnreadPart;
  /** In the order in which they are worked out: inner ones first. */
  readonly calls: readonly ReadCall[];
}

export function readFormula(
  formula: string,
  tree: FormulaNode,
  surroundings: FormulaSurroundings,
): FormulaReading {
  const reader = new FormulaReader(formula, surroundings);
  try {
    return {
      value: { ok: true, value: reader.value(tree) },
      calls: reader.calls,
    };
  } catch (error) {
    return { value: unreadPart(error, formula), calls: reader.calls };
  }
}

function unreadPart(error: unknown, formula: string): UnreadPart {
  if (!(error instanceof UnreadError)) throw error;
  return { ok: "unread", part: error.part ?? formula, why: error.why };
}

class FormulaReader {
  readonly calls: ReadCall[] = [];
  private depth = 0;

  constructor(
    private readonly formula: string,
    private readonly surroundings: FormulaSurroundings,
  ) {}

  /** @throws {UnreadError} naming the innermost part that cannot be worked out. */
  value(node: FormulaNode): Value {
    try {
      return this.valueOf(node);
    } catch (error) {
      if (!(error instanceof UnreadError) || error.part !== undefined) throw error;
      throw new UnreadError(error.why, partText(this.formula, node));
    }
  }

  private valueOf(node: FormulaNode): Value {
    switch (node.type) {
      case "Literal":
        return node.value as number | string | boolean;
      case "ErrorLiteral":
        return { error: node.value as CellError["error"] };
      case "ReferenceIdentifier":
        return this.surroundings.cells(node.value as string);
      case "ArrayExpression":
        return (node.elements as FormulaNode[][]).map((row) =>
          row.map((cell) => onlyCell(this.value(cell))),
        );
      case "UnaryExpression":
        return unary(node.operator, ...this.values<[Value]>(node.arguments));
      case "BinaryExpression":
        return binary(node.operator, ...this.values<[Value, Value]>(node.arguments));
      case "CallExpression":
        return this.called(node);
      default:
        throw new UnreadError("is not calculated here");
    }
  }

  private values<Operands extends readonly Value[]>(nodes: readonly FormulaNode[]): Operands {
    return nodes.map((node) => this.value(node)) as readonly Value[] as Operands;
  }

  private called(node: FormulaNode & { type: "CallExpression" }): Value {
    const name = calledName(node);
    const prefix = `${this.surroundings.namespace.toUpperCase()}.`;
    const args = node.arguments as readonly (FormulaNode | null)[];
    if (name?.startsWith(prefix)) return this.feedCall(node, name.slice(prefix.length), args);
    const native = name === undefined ? undefined : nativeFunction(name);
    if (!native) throw new UnreadError("is not calculated here");
    const later = args.map((argument): Later => {
      if (!argument) return undefined;
      return () => this.value(argument);
    });
    return native(later);
  }

  private feedCall(node: FormulaNode, id: string, nodes: readonly (FormulaNode | null)[]): Value {
    const text = partText(this.formula, node);
    const argumentTexts = nodes.map((argument) =>
      argument ? partText(this.formula, argument) : "",
    );
    const { depth } = this;
    this.depth += 1;
    try {
      const args = nodes.map((argument) => argument && this.value(argument));
      const outcome = this.surroundings.evaluate(id, args);
      this.calls.push({ id, text, depth, args, argumentTexts, outcome });
      if (outcome.ok) return outcome.value;
      return { error: outcome.code, message: outcome.message };
    } catch (error) {
      const outcome = unreadPart(error, text);
      this.calls.push({ id, text, depth, args: [], argumentTexts, outcome });
      throw error;
    } finally {
      this.depth -= 1;
    }
  }
}

function onlyCell(value: Value) {
  if (isCellTable(value)) throw new UnreadError("is not calculated here");
  return value;
}

/** The refused call that no other refused call inside it explains. */
export function innermostRefusal(reading: FormulaReading): ReadCall | undefined {
  return reading.calls.find(({ outcome }) => outcome.ok === false);
}
