/** The working of one call as cells: heading, lines, result and notes. */
import type { BlockPlace } from "./block-place.js";
import { at } from "../../../src/plans/sheet-builder.js";
import type { PlanCell } from "../../../src/plans/sheet-plan.js";
import type { Cell } from "../../downfeed.js";
import { BlockLines, SOLVED } from "./block-lines.js";
import { BLOCK_COLUMNS, BlockRows, COLUMN, type LineCheck, constantCell } from "./block-rows.js";
import { type CallWorking, isSolved } from "../lines/call-working.js";
import { near, textLiteral } from "./native-writing.js";
import { type ResultSource, tableOf } from "../lines/result-lines.js";

/** A result's cells, by row and column from 0. */
interface BlockResult {
  /** Address of a result cell in a row that is laid out. */
  readonly resultAt: (row: number, column: number) => string;
  /** Rows of the result that are laid out. */
  readonly laidRows: readonly number[];
  readonly rows: number;
  readonly columns: number;
}

export interface CallBlock extends BlockResult {
  readonly cells: readonly PlanCell[];
  /** First free row below. */
  readonly next: number;
  readonly checks: readonly LineCheck[];
  /** Where a line's value stands. */
  readonly lineAt: (line: string) => string;
  /** What the rounding of a result's cell is measured by, beside its own size. */
  readonly sizesAt: (row: number, column: number) => readonly string[];
}

/** One call laid out as native formulas: its lines, then its result. @throws {TooLongError} */
export function callBlock(working: CallWorking, place: BlockPlace): CallBlock {
  const { answer, groups, results } = working;
  const rows = new BlockRows(place.left, place.top);
  rows.text(COLUMN.label, answer.call.text, "heading");
  rows.row += 1;
  BLOCK_COLUMNS.forEach((heading, column) => rows.text(column, heading, "tableHeading"));
  rows.row += 1;
  const lines = new BlockLines(groups, place, rows);
  lines.write();
  const result = writeResult(working, place, rows, lines);
  writeNotes(working, rows);
  return {
    ...result,
    cells: rows.cells,
    next: Math.max(rows.row, place.top + 2 + result.rows) + 1,
    checks: rows.checks,
    lineAt: (line) => lines.at(line),
    sizesAt: (row, column) => sizesOf(lines, results[row]?.[column]),
  };
}

function writeResult(
  working: CallWorking,
  place: BlockPlace,
  rows: BlockRows,
  lines: BlockLines,
): BlockResult {
  const { outcome, entry } = working.answer;
  const here = rows.here(COLUMN.value);
  if (place.solvedAt) return { rows: 0, columns: 0, laidRows: [], resultAt: () => "NA()" };
  if (!outcome.ok) {
    rows.text(COLUMN.label, "Refused", "label");
    rows.text(COLUMN.from, outcome.message, "text");
    rows.formula(COLUMN.value, "NA()", "result");
    rows.row += 1;
    return { rows: 1, columns: 1, laidRows: [0], resultAt: () => here };
  }
  const table = tableOf(outcome.value);
  const { only } = place;
  const laidRows = [...table.keys()].filter(
    (row) => only === undefined || row === 0 || row === only,
  );
  const size = { rows: laidRows.length, columns: table[0]?.length ?? 0 };
  const alone = size.rows === 1 && size.columns === 1;
  const left = place.left + COLUMN.table;
  const resultAt = (row: number, column: number) =>
    alone ? here : at(left + column, place.top + 2 + laidRows.indexOf(row));
  const writer = { working, place, rows, lines, alone };
  laidRows.forEach((row, index) =>
    writeResultRow(writer, table[row]!, { row, at: place.top + 2 + index }, (column) =>
      resultAt(row, column),
    ),
  );
  const unit = entry?.unitOf(outcome.record) ?? "";
  if (alone) {
    rows.text(COLUMN.label, "Result", "label");
    rows.text(COLUMN.unit, unit === "1" ? "" : unit, "unit");
    rows.row += 1;
  } else {
    const heading = at(left, place.top + 1);
    rows.cells.push({ at: heading, value: "Result", style: "tableHeading" });
  }
  return { ...size, laidRows, resultAt };
}

