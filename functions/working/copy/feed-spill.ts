/** The spilled result of a solved feed table: which cell is which number of its rows' equations. */
import { type CellTable, isCellTable } from "../../downfeed.js";
import { cellWithin } from "../lines/call-answer.js";
import type { SheetRange } from "../lines/call-tree.js";
import { type CallWorking, stepLines } from "../lines/call-working.js";
import { lineOf } from "../lines/result-lines.js";

export class FeedSpill {
  private readonly table: CellTable;
  private readonly solved: ReadonlySet<string>;

  constructor(
    private readonly working: CallWorking,
    readonly anchor: SheetRange,
  ) {
    const { outcome } = working.answer;
    const isTable = outcome.ok && isCellTable(outcome.value);
    this.table = isTable ? (outcome.value as CellTable) : [];
    const lines = stepLines(working.groups).filter(({ step }) => step.kind === "solved");
    this.solved = new Set(lines.map(({ key }) => key));
  }

  get rows(): number {
    return this.table.length;
  }

  get columns(): number {
    return this.table[0]?.length ?? 0;
  }

  /** Whether a check is about a row of the spill. */
  isAbout(line: string, row: number): boolean {
    const [working = ""] = line.split(".");
    return /^\d+$/.test(working) && this.rowOf(Number(working)) === row;
  }

  /** Where a number that satisfies a row's equations stands. */
  solvedAt(line: string): SheetRange | undefined {
    const { results } = this.working;
    const row = results.findIndex((cells) => cells.some((shown) => lineOf(shown) === line));
    const column = results[row]?.findIndex((shown) => lineOf(shown) === line);
    return column === undefined ? undefined : cellWithin(this.anchor, row, column);
  }

  /** The line that a number of the spill is worked out by; undefined for one that is solved, and for a text. */
  workedOutBy(row: number, column: number): string | undefined {
    const line = lineOf(this.working.results[row]?.[column]);
    return line === undefined || this.solved.has(line) ? undefined : line;
  }

  /** Row of the spill that a working is about. */
  private rowOf(working: number): number {
    const title = this.working.answer.workings[working]?.title;
    return this.table.findIndex(([item], row) => row > 0 && item === title);
  }
}
