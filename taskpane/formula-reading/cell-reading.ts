/** The selected cell read through the host: its formula, the cells that the formula names, and what each call in it gives. */
import {
  type Argument,
  type Cell,
  type CellError,
  type Outcome,
  evaluate as engineEvaluate,
} from "../../functions/downfeed.js";
import type { FormulaTree } from "../../functions/working/lines/call-tree.js";
import { rangePlace, cellAddress } from "../../src/plans/addresses.js";
import {
  type CellRange,
  type RangeContent,
  type Host,
  HostError,
  type HostName,
  type HostValue,
  type SelectedCell,
} from "../hosts/host.js";
import { firstCell } from "../hosts/ranges.js";
import { parseA1Ref } from "@borgar/fx";
import { UnreadError, type Value } from "./cell-arithmetic.js";
import {
  type FormulaNode,
  childrenOf,
  calledName,
  formulaTree,
  referencesIn,
} from "./formula-tree.js";
import { type ReadSource, type TreeSurroundings, callTree } from "./call-tree-reading.js";
import { type FormulaReading, readFormula } from "./formula-value.js";
import { type SpilledCell, readSpilledCell } from "./spill-reading.js";

/** A reading begins with what the cell itself holds and shows. */
export type CellReading = { readonly cell: SelectedCell } & (
  | { readonly kind: "no call" }
  | ({ readonly kind: "spilled"; readonly source: ReadSource } & SpilledCell)
  | { readonly kind: "not a formula"; readonly why: string }
  | { readonly kind: "read"; readonly source: ReadSource }
);

/** As much of a host as reading takes. */
export type CellHost = Pick<Host, "namespace" | "names" | "read">;

export type Evaluate = (id: string, args: readonly Argument[]) => Outcome;

/** More cells than any argument of a call should have; reading them would hold up the pane. */
const MOST_CELLS = 100_000;

/** The first cell of the selection, in one go where the host can. */
export async function selectedCell(
  host: Pick<Host, "read" | "selection" | "selectedCell">,
): Promise<SelectedCell> {
  return host.selectedCell ? host.selectedCell() : cellAt(host, await host.selection());
}

async function cellAt(host: Pick<Host, "read">, range: CellRange): Promise<SelectedCell> {
  const at = firstCell(range);
  const [content] = await host.read([at]);
  return {
    at,
    value: content?.values[0]?.[0] ?? "",
    formula: content?.formulas[0]?.[0] ?? "",
  };
}

/** The first cell of a range, wherever the selection is. */
export async function readCellAt(
  host: CellHost,
  range: CellRange,
  evaluate?: Evaluate,
): Promise<CellReading> {
  return readCell(host, await cellAt(host, range), evaluate);
}

export async function readCell(
  host: CellHost,
  cell: SelectedCell,
  evaluate: Evaluate = engineEvaluate,
): Promise<CellReading> {
  const { at, value, formula } = cell;
  const prefix = `${host.namespace}.`.toUpperCase();
  if (formula === "" && value !== "") return readSpilled(host, cell, evaluate);
  if (!formula.toUpperCase().includes(prefix)) return { kind: "no call", cell };
  try {
    const tree = formulaTree(formula);
    if (!callsAny(tree, prefix)) return { kind: "no call", cell };
    return {
      kind: "read",
      cell,
      source: await readSource(host, formula, tree, at.sheet, evaluate),
    };
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    return { kind: "not a formula", cell, why: error.message };
  }
}

async function readSpilled(
  host: CellHost,
  cell: SelectedCell,
  evaluate: Evaluate,
): Promise<CellReading> {
  const spilled = await readSpilledCell(host, cell, async (formula, anchor) => {
    try {
      return await readSource(host, formula, formulaTree(formula), anchor.sheet, evaluate);
    } catch (error) {
      // Another cell's unreadable formula is not what was asked about.
      if (error instanceof SyntaxError) return undefined;
      throw error;
    }
  });
  return spilled ? { kind: "spilled", cell, ...spilled } : { kind: "no call", cell };
}

/** What a formula would come to if it stood on the sheet. @throws {SyntaxError} */
export async function readFormulaText(
  host: CellHost,
  formula: string,
  sheet: string,
  evaluate: Evaluate = engineEvaluate,
): Promise<FormulaReading> {
  return (await readSource(host, formula, formulaTree(formula), sheet, evaluate)).reading;
}

function callsAny(node: FormulaNode, prefix: string): boolean {
  return (
    calledName(node)?.startsWith(prefix) === true ||
    childrenOf(node).some((child) => callsAny(child, prefix))
  );
}

async function readSource(
  host: CellHost,
  formula: string,
  tree: FormulaNode,
  sheet: string,
  evaluate: Evaluate,
): Promise<ReadSource> {
  const around = await surroundingsOf(host, tree, sheet, evaluate);
  return { formula, tree, around, reading: readFormula(formula, tree, around) };
}

/** The cells that a formula names, read once. */
async function surroundingsOf(
  host: CellHost,
  tree: FormulaNode,
  sheet: string,
  evaluate: Evaluate,
): Promise<TreeSurroundings> {
  const references = [...new Set(referencesIn(tree).map(({ value }) => value))];
  const needsNames = referencesIn(tree).some(({ kind }) => kind === "name");
  const names = needsNames ? await host.names() : [];
  const ranges = references.map((value) => rangeOf(value, sheet, names));
  const values = await cellsAt(host, ranges);
  const found = new Map(references.map((value, index) => [value, values[index]]));
  return {
    namespace: host.namespace,
    evaluate,
    range: (reference) => rangeOf(reference, sheet, names),
    cells(reference) {
      const value = found.get(reference);
      if (value instanceof UnreadError) throw value;
      return value ?? null;
    },
  };
}

