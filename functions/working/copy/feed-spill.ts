/** The spilled result of a solved feed table held against its table: which cell is which number, and what must hold. */
import { type CellTable, isCellTable } from "../../downfeed.js";
import { cellWithin } from "../lines/call-answer.js";
import type { SheetRange } from "../lines/call-tree.js";
import type { CallWorking } from "../lines/call-working.js";
import { feedFigure, feedLinks } from "../lines/feed-links.js";
import { near } from "../native/native-writing.js";
import { lineOf } from "../lines/result-lines.js";
import { type Native, lineKey } from "../lines/working-lines.js";

/** A condition about one row of the spill. */
export interface SpillCondition {
  /** Counted from 0, the header row. */
  readonly row: number;
  readonly words: string;
  readonly holds: string;
}

export class FeedSpill {
  private readonly table: CellTable;
  private readonly header: readonly string[];

  constructor(
    private readonly working: CallWorking,
    readonly anchor: SheetRange,
  ) {
    const { outcome } = working.answer;
    const isTable = outcome.ok && isCellTable(outcome.value);
    this.table = isTable ? (outcome.value as CellTable) : [];
    this.header = (this.table[0] ?? []).map(String);
  }

  get rows(): number {
    return this.table.length;
  }

  get columns(): number {
    return this.header.length;
  }

  /** Whether a check is about a row of the spill. */
  isAbout(line: string, row: number): boolean {
    const [first = "", second = ""] = line.split(".");
    if (first === "spill") return Number(second) === row;
    return /^\d+$/.test(first) && this.rowOf(Number(first)) === row;
  }

  /** Row of the spill that a working is about. */
  rowOf(working: number): number {
    const title = this.working.answer.workings[working]?.title;
    return this.table.findIndex(([item], row) => row > 0 && item === title);
  }

  /** Where a number of a row's equations stands. */
  solvedAt(line: string): SheetRange | undefined {
    const { results } = this.working;
    const row = results.findIndex((cells) => cells.some((shown) => lineOf(shown) === line));
    const column = results[row]?.findIndex((shown) => lineOf(shown) === line);
    return column === undefined ? undefined : cellWithin(this.anchor, row, column);
  }

  /** Columns that no equation of a row is solved for, and each row's link to the one that feeds it. */
  conditions(
    nameOf: (range: SheetRange) => string,
    lineAt: (line: string) => string,
    nativeOf: (native: Native) => string,
  ): SpillCondition[] {
    const { answer } = this.working;
    const links = feedLinks(answer);
    return answer.workings.flatMap(({ title, steps }, index) => {
      const row = this.rowOf(index);
      const named = (column: string) => nameOf(this.cell(row, column));
      const isNumber = (column: string) =>
        typeof this.table[row]?.[this.header.indexOf(column)] === "number";
      const link = links[index]?.["inputVoltage"];
      const [fed] = link?.kind === "native" ? link.native : [];
      const line = typeof fed === "object" && "line" in fed ? fed.line : "";
      const feeding = this.solvedAt(line);
      const isSupply = !("inputCurrent" in steps);
      const losses = this.lossRange(nameOf);
      const current = isNumber("Output A") ? "Output A" : "Input A";
      const rated = nativeOf(feedFigure(answer, title, "ratedCurrent"));
      const count = nativeOf(feedFigure(answer, title, "inParallel"));
      const conditions: readonly (readonly [string, string])[] = [
        ["Input V", feeding ? nameOf(feeding) : lineAt(line)],
        ...(isSupply ? ([["Input A", named("Output A")]] as const) : []),
        ["Input W", `${named("Input V")}*${named("Input A")}`],
        ["Output W", `${named("Output V")}*${named("Output A")}`],
        ["Loss W", "loss" in steps ? lineAt(lineKey(index, "loss")) : "0"],
        ["Efficiency", `${named("Output W")}/${named("Input W")}`],
        ["Share of losses", `${named("Loss W")}/SUMIF(${losses},">0")`],
        ["Loading", `${named(current)}/(${rated}*MAX(1,${count}))`],
      ];
      return conditions
        .filter(([column]) => isNumber(column))
        .map(([column, expected]) => ({
          row,
          words: `${title}: ${column}`,
          holds: near(named(column), `(${expected})`),
        }));
    });
  }

  private lossRange(nameOf: (range: SheetRange) => string): string {
    const first = this.cell(1, "Loss W");
    const last = this.cell(this.table.length - 1, "Loss W");
    return nameOf({
      sheet: first.sheet,
      address: `${first.address}:${last.address}`,
    });
  }

  private cell(row: number, column: string): SheetRange {
    return cellWithin(this.anchor, row, this.header.indexOf(column));
  }
}
