/** Cells of a copy that say nothing true any more once an input is not what it was, and all that reads them. */
import { rangeAddress, rangePlace, cellPlace } from "../../../src/plans/addresses.js";
import type { SheetRange } from "../lines/call-tree.js";

/** Painted grey, a figure stays; what judges, and what counts or quotes it, goes blank as well. */
export type WhenVoid = "grey" | "blank";

/** A formula of a sheet, and the cells that it reads. */
export interface ReadingCell {
  readonly at: SheetRange;
  readonly isText: boolean;
  readonly reads: readonly SheetRange[];
}

interface VoidCell {
  readonly row: number;
  readonly column: number;
  readonly when: WhenVoid;
}

export class VoidCells {
  private readonly sheets = new Map<string, Map<string, VoidCell>>();

  set({ sheet, address }: SheetRange, when: WhenVoid): void {
    const cells = this.of(sheet);
    cells.set(address, { ...cellPlace(address), when });
    this.sheets.set(sheet.toLowerCase(), cells);
  }

  at({ sheet, address }: SheetRange): WhenVoid | undefined {
    return this.of(sheet).get(address)?.when;
  }

  /** What reads a void cell is void: text, and what reads a blank, goes blank with it. */
  spreadTo(readers: readonly ReadingCell[]): void {
    for (let spreads = true; spreads;) {
      spreads = false;
      for (const { at, isText, reads } of readers) {
        const read = this.among(reads);
        const when = read && isText ? "blank" : read;
        if (when === undefined || this.at(at) === "blank" || this.at(at) === when) continue;
        this.set(at, when);
        spreads = true;
      }
    }
  }

  /** In few ranges, column by column. */
  rangesOf(sheet: string): string[] {
    const byColumn = new Map<number, number[]>();
    for (const { row, column } of this.of(sheet).values())
      byColumn.set(column, [...(byColumn.get(column) ?? []), row]);
    const runs = new Map<string, number[]>();
    for (const [column, rows] of byColumn)
      for (const run of runsOf(rows)) {
        const key = run.join(":");
        runs.set(key, [...(runs.get(key) ?? []), column]);
      }
    return [...runs].flatMap(([key, columns]) => {
      const [top = 0, bottom = 0] = key.split(":").map(Number);
      return runsOf(columns).map(([left, right]) => rangeAddress({ top, left, bottom, right }));
    });
  }

  private of(sheet: string): Map<string, VoidCell> {
    return this.sheets.get(sheet.toLowerCase()) ?? new Map<string, VoidCell>();
  }

  private among(ranges: readonly SheetRange[]): WhenVoid | undefined {
    let found: WhenVoid | undefined;
    for (const { sheet, address } of ranges) {
      const { top, left, bottom, right } = rangePlace(address);
      for (const { row, column, when } of this.of(sheet).values()) {
        if (row < top || row > bottom || column < left || column > right) continue;
        if (when === "blank") return when;
        found = when;
      }
    }
    return found;
  }
}

/** Numbers that follow each other. */
function runsOf(numbers: readonly number[]): [first: number, last: number][] {
  const runs: [number, number][] = [];
  for (const number of [...numbers].sort((one, other) => one - other)) {
    const run = runs.at(-1);
    if (run && run[1] === number - 1) run[1] = number;
    else runs.push([number, number]);
  }
  return runs;
}