/** A formula that stands on a sheet, parsed, with what it reads. @throws {SyntaxError} */
export async function readFormulaAround(
  host: CellHost,
  formula: string,
  sheet: string,
): Promise<{ readonly tree: FormulaNode; readonly around: TreeSurroundings }> {
  const tree = formulaTree(formula);
  return { tree, around: await surroundingsOf(host, tree, sheet, engineEvaluate) };
}

/** The same for every formula of sheets that were read whole, from A1 on; by sheet and address, `Budget!B4`. */
export function formulaTrees(
  contents: readonly RangeContent[],
  names: readonly HostName[],
  namespace: string,
  evaluate: Evaluate = engineEvaluate,
): ReadonlyMap<string, FormulaTree> {
  const trees = new Map<string, FormulaTree>();
  for (const { range, formulas } of contents) {
    const around = surroundingsIn(contents, names, namespace, range, evaluate);
    formulas.forEach((row, rowIndex) =>
      row.forEach((formula, column) => {
        const address = cellAddress({ row: rowIndex, column });
        const tree = formula === "" ? undefined : parsedTree(formula);
        if (!tree) return;
        const at = { sheet: range.sheet, address };
        trees.set(`${range.sheet}!${address}`, callTree(formula, tree, at, around));
      }),
    );
  }
  return trees;
}

function parsedTree(formula: string): FormulaNode | undefined {
  try {
    return formulaTree(formula);
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}

function surroundingsIn(
  contents: readonly RangeContent[],
  names: readonly HostName[],
  namespace: string,
  { sheet }: CellRange,
  evaluate: Evaluate,
): TreeSurroundings {
  const range = (reference: string) => rangeOf(reference, sheet, names);
  return {
    namespace,
    evaluate,
    range,
    cells(reference) {
      const found = range(reference);
      if (found instanceof UnreadError) throw found;
      const wanted = found.sheet.toLowerCase();
      const content = contents.find((one) => one.range.sheet.toLowerCase() === wanted);
      if (!content) throw new UnreadError("lies on a sheet that was not read");
      return cellsWithin(content, found);
    },
  };
}

/** Cells of a range out of a sheet that was read from A1 on; beyond what was read they are empty. */
function cellsWithin({ values, formulas }: RangeContent, { address }: CellRange): Value {
  const { top, left, bottom, right } = rangePlace(address);
  const cells = [];
  for (let row = top; row <= bottom; row += 1) {
    const line: Cell[] = [];
    for (let column = left; column <= right; column += 1)
      line.push(cellOf(values[row]?.[column] ?? "", formulas[row]?.[column] ?? ""));
    cells.push(line);
  }
  return cells;
}

/** Where a reference or a name points, or why it cannot be followed. */
export function rangeOf(
  reference: string,
  sheet: string,
  names: readonly HostName[],
): CellRange | UnreadError {
  const parsed = parseA1Ref(reference);
  if (!parsed) return new UnreadError("is not a plain range of cells");
  const context = parsed.context ?? [];
  if (context.length > 1 || reference.includes("["))
    return new UnreadError("lies in another workbook");
  if ("name" in parsed) {
    const wanted = parsed.name.toLowerCase();
    const named = names.find(({ name }) => name.toLowerCase() === wanted);
    return named?.range ?? new UnreadError("is not the name of a plain range");
  }
  const { top, left, bottom, right } = parsed.range;
  if (top === null || left === null || bottom == null || right == null)
    return new UnreadError("takes in whole rows or columns");
  if ((bottom - top + 1) * (right - left + 1) > MOST_CELLS)
    return new UnreadError(`holds more than ${MOST_CELLS} cells`);
  const first = cellAddress({ row: top, column: left });
  const last = cellAddress({ row: bottom, column: right });
  const address = first === last ? first : `${first}:${last}`;
  return { sheet: context[0] ?? sheet, address };
}

/** One reading for all; a sheet that is not there spoils only the reference that names it. */
async function cellsAt(
  host: Pick<Host, "read">,
  ranges: readonly (CellRange | UnreadError)[],
): Promise<(Value | UnreadError)[]> {
  const wanted = ranges.filter(isRange);
  try {
    const contents = [...(wanted.length > 0 ? await host.read(wanted) : [])];
    return ranges.map((range) =>
      range instanceof UnreadError ? range : cellTable(contents.shift()),
    );
  } catch (error) {
    if (!(error instanceof HostError)) throw error;
    if (ranges.length === 1) return [unreadable(error)];
    const each = await Promise.all(ranges.map((range) => cellsAt(host, [range])));
    return each.flat();
  }
}

function isRange(range: CellRange | UnreadError): range is CellRange {
  return !(range instanceof UnreadError);
}

function unreadable({ message }: HostError): UnreadError {
  return new UnreadError(`cannot be read (${message})`);
}

function cellTable(content: RangeContent | undefined): Value | UnreadError {
  if (!content) return new UnreadError("cannot be read");
  const { values, formulas } = content;
  return values.map((row, rowIndex) =>
    row.map((value, column) => cellOf(value, formulas[rowIndex]?.[column] ?? "")),
  );
}

/** "" under a formula is text of no length; without one it is a blank cell. */
function cellOf(value: HostValue, formula: string): Cell {
  if (typeof value === "object") return { error: value.error as CellError["error"] };
  return value === "" && formula === "" ? null : value;
}
