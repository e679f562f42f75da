/**
 * The sheet `Workings` of a plain copy: every call of a cell function that was copied, how it is worked out without the
 * add-in, and whether what is not worked out anew still holds.
 */
import { cellPlace, fixedAddress } from "../../../src/plans/addresses.js";
import { at, quoted, valueCell } from "../../../src/plans/sheet-builder.js";
import type { PlanCell, PlanRule, SheetPlan } from "../../../src/plans/sheet-plan.js";
import { BLOCK_COLUMNS, BLOCK_WIDTHS, COLUMN, constantCell } from "../native/block-rows.js";
import type { Answers } from "../lines/call-answer.js";
import { type CallBlock, callBlock } from "../native/call-block.js";
import type { CallPart, FormulaTree, SheetRange } from "../lines/call-tree.js";
import { type CallWorking, callWorking } from "../lines/call-working.js";
import {
  type CopiedCall,
  type CopyWay,
  isByWords,
  isHeld,
  blockConditions,
  cellsNamed,
  heldCells,
  copyWay,
  givesTable,
  wayTold,
} from "./copied-call.js";
import { stateFormula, stateRules } from "./copy-state.js";
import { FeedSpill } from "./feed-spill.js";
import { shownCall } from "../lines/shown-call.js";
import { type HeldCell, HeldInputs, sameRanges } from "./held-inputs.js";
import { type Surroundings, TooLongError, yesOrNo } from "../native/native-writing.js";
import { tableOf } from "../lines/result-lines.js";
import { cellsBeside, columnBeside } from "./spill-checks.js";

const WORKINGS = "workings";
const HELD = "held";
/** No sheet of the copied workbook: formulas on the two sheets here name every other sheet. */
const HERE = "";

const HOLDS_ROW = 4;
const HOLDS_AT = at(COLUMN.value, HOLDS_ROW);
const LIST_ROW = 8;

/** What is below the title of both sheets here: whether the figures of the copy hold. */
const STATE_AT = "A3";

export interface CopySurroundings {
  /** Behind the names of the sheets here, where a copy like it stands in the workbook already. */
  readonly suffix: string;
  /** What a range is called on the copy, for its reader. */
  readonly calledHere: (range: SheetRange) => string;
  /** An range as a formula on a sheet of the copy names it. */
  readonly named: (range: SheetRange, address: string, from: string) => string;
  /** Whether the cells hold nothing. */
  readonly isFree: (sheet: string, cells: readonly SheetRange[]) => boolean;
}

export class WorkingsSheet {
  private readonly calls = new Map<CallPart, CopiedCall>();
  private readonly byTree = new Map<FormulaTree, CopiedCall[]>();
  private readonly shown = new Map<FormulaTree, CallPart | undefined>();
  private readonly cells: PlanCell[] = [];
  private readonly beside = new Map<string, PlanCell[]>();
  private readonly held: HeldInputs;
  private readonly around: Surroundings;
  private row: number;

  constructor(
    trees: ReadonlyMap<string, FormulaTree>,
    answers: ReadonlyMap<string, Answers>,
    private readonly copy: CopySurroundings,
  ) {
    this.held = new HeldInputs((range) => copy.named(range, range.address, HERE), copy.calledHere);
    this.around = {
      range: (range, address) => copy.named(range, address, HERE),
      result: (call) => this.resultOf(this.callOf(call), HERE),
    };
    const ofCells = [...answers].flatMap(([where, ofCell]) => {
      const tree = trees.get(where)!;
      this.shown.set(tree, shownCall(tree, ofCell));
      return [...ofCell.values()].map((answer) => ({ tree, answer }));
    });
    this.row = LIST_ROW + ofCells.length + 2;
    ofCells.forEach(({ tree, answer }, index) => {
      const call = this.copied(tree, callWorking(answer), LIST_ROW + index);
      this.calls.set(answer.call, call);
      this.byTree.set(tree, [...this.callsOf(tree), call]);
    });
  }

  callOf(call: CallPart): CopiedCall {
    const found = this.calls.get(call);
    if (!found) throw new Error(`${call.text} was not copied`);
    return found;
  }

  callsOf(tree: FormulaTree): readonly CopiedCall[] {
    return this.byTree.get(tree) ?? [];
  }

  /** The call whose result the tree's cell shows. */
  shownBy(tree: FormulaTree): CallPart | undefined {
    return this.shown.get(tree);
  }

  /** What stands for a call in a formula on a sheet. */
  resultOf({ how, block, listRow }: CopiedCall, from: string): string {
    if (how === "refused") return "NA()";
    if (!block) return prefixed(at(COLUMN.value, listRow), from);
    const first = block.resultAt(0, 0);
    const last = block.resultAt(block.rows - 1, block.columns - 1);
    return prefixed(first === last ? first : `${first}:${last}`, from);
  }

