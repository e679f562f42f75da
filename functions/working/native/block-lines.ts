/** The lines of a working as rows of native formulas. */
import type { BlockPlace } from "./block-place.js";
import { fieldsOf } from "../../../src/quantities/formulas.js";
import { citationLine } from "../../downfeed.js";
import { BlockRows, COLUMN, styleOf } from "./block-rows.js";
import type { Origin } from "../lines/call-answer.js";
import { nativeText, partNative } from "./native-writing.js";
import { asNative, inSymbols, sizesOf, termsOf } from "../text/step-text.js";
import { lookupText, originText } from "../text/working-of.js";
import type { GivenLine, Line, LineGroup, StepLine } from "../lines/working-lines.js";

/** What does not follow its inputs. */
export const SOLVED = "solved: frozen at these inputs";

export class BlockLines {
  private readonly lines: ReadonlyMap<string, Line>;
  private readonly rowOf = new Map<string, number>();

  constructor(
    private readonly groups: readonly LineGroup[],
    private readonly place: BlockPlace,
    private readonly rows: BlockRows,
  ) {
    const lines = groups.flatMap((group) => group.lines);
    this.lines = new Map(lines.map((line) => [line.key, line]));
  }

  /** Steps may read lines that stand further down, so every line has its row before any is written. */
  write(): void {
    let { row } = this.rows;
    for (const { title, lines } of this.groups) {
      if (title !== "") row += 1;
      for (const line of lines) {
        this.rowOf.set(line.key, row);
        row += rowsOf(line);
      }
    }
    for (const { title, lines } of this.groups) {
      if (title !== "") {
        this.rows.text(COLUMN.label, title, "subtitle");
        this.rows.row += 1;
      }
      for (const line of lines) {
        if (line.kind === "given") this.given(line);
        else this.step(line);
      }
    }
  }

  /** Where a line's value stands. */
  at(line: string | undefined): string {
    const row = this.rowOf.get(line ?? "");
    if (row === undefined) throw new Error(`no line ${String(line)}`);
    return new BlockRows(this.rows.left, row).here(COLUMN.value);
  }

  /** What the rounding of a step is measured by, beside its own size: terms that may cancel in it. */
  sizes(key: string): readonly string[] {
    const line = this.lines.get(key);
    if (line?.kind !== "step" || line.step.kind !== "formula") return [];
    const cell = this.cellIn(line);
    const sizes = sizesOf(line.step.formula).flatMap((size) => {
      const field = /^[A-Za-z]\w*$/.test(size) ? line.lineOf(size) : undefined;
      const inner = field === undefined ? [] : this.sizes(field);
      return [asNative(size, cell), ...inner];
    });
    return [...new Set(sizes)];
  }

  /** Whether a solved number enters a line's value, which then does not follow its inputs. */
  isSolved(key: string, seen = new Set<string>()): boolean {
    const line = this.lines.get(key);
    if (!line || seen.has(key)) return false;
    seen.add(key);
    if (line.kind === "given")
      return (
        line.link.kind === "frozen" ||
        (line.link.kind === "line" && this.isSolved(line.link.line, seen))
      );
    if (line.step.kind === "solved") return true;
    return (
      line.step.kind === "formula" &&
      fieldsOf(line.step.formula).some((field) => {
        const read = line.lineOf(field);
        return read !== undefined && this.isSolved(read, seen);
      })
    );
  }

  private given(line: GivenLine): void {
    this.describe(line, originText(line));
    const formula = this.givenFormula(line);
    if (formula === undefined) this.rows.constant(COLUMN.value, line.value);
    else this.rows.formula(COLUMN.value, formula, styleOf(line.value));
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
    const where = this.originPlace(origin);
    if (where === undefined) return undefined;
    // A blank cell that counts as 0 may hold text of no length.
    if (value === 0) return `N(${where})`;
    return perUnit === 1 ? where : `${where}/${String(perUnit)}`;
  }

  private originPlace(origin: Origin): string | undefined {
    if (origin.kind === "cell") return this.place.range(origin.range, origin.range.address);
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
    const { step, key, value } = line;
    this.describe(line, this.stepText(line));
    const elsewhere = this.place.solvedAt?.(key);
    if (step.kind === "formula") this.formula(asNative(step.formula, this.cellIn(line)));
    else if (step.kind === "solved" && elsewhere)
      this.formula(this.place.range(elsewhere, elsewhere.address));
    else this.rows.constant(COLUMN.value, value);
    this.shown(line);
    if (step.cite !== "definition") {
      const citation = citationLine(step.cite);
      this.rows.text(COLUMN.source, citation, "remark", step.cite);
    }
    this.endWithChecks(line);
    if (step.kind === "solved") this.residual(line, step.residual);
  }

  private residual(line: StepLine, residual: string): void {
    const { rows } = this;
    const cell = this.cellIn(line);
    rows.text(COLUMN.label, "Left over of its equation", "label");
    rows.text(COLUMN.from, this.symbols(line, residual), "text");
    this.formula(asNative(residual, cell));
    const terms = termsOf(residual);
    const size =
      terms.length > 1
        ? terms.map((term) => `ABS(${asNative(term, cell)})`).join(",")
        : `1,ABS(${this.at(line.key)})`;
    rows.text(COLUMN.check, "0, to 1E-9 of its largest term", "text");
    rows.check(line.key, `ABS(${rows.here(COLUMN.value)})<=1E-9*MAX(${size})`);
    rows.row += 1;
  }

  private formula(formula: string): void {
    this.rows.formula(COLUMN.value, formula, "result");
  }

  private stepText(line: StepLine): string {
    const { step } = line;
    if (step.kind === "solved") return SOLVED;
    return step.kind === "formula"
      ? this.symbols(line, step.formula)
      : lookupText(step, this.read(line, step.key));
  }

  private symbols(line: StepLine, formula: string): string {
    return inSymbols(formula, (field) => this.read(line, field)?.quantity.symbol ?? field);
  }

  /** The line that a field of a step's formula is, and where it stands. */
  private read({ lineOf }: StepLine, field: string): Line | undefined {
    return this.lines.get(lineOf(field) ?? "");
  }

  private cellIn({ lineOf }: StepLine): (field: string) => string {
    return (field) => this.at(lineOf(field));
  }

  private describe({ quantity }: Line, from: string): void {
    const unit = quantity.unit === "1" ? "" : quantity.unit;
    this.rows.text(COLUMN.label, quantity.label, "label");
    this.rows.text(COLUMN.symbol, quantity.symbol, "text");
    this.rows.text(COLUMN.from, from, "text");
    this.rows.text(COLUMN.unit, unit, "unit");
  }

  private shown({ quantity, value }: Line): void {
    const { shown } = quantity;
    if (!shown || typeof value !== "number") return;
    const formula = `${this.rows.here(COLUMN.value)}*${String(shown.perUnit)}`;
    this.rows.formula(COLUMN.shown, formula, "result");
    this.rows.text(COLUMN.shownUnit, shown.unit, "unit");
  }

  /** At least one row; one more for each further check. */
  private endWithChecks({ checks, key }: Line): void {
    checks.forEach(({ words, holds }, index) => {
      if (index > 0) this.rows.row += 1;
      this.rows.text(COLUMN.check, words, "text");
      const condition = nativeText(holds, this.place, (line) => this.at(line));
      this.rows.check(key, condition);
    });
    this.rows.row += 1;
  }
}

function rowsOf(line: Line): number {
  const solved = line.kind === "step" && line.step.kind === "solved";
  return Math.max(1, line.checks.length) + (solved ? 1 : 0);
}
