/** How one call of a cell function is copied into sheets that need no add-in. */
import { rangePlace, cellAddress, fixedAddress } from "../../../src/plans/addresses.js";
import { type Cell, type CellTable, isCellTable } from "../../downfeed.js";
import { cellWithin } from "../lines/call-answer.js";
import type { CallBlock } from "../native/call-block.js";
import {
  type FormulaPart,
  type FormulaTree,
  referencesOf,
  type SheetRange,
} from "../lines/call-tree.js";
import type { CallWorking } from "../lines/call-working.js";
import type { FeedSpill } from "./feed-spill.js";
import { type HeldCell, isEmptyCell } from "./held-inputs.js";
import { tableOf } from "../lines/result-lines.js";
import type { GivenLine, Line } from "../lines/working-lines.js";

export interface CopiedCall {
  readonly tree: FormulaTree;
  readonly working: CallWorking;
  readonly how: CopyWay;
  /** In one line, for the cell's note. */
  readonly told: string;
  /** Its row in the list on the sheet of workings. */
  readonly listRow: number;
  readonly block: CallBlock | undefined;
  readonly spill: FeedSpill | undefined;
}

/**
 * `native` follows its inputs; `native here` is void once they change, since they may call for other formulas; `solved`
 * is values that satisfy equations; `value` is as it was; `refused` an error, as it was.
 */
export type CopyWay = "native" | "native here" | "solved" | "value" | "refused";

export function copyWay(working: CallWorking, spill: FeedSpill | undefined): CopyWay {
  const { answer, kind, results } = working;
  if (!answer.outcome.ok) return "refused";
  if (answer.entry?.copied) return "value";
  if (isByWords(working)) return "native here";
  if (kind === "closed form") return answer.entry?.form ? "native here" : "native";
  if (kind === "fixed") return "value";
  const given = results.flat().some((line) => line !== undefined);
  return given || spill ? "solved" : "value";
}

/** Whose formulas are chosen by all that is given but the numbers that they read. */
export function isByWords({ answer: { entry } }: CallWorking): boolean {
  return entry?.form === "depends on words";
}

/** Whether a copy's formulas do not follow a cell, so that it has to be what it was. */
export function isHeld({ groups, results }: CallWorking) {
  const followed = new Set<string>();
  const add = (range: SheetRange) => followed.add(keyOf(range));
  for (const { link } of groups.flatMap(({ lines }) => lines).filter(isGiven))
    if (link.kind === "linked" && link.origin.kind === "cell")
      if (link.word === undefined) add(link.origin.range);
  for (const source of results.flat()) if (source && "cell" in source) add(source.cell);
  return ({ range, value }: HeldCell): boolean =>
    typeof value !== "number" || !followed.has(keyOf(range));
}

function isGiven(line: Line): line is GivenLine {
  return line.kind === "given";
}

function keyOf({ sheet, address }: SheetRange): string {
  return `${sheet.toLowerCase()}!${address}`;
}

/** Whether a copy holds what the inputs were, and would not follow other ones. */
export function isFrozen({ how, working }: CopiedCall): boolean {
  const isValue = how === "solved" || how === "value";
  return isValue && cellsNamed(working).length > 0;
}

export function givesTable({ answer: { outcome } }: CallWorking): boolean {
  return outcome.ok && isCellTable(outcome.value);
}

export function wayTold(
  way: CopyWay,
  { answer: { outcome } }: CallWorking,
  listRow: number,
): string {
  switch (way) {
    case "native":
      return `in native formulas, Workings row ${listRow}`;
    case "native here":
      return `as native formulas, valid for the inputs as copied, #N/A once these change, Workings row ${listRow}`;
    case "solved":
      return `solved values as they were, checked on Workings row ${listRow}`;
    case "value":
      return `as it was, inputs checked on Workings row ${listRow}`;
    case "refused":
      return `refused: ${outcome.ok ? "" : outcome.message}`;
  }
}

/** One condition for each column that a block's checks stand in. */
export function blockConditions({ checks }: CallBlock): string[] {
  const byColumn = new Map<number, number[]>();
  for (const { at: address } of checks) {
    const { left, top } = rangePlace(address);
    byColumn.set(left, [...(byColumn.get(left) ?? []), top]);
  }
  return [...byColumn].map(([column, rows]) => {
    const first = cellAddress({ row: Math.min(...rows), column });
    const last = cellAddress({ row: Math.max(...rows), column });
    return `COUNTIF(${fixedAddress(`${first}:${last}`)},"no")=0`;
  });
}

/** Every cell that the call's arguments name; those that stand empty beside or below each other as one range. */
export function cellsNamed({ answer: { call } }: CallWorking): HeldCell[] {
  return heldCells(call);
}

/** Every cell that a formula names, with what it held. */
export function heldCells(part: FormulaPart): HeldCell[] {
  return referencesOf(part).flatMap(({ range, value }) =>
    range && value !== undefined ? heldIn(range, tableOf(value)) : [],
  );
}

function heldIn(range: SheetRange, table: CellTable): HeldCell[] {
  const empty = [...table].reverse().findIndex((row) => !row.every(isEmptyCell));
  const filled = empty < 0 ? 0 : table.length - empty;
  const width = table[0]?.length ?? 0;
  const held = table.slice(0, filled).flatMap((row, index) => heldInRow(range, row, index));
  if (filled === table.length || width === 0) return held;
  const last = [table.length - 1, width - 1] as const;
  return [...held, emptyRange(range, [filled, 0], last)];
}

function heldInRow(range: SheetRange, cells: readonly Cell[], row: number): HeldCell[] {
  return cells.flatMap((cell, column): HeldCell[] => {
    if (!isEmptyCell(cell)) return [{ range: cellWithin(range, row, column), value: cell }];
    if (column > 0 && isEmptyCell(cells[column - 1] ?? null)) return [];
    const next = cells.findIndex((one, at) => at > column && !isEmptyCell(one));
    const end = (next < 0 ? cells.length : next) - 1;
    return [emptyRange(range, [row, column], [row, end])];
  });
}

function emptyRange(
  range: SheetRange,
  first: readonly [row: number, column: number],
  last: readonly [row: number, column: number],
): HeldCell {
  const [from, to] = [first, last].map(([row, column]) => cellWithin(range, row, column).address);
  const address = from === to ? from! : `${from}:${to}`;
  return { range: { sheet: range.sheet, address }, value: null };
}
