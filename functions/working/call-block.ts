/** The working of one call as cells: each step a native formula of the cells that it reads. */
import { at } from "../../src/plans/sheet-builder.js";
import type { PlanCell, StyleName } from "../../src/plans/sheet-plan.js";
import type { CitationId } from "../../src/quantities/citations.js";
import { type Cell, citationLine, isCellError } from "../downfeed.js";
import type { Origin } from "./call-answer.js";
import type { CallPart, SheetArea } from "./call-tree.js";
import type { CallWorking } from "./call-working.js";
import {
  type Surroundings,
  nativeText,
  notTooLong,
  partNative,
  yesOrNo,
} from "./native-writing.js";
import { tableOf } from "./result-lines.js";
import { asNative, inSymbols, termsOf } from "./step-text.js";
import { lookupText, originText } from "./working-of.js";
import type { GivenLine, Line, StepLine } from "./working-lines.js";

/** Columns of a block, from its left one on. */
export const BLOCK_COLUMNS = [
  "Quantity",
  "Symbol",
  "Comes from",
  "Value",
  "Unit",
  "Shown",
  "in",
  "Check",
  "Holds",
  "Source",
] as const;

const [LABEL, SYMBOL, FROM, VALUE, UNIT, SHOWN, SHOWN_UNIT, CHECK, HOLDS] = [
  0, 1, 2, 3, 4, 5, 6, 7, 8,
];
const SOURCE = 9;
/** A result of several cells stands beside the lines. */
const TABLE = BLOCK_COLUMNS.length + 1;

export const BLOCK_WIDTHS = [
  240, 80, 260, 130, 60, 110, 60, 240, 60, 320,
] as const;

export interface BlockPlace extends Surroundings {
  /** Column from 0, row from 1. */
  readonly left: number;
  readonly top: number;
  readonly result: (call: CallPart) => string;
  /** One cell of an inner call's result. */
  readonly resultCell: (call: CallPart, row: number, column: number) => string;
  /** Where a solved number of a spilled result stands already; the block then holds no result of its own. */
  readonly solvedAt?: (line: string) => SheetArea | undefined;
  /** The result as the values that it had, each held against the line that gives it. */
  readonly resultAsItWas?: true;
}

export interface CallBlock {
  readonly cells: readonly PlanCell[];
  /** First free row below. */
  readonly next: number;
  /** First and last cell of the result, and how many rows and columns it has. */
  readonly resultAt: (row: number, column: number) => string;
  readonly rows: number;
  readonly columns: number;
  /** Cells that say yes or no, with the line that they are about. */
  readonly checks: readonly LineCheck[];
  /** Where a line's value stands. */
  readonly lineAt: (line: string) => string;
  /** Sizes that the last step of a lone result adds up, for comparing where they cancel. */
  readonly terms: readonly string[];
}

export interface LineCheck {
  readonly line: string;
  readonly at: string;
}

/** @throws {TooLongError} */
export function callBlock(working: CallWorking, place: BlockPlace): CallBlock {
  return new BlockWriter(working, place).block();
}

class BlockWriter {
  private readonly cells: PlanCell[] = [];
  private readonly checks: LineCheck[] = [];
  private readonly lines: ReadonlyMap<string, Line>;
  private readonly rowOf = new Map<string, number>();
  private row: number;

  constructor(
    private readonly working: CallWorking,
    private readonly place: BlockPlace,
  ) {
    this.row = place.top;
    this.lines = new Map(
      working.groups.flatMap(({ lines }) =>
        lines.map((line) => [line.key, line]),
      ),
    );
  }

  block(): CallBlock {
    const { answer, groups } = this.working;
    this.text(LABEL, answer.call.text, "heading");
    this.row += 1;
    BLOCK_COLUMNS.forEach((heading, column) =>
      this.text(column, heading, "tableHeading"),
    );
    this.row += 1;
    // Steps may read lines that stand further down, so every line has its row before any is written.
    let row = this.row;
    for (const { title, lines } of groups) {
      if (title !== "") row += 1;
      for (const line of lines) {
        this.rowOf.set(line.key, row);
        row += rowsOf(line);
      }
    }
    for (const { title, lines } of groups) {
      if (title !== "") {
        this.text(LABEL, title, "subtitle");
        this.row += 1;
      }
      for (const line of lines) {
        if (line.kind === "given") this.given(line);
        else this.step(line);
      }
    }
    const result = this.result();
    this.notes();
    return {
      cells: this.cells,
      next: Math.max(this.row, this.place.top + 2 + result.rows) + 1,
      checks: this.checks,
      lineAt: (line) => this.at(line),
      terms: this.terms(),
      ...result,
    };
  }

  private given(line: GivenLine): void {
    this.describe(line, originText(line));
    const formula = this.givenFormula(line);
    if (formula === undefined) this.constant(VALUE, line.value);
    else this.formula(VALUE, formula, styleOf(line.value));
    this.shown(line);
    this.endWithChecks(line);
  }

