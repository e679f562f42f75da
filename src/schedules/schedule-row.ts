/** One row of a schedule's block as it was typed: figures in SI, words as they are listed, and where each stands. */
import type { ConductorSize } from "../conductors/conductor-section.js";
import { plainName } from "../network/feed-topology.js";
import {
  InputError,
  MissingEntryError,
  NoAnswerError,
  type RefusedValue,
} from "../quantities/errors.js";
import { isLeastAboveGreatest, LEAST_BOUND } from "../quantities/least-resistance.js";
import { BLOCKS, type TableBlock } from "./columns.js";

/** A cell of the blocks: which of them, and its row and column in that range, all from 0. */
export interface CellPlace {
  readonly block: number;
  readonly row: number;
  readonly column: number;
}

/** What a cell holds. */
export type EnteredValue = number | string | readonly string[] | ConductorSize;

export interface Entered {
  readonly value: EnteredValue;
  readonly place: CellPlace;
  /** What one of the cell's unit is in SI. */
  readonly toSi: number;
}

export interface ScheduleRow {
  readonly block: TableBlock;
  /** 1 is the first below the header. */
  readonly row: number;
  readonly name: string;
  readonly namePlace: CellPlace;
  /** By field; what was left empty is not there. */
  readonly entered: ReadonlyMap<string, Entered>;
  /** Cells that may have been meant in another way, in words. */
  readonly readAs?: readonly string[];
  /** The first cell that cannot be what it is. */
  readonly refusal: InputError | undefined;
}

export type ScheduleRows = Readonly<Record<TableBlock, readonly ScheduleRow[]>>;

export function figureOf(row: ScheduleRow, field: string): number | undefined {
  const value = row.entered.get(field)?.value;
  return typeof value === "number" ? value : undefined;
}

export function wordOf(row: ScheduleRow, field: string): string | undefined {
  const value = row.entered.get(field)?.value;
  return typeof value === "string" ? value : undefined;
}

export function namesOf(row: ScheduleRow, field: string): readonly string[] {
  const value = row.entered.get(field)?.value;
  return Array.isArray(value) ? (value as readonly string[]) : [];
}

export function sizeOf(row: ScheduleRow): ConductorSize | undefined {
  const value = row.entered.get("size")?.value;
  return typeof value === "object" && "sizing" in value ? value : undefined;
}

export function isGiven(row: ScheduleRow, field: string): boolean {
  return row.entered.has(field);
}

/** Cells that no column of the block's own list is. */
const NAMES: Readonly<Record<string, string>> = { item: "Name" };

/** `Size of Cable row 3` */
export function cellInWords(
  { block, row }: Pick<ScheduleRow, "block" | "row">,
  field: string,
): string {
  const header = BLOCKS[block].find((column) => column.field === field)?.header;
  return `${header ?? NAMES[field] ?? field} of ${block} row ${row}`;
}

/** Why a row cannot be: block, row, header and bound. */
export function refused(
  row: ScheduleRow,
  field: string,
  requirement: string,
  value: RefusedValue = shownOf(row, field),
): InputError {
  return new InputError(cellInWords(row, field), value, requirement);
}

function shownOf(row: ScheduleRow, field: string): RefusedValue {
  const value = row.entered.get(field)?.value;
  if (Array.isArray(value)) return value.join("; ");
  return typeof value === "number" || typeof value === "string" ? value : null;
}

/** A cell that the row waits for. @param remark Behind its name: what else may be typed. */
export function missing(row: ScheduleRow, field: string, remark = ""): MissingEntryError {
  return new MissingEntryError(field, cellInWords(row, field) + remark);
}

/** @throws {MissingEntryError} where the row has no such figure. */
export function neededFigure(row: ScheduleRow, field: string, remark = ""): number {
  const value = figureOf(row, field);
  if (value === undefined) throw missing(row, field, remark);
  return value;
}

/**
 * What the engine refused of a row, in words of the row.
 * @param fields The row's fields by the engine's.
 */
export function inWordsOfRow<T>(
  row: ScheduleRow,
  fields: Readonly<Record<string, string>>,
  calculate: () => T,
): T {
  try {
    return calculate();
  } catch (error) {
    if (error instanceof InputError) {
      const field = fields[error.field] ?? error.field;
      throw refused(row, field, error.requirement);
    }
    if (error instanceof NoAnswerError) {
      const field = fields[error.field] ?? error.field;
      throw refused(row, field, `another: ${error.message}`);
    }
    throw error;
  }
}

/** Rows by name; of two with one name the first. */
export function rowsByName(rows: readonly ScheduleRow[]): ReadonlyMap<string, ScheduleRow> {
  return new Map([...rows].reverse().map((row) => [plainName(row.name), row] as const));
}

/** The names that somebody may have meant, for a refusal. */
export function namesInWords(names: readonly string[]): string {
  return names.length === 0 ? "none is there yet" : names.map((name) => `"${name}"`).join(" or ");
}

/** @throws {InputError} of a row whose least resistance lies above the greatest. */
export function requireLeastResistance(row: ScheduleRow): void {
  if (isLeastAboveGreatest(figureOf(row, "leastResistance"), figureOf(row, "resistance")))
    throw refused(row, "leastResistance", LEAST_BOUND);
}
