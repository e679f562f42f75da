/** What a feed table says of its items beside the figures that solve it, as CHAIN_TABLE makes it, or as far as somebody typed it. */
import { InputError } from "../../src/quantities/errors.js";
import { figureInSi, headerParts, unitInSi } from "../../src/quantities/header-units.js";
import {
  ownUnitInSi,
  TABLE_COLUMNS,
  type TableColumn,
  type TableField,
} from "../../src/schedules/columns.js";
import { isUsable } from "../arguments.js";
import type { Cell, CellTable } from "../cells.js";
import { plainHeader } from "./feed-columns.js";
import { filledRows } from "./feed-table.js";

export interface ReadColumn {
  readonly place: number;
  /** What one of the header's unit is in SI. */
  readonly toSi: number;
}

/**
 * Where a table has the columns that are asked for.
 * @throws {InputError} for a column that stands there twice, or whose header names a unit that is not one of its figures'.
 */
export function readColumns(
  headers: readonly Cell[],
  wanted: readonly TableColumn[],
): ReadonlyMap<string, ReadColumn> {
  const byHeader = new Map(wanted.map((column) => [plainHeader(column.header), column]));
  const columns = new Map<string, ReadColumn>();
  headers.forEach((text, place) => {
    const column = typeof text === "string" ? byHeader.get(plainHeader(text)) : undefined;
    if (typeof text !== "string" || !column) return;
    if (columns.has(column.field))
      throw new InputError("feedTable", column.header, "a table with each header once");
    columns.set(column.field, { place, toSi: columnUnit(text, column) });
  });
  return columns;
}

/** Rows as a feed table has them: those that are not wholly blank, counted from 0. */
export class TableCells {
  private readonly columns: ReadonlyMap<string, ReadColumn>;
  private readonly rows: CellTable;

  /** @throws {InputError} as `readColumns`. */
  constructor(cells: CellTable) {
    this.rows = filledRows(cells);
    this.columns = readColumns(cells[0] ?? [], TABLE_COLUMNS);
  }

  /** In SI. Undefined where nothing is given, and for what is no number. */
  figure(row: number, field: TableField): number | undefined {
    const cell = this.cell(row, field);
    const column = this.columns.get(field);
    return column && typeof cell === "number" && isUsable(cell)
      ? figureInSi(cell, column.toSi)
      : undefined;
  }

  /** "" where nothing is given. A size may be a number. */
  text(row: number, field: TableField): string {
    const cell = this.cell(row, field);
    return cell !== 0 && (typeof cell === "string" || typeof cell === "number")
      ? String(cell).trim()
      : "";
  }

  private cell(row: number, field: TableField): Cell {
    const column = this.columns.get(field);
    return column ? (this.rows[row]?.[column.place] ?? null) : null;
  }
}

/**
 * What one of a header's unit is in SI; without one, of the column's own.
 * @throws {InputError} for a unit that is not one of the column's figures'.
 */
function columnUnit(text: string, column: TableColumn): number {
  const { quantity, header, unit } = column;
  const named = headerParts(text).unit;
  if (quantity === "words" || quantity === "money" || named === "") return ownUnitInSi(column);
  const toSi = unitInSi(quantity, named);
  if (toSi === undefined)
    throw new InputError(
      "feedTable",
      text,
      `a range whose header "${header}" names a unit of its figures, as (${unit})`,
    );
  return toSi;
}
