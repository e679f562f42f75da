/** Which line of a working each number of a result is, as its entry says. */
import { type Cell, type CellTable, isCellTable } from "../downfeed.js";
import type { CallAnswer } from "./call-answer.js";
import { lineKey } from "./working-lines.js";

/** The cell shows the line's value times `factor`. */
export interface ResultLine {
  readonly line: string;
  readonly factor: number;
}

/** In the shape of the result; undefined for text, and for a number that no step of the working gives. */
export type ResultLines = readonly (readonly (ResultLine | undefined)[])[];

export function resultLines({ entry, outcome }: CallAnswer): ResultLines {
  if (!entry || !outcome.ok) return [];
  const factor = entry.result.perUnit ?? 1;
  return tableOf(outcome.value).map((cells, row) =>
    cells.map((cell, column) => {
      if (typeof cell !== "number") return undefined;
      const shown = entry.cellOf(outcome.record, row, column);
      return shown && { line: lineKey(shown.working, shown.step), factor };
    }),
  );
}

export function tableOf(value: Cell | CellTable): CellTable {
  return isCellTable(value) ? value : [[value]];
}
