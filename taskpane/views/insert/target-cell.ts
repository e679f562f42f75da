/** Whether a cell can take a formula: it is none of the formula's own arguments, and a spilled result has room. */
import { isCellTable } from "../../../functions/downfeed.js";
import { rangePlace, cellAddress } from "../../../src/plans/addresses.js";
import { UnreadError } from "../../formula-reading/cell-arithmetic.js";
import { rangeOf } from "../../formula-reading/cell-reading.js";
import { formulaTree, referencesIn } from "../../formula-reading/formula-tree.js";
import type { FormulaReading } from "../../formula-reading/formula-value.js";
import type { CellRange, RangeContent, Host } from "../../hosts/host.js";
import { rangeText, spillRange } from "../../formula-reading/argument-text.js";
import { words } from "../../words/words.js";

const said = words.call;

/** Why the cell cannot take it, in a sentence; nothing when it can. */
export async function hindranceAt(
  host: Host,
  at: CellRange,
  formula: string,
  reading: FormulaReading,
): Promise<string | undefined> {
  // A formula that names its own cell would go round in a circle.
  if (await namesItself(host, at, formula)) return said.ownCell(rangeText(at));
  const range = spilledRange(at, reading);
  if (range === undefined) return undefined;
  const [content] = await host.read([range]);
  const occupied = content && occupiedBeside(content);
  return occupied === undefined ? undefined : said.blocked(range.address, occupied);
}

async function namesItself(host: Host, at: CellRange, formula: string): Promise<boolean> {
  const names = await host.names();
  return referencesIn(formulaTree(formula)).some(({ value }) => {
    const range = rangeOf(value, at.sheet, names);
    return !(range instanceof UnreadError) && covers(range, at);
  });
}

function covers(range: CellRange, cell: CellRange): boolean {
  if (range.sheet !== cell.sheet) return false;
  const [outer, inner] = [rangePlace(range.address), rangePlace(cell.address)];
  return (
    outer.top <= inner.top &&
    outer.bottom >= inner.bottom &&
    outer.left <= inner.left &&
    outer.right >= inner.right
  );
}

function spilledRange(at: CellRange, { value }: FormulaReading): CellRange | undefined {
  if (value.ok !== true || !isCellTable(value.value)) return undefined;
  const [rows, columns] = [value.value.length, value.value[0]?.length ?? 0];
  return rows * columns > 1 ? spillRange(at, rows, columns) : undefined;
}

/** The first cell is left out: whether to overwrite that one is asked. */
function occupiedBeside({ range, values, formulas }: RangeContent): string | undefined {
  const { top, left } = rangePlace(range.address);
  for (const [row, cells] of values.entries()) {
    const column = cells.findIndex(
      (value, index) =>
        (row > 0 || index > 0) && (value !== "" || (formulas[row]?.[index] ?? "") !== ""),
    );
    if (column >= 0) return cellAddress({ row: top + row, column: left + column });
  }
  return undefined;
}
