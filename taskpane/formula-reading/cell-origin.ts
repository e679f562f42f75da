/**
 * Where the number of a cell without a cell function comes from: the cells that its formula repeats, finds, sums or
 * counts, each by its row and column, and on to the call that one of them shows.
 */
import { rangeAddress, rangePlace, cellPlace } from "../../src/plans/addresses.js";
import type { CellRange, HostValue, SelectedCell } from "../hosts/host.js";
import { UnreadError } from "./cell-arithmetic.js";
import {
  type CellHost,
  type CellReading,
  type Evaluate,
  readCellAt,
  readFormulaAround,
} from "./cell-reading.js";
import { type CellSources, type SourcePart, cellSources } from "./cell-sources.js";
import { type ReadWorking, workingOfCell } from "./read-working.js";

export interface NamedSource {
  readonly cell: CellRange;
  /** Its row and its column, as the sheet heads them: `Summit stage, Input W`. */
  readonly name: string;
  readonly value: HostValue;
}

export interface OriginPart extends Pick<SourcePart, "way" | "text"> {
  readonly cells: readonly NamedSource[];
}

export interface CellOrigin {
  readonly at: CellRange;
  readonly value: HostValue;
  /** The formula, without the branches that are not taken. */
  readonly taken: string;
  readonly parts: readonly OriginPart[];
  /** Why the formula cannot be followed. */
  readonly unread?: string;
}

/** The cells from the selected one on, as long as each comes from one other cell. */
export interface CellTrail {
  readonly origins: readonly CellOrigin[];
  /** The call behind the last of them; undefined where there is none, or more than one cell counts. */
  readonly end: ReadWorking | undefined;
}

/** A cell that repeats a cell that repeats a cell: no longer chain is of use to a reader. */
const MOST_STEPS = 8;

export async function readTrail(
  host: CellHost,
  selected: CellReading,
  evaluate?: Evaluate,
): Promise<CellTrail> {
  const origins: CellOrigin[] = [];
  let reading = selected;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const end = workingOfCell(reading);
    if (end) return { origins, end };
    const origin = await readOrigin(host, reading.cell);
    if (!origin) break;
    origins.push(origin);
    const [only, ...others] = origin.parts.flatMap(({ cells }) => cells);
    if (!only || others.length > 0) break;
    reading = await readCellAt(host, only.cell, evaluate);
  }
  return { origins, end: undefined };
}

/** Undefined where the cell holds no formula. */
async function readOrigin(
  host: CellHost,
  { at, value, formula }: SelectedCell,
): Promise<CellOrigin | undefined> {
  if (formula === "") return undefined;
  const read = await readSources(host, formula, at.sheet);
  if (typeof read === "string")
    return { at, value, taken: formula.replace(/^=/, ""), parts: [], unread: read };
  const parts = await Promise.all(read.parts.map((part) => named(host, part)));
  return { at, value, taken: read.taken, parts };
}

/** Or why not. */
async function readSources(
  host: CellHost,
  formula: string,
  sheet: string,
): Promise<CellSources | string> {
  try {
    const { tree, around } = await readFormulaAround(host, formula, sheet);
    return cellSources(formula, tree, around);
  } catch (error) {
    if (error instanceof UnreadError || error instanceof SyntaxError) return error.message;
    throw error;
  }
}

async function named(host: CellHost, { way, text, cells }: SourcePart): Promise<OriginPart> {
  const [first] = cells;
  if (!first) return { way, text, cells: [] };
  const { sheet } = first.cell;
  const places = cells.map(({ cell }) => cellPlace(cell.address));
  const bottom = Math.max(...places.map(({ row }) => row));
  const right = Math.max(...places.map(({ column }) => column));
  const address = rangeAddress({ top: 0, left: 0, bottom, right });
  const [content] = await host.read([{ sheet, address }]);
  const values = content?.values ?? [];
  return {
    way,
    text,
    cells: cells.map(({ cell }) => {
      const { top, left } = rangePlace(cell.address);
      return { cell, name: nameOf(values, top, left), value: values[top]?.[left] ?? "" };
    }),
  };
}

/** A figure by the first word of its row and the heading of its column; a word by the first two words of its row. */
function nameOf(values: readonly (readonly HostValue[])[], row: number, column: number): string {
  const words = (values[row] ?? []).slice(0, column).filter(isWord);
  const isFigure = typeof values[row]?.[column] === "number";
  if (!isFigure) return words.slice(0, 2).join(", ");
  const above = values.slice(0, row).map((cells) => cells[column] ?? "");
  const heading = above.reverse().find(isWord);
  return [words[0], heading].filter((word) => word !== undefined).join(", ");
}

function isWord(value: HostValue): value is string {
  return typeof value === "string" && value !== "" && value !== "–";
}