  /** The cell of a number of a spilled result; undefined where the spill itself holds it, as a solved number. */
  resultCellOf(
    { block, spill }: CopiedCall,
    row: number,
    column: number,
    from: string,
  ): string | undefined {
    if (!block) return undefined;
    if (!spill) return prefixed(block.resultAt(row, column), from);
    const line = spill.workedOutBy(row, column);
    return line === undefined ? undefined : prefixed(block.lineAt(line), from);
  }

  /** A cell that is a value though it held a formula without a call: it holds while the cells that it read do. */
  holdValue(tree: FormulaTree, why: string): void {
    const row = this.row;
    this.row += 1;
    const conditions = this.sameConditions(heldCells(tree.whole));
    this.cells.push(
      valueCell(COLUMN.label, row, this.copy.calledHere(tree.at), "label"),
      valueCell(COLUMN.from, row, why, "text"),
    );
    if (conditions.length > 0) this.cells.push(this.holdsCell(row, conditions));
  }

  /** A column that says of each row of a spill whether it still holds, where there was room. */
  besideSpills(sheet: string): readonly PlanCell[] {
    return this.beside.get(sheet) ?? [];
  }

  sheets(): {
    readonly sheets: readonly SheetPlan[];
    readonly holdsAt: string;
  } {
    const held = this.held.cells();
    const own = [...this.head(), ...this.cells];
    const { suffix } = this.copy;
    const sheets = [this.sheetOf(WORKINGS, `Workings${suffix}`, BLOCK_WIDTHS, own)];
    if (held.length > 0)
      sheets.push(this.sheetOf(HELD, `Inputs as they were${suffix}`, HELD_WIDTHS, held));
    return { sheets, holdsAt: HOLDS_AT };
  }

  /**
   * The first heading of a table whose formulas its inputs chose: an error once they are others, as the first cell of a
   * spill is that has none. Whoever counts or sums its columns asks it first.
   */
  headingOf({ how, listRow }: CopiedCall, heading: string): string | undefined {
    if (how !== "native here") return undefined;
    const holds = `{${WORKINGS}}!${fixedAddress(at(COLUMN.holds, listRow))}`;
    return `IF(${holds}="no",NA(),${quoted(heading)})`;
  }

  /** True while every input is what it was, in a formula of any other sheet. */
  get holds(): string {
    return `{${WORKINGS}}!${fixedAddress(HOLDS_AT)}="yes"`;
  }

  private sheetOf(
    key: string,
    name: string,
    columnWidths: readonly number[],
    cells: readonly PlanCell[],
  ): SheetPlan {
    const state: PlanCell = {
      at: STATE_AT,
      formula: stateFormula(key === WORKINGS ? `${fixedAddress(HOLDS_AT)}="yes"` : this.holds),
      style: "label",
    };
    return {
      key,
      name,
      columnWidths,
      cells: [...cells, state],
      frozenRows: cellPlace(STATE_AT).row + 1,
      merges: [],
      validations: [],
      conditionalFormats: [...stateRules(STATE_AT, []), ...noRules(cells)],
      pictures: [],
    };
  }

  private copied(tree: FormulaTree, working: CallWorking, listRow: number): CopiedCall {
    const { call, outcome } = working.answer;
    const isWhole = this.shownBy(tree) === call;
    const isFeed = call.id === "CHAIN_SOLVE" && working.kind === "solved";
    const spill = isFeed && isWhole ? new FeedSpill(working, tree.at) : undefined;
    const wanted = copyWay(working, spill);
    const needsBlock = outcome.ok && (wanted !== "value" || (givesTable(working) && !isWhole));
    const holdsAt = wanted === "native here" ? at(COLUMN.holds, listRow) : undefined;
    const made = needsBlock ? this.block(working, spill, holdsAt) : undefined;
    const how = made instanceof TooLongError ? "value" : wanted;
    const block = made instanceof TooLongError ? undefined : made;
    const why = made instanceof TooLongError ? `; ${made.message}` : "";
    const told = wayTold(how, working, listRow) + why;
    const copied = { tree, working, how, told, listRow, block, spill };
    this.list(copied, isWhole);
    if (block && spill) this.writeBeside(block, spill, listRow);
    return copied;
  }

