/** Which line of a working each number of a result is, as its entry says, or which cell it repeats. */
import { type Cell, type CellTable, isCellTable } from "../../downfeed.js";
import type { ShownTyped } from "../../entry.js";
import { type CallAnswer, cellAtPlace } from "./call-answer.js";
import type { SheetRange } from "./call-tree.js";
import { lineKey } from "./working-lines.js";

/** The cell shows the line's value times `factor`. */
export interface ResultLine {
  readonly line: string;
  readonly factor: number;
}

/** The cell repeats what is typed in another, times `factor`. */
export interface RepeatedCell {
  readonly cell: SheetRange;
  readonly factor: number;
}

export type ResultSource = ResultLine | RepeatedCell;

/** In the shape of the result; undefined for what stands empty, for text that is typed nowhere, and for a number that no step gives. */
export type ResultLines = readonly (readonly (ResultSource | undefined)[])[];

export function resultLines(answer: CallAnswer): ResultLines {
  const { entry, outcome } = answer;
  if (!entry || !outcome.ok) return [];
  const { workings } = answer;
  const factor = entry.result.perUnit ?? 1;
  return tableOf(outcome.value).map((cells, row) =>
    cells.map((cell, column): ResultSource | undefined => {
      // A formula that repeats an empty cell would say 0.
      if (cell === "" || cell === null) return undefined;
      const shown = entry.cellOf(outcome.record, row, column);
      if (!shown) return undefined;
      if ("place" in shown) return repeated(answer, shown);
      // Of a function that makes the workings of one row alone, the others have none.
      const isOther = shown.working < 0 && answer.row !== row;
      if (typeof cell !== "number" || workings.length === 0 || isOther) return undefined;
      const times = factor * (shown.factor ?? 1);
      const working = shown.working < 0 ? workings.length + shown.working : shown.working;
      return { line: lineKey(working, shown.step), factor: times };
    }),
  );
}

/** Undefined where the range stands in no cells. */
function repeated(answer: CallAnswer, { place, factor }: ShownTyped): RepeatedCell | undefined {
  const origin = cellAtPlace(answer, place)?.origin;
  return origin?.kind === "cell" ? { cell: origin.range, factor } : undefined;
}

export function lineOf(source: ResultSource | undefined): string | undefined {
  return source && "line" in source ? source.line : undefined;
}

export function tableOf(value: Cell | CellTable): CellTable {
  return isCellTable(value) ? value : [[value]];
}
