/**
 * A budget as new sheets in which no cell needs the add-in. What comes out of formulas and printed tables becomes native
 * formulas on a sheet `Workings`; solved numbers and texts become values, with native checks that say when they no
 * longer hold, because an input is not what it was or an equation is not satisfied any more.
 */
import { quotedSheet } from "../../../src/plans/addresses.js";
import { notAlike } from "../../../src/plans/plan-faults.js";
import type { PlanCell, SheetPlan, WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { type Cell, type CellTable, isCellTable } from "../../downfeed.js";
import { type Answers, answersOf, cellWithin } from "../lines/call-answer.js";
import { constantCell } from "../native/block-rows.js";
import type { FormulaTree, SheetRange } from "../lines/call-tree.js";
import type { CopiedCall } from "./copied-call.js";
import {
  type CopiedCell,
  type CopiedSheet,
  cellsOfSheet,
  copyKeys,
  copyName,
  lookOf,
  stylesOf,
  usualStyle,
} from "./copied-sheet.js";
import { TooLongError, notTooLong, partNative } from "../native/native-writing.js";
import { isEmptyCell } from "./held-inputs.js";
import { WorkingsSheet } from "./workings-sheet.js";

export interface CopyRequest {
  readonly title: string;
  readonly sheets: readonly CopiedSheet[];
  /** Of every cell with a formula, by sheet and address: `Budget!B4`. */
  readonly trees: ReadonlyMap<string, FormulaTree>;
}

export interface PlainCopy {
  readonly plan: WorkbookPlan;
  /** Cell of the sheet `workings` of the plan that says whether the values still hold. */
  readonly holdsAt: string;
}

export function plainCopy(request: CopyRequest): PlainCopy {
  return new Copier(request).copy();
}

class Copier {
  private readonly keys: ReadonlyMap<string, string>;
  private readonly workings: WorkingsSheet;
  private readonly answers = new Map<string, Answers>();

  constructor(private readonly request: CopyRequest) {
    const keys = copyKeys(request.sheets);
    this.keys = new Map(
      request.sheets.map(({ name }, index) => [name.toLowerCase(), keys[index] ?? ""]),
    );
    for (const [where, tree] of request.trees) {
      const answers = answersOf(tree);
      if (answers.size > 0) this.answers.set(where, answers);
    }
    this.workings = new WorkingsSheet(request.trees, this.answers, {
      named: (range, address, from) => this.named(range, address, from),
      isFree: (sheet, cells) => this.isFree(sheet, cells),
    });
  }

  copy(): PlainCopy {
    const copied = this.request.sheets.map((sheet) => this.sheet(sheet));
    const { sheets, holdsAt } = this.workings.sheets();
    return {
      holdsAt,
      plan: {
        id: "plain-copy",
        title: `${this.request.title}, plain copy`,
        stem: "Plain",
        names: [],
        sheets: [...copied, ...sheets],
      },
    };
  }

  private sheet(sheet: CopiedSheet): SheetPlan {
    const styles = stylesOf(sheet);
    const made = new Map<string, PlanCell>();
    const read = cellsOfSheet(sheet);
    for (const cell of read)
      // A cell that a spill reaches was read as a value; what it spilled from says more of it.
      for (const own of this.cellsFrom(sheet, cell))
        if (!made.has(own.at) || cell.formula !== "") made.set(own.at, own);
    const looked = read.flatMap((cell): PlanCell[] => {
      const own = made.get(cell.address);
      const planned = styles.get(cell.address);
      if (!own && planned === undefined) return [];
      const style = planned ?? usualStyle(cell);
      const format = cell.format === "General" ? {} : { format: cell.format };
      return [{ at: cell.address, ...own, style, ...format }];
    });
    return {
      key: this.key(sheet.name) ?? "",
      name: copyName(sheet.name, " plain"),
      ...lookOf(sheet),
      cells: withCells(looked, this.workings.besideSpills(sheet.name)),
      pictures: [],
    };
  }

  /** What a cell becomes, with all that spilled from it; nothing for a cell that holds nothing of its own. */
  private cellsFrom(sheet: CopiedSheet, cell: CopiedCell): PlanCell[] {
    const { address, formula, value } = cell;
    if (formula === "") return value === "" ? [] : [constantCell(address, value as Cell)];
    const tree = this.request.trees.get(`${sheet.name}!${address}`);
    if (!tree) return [asValue(cell, `its formula could not be read: ${formula}`)];
    const calls = this.workings.callsOf(tree);
    const shown = this.workings.shownBy(tree);
    const [call] = calls.filter(({ working }) => working.answer.call === shown);
    if (call) return this.calledCells(tree, cell, call);
    const note = calls.length > 0 ? { note: noteOf(tree, calls) } : {};
    const spilled = spilledValues(tree);
    if (spilled)
      return tableCells(tree.at, spilled, {
        note: `A value only: several cells came out of ${formula}`,
      });
    const native = this.native(tree, sheet.name);
    return native === undefined
      ? [asValue(cell, `not every spreadsheet reads it alike: ${formula}`)]
      : [{ at: address, formula: native, style: "result", ...note }];
  }

  /** A call alone in its cell, with all the cells that it spills over. */
  private calledCells(
    tree: FormulaTree,
    { address, value: shown }: CopiedCell,
    call: CopiedCall,
  ): PlanCell[] {
    const note = noteOf(tree, [call]);
    const { outcome } = call.working.answer;
    const { sheet } = tree.at;
    // A result that has no room to spill is an error in its cell.
    if (!outcome.ok || typeof shown === "object")
      return [{ at: address, formula: "NA()", style: "result", note }];
    if (!isCellTable(outcome.value)) {
      const formula = this.workings.resultOf(call, sheet);
      return [{ at: address, formula, style: "result", note }];
    }
    const { value: table } = outcome;
    return tableCells(tree.at, table, { note }, (row, column) =>
      // A formula that names an empty cell would say 0.
      isEmptyCell(table[row]?.[column] ?? null)
        ? undefined
        : this.workings.resultCellOf(call, row, column, sheet),
    );
  }

  /** Undefined for a formula that not every spreadsheet reads alike. */
  private native(tree: FormulaTree, sheet: string): string | undefined {
    try {
      const native = notTooLong(
        partNative(tree.whole, {
          range: (range, address) => this.named(range, address, sheet),
          result: (call) => this.workings.resultOf(this.workings.callOf(call), sheet),
        }),
      );
      const odd =
        notAlike(native).length > 0 ||
        /\{[A-Za-z]+\}(?![!.])/.test(native.replace(/"(?:[^"]|"")*"/g, ""));
      return odd ? undefined : native;
    } catch (error) {
      if (error instanceof TooLongError) return undefined;
      throw error;
    }
  }

  /** On the copy where the sheet was copied, in the workbook where not. */
  private named({ sheet }: SheetRange, address: string, from: string): string {
    if (sheet.toLowerCase() === from.toLowerCase()) return address;
    const key = this.key(sheet);
    return key === undefined ? `${quotedSheet(sheet)}!${address}` : `{${key}}!${address}`;
  }

  private key(sheet: string): string | undefined {
    return this.keys.get(sheet.toLowerCase());
  }

  /** Whether the cells beside a spill hold nothing. */
  private isFree(sheet: string, cells: readonly SheetRange[]): boolean {
    const read = this.request.sheets.find(({ name }) => name === sheet);
    if (!read) return false;
    const wanted = new Set(cells.map(({ address }) => address));
    return cellsOfSheet(read).every((cell) => !wanted.has(cell.address) || !hasContent(cell));
  }
}

function hasContent({ value, formula }: CopiedCell): boolean {
  return value !== "" || formula !== "";
}

function asValue({ address, value }: CopiedCell, why: string): PlanCell {
  return {
    ...constantCell(address, value as Cell),
    note: `A value only: ${why}`,
  };
}

/** The values of a native formula that gives several cells. */
function spilledValues({ whole }: FormulaTree): CellTable | undefined {
  if (whole.kind === "call" || !isCellTable(whole.value)) return undefined;
  return whole.value.flat().length > 1 ? whole.value : undefined;
}

function tableCells(
  anchor: SheetRange,
  table: CellTable,
  look: Pick<PlanCell, "note">,
  formulaAt: (row: number, column: number) => string | undefined = () => undefined,
): PlanCell[] {
  return table.flatMap((row, rowIndex) =>
    row.map((value, column): PlanCell => {
      const { address } = cellWithin(anchor, rowIndex, column);
      const formula = formulaAt(rowIndex, column);
      return formula === undefined
        ? { ...constantCell(address, value), ...look }
        : { at: address, formula, style: "result", ...look };
    }),
  );
}

function withCells(cells: readonly PlanCell[], others: readonly PlanCell[]): PlanCell[] {
  const taken = new Set(others.map(({ at }) => at));
  return [...cells.filter(({ at }) => !taken.has(at)), ...others];
}

function noteOf(tree: FormulaTree, calls: readonly CopiedCall[]): string {
  const told = calls.map(({ told: how }) => how);
  return [`Was ${tree.text}`, ...new Set(told)].join("\n");
}