  /** Or why there can be none. */
  private block(
    working: CallWorking,
    spill: FeedSpill | undefined,
    holdsAt: string | undefined,
  ): CallBlock | TooLongError {
    try {
      const block = callBlock(working, {
        ...this.around,
        left: 0,
        top: this.row,
        resultCell: (call, row, column) =>
          this.resultCellOf(this.callOf(call), row, column, HERE) ?? "NA()",
        ...(spill && { solvedAt: (line: string) => spill.solvedAt(line) }),
        ...(working.kind === "solved" && {
          resultAsItWas: isByWords(working) ? "solved" : "all",
        }),
        ...(holdsAt !== undefined && { holdsAt }),
      });
      this.cells.push(...block.cells);
      this.row = block.next;
      return block;
    } catch (error) {
      if (error instanceof TooLongError) return error;
      throw error;
    }
  }

  private writeBeside(block: CallBlock, spill: FeedSpill, listRow: number): void {
    const { sheet } = spill.anchor;
    if (!this.copy.isFree(sheet, cellsBeside(spill))) return;
    const whole = at(COLUMN.holds, listRow);
    const cells = columnBeside(spill, block, whole, (address) => prefixed(address, sheet));
    this.beside.set(sheet, [...this.besideSpills(sheet), ...cells]);
  }

  private list(call: CopiedCall, isWhole: boolean): void {
    const { working, how, listRow, block, tree, told } = call;
    const { outcome } = working.answer;
    this.cells.push(
      valueCell(COLUMN.label, listRow, this.copy.calledHere(tree.at), "label"),
      valueCell(COLUMN.symbol, listRow, working.answer.call.id, "text"),
      valueCell(COLUMN.from, listRow, told, "text"),
    );
    if (how === "value" && !block && outcome.ok) {
      const inSheet = isWhole && givesTable(working);
      const value = tableOf(outcome.value)[0]?.[0] ?? "";
      const shown = inSheet ? "in the sheet itself" : value;
      this.cells.push(constantCell(at(COLUMN.value, listRow), shown));
    }
    const conditions = [
      ...(block ? blockConditions(block) : []),
      ...(how === "native" ? [] : this.heldConditions(working, how)),
    ];
    if (conditions.length > 0) this.cells.push(this.holdsCell(listRow, conditions));
  }

  private holdsCell(row: number, conditions: readonly string[]): PlanCell {
    return {
      at: at(COLUMN.holds, row),
      formula: yesOrNo(`AND(${conditions.join(",")})`),
      style: "resultText",
    };
  }

  private heldConditions(working: CallWorking, how: CopyWay): string[] {
    const follows = how === "native here" && isByWords(working);
    const cells = cellsNamed(working);
    return this.sameConditions(follows ? cells.filter(isHeld(working)) : cells);
  }

  private sameConditions(cells: readonly HeldCell[]): string[] {
    const rows = this.held.rowsOf(cells);
    return sameRanges(rows).map((range) => `COUNTIF({${HELD}}!${range},"no")=0`);
  }

  private head(): PlanCell[] {
    const listed = `$I$${LIST_ROW}:$I$${this.row}`;
    const holds = BLOCK_COLUMNS[COLUMN.holds];
    return [
      valueCell(0, 1, "Workings of this plain copy", "title"),
      valueCell(0, 2, NO_ADD_IN, "subtitle"),
      valueCell(0, HOLDS_ROW, "Solved values still hold", "label"),
      {
        at: at(COLUMN.value, HOLDS_ROW),
        formula: `IF(COUNTIF(${listed},"no")=0,"yes","${STALE}")`,
        style: "key",
      },
      ...["Cell", "Function", "Here", "Value"].map((heading, column) =>
        valueCell(column, LIST_ROW - 1, heading, "tableHeading"),
      ),
      valueCell(COLUMN.holds, LIST_ROW - 1, holds, "tableHeading"),
    ];
  }
}

const NO_ADD_IN =
  "No cell of this copy needs the add-in. Native formulas follow the inputs; they do not refuse impossible ones, as the functions do.";
const STALE = "no: inputs have changed since these values were solved; solve again with the add-in";
const HELD_WIDTHS = [220, 160, 160, 60];

function prefixed(address: string, from: string): string {
  const prefix = from === HERE ? "" : `{${WORKINGS}}!`;
  return prefix + fixedAddress(address);
}

/** Every "no" is painted, in the columns that may hold one. */
function noRules(cells: readonly PlanCell[]): PlanRule[] {
  const rows = new Map<number, number>();
  for (const { at: address, formula } of cells) {
    if (!formula?.endsWith(',"yes","no"),"no")')) continue;
    const { row, column } = cellPlace(address);
    rows.set(column, Math.max(row, rows.get(column) ?? 0));
  }
  return [...rows].map(([column, last]) => ({
    range: `${at(column, 1)}:${at(column, last + 1)}`,
    kind: "text",
    text: "no",
    paint: "danger",
  }));
}