  /** Undefined for a value that stands in the formula itself, or is the function's own. */
  private givenFormula({ link, value }: GivenLine): string | undefined {
    switch (link.kind) {
      case "linked":
        return this.originFormula(link.origin, link.perUnit, value);
      case "line":
        return this.at(link.line);
      case "native":
        return nativeText(link.native, this.place, (line) => this.at(line));
      default:
        return undefined;
    }
  }

  private originFormula(
    origin: Origin,
    perUnit: number,
    value: number | string,
  ): string | undefined {
    const where = this.originText(origin);
    if (where === undefined) return undefined;
    // A blank cell that counts as 0 may hold text of no length.
    if (value === 0) return `N(${where})`;
    return perUnit === 1 ? where : `${where}/${String(perUnit)}`;
  }

  private originText(origin: Origin): string | undefined {
    if (origin.kind === "cell")
      return this.place.area(origin.area, origin.area.address);
    const { part } = origin;
    if (origin.kind === "within")
      return part.kind === "call"
        ? this.place.resultCell(part, origin.row, origin.column)
        : undefined;
    if (part.kind === "literal") return undefined;
    const text = partNative(part, this.place);
    return part.kind === "expression" ? `(${text})` : text;
  }

  private step(line: StepLine): void {
    const { step } = line;
    const at = (field: string) => this.at(line.lineOf(field));
    this.describe(line, this.stepText(line));
    if (step.kind === "formula") {
      this.formula(VALUE, asNative(step.formula, at), "result");
    } else {
      const elsewhere = this.place.solvedAt?.(line.key);
      if (elsewhere)
        this.formula(
          VALUE,
          this.place.area(elsewhere, elsewhere.address),
          "result",
        );
      else this.constant(VALUE, line.value);
    }
    this.shown(line);
    if (step.cite !== "definition")
      this.text(SOURCE, citationLine(step.cite), "remark", step.cite);
    this.endWithChecks(line);
    if (step.kind === "solved") this.residual(line, step.residual, at);
  }

  private residual(
    line: StepLine,
    residual: string,
    at: (field: string) => string,
  ): void {
    this.text(LABEL, `Left over of its equation`, "label");
    this.text(FROM, this.symbols(line, residual), "text");
    this.formula(VALUE, asNative(residual, at), "result");
    const terms = termsOf(residual);
    const size =
      terms.length > 1
        ? terms.map((term) => `ABS(${asNative(term, at)})`).join(",")
        : `1,ABS(${this.at(line.key)})`;
    this.text(CHECK, "0, to 1E-9 of its largest term", "text");
    const left = `ABS(${this.here(VALUE)})`;
    this.check(line.key, `${left}<=1E-9*MAX(${size})`);
    this.row += 1;
  }

  private stepText(line: StepLine): string {
    const { step } = line;
    switch (step.kind) {
      case "formula":
        return this.symbols(line, step.formula);
      case "lookup":
        return lookupText(step, this.line(line, step.key));
      case "solved":
        return "solved";
    }
  }

  private symbols(line: StepLine, formula: string): string {
    return inSymbols(
      formula,
      (field) => this.line(line, field)?.quantity.symbol ?? field,
    );
  }

  /** The line that a field of a step's formula is. */
  private line({ lineOf }: StepLine, field: string): Line | undefined {
    return this.lines.get(lineOf(field) ?? "");
  }

  private describe({ quantity }: Line, from: string): void {
    this.text(LABEL, quantity.label, "label");
    this.text(SYMBOL, quantity.symbol, "text");
    this.text(FROM, from, "text");
    this.text(UNIT, quantity.unit === "1" ? "" : quantity.unit, "unit");
  }

  private shown({ quantity, value }: Line): void {
    const { shown } = quantity;
    if (!shown || typeof value !== "number") return;
    const factor = String(shown.perUnit);
    this.formula(SHOWN, `${this.here(VALUE)}*${factor}`, "result");
    this.text(SHOWN_UNIT, shown.unit, "unit");
  }

  /** At least one row; one more for each further check. */
  private endWithChecks({ checks, key }: Line): void {
    checks.forEach(({ words, holds }, index) => {
      if (index > 0) this.row += 1;
      this.text(CHECK, words, "text");
      const holding = nativeText(holds, this.place, (line) => this.at(line));
      this.check(key, holding);
    });
    this.row += 1;
  }

  private check(line: string, condition: string): void {
    this.formula(HOLDS, yesOrNo(condition), "resultText");
    this.checks.push({ line, at: this.here(HOLDS) });
  }

