/** Where a cell function spills on a sheet, and how other formulas read it. */
import type { PlanCell } from "../../src/plans/sheet-plan.js";
import { bareCell, fixedRange, fixedAt, formulaCell } from "../../src/plans/sheet-builder.js";

/** Ranges over a spill reach so many rows beyond the rows that it has at first. */
export const SPARE_ROWS = 200;
/** Cells look like those of the spill for so many rows, and some beyond it; a plan holds each of them. */
const LEAST_LOOKED = 40;
const LOOKED_BEYOND = 10;

export interface SpillColumn {
  readonly heading: string;
  /** Not there for words. */
  readonly format?: string | undefined;
  /** For the note on its heading; not there where the sheet says it above. */
  readonly means?: string;
}

export class Spill {
  /** @param row Of the header, as the sheet counts. @param count Rows below the header at first. @param left Its first column, from 0. */
  constructor(
    readonly sheet: string,
    readonly row: number,
    private readonly columns: readonly SpillColumn[],
    readonly count: number,
    readonly left = 0,
  ) {}

  get anchor(): string {
    return this.onSheet(fixedAt(this.left, this.row));
  }

  /** With its header and all spare rows. */
  get range(): string {
    return this.onSheet(this.rangeHere);
  }

  get rangeHere(): string {
    return fixedRange(this.left, this.row, this.left + this.columns.length - 1, this.last);
  }

  /** One column without its header. @throws {RangeError} for a heading that the function does not give. */
  column(heading: string): string {
    const at = this.placeOf(heading);
    return this.onSheet(fixedRange(at, this.row + 1, at, this.last));
  }

  /** A cell, `index` rows below the first row of figures. */
  cell(heading: string, index: number): string {
    return this.onSheet(this.cellHere(heading, index));
  }

  /** The same, for a formula on the spill's own sheet. */
  cellHere(heading: string, index: number): string {
    return fixedAt(this.placeOf(heading), this.row + 1 + index);
  }

  get width(): number {
    return this.columns.length;
  }

  /** Its column on the sheet, from 0. */
  placeOf(heading: string): number {
    const at = this.columns.findIndex((column) => column.heading === heading);
    if (at < 0) throw new RangeError(`${this.sheet} has no column ${heading}`);
    return this.left + at;
  }

  /**
   * Where the function gave an error, the error; a function that is not loaded shows as that. Whatever reads a spill has
   * to read its first cell too, or to wait for a cell that does: the workbench may otherwise take the spill as it was
   * before the edit, and keep it for others.
   */
  guarded(formula: string): string {
    return `IF(ISERROR(${this.anchor}),${this.anchor},${formula})`;
  }

  /** The one call, and the cells that wait for what it spills. */
  cells(call: string): PlanCell[] {
    const { columns, left, row, count, last } = this;
    const noted = ({ means }: SpillColumn) => (means === undefined ? {} : { note: means });
    const looked = Math.min(row + Math.max(LEAST_LOOKED, count + LOOKED_BEYOND), last);
    const body = Array.from({ length: looked - row }, (_, index) =>
      columns.map(({ format }, column) =>
        format === undefined
          ? bareCell(left + column, row + 1 + index, "resultText")
          : bareCell(left + column, row + 1 + index, "result", { format }),
      ),
    );
    return [
      {
        ...formulaCell(left, row, call, "tableHeading", noted(columns[0]!)),
        spill: [count + 1, columns.length] as const,
        shows: columns[0]!.heading,
      },
      ...columns.slice(1).map((column, index) => ({
        ...bareCell(left + index + 1, row, "tableHeading", noted(column)),
        shows: column.heading,
      })),
      ...body.flat(),
      // The sheet has to be as long as the ranges that read it.
      ...(looked < last ? [bareCell(left, last, "resultText")] : []),
    ];
  }

  get last(): number {
    return this.row + this.count + SPARE_ROWS;
  }

  private onSheet(address: string): string {
    return `{${this.sheet}}!${address}`;
  }
}
