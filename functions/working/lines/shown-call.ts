/** The call whose result a cell shows: alone in its cell, or let through unchanged by what stands around it. */
import { type Cell, type CellTable, isCellTable } from "../../downfeed.js";
import type { Answers } from "./call-answer.js";
import type { CallPart, FormulaTree } from "./call-tree.js";

/** `IFERROR(call, text)` and `IF(condition, text, call)` spill as the call alone does, and are copied as it is. */
export function shownCall({ whole }: FormulaTree, answers: Answers): CallPart | undefined {
  if (whole.kind === "call") return whole;
  const { value } = whole;
  if (!isCellTable(value) || value.flat().length < 2) return undefined;
  const found = [...answers.values()].find(
    ({ depth, outcome }) =>
      depth === 0 && outcome.ok && isCellTable(outcome.value) && sameTable(outcome.value, value),
  );
  return found?.call;
}

function sameTable(one: CellTable, other: CellTable): boolean {
  return one.length === other.length && one.every((row, index) => sameRow(row, other[index] ?? []));
}

function sameRow(one: readonly Cell[], other: readonly Cell[]): boolean {
  return (
    one.length === other.length &&
    one.every((cell, column) => sameCell(cell, other[column] ?? null))
  );
}

function sameCell(one: Cell, other: Cell): boolean {
  const code = (cell: Cell) => (typeof cell === "object" && cell !== null ? cell.error : undefined);
  return one === other || (code(one) !== undefined && code(one) === code(other));
}