  private result(): Pick<CallBlock, "resultAt" | "rows" | "columns"> {
    const { outcome, entry } = this.working.answer;
    if (this.place.solvedAt)
      return { rows: 0, columns: 0, resultAt: () => "NA()" };
    if (!outcome.ok) {
      this.text(LABEL, "Refused", "label");
      this.text(FROM, outcome.message, "text");
      this.formula(VALUE, "NA()", "result");
      const at = this.here(VALUE);
      this.row += 1;
      return { rows: 1, columns: 1, resultAt: () => at };
    }
    const table = tableOf(outcome.value);
    const [rows, columns] = [table.length, table[0]?.length ?? 0];
    const alone = rows === 1 && columns === 1;
    const { left, top } = this.place;
    const resultAt = alone
      ? (
          (fixed) => () =>
            fixed
        )(this.here(VALUE))
      : (row: number, column: number) =>
          at(left + TABLE + column, top + 2 + row);
    table.forEach((cells, row) =>
      this.resultRow(cells, row, (column) => resultAt(row, column), alone),
    );
    if (alone) {
      this.text(LABEL, "Result", "label");
      this.text(UNIT, unitOf(entry?.result.unit), "unit");
      this.row += 1;
    } else
      this.cells.push({
        at: at(left + TABLE, top + 1),
        value: "Result",
        style: "tableHeading",
      });
    return { rows, columns, resultAt };
  }

  private resultRow(
    cells: readonly Cell[],
    row: number,
    resultAt: (column: number) => string,
    alone: boolean,
  ): void {
    const same: string[] = [];
    cells.forEach((cell, column) => {
      const at = resultAt(column);
      const line = this.working.results[row]?.[column];
      const given = line && times(this.at(line.line), line.factor);
      if (given !== undefined && !this.place.resultAsItWas) {
        const style = alone ? "key" : "result";
        this.cells.push({ at, formula: given, style });
        return;
      }
      this.cells.push(constantCell(at, cell));
      if (given !== undefined) same.push(near(at, given));
    });
    if (same.length === 0) return;
    const { top, left } = this.place;
    const line = `result.${row}`;
    const check = alone
      ? this.here(HOLDS)
      : at(left + TABLE + cells.length, top + 2 + row);
    if (alone) this.text(CHECK, "as the steps give", "text");
    const formula = yesOrNo(`AND(${same.join(",")})`);
    this.cells.push({ at: check, formula, style: "resultText" });
    this.checks.push({ line, at: check });
  }

  private notes(): void {
    const { outcome } = this.working.answer;
    if (!outcome.ok) return;
    for (const note of new Set(outcome.notes.map(({ text }) => text))) {
      this.text(LABEL, "Note", "label");
      this.text(FROM, note, "text");
      this.row += 1;
    }
  }

  /** Of a result that one step gives. */
  private terms(): readonly string[] {
    const [[only] = []] = this.working.results;
    const line = only && this.lines.get(only.line);
    if (!only || line?.kind !== "step" || line.step.kind !== "formula")
      return [];
    const terms = termsOf(line.step.formula);
    if (terms.length < 2) return [];
    const at = (field: string) => this.at(line.lineOf(field));
    return terms.map((term) => times(`(${asNative(term, at)})`, only.factor));
  }

  /** Where a line's value stands. */
  private at(line: string | undefined): string {
    const row = this.rowOf.get(line ?? "");
    if (row === undefined) throw new Error(`no line ${String(line)}`);
    return at(this.place.left + VALUE, row);
  }

  private here(column: number): string {
    return at(this.place.left + column, this.row);
  }

  private text(
    column: number,
    value: string,
    style: StyleName,
    citation?: CitationId,
  ): void {
    if (value === "") return;
    this.cells.push({
      at: this.here(column),
      value,
      style,
      ...(citation && { citation }),
    });
  }

  private constant(column: number, value: number | string): void {
    this.cells.push({ at: this.here(column), value, style: styleOf(value) });
  }

  private formula(column: number, formula: string, style: StyleName): void {
    const written = notTooLong(formula);
    this.cells.push({ at: this.here(column), formula: written, style });
  }
}

function rowsOf(line: Line): number {
  const solved = line.kind === "step" && line.step.kind === "solved";
  return Math.max(1, line.checks.length) + (solved ? 1 : 0);
}

function styleOf(value: number | string): StyleName {
  return typeof value === "string" ? "resultText" : "result";
}

function unitOf(unit: string | undefined): string {
  return unit === undefined || unit === "1" ? "" : unit;
}

/** Solved numbers carry what their iteration left over. */
export function near(first: string, second: string): string {
  return `ABS(${first}-${second})<=1E-9*MAX(ABS(${first}),ABS(${second}))`;
}

function times(where: string, factor: number): string {
  return factor === 1 ? where : `${where}*${String(factor)}`;
}

/** A value as it was; an error of any kind becomes the one that a formula can make everywhere. */
export function constantCell(address: string, cell: Cell): PlanCell {
  if (isCellError(cell))
    return { at: address, formula: "NA()", style: "result" };
  if (cell === null || cell === "") return { at: address, style: "resultText" };
  return {
    at: address,
    value: cell,
    style: typeof cell === "number" ? "result" : "resultText",
  };
}
