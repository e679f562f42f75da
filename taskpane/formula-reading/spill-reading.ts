/** A cell without a formula of its own that may be part of a spilled result: which call it comes from, and its row's Note. */
import { type Cell, type CellTable, catalogue, isCellTable } from "../../functions/downfeed.js";
import { rangeAddress, rangePlace, cellAddress } from "../../src/plans/addresses.js";
import type { CellRange, Host, SelectedCell } from "../hosts/host.js";
import type { ReadSource } from "./call-tree-reading.js";
import type { FormulaReading } from "./formula-value.js";

export interface SpilledCell {
  readonly id: string;
  readonly anchor: CellRange;
  readonly value: Cell;
  /** Heading of its column; "" where the result has no header row or this is it. */
  readonly heading: string;
  /** First cell of its row, "" likewise. */
  readonly item: string;
  /** Last column of its row where that is headed Note. */
  readonly note: string;
}

/** How far up and left of a cell its anchor is looked for: the longest and the widest results in use. */
const ROWS_ABOVE = 300;
const COLUMNS_LEFT = 80;

/** Where the host tells what spills into the cell, that alone is read; elsewhere the formulas above and left of it are. */
export async function readSpilledCell(
  host: Pick<Host, "namespace" | "read">,
  { at, spilledFrom }: SelectedCell,
  read: (formula: string, anchor: CellRange) => Promise<ReadSource | undefined>,
): Promise<(SpilledCell & { readonly source: ReadSource }) | undefined> {
  if (spilledFrom === "none") return undefined;
  const found = spilledFrom
    ? [{ anchor: spilledFrom.at, formula: spilledFrom.formula }]
    : await anchorsBefore(host, at);
  const cell = rangePlace(at.address);
  for (const { anchor, formula } of found) {
    if (!maySpill(formula, host.namespace)) continue;
    const source = await read(formula, anchor);
    const { top, left } = rangePlace(anchor.address);
    const spilled = source && cellIn(source.reading, cell.top - top, cell.left - left);
    if (spilled) return { ...spilled, anchor, source };
  }
  return undefined;
}

interface Anchor {
  readonly anchor: CellRange;
  readonly formula: string;
}

/** Nearest row first, since a later result blocks an earlier one. Only calls that may spill, and a few of them, are tried. */
async function anchorsBefore(
  host: Pick<Host, "namespace" | "read">,
  { sheet, address: last }: CellRange,
): Promise<Anchor[]> {
  const { bottom, right } = rangePlace(last);
  const top = Math.max(0, bottom - ROWS_ABOVE);
  const left = Math.max(0, right - COLUMNS_LEFT);
  const [content] = await host.read([
    { sheet, address: rangeAddress({ top, left, bottom, right }) },
  ]);
  return (content?.formulas ?? [])
    .flatMap((cells, row) =>
      cells.map((formula, column) => ({ row: top + row, column: left + column, formula })),
    )
    .filter(({ formula }) => maySpill(formula, host.namespace))
    .reverse()
    .slice(0, MOST_ANCHORS)
    .map(({ row, column, formula }) => ({
      anchor: { sheet, address: cellAddress({ row, column }) },
      formula,
    }));
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
