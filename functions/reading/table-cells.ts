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

interface ReadColumn {
  readonly place: number;
  readonly toSi: number;
}

const columnOf: ReadonlyMap<string, (typeof TABLE_COLUMNS)[number]> = new Map(
  TABLE_COLUMNS.map((column) => [plainHeader(column.header), column]),
);

/** Rows as a feed table has them: those that are not wholly blank, counted from 0. */
export class TableCells {
  private readonly columns = new Map<TableField, ReadColumn>();
  private readonly rows: CellTable;

  /** @throws {InputError} for a header that names a unit that is not one of its figures'. */
  constructor(cells: CellTable) {
    this.rows = filledRows(cells);
    (cells[0] ?? []).forEach((text, place) => {
      if (typeof text !== "string") return;
      const column = columnOf.get(plainHeader(text));
      if (column)
        this.columns.set(column.field, {
          place,
          toSi: columnUnit(text, column),
        });
    });
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
export function columnUnit(text: string, column: TableColumn): number {
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
