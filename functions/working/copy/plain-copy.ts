/**
 * A budget as new sheets in which no cell needs the add-in. What comes out of formulas and printed tables becomes native
 * formulas on a sheet `Workings`; solved numbers and texts become values, with native checks that say when they no
 * longer hold, because an input is not what it was or an equation is not satisfied any more.
 */
import { rangePlace, quotedSheet } from "../../../src/plans/addresses.js";
import { notAlike } from "../../../src/plans/plan-faults.js";
import type { PlanCell, SheetPlan, WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { type Cell, type CellTable, isCellTable } from "../../downfeed.js";
import { type Answers, answersOf, cellWithin } from "../lines/call-answer.js";
import { constantCell } from "../native/block-rows.js";
import { type FormulaTree, referencesOf, type SheetRange } from "../lines/call-tree.js";
import { type CopiedCall, isFrozen } from "./copied-call.js";
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
import { TooLongError, notTooLong, partNative, textLiteral } from "../native/native-writing.js";
import { isEmptyCell } from "./held-inputs.js";
import { FIGURES_HOLD, stateCell, stateRules, stateWith } from "./copy-state.js";
import { type ReadingCell, VoidCells, type WhenVoid } from "./void-cells.js";
import { WorkingsSheet } from "./workings-sheet.js";

export interface CopyRequest {
  readonly title: string;
  readonly sheets: readonly CopiedSheet[];
  /** Formula tree of every cell with a formula, by sheet and address: `Budget!B4`. */
  readonly trees: ReadonlyMap<string, FormulaTree>;
}

/** What the sheets of a copy are called: as those that were copied, in a file of its own; else so that nobody takes one for the other. */
export type CopyNames = "as they are" | { readonly count: number };

export interface PlainCopy {
  readonly plan: WorkbookPlan;
  /** Cell of the sheet `workings` of the plan that says whether the values still hold. */
  readonly holdsAt: string;
  /** What formulas of the copied sheets come to while its figures hold, by sheet of the plan and address. */
  readonly results: ReadonlyMap<string, string | number | boolean>;
}

export function plainCopy(request: CopyRequest, names: CopyNames = { count: 1 }): PlainCopy {
  return new Copier(request, names).copy();
}

/** The first names of a copy's sheets that are not taken. */
export function freeCopyNames({ sheets }: CopyRequest, taken: readonly string[]): CopyNames {
  const names = new Set(taken.map((name) => name.toLowerCase()));
  let count = 1;
  const isTaken = () =>
    [...sheets.map(({ name }) => copyName(name, plainSuffix(count))), ...ownNames(count)].some(
      (name) => names.has(name.toLowerCase()),
    );
  while (isTaken()) count += 1;
  return { count };
}

/** Beside sheets that keep their names. */
function freeOwn({ sheets }: CopyRequest): number {
  const names = new Set(sheets.map(({ name }) => name.toLowerCase()));
  let count = 1;
  while (ownNames(count).some((name) => names.has(name.toLowerCase()))) count += 1;
  return count;
}

function plainSuffix(count: number): string {
  return count === 1 ? " plain" : ` plain ${count}`;
}

function ownSuffix(count: number): string {
  return count === 1 ? "" : ` ${count}`;
}

function ownNames(count: number): string[] {
  return ["Workings", "Inputs as they were"].map((name) => name + ownSuffix(count));
}

class Copier {
  private readonly keys: ReadonlyMap<string, string>;
  private readonly workings: WorkingsSheet;
  private readonly answers = new Map<string, Answers>();
  private readonly voids = new VoidCells();
  private readonly readRanges: readonly SheetRange[];

  constructor(
    private readonly request: CopyRequest,
    private readonly names: CopyNames,
  ) {
    const keys = copyKeys(request.sheets);
    this.keys = new Map(
      request.sheets.map(({ name }, index) => [name.toLowerCase(), keys[index] ?? ""]),
    );
    for (const [where, tree] of request.trees) {
      const answers = answersOf(tree);
      if (answers.size > 0) this.answers.set(where, answers);
    }
    this.workings = new WorkingsSheet(request.trees, this.answers, {
      suffix: ownSuffix(names === "as they are" ? freeOwn(request) : names.count),
      calledHere: ({ sheet, address }) => `${this.nameOf(sheet)}!${address}`,
      named: (range, address, from) => this.named(range, address, from),
      isFree: (sheet, cells) => this.isFree(sheet, cells),
    });
    this.readRanges = [...request.trees.values()].flatMap((tree) => rangesRead(tree));
    this.findVoids();
  }

  copy(): PlainCopy {
    const copied = this.request.sheets.map((sheet) => this.sheet(sheet));
    const { sheets, holdsAt } = this.workings.sheets();
    return {
      holdsAt,
      results: this.results(copied),
      plan: {
        id: "plain-copy",
        title: `${this.request.title}, plain copy`,
        stem: "Plain",
        names: [],
        sheets: [...copied, ...sheets],
      },
    };
  }

  /** Solved figures, values, and all that reads them. */
  private findVoids(): void {
    const readers: ReadingCell[] = [];
    for (const sheet of this.request.sheets)
      for (const cell of cellsOfSheet(sheet)) {
        const tree = this.treeAt(sheet, cell);
        if (!tree) continue;
        const at = { sheet: sheet.name, address: cell.address };
        const isText = typeof cell.value === "string";
        const calls = this.workings.callsOf(tree);
        const shown = this.workings.shownBy(tree);
        const [whole] = calls.filter(({ working }) => working.answer.call === shown);
        if (whole) {
          if (isFrozen(whole)) this.voidResult(whole, at);
          continue;
        }
        const why = this.whyValue(tree, cell, sheet.name);
        if (why !== undefined) this.workings.holdValue(tree, why);
        if (why !== undefined || calls.some(isFrozen))
          this.voids.set(at, isText ? "blank" : "grey");
        spilledValues(tree)?.forEach((cells, row) =>
          cells.forEach((_, column) => this.voids.set(cellWithin(at, row, column), "grey")),
        );
        readers.push({ at, isText, reads: rangesRead(tree) });
      }
    this.voids.spreadTo(readers);
  }

  /** Marks the result as void when inputs change; a table's headings and the names of its rows stay as they are. */
  private voidResult({ working }: CopiedCall, anchor: SheetRange): void {
    const { outcome, entry } = working.answer;
    if (!outcome.ok) return;
    if (!isCellTable(outcome.value)) {
      this.voids.set(anchor, typeof outcome.value === "string" ? "blank" : "grey");
      return;
    }
    const hasHeadings = entry?.result.shape === "table";
    const verdicts = new Set(entry?.copied?.verdicts);
    const [headings = []] = outcome.value;
    outcome.value.forEach((cells, row) => {
      if (row === 0 && hasHeadings) return;
      cells.forEach((_, column) => {
        if (hasHeadings && column === 0) return;
        const when: WhenVoid = verdicts.has(String(headings[column])) ? "blank" : "grey";
        this.voids.set(cellWithin(anchor, row, column), when);
      });
    });
  }

  /** What formulas come to is read from the workbook; a state holds when the copy is made. */
  private results(copied: readonly SheetPlan[]): PlainCopy["results"] {
    const results = new Map<string, string | number | boolean>();
    this.request.sheets.forEach((sheet, index) => {
      const { key, cells } = copied[index]!;
      const values = new Map(cellsOfSheet(sheet).map(({ address, value }) => [address, value]));
      const state = this.stateAt(sheet);
      for (const { at, formula } of cells) {
        const value = at === state ? stateNow(values.get(at)) : values.get(at);
        if (formula !== undefined && value !== undefined && typeof value !== "object")
          results.set(`${key}!${at}`, value);
      }
    });
    return results;
  }

  private stateAt(sheet: CopiedSheet): string {
    return stateCell(sheet, (cell) => this.isRead(cell));
  }

  private isRead({ sheet, address }: SheetRange): boolean {
    const { top, left } = rangePlace(address);
    return this.readRanges.some((range) => {
      if (range.sheet.toLowerCase() !== sheet.toLowerCase()) return false;
      const place = rangePlace(range.address);
      const inRows = top >= place.top && top <= place.bottom;
      return inRows && left >= place.left && left <= place.right;
    });
  }

  private sheet(sheet: CopiedSheet): SheetPlan {
    const styles = stylesOf(sheet);
    const made = new Map<string, PlanCell>();
    const read = cellsOfSheet(sheet);
    const stateAt = this.stateAt(sheet);
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
      // What stands before the state goes with it.
      const blanked = own && own.at !== stateAt ? this.blankedWhenVoid(own, sheet.name) : own;
      return [{ at: cell.address, ...blanked, style, ...format }];
    });
    const look = lookOf(sheet);
    const before = looked.find(({ at }) => at === stateAt);
    const isVoid = this.voids.at({ sheet: sheet.name, address: stateAt }) !== undefined;
    const state = stateWith(stateAt, this.workings.holds, before && { ...before, isVoid });
    const grey = this.voids.rangesOf(sheet.name);
    return {
      key: this.key(sheet.name) ?? "",
      name: this.nameOf(sheet.name),
      ...look,
      conditionalFormats: [...stateRules(stateAt, grey), ...look.conditionalFormats],
      cells: withCells(looked, [...this.workings.besideSpills(sheet.name), state]),
      pictures: [],
    };
  }

  /** A verdict says nothing once an input is not what it was, and neither does what counts verdicts. */
  private blankedWhenVoid(cell: PlanCell, sheet: string): PlanCell {
    const { value, formula, ...rest } = cell;
    if (this.voids.at({ sheet, address: cell.at }) !== "blank") return cell;
    const told = formula ?? (typeof value === "string" ? textLiteral(value) : String(value));
    if (formula === undefined && (value === undefined || value === "")) return cell;
    return { ...rest, formula: notTooLong(`IF(${this.workings.holds},${told},"")`) };
  }

  /** What a cell becomes, with all that spilled from it; nothing for a cell that holds nothing of its own. */
  private cellsFrom(sheet: CopiedSheet, cell: CopiedCell): PlanCell[] {
    const { address, formula, value } = cell;
    if (formula === "") return value === "" ? [] : [constantCell(address, value as Cell)];
    const tree = this.treeAt(sheet, cell);
    if (!tree) return [asValue(cell, `its formula could not be read: ${formula}`)];
    const calls = this.workings.callsOf(tree);
    const shown = this.workings.shownBy(tree);
    const [call] = calls.filter(({ working }) => working.answer.call === shown);
    if (call) return this.calledCells(tree, cell, call);
    const spilled = spilledValues(tree);
    const why = this.whyValue(tree, cell, sheet.name);
    if (spilled) return tableCells(tree.at, spilled, { note: `A value only: ${why}` });
    if (why !== undefined) return [asValue(cell, why)];
    const note = calls.length > 0 ? { note: noteOf(tree, calls) } : {};
    return [{ at: address, formula: this.native(tree, sheet.name)!, style: "result", ...note }];
  }

  private treeAt({ name }: CopiedSheet, { address, formula }: CopiedCell): FormulaTree | undefined {
    return formula === "" ? undefined : this.request.trees.get(`${name}!${address}`);
  }

  /** Why the copy of a formula around calls, or without any, is a value. */
  private whyValue(tree: FormulaTree, { formula }: CopiedCell, sheet: string): string | undefined {
    if (spilledValues(tree)) return `several cells came out of ${formula}`;
    return this.native(tree, sheet) === undefined
      ? `not every spreadsheet reads it alike: ${formula}`
      : undefined;
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
    return tableCells(tree.at, table, { note }, (row, column) => {
      const value = table[row]?.[column] ?? null;
      // A formula that names an empty cell would say 0.
      if (isEmptyCell(value)) return undefined;
      const isAnchor = row === 0 && column === 0 && typeof value === "string";
      const heading = isAnchor ? this.workings.headingOf(call, value) : undefined;
      return heading ?? this.workings.resultCellOf(call, row, column, sheet);
    });
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

  private nameOf(sheet: string): string {
    const { names } = this;
    return names === "as they are" ? sheet : copyName(sheet, plainSuffix(names.count));
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

function rangesRead({ whole }: FormulaTree): SheetRange[] {
  return referencesOf(whole).flatMap(({ range }) => range ?? []);
}

function stateNow(before: unknown): string {
  return typeof before === "string" && before !== "" ? `${FIGURES_HOLD} · ${before}` : FIGURES_HOLD;
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
