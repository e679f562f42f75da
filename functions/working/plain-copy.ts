/**
 * A budget as new sheets in which no cell needs the add-in. What comes out of formulas and printed tables becomes native
 * formulas on a sheet `Workings`; solved numbers and texts become values, with native checks that say when they no
 * longer hold, because an input is not what it was or an equation is not satisfied any more.
 */
import { quotedSheet } from "../../src/plans/addresses.js";
import { notAlike } from "../../src/plans/plan-faults.js";
import type {
  PlanCell,
  SheetPlan,
  WorkbookPlan,
} from "../../src/plans/sheet-plan.js";
import { type Cell, type CellTable, isCellTable } from "../downfeed.js";
import { type Answers, answersOf, cellWithin } from "./call-answer.js";
import { constantCell } from "./call-block.js";
import type { FormulaTree, SheetArea } from "./call-tree.js";
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
import { TooLongError, notTooLong, partNative } from "./native-writing.js";
import { tableOf } from "./result-lines.js";
import { type CopiedCall, WorkingsSheet } from "./workings-sheet.js";

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
      request.sheets.map(({ name }, index) => [
        name.toLowerCase(),
        keys[index] ?? "",
      ]),
    );
    for (const [where, tree] of request.trees) {
      const answers = answersOf(tree);
      if (answers.size > 0) this.answers.set(where, answers);
    }
    this.workings = new WorkingsSheet(
      request.trees,
      this.answers,
      (area, address, from) => this.named(area, address, from),
      this.freeColumn.bind(this),
    );
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
    const written = new Map<string, PlanCell>();
    const put = (cells: readonly PlanCell[]) => {
      for (const cell of cells) written.set(cell.at, cell);
    };
    for (const cell of cellsOfSheet(sheet)) {
      const style = styles.get(cell.address) ?? usualStyle(cell);
      const format = cell.format === "General" ? {} : { format: cell.format };
      if (cell.formula !== "")
        put(
          this.formulaCells(sheet, cell).map((own) => ({
            ...own,
            style: styles.get(own.at) ?? style,
            ...format,
          })),
        );
      else if (!written.has(cell.address) && hasContent(cell))
        put([
          {
            ...constantCell(cell.address, cell.value as Cell),
            style,
            ...format,
          },
        ]);
      else if (written.has(cell.address)) {
        const spilled = written.get(cell.address)!;
        put([
          {
            ...spilled,
            style: styles.get(cell.address) ?? spilled.style,
            ...format,
          },
        ]);
      } else if (styles.has(cell.address))
        put([{ at: cell.address, style, ...format }]);
    }
    put(this.workings.besideSpills(sheet.name));
    return {
      key: this.key(sheet.name) ?? "",
      name: copyName(sheet.name, " plain"),
      ...lookOf(sheet),
      cells: [...written.values()],
      pictures: [],
    };
  }

  private formulaCells(sheet: CopiedSheet, cell: CopiedCell): PlanCell[] {
    const where = `${sheet.name}!${cell.address}`;
    const tree = this.request.trees.get(where);
    if (!tree)
      return [asValue(cell, `its formula could not be read: ${cell.formula}`)];
    const calls = this.workings.callsOf(tree);
    if (tree.whole.kind === "call" && this.answers.has(where))
      return this.calledCells(tree, cell, this.workings.callOf(tree.whole));
    const { value } = tree.whole as { readonly value?: Cell | CellTable };
    const spills = isCellTable(value) && tableOf(value).flat().length > 1;
    const note = calls.length > 0 ? { note: noteOf(tree, calls) } : {};
    if (spills)
      return asItWas(
        tree,
        value as CellTable,
        `several cells came out of ${tree.text}`,
      );
    const native = this.native(tree, sheet.name);
    if (native === undefined)
      return [
        asValue(
          cell,
          `this formula is not the same in every spreadsheet: ${cell.formula}`,
        ),
      ];
    return [{ at: cell.address, formula: native, style: "result", ...note }];
  }

  /** A call alone in its cell, with all the cells that it spills over. */
  private calledCells(
    tree: FormulaTree,
    cell: CopiedCell,
    call: CopiedCall,
  ): PlanCell[] {
    const note = noteOf(tree, [call]);
    const { outcome } = call.working.answer;
    if (!outcome.ok)
      return [{ at: cell.address, formula: "NA()", style: "result", note }];
    if (!isCellTable(outcome.value))
      return [
        {
          at: cell.address,
          formula: this.workings.resultOf(call, tree.at.sheet),
          style: "result",
          note,
        },
      ];
    return outcome.value.flatMap((row, rowIndex) =>
      row.map((value, column): PlanCell => {
        const { address } = cellWithin(tree.at, rowIndex, column);
        const formula = this.workings.resultCellOf(
          call,
          rowIndex,
          column,
          tree.at.sheet,
        );
        return formula === undefined
          ? { ...constantCell(address, value), note }
          : { at: address, formula, style: "result", note };
      }),
    );
  }

  /** Undefined for a formula that not every spreadsheet reads alike. */
  private native(tree: FormulaTree, sheet: string): string | undefined {
    try {
      const native = notTooLong(
        partNative(tree.whole, {
          area: (area, address) => this.named(area, address, sheet),
          result: (call) =>
            this.workings.resultOf(this.workings.callOf(call), sheet),
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
  private named({ sheet }: SheetArea, address: string, from: string): string {
    if (sheet.toLowerCase() === from.toLowerCase()) return address;
    const key = this.key(sheet);
    return key === undefined
      ? `${quotedSheet(sheet)}!${address}`
      : `{${key}}!${address}`;
  }

  private key(sheet: string): string | undefined {
    return this.keys.get(sheet.toLowerCase());
  }

  /** Whether the cells beside a spill hold nothing. */
  private freeColumn(sheet: string, cells: readonly SheetArea[]): boolean {
    const read = this.request.sheets.find(({ name }) => name === sheet);
    if (!read) return false;
    const wanted = new Set(cells.map(({ address }) => address));
    return cellsOfSheet(read).every(
      (cell) => !wanted.has(cell.address) || !hasContent(cell),
    );
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

function asItWas(tree: FormulaTree, table: CellTable, why: string): PlanCell[] {
  return table.flatMap((row, rowIndex) =>
    row.map((value, column) => {
      const { address } = cellWithin(tree.at, rowIndex, column);
      return { ...constantCell(address, value), note: `A value only: ${why}` };
    }),
  );
}

function noteOf(tree: FormulaTree, calls: readonly CopiedCall[]): string {
  const told = calls.map(({ told: how }) => how);
  return [`Was ${tree.text}`, ...new Set(told)].join("\n");
}
