/** What a feed table says of its items beside the figures that solve it: columns that CHAIN_TABLE makes, where it has them. */
import { TABLE_COLUMNS, type TableField } from "../../src/schedules/columns.js";
import {
  figureInSi,
  headerParts,
  unitInSi,
  HEADER_UNITS,
} from "../../src/quantities/header-units.js";
import { isUsable } from "../arguments.js";
import { type Cell, type CellTable, isBlank } from "../cells.js";
import { plainHeader } from "./feed-columns.js";

interface ReadColumn {
  readonly place: number;
  readonly toSi: number;
}

const fieldOf: ReadonlyMap<string, (typeof TABLE_COLUMNS)[number]> = new Map(
  TABLE_COLUMNS.map((column) => [plainHeader(column.header), column]),
);

/** Rows as a feed table has them: those that are not wholly blank, counted from 0. */
export class TableCells {
  private readonly columns = new Map<TableField, ReadColumn>();
  private readonly rows: CellTable;

  constructor(cells: CellTable) {
    this.rows = cells
      .slice(1)
      .filter((row) => row.some((cell) => cell !== 0 && !isBlank(cell)));
    (cells[0] ?? []).forEach((text, place) => {
      if (typeof text !== "string") return;
      const column = fieldOf.get(plainHeader(text));
      if (!column) return;
      const { quantity, field } = column;
      const { unit } = headerParts(text);
      const toSi =
        quantity in HEADER_UNITS
          ? unitInSi(quantity as keyof typeof HEADER_UNITS, unit)
          : 1;
      if (toSi !== undefined) this.columns.set(field, { place, toSi });
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