/** Characters: beyond that the comparison goes without, so that it still fits into a formula. */
const MOST_SIZES = 2500;

function sizesOf(lines: BlockLines, result: ResultSource | undefined): readonly string[] {
  if (!result || !("line" in result)) return [];
  const sizes = lines.sizes(result.line).map((size) => times(`(${size})`, result.factor));
  return sizes.join().length > MOST_SIZES ? [] : sizes;
}

interface ResultWriter {
  readonly working: CallWorking;
  readonly place: BlockPlace;
  readonly rows: BlockRows;
  readonly lines: BlockLines;
  readonly alone: boolean;
}

function writeResultRow(
  { working, place, rows, lines, alone }: ResultWriter,
  cells: readonly Cell[],
  { row, at: sheetRow }: { readonly row: number; readonly at: number },
  resultAt: (column: number) => string,
): void {
  const same: string[] = [];
  let isFrozen = false;
  cells.forEach((cell, column) => {
    const where = resultAt(column);
    const source = working.results[row]?.[column];
    const line = source && "line" in source ? source : undefined;
    const given = source && times(sourceAt(source, place, lines), source.factor);
    if (typeof cell === "number")
      isFrozen ||= source === undefined || (line !== undefined && lines.isSolved(line.line));
    const asItWas =
      place.resultAsItWas === "all" ||
      (place.resultAsItWas === "solved" && line !== undefined && lines.isSolved(line.line));
    if (given !== undefined && !asItWas) {
      const style = alone ? "key" : "result";
      const formula = whileItHolds(given, place);
      rows.cells.push({ at: where, formula, style });
      return;
    }
    rows.cells.push(
      given === undefined ? constant(where, cell, row, place) : constantCell(where, cell),
    );
    if (given !== undefined && typeof cell === "number")
      same.push(near(where, given, sizesOf(lines, line)));
  });
  // In a copy the head of the sheet says so.
  if (isFrozen && !alone && isSolved(working) && place.resultAsItWas === undefined)
    rows.cells.push({
      at: at(place.left + COLUMN.table - 1, sheetRow),
      value: SOLVED,
      style: "remark",
    });
  if (same.length === 0) return;
  const condition = `AND(${same.join(",")})`;
  if (alone) {
    rows.text(COLUMN.check, "as the steps give", "text");
    rows.check(`result.${row}`, condition);
    return;
  }
  const behind = place.left + COLUMN.table + cells.length;
  rows.checkAt(at(behind, sheetRow), `result.${row}`, condition);
}

/** What no step gives rests on the inputs too; headings stay. */
function constant(where: string, cell: Cell, row: number, place: BlockPlace): PlanCell {
  const made = constantCell(where, cell);
  const { value } = made;
  if (value === undefined || row === 0 || place.holdsAt === undefined) return made;
  const literal = typeof value === "string" ? textLiteral(value) : String(value).toUpperCase();
  return { at: where, formula: whileItHolds(literal, place), style: made.style };
}

function sourceAt(source: ResultSource, place: BlockPlace, lines: BlockLines): string {
  return "line" in source ? lines.at(source.line) : place.range(source.cell, source.cell.address);
}

/** What another formula would give is no result: it is void, whatever this one comes to. */
function whileItHolds(result: string, { holdsAt }: BlockPlace): string {
  return holdsAt === undefined ? result : `IF(${holdsAt}="no",NA(),${result})`;
}

function writeNotes({ answer }: CallWorking, rows: BlockRows): void {
  if (!answer.outcome.ok) return;
  for (const note of new Set(answer.outcome.caveats.map(({ text }) => text))) {
    rows.text(COLUMN.label, "Note", "label");
    rows.text(COLUMN.from, note, "text");
    rows.row += 1;
  }
}

function times(where: string, factor: number): string {
  return factor === 1 ? where : `${where}*${String(factor)}`;
}
