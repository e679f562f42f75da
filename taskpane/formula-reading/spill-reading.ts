/** A cell without a formula of its own that may be part of a spilled result: which call it comes from, and its row's Note. */
import { type Cell, type CellTable, catalogue, isCellTable } from "../../functions/downfeed.js";
import { rangeAddress, rangePlace, cellAddress } from "../../src/plans/addresses.js";
import type { CellRange, RangeContent, Host } from "../hosts/host.js";
import type { FormulaReading } from "./formula-value.js";

export interface SpilledCell {
  readonly id: string;
  readonly anchor: CellRange;
  readonly value: Cell;
  /** Of its column, "" where the result has no header row or this is it. */
  readonly heading: string;
  /** First cell of its row, "" likewise. */
  readonly item: string;
  /** Last column of its row where that is headed Note. */
  readonly note: string;
}

/** How far up and left of a cell its anchor is looked for: the longest and the widest results in use. */
const ROWS_ABOVE = 300;
const COLUMNS_LEFT = 80;

export async function readSpilledCell(
  host: Host,
  at: CellRange,
  read: (formula: string, anchor: CellRange) => Promise<FormulaReading | undefined>,
): Promise<SpilledCell | undefined> {
  const { bottom, right } = rangePlace(at.address);
  const top = Math.max(0, bottom - ROWS_ABOVE);
  const left = Math.max(0, right - COLUMNS_LEFT);
  const address = rangeAddress({ top, left, bottom, right });
  const [content] = await host.read([{ sheet: at.sheet, address }]);
  if (!content) return undefined;
  for (const { row, column, formula } of anchors(content, host.namespace)) {
    const anchor = {
      sheet: at.sheet,
      address: cellAddress({ row: top + row, column: left + column }),
    };
    const reading = await read(formula, anchor);
    const spilled = reading && cellIn(reading, bottom - top - row, right - left - column);
    if (spilled) return { ...spilled, anchor };
  }
  return undefined;
}

interface Anchor {
  readonly row: number;
  readonly column: number;
  readonly formula: string;
}

/** Nearest row first, since a later result blocks an earlier one. Only calls that may spill, and a few of them, are tried. */
function anchors({ formulas }: RangeContent, namespace: string): Anchor[] {
  return formulas
    .flatMap((cells, row) => cells.map((formula, column) => ({ row, column, formula })))
    .filter(({ formula }) => maySpill(formula, namespace))
    .reverse()
    .slice(0, MOST_ANCHORS);
}

const MOST_ANCHORS = 8;

const SPILLING = new Set(
  catalogue
    .filter(({ result }) => result.shape === "row" || result.shape === "table")
    .map(({ id }) => id),
);

function maySpill(formula: string, namespace: string): boolean {
  const [, ...behind] = formula.toUpperCase().split(`${namespace.toUpperCase()}.`);
  return behind.some((text) => SPILLING.has(/^\w*/.exec(text)?.[0] ?? ""));
}

function cellIn(
  { value, calls }: FormulaReading,
  row: number,
  column: number,
): Omit<SpilledCell, "anchor"> | undefined {
  const id = calls.find(({ depth }) => depth === 0)?.id;
  if (value.ok !== true || !isCellTable(value.value) || id === undefined) return undefined;
  const cell = value.value[row]?.[column];
  if (cell === undefined) return undefined;
  return { id, value: cell, ...labelled(value.value, row, column) };
}

function labelled(table: CellTable, row: number, column: number) {
  const [header = [], line = []] = [table[0], table[row]];
  const headed = header.every((cell) => typeof cell === "string");
  if (!headed || row === 0) return { heading: "", item: "", note: "" };
  const noteAt = header.findIndex((cell) => cell === "Note");
  const text = (cell: Cell | undefined) => (typeof cell === "string" ? cell : "");
  return {
    heading: text(header[column]),
    item: column === 0 ? "" : text(line[0]),
    note: text(line[noteAt]),
  };
}
