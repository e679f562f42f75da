/** The values of a workbook in memory: each formula read and worked out as the pane does it, spills laid out. */
import assert from "node:assert/strict";
import {
  type Cell,
  type CellTable,
  evaluate,
  isCellError,
  isCellTable,
} from "../../functions/downfeed.js";
import { UnreadError } from "../../taskpane/formula-reading/cell-arithmetic.js";
import { rangeOf } from "../../taskpane/formula-reading/cell-reading.js";
import { formulaTree } from "../../taskpane/formula-reading/formula-tree.js";
import { readFormula } from "../../taskpane/formula-reading/formula-value.js";
import { rangeAddress, rangePlace, cellAddress, cellPlace } from "../../src/plans/addresses.js";
import type { CellWrite, HostName, HostValue } from "../../taskpane/hosts/host.js";

export interface StoredCell {
  readonly content: CellWrite | "";
  readonly format?: string;
  readonly note?: string;
}

/** By address, `B4`. */
export type StoredSheet = ReadonlyMap<string, StoredCell>;

export interface StoredWorkbook {
  readonly sheets: ReadonlyMap<string, StoredSheet>;
  readonly names: readonly HostName[];
}

/** By sheet and address; an empty cell is not in it. */
export type CalculatedCells = ReadonlyMap<string, ReadonlyMap<string, HostValue>>;

const MOST_PASSES = 20;

/** Pass after pass over every formula until nothing changes: spills may feed formulas that stand before them. */
export function calculated(workbook: StoredWorkbook, namespace: string): CalculatedCells {
  let cells: CalculatedCells = new Map();
  for (let pass = 0; pass < MOST_PASSES; pass += 1) {
    const next = onePass(workbook, namespace, cells);
    if (JSON.stringify(listed(next)) === JSON.stringify(listed(cells))) return next;
    cells = next;
  }
  assert.fail(`not settled after ${MOST_PASSES} passes`);
}

function listed(cells: CalculatedCells) {
  return [...cells].map(([sheet, values]) => [sheet, [...values]]);
}

function onePass(
  workbook: StoredWorkbook,
  namespace: string,
  before: CalculatedCells,
): CalculatedCells {
  return new Map(
    [...workbook.sheets].map(([name, stored]) => {
      const values = new Map<string, HostValue>();
      for (const [address, { content }] of stored) {
        if (!isFormula(content)) {
          if (content !== "") values.set(address, content);
          continue;
        }
        const value = formulaValue(workbook, namespace, before, name, content);
        const table: CellTable = isCellTable(value) ? value : [[value]];
        addressesIn(spillRange(address, table)).forEach((row, rowIndex) =>
          row.forEach((at, column) => values.set(at, hostValue(table[rowIndex]?.[column] ?? null))),
        );
      }
      return [name, values];
    }),
  );
}

function formulaValue(
  workbook: StoredWorkbook,
  namespace: string,
  cells: CalculatedCells,
  sheet: string,
  formula: string,
): Cell | CellTable {
  const { value } = readFormula(formula, formulaTree(formula), {
    namespace,
    evaluate,
    cells(reference) {
      const range = rangeOf(reference, sheet, workbook.names);
      if (range instanceof UnreadError) throw range;
      return addressesIn(range.address).map((row) =>
        row.map((at) => cellOf(cells.get(range.sheet)?.get(at))),
      );
    },
  });
  if (value.ok === "unread")
    throw new Error(`${formula} cannot be calculated in memory: ${value.why}`);
  const result = value.value;
  const isLone = isCellTable(result) && result.flat().length === 1;
  return isLone ? (result[0]?.[0] ?? null) : (result ?? null);
}

function cellOf(value: HostValue | undefined): Cell {
  return value === undefined ? null : (value as Cell);
}

function hostValue(cell: Cell): HostValue {
  if (isCellError(cell)) return { error: cell.error };
  return cell ?? 0;
}

export function isFormula(content: unknown): content is `=${string}` {
  return typeof content === "string" && content.startsWith("=");
}

export function addressesIn(address: string): readonly (readonly string[])[] {
  const { top, left, bottom, right } = rangePlace(address);
  return Array.from({ length: bottom - top + 1 }, (_, row) =>
    Array.from({ length: right - left + 1 }, (_, column) =>
      cellAddress({ row: top + row, column: left + column }),
    ),
  );
}

/** The cells that a table reaches from its first cell. */
export function spillRange(anchor: string, table: CellTable): string {
  const { row, column } = cellPlace(anchor);
  return rangeAddress({
    top: row,
    left: column,
    bottom: row + table.length - 1,
    right: column + (table[0]?.length ?? 1) - 1,
  });
}
