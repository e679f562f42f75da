/**
 * The working of a cell laid out as cells of a sheet: native formulas that read the cells which the original formula
 * reads, and in the last row whether they still come to the same as the function. No cell of it needs the add-in.
 */
import type { BlockPlace } from "./block-place.js";
import { rangePlace, cellAddress, quotedSheet } from "../../../src/plans/addresses.js";
import { at } from "../../../src/plans/sheet-builder.js";
import type { PlanCell, PlanRule, StyleName, WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { type CellTable, isCellTable } from "../../downfeed.js";
import { type Answers, answersOf, cellWithin } from "../lines/call-answer.js";
import { BLOCK_WIDTHS, COLUMN } from "./block-rows.js";
import { type CallBlock, callBlock } from "./call-block.js";
import type { CallPart, FormulaTree, SheetRange } from "../lines/call-tree.js";
import { callWorking, isSolved } from "../lines/call-working.js";
import { TooLongError, notTooLong, partNative, sameCell, yesOrNo } from "./native-writing.js";
import { shownCall } from "../lines/shown-call.js";

const FROZEN =
  "Solved numbers are frozen at these inputs, at which each equation below is 0 and the result is the function's.";
const INPUTS_CHANGED =
  "The inputs changed: the solved numbers below are frozen at those before, and no longer hold.";

/** Column from 0, row from 1. */
export interface LayoutPlace {
  readonly left: number;
  readonly top: number;
}

export type LaidOut =
  | {
      readonly ok: true;
      /** Formulas refer to other cells of the layout without a sheet, and to the workbook's with one. */
      readonly cells: readonly PlanCell[];
      /** All cells lie in it. */
      readonly range: string;
      readonly columnWidths: readonly number[];
      /** Cell that says `yes` or `no`: the same as the function. */
      readonly sameAt: string;
      /** What says `no` is painted. */
      readonly rules: readonly PlanRule[];
    }
  | { readonly ok: false; readonly why: string };

/** @param row Of the spilled result, from 0, where a function has a working for each: that row alone is laid out then. */
export function laidOut(
  tree: FormulaTree,
  place: LayoutPlace = { left: 0, top: 1 },
  row?: number,
): LaidOut {
  const whole = answersOf(tree);
  if (whole.size === 0) return { ok: false, why: "there is no call of a Downfeed function in it" };
  const shown = shownCall(tree, whole);
  const isByRow = row !== undefined && row > 0 && shown && whole.get(shown)?.workings.length === 0;
  const answers = isByRow ? answersOf(tree, row) : whole;
  try {
    return new Layout(tree, answers, place, isByRow ? row : undefined).laid();
  } catch (error) {
    if (!(error instanceof TooLongError)) throw error;
    return { ok: false, why: error.message };
  }
}

export type LaidOutPlan =
  | { readonly ok: true; readonly plan: WorkbookPlan; readonly sameAt: string }
  | { readonly ok: false; readonly why: string };

/** The layout as a sheet of its own. */
export function laidOutPlan(tree: FormulaTree, row?: number): LaidOutPlan {
  const laid = laidOut(tree, undefined, row);
  if (!laid.ok) return laid;
  const sheet = {
    key: "working",
    name: "Working",
    columnWidths: laid.columnWidths,
    frozenRows: 0,
    cells: laid.cells,
    merges: [],
    validations: [],
    conditionalFormats: laid.rules,
    pictures: [],
  };
  const plan: WorkbookPlan = {
    id: "laid-out",
    title: "Working",
    stem: "Working",
    names: [],
    sheets: [sheet],
  };
  return { ok: true, plan, sameAt: laid.sameAt };
}

/** Every cell of the layout's range, row by row, to write beside other cells: formulas with `=`, "" for nothing. */
export function layoutGrid({
  cells,
  range,
}: LaidOut & { readonly ok: true }): (string | number | boolean)[][] {
  const { top, left, bottom, right } = rangePlace(range);
  const byAddress = new Map(cells.map((cell) => [cell.at, cell]));
  return Array.from({ length: bottom - top + 1 }, (_, row) =>
    Array.from({ length: right - left + 1 }, (_, column) => {
      const address = { row: top + row, column: left + column };
      const cell = byAddress.get(cellAddress(address));
      if (cell?.formula !== undefined) return `=${cell.formula}`;
      const value = cell?.value ?? "";
      // The original formula is told as text; with its sign it would be entered as a formula again.
      return typeof value === "string" ? value.replace(/^=/, "") : value;
    }),
  );
}

class Layout {
  private readonly cells: PlanCell[] = [];
  private readonly blocks = new Map<CallPart, CallBlock>();
  private isFrozen = false;
  private row: number;
  private readonly around: Omit<BlockPlace, "left" | "top">;

  constructor(
    private readonly tree: FormulaTree,
    private readonly answers: Answers,
    private readonly place: LayoutPlace,
    private readonly only: number | undefined,
  ) {
    this.row = place.top;
    this.around = {
      range: ({ sheet }, address) => `${quotedSheet(sheet)}!${address}`,
      result: (call) => this.result(call),
      resultCell: (call, row, column) => this.blocks.get(call)?.resultAt(row, column) ?? "NA()",
    };
  }

  laid(): LaidOut & { readonly ok: true } {
    const { text, at: where } = this.tree;
    this.write(0, `Working of ${where.sheet}!${where.address}`, "title");
    this.row += 1;
    this.write(0, text, "subtitle");
    this.row += 1;
    const frozenRow = this.row;
    this.row += 1;
    for (const answer of this.answers.values()) {
      // What is refused in a branch that is not taken has nothing to lay out.
      if (answer.call.untaken && !answer.outcome.ok) continue;
      const working = callWorking(answer);
      const { left } = this.place;
      const only = answer.depth === 0 ? this.only : undefined;
      const block = callBlock(working, { ...this.around, left, top: this.row, only });
      this.isFrozen ||= isSolved(working);
      this.blocks.set(answer.call, block);
      this.cells.push(...block.cells);
      this.row = block.next;
    }
    const sameAt = this.lastRow();
    if (this.isFrozen) this.sayFrozen(frozenRow, sameAt);
    return {
      ok: true,
      cells: this.cells,
      range: rangeOf(this.cells),
      columnWidths: BLOCK_WIDTHS,
      sameAt,
      rules: [...this.checkColumns(), sameAt].map((range) => ({
        range,
        kind: "text",
        text: "no",
        paint: "danger",
      })),
    };
  }

  /** Solved numbers do not follow their inputs: they are those at which each equation's check says yes. */
  private sayFrozen(row: number, sameAt: string): void {
    const holds = this.holdsColumn();
    this.cells.push({
      at: at(this.place.left, row),
      formula: `IF(AND(COUNTIF(${holds},"no")=0,${sameAt}="yes"),"${FROZEN}","${INPUTS_CHANGED}")`,
      style: "label",
    });
  }

  /** Range of the column that says whether lines hold, over all blocks above the last row. */
  private holdsColumn(): string {
    const column = this.place.left + COLUMN.holds;
    return `${at(column, this.place.top)}:${at(column, this.row - 1)}`;
  }

  private checkColumns(): string[] {
    const columns = new Map<number, number[]>();
    for (const check of [...this.blocks.values()].flatMap(({ checks }) => checks)) {
      const { left, top } = rangePlace(check.at);
      columns.set(left, [...(columns.get(left) ?? []), top]);
    }
    return [...columns].map(([column, rows]) => {
      const first = cellAddress({ row: Math.min(...rows), column });
      const last = cellAddress({ row: Math.max(...rows), column });
      return first === last ? first : `${first}:${last}`;
    });
  }

  private result(call: CallPart): string {
    const block = this.blocks.get(call);
    if (!block) return "NA()";
    const first = block.resultAt(0, 0);
    const last = block.resultAt(block.laidRows.at(-1) ?? 0, block.columns - 1);
    return first === last ? first : `${first}:${last}`;
  }

  /** The formula over the blocks, the cell itself, and whether they are the same. */
  private lastRow(): string {
    const { whole, at: cell, text } = this.tree;
    const shown = shownCall(this.tree, this.answers);
    const block = shown && this.blocks.get(shown);
    const value = shown && this.answers.get(shown)?.outcome;
    const table = value?.ok && isCellTable(value.value) ? value.value : undefined;
    this.write(0, "Same as the function", "label");
    this.write(2, text, "text");
    if (block && table) return this.sameTable(block, table);
    this.formula(3, notTooLong(partNative(whole, this.around)), "key");
    this.formula(5, this.original(cell), "result");
    this.write(6, "the cell", "unit");
    const [mine, theirs] = [this.here(3), this.here(5)];
    const same = sameCell(theirs, mine, this.share(), block?.sizesAt(0, 0));
    this.formula(8, yesOrNo(same), "key");
    return this.here(8);
  }

  private sameTable(block: CallBlock, table: CellTable): string {
    const checks = block.laidRows.flatMap((row) => {
      const cells = table[row]!;
      const behind = rangePlace(block.resultAt(row, block.columns - 1));
      const same = cells.map((_, column) =>
        sameCell(
          this.original(cellWithin(this.tree.at, row, column)),
          block.resultAt(row, column),
          this.share(),
          block.sizesAt(row, column),
        ),
      );
      return inCells(same).map((conditions, index) => {
        const column = behind.left + 1 + index;
        const check = cellAddress({ row: behind.top, column });
        this.cells.push({
          at: check,
          formula: yesOrNo(`AND(${conditions.join(",")})`),
          style: "resultText",
        });
        return { at: check };
      });
    });
    const all = rangeOf(checks);
    this.formula(8, `IF(COUNTIF(${all},"no")=0,"yes","no")`, "key");
    return this.here(8);
  }

  /** Solved numbers carry what their iteration left over. */
  private share(): string {
    return this.isFrozen ? "1E-9" : "1E-12";
  }

  private original(cell: SheetRange): string {
    return this.around.range(cell, cell.address);
  }

  private here(column: number): string {
    return at(this.place.left + column, this.row);
  }

  private write(column: number, value: string, style: StyleName): void {
    this.cells.push({ at: this.here(column), value, style });
  }

  private formula(column: number, formula: string, style: StyleName): void {
    this.cells.push({ at: this.here(column), formula, style });
  }
}

/** Characters of the conditions in one cell: that of a wide row are too many for one. */
const MOST_CONDITIONS = 7000;

/** In as few cells as they fit. */
function inCells(conditions: readonly string[]): string[][] {
  const cells: string[][] = [[]];
  let length = 0;
  for (const condition of conditions) {
    length += condition.length + 1;
    if (length > MOST_CONDITIONS && cells.at(-1)!.length > 0) {
      cells.push([]);
      length = condition.length + 1;
    }
    cells.at(-1)!.push(condition);
  }
  return cells;
}

function rangeOf(cells: readonly Pick<PlanCell, "at">[]): string {
  const places = cells.map((cell) => rangePlace(cell.at));
  const first = cellAddress({
    row: Math.min(...places.map(({ top }) => top)),
    column: Math.min(...places.map(({ left }) => left)),
  });
  const last = cellAddress({
    row: Math.max(...places.map(({ bottom }) => bottom)),
    column: Math.max(...places.map(({ right }) => right)),
  });
  return `${first}:${last}`;
}
