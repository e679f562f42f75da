/**
 * The sheet `Workings` of a plain copy: every call of a cell function that was copied, how it is worked out without the
 * add-in, and whether what is not worked out anew still holds.
 */
import {
  areaPlace,
  cellAddress,
  fixedAddress,
} from "../../src/plans/addresses.js";
import { at, valueCell } from "../../src/plans/sheet-builder.js";
import type {
  PlanCell,
  SheetPlan,
  StyleName,
} from "../../src/plans/sheet-plan.js";
import { isCellTable } from "../downfeed.js";
import { type Answers, cellWithin } from "./call-answer.js";
import {
  BLOCK_COLUMNS,
  BLOCK_WIDTHS,
  type CallBlock,
  callBlock,
  constantCell,
} from "./call-block.js";
import {
  type CallPart,
  type FormulaTree,
  type SheetArea,
  referencesOf,
} from "./call-tree.js";
import { type CallWorking, callWorking } from "./call-working.js";
import { FeedSpill } from "./feed-spill.js";
import { type HeldCell, HeldInputs, sameRanges } from "./held-inputs.js";
import {
  type Surroundings,
  TooLongError,
  nativeText,
  yesOrNo,
} from "./native-writing.js";
import { tableOf } from "./result-lines.js";

export const WORKINGS_KEY = "workings";
export const HELD_KEY = "held";
/** No workbook's own: formulas on the two sheets name every other sheet. */
const HERE = "";

const HOLDS_ROW = 4;
const LIST_ROW = 8;
const VALUE = 3;
const HOLDS = 8;

/** How a call is copied. */
export interface CopiedCall {
  readonly tree: FormulaTree;
  readonly working: CallWorking;
  /** `value`: as it was; `refused`: an error, as it was. */
  readonly how: "native" | "solved" | "value" | "refused";
  /** In one line, for the cell's note. */
  readonly told: string;
  readonly listRow: number;
  readonly block: CallBlock | undefined;
  readonly spill: FeedSpill | undefined;
}

type NameArea = (area: SheetArea, address: string, from: string) => string;

export class WorkingsSheet {
  private readonly calls = new Map<CallPart, CopiedCall>();
  private readonly cells: PlanCell[] = [];
  private readonly beside = new Map<string, PlanCell[]>();
  private readonly held: HeldInputs;
  private row: number;

  constructor(
    trees: ReadonlyMap<string, FormulaTree>,
    answers: ReadonlyMap<string, Answers>,
    private readonly named: NameArea,
    private readonly isFree: (
      sheet: string,
      cells: readonly SheetArea[],
    ) => boolean,
  ) {
    this.held = new HeldInputs((area) => this.named(area, area.address, HERE));
    const count = [...answers.values()].reduce(
      (sum, { size }) => sum + size,
      0,
    );
    this.row = LIST_ROW + count + 2;
    let listRow = LIST_ROW;
    for (const [where, ofCell] of answers) {
      const tree = trees.get(where)!;
      for (const answer of ofCell.values()) {
        this.calls.set(
          answer.call,
          this.copied(tree, callWorking(answer), listRow),
        );
        listRow += 1;
      }
    }
  }

  callOf(call: CallPart): CopiedCall {
    const found = this.calls.get(call);
    if (!found) throw new Error(`${call.text} was not copied`);
    return found;
  }

  callsOf(tree: FormulaTree): CopiedCall[] {
    return [...this.calls.values()].filter((call) => call.tree === tree);
  }

  /** What stands for a call in a formula on a sheet. */
  resultOf(call: CopiedCall, from: string): string {
    if (call.how === "refused") return "NA()";
    const prefix = from === HERE ? "" : `{${WORKINGS_KEY}}!`;
    const { block, listRow } = call;
    if (!block) return `${prefix}${fixedAddress(at(VALUE, listRow))}`;
    const first = block.resultAt(0, 0);
    const last = block.resultAt(block.rows - 1, block.columns - 1);
    const area = first === last ? first : `${first}:${last}`;
    return prefix + fixedAddress(area);
  }

  /** Of a spilled result; undefined for a value that stands in the spill itself. */
  resultCellOf(
    { block, spill }: CopiedCall,
    row: number,
    column: number,
    from: string,
  ): string | undefined {
    if (!block || spill) return undefined;
    const prefix = from === HERE ? "" : `{${WORKINGS_KEY}}!`;
    return prefix + fixedAddress(block.resultAt(row, column));
  }

  /** A column that says of each row of a spill whether it still holds, where there was room. */
  besideSpills(sheet: string): readonly PlanCell[] {
    return this.beside.get(sheet) ?? [];
  }

  sheets(): {
    readonly sheets: readonly SheetPlan[];
    readonly holdsAt: string;
  } {
    const heldCells = this.held.cells();
    const workings = sheetOf(
      WORKINGS_KEY,
      "Workings",
      [...BLOCK_WIDTHS],
      [...this.head(), ...this.cells],
    );
    const held = sheetOf(
      HELD_KEY,
      "Inputs as they were",
      [220, 160, 160, 60],
      heldCells,
    );
    return {
      sheets: heldCells.length > 0 ? [workings, held] : [workings],
      holdsAt: at(VALUE, HOLDS_ROW),
    };
  }

  private copied(
    tree: FormulaTree,
    working: CallWorking,
    listRow: number,
  ): CopiedCall {
    const { answer } = working;
    const isWhole = tree.whole === answer.call;
    const spill =
      isWhole && answer.call.id === "CHAIN_SOLVE" && working.kind === "solved"
        ? new FeedSpill(working, tree.at)
        : undefined;
    const how = howCopied(working, spill);
    const made =
      how === "native" ||
      how === "solved" ||
      (how === "value" && isTable(working) && !isWhole)
        ? this.block(working, spill, listRow)
        : undefined;
    const block = typeof made === "string" ? undefined : made;
    const really = typeof made === "string" ? "value" : how;
    const call: CopiedCall = {
      tree,
      working,
      how: really,
      listRow,
      block,
      spill,
      told: toldOf(
        really,
        working,
        typeof made === "string" ? made : undefined,
        listRow,
      ),
    };
    this.list(call, isWhole);
    return call;
  }

  /** The block, or why there is none. */
  private block(
    working: CallWorking,
    spill: FeedSpill | undefined,
    listRow: number,
  ): CallBlock | string {
    const around: Surroundings = {
      area: (area, address) => this.named(area, address, HERE),
      result: (call) => this.resultOf(this.callOf(call), HERE),
    };
    try {
      const block = callBlock(working, {
        ...around,
        left: 0,
        top: this.row,
        resultCell: (call, row, column) => {
          const inner = this.callOf(call);
          return this.resultCellOf(inner, row, column, HERE) ?? "NA()";
        },
        ...(spill && { solvedAt: (line: string) => spill.solvedAt(line) }),
        ...(working.kind === "solved" && { resultAsItWas: true }),
      });
      this.cells.push(...block.cells);
      this.row = block.next;
      return spill ? this.spillChecks(block, spill, around, listRow) : block;
    } catch (error) {
      if (error instanceof TooLongError) return error.message;
      throw error;
    }
  }

  private spillChecks(
    block: CallBlock,
    spill: FeedSpill,
    around: Surroundings,
    listRow: number,
  ): CallBlock {
    const nameOf = (area: SheetArea) => this.named(area, area.address, HERE);
    const conditions = spill.conditions(nameOf, block.lineAt, (native) =>
      nativeText(native, around, block.lineAt),
    );
    const checks = conditions.map(({ row, words, holds }) => {
      const cell = at(HOLDS, this.row);
      this.cells.push(
        { at: at(HOLDS - 1, this.row), value: words, style: "text" },
        { at: cell, formula: yesOrNo(holds), style: "resultText" },
      );
      this.row += 1;
      return { line: `spill.${row}`, at: cell };
    });
    this.row += 1;
    const all = [...block.checks, ...checks];
    this.writeBeside(all, spill, listRow);
    return { ...block, checks: all, next: this.row };
  }

  private writeBeside(
    checks: CallBlock["checks"],
    spill: FeedSpill,
    listRow: number,
  ): void {
    const { anchor, rows, columns } = spill;
    const places = Array.from({ length: rows }, (_, row) =>
      cellWithin(anchor, row, columns),
    );
    if (!this.isFree(anchor.sheet, places)) return;
    // A row whose own equations hold is still not solved when another row or an input is not what it was.
    const whole = `{${WORKINGS_KEY}}!${fixedAddress(at(HOLDS, listRow))}`;
    places.forEach(({ sheet, address }, row) => {
      const own = checks.filter(({ line }) => spill.isAbout(line, row));
      const same = own.map(
        (check) => `{${WORKINGS_KEY}}!${fixedAddress(check.at)}="no"`,
      );
      const cell: PlanCell | undefined =
        row === 0
          ? { at: address, value: "Still holds", style: "tableHeading" }
          : own.length === 0
            ? undefined
            : {
                at: address,
                formula: `IF(OR(${same.join(",")}),"no",IF(${whole}="no","no: see Workings","yes"))`,
                style: "resultText",
              };
      if (cell)
        this.beside.set(sheet, [...(this.beside.get(sheet) ?? []), cell]);
    });
  }

  private list(call: CopiedCall, isWhole: boolean): void {
    const { working, how, listRow, block, tree } = call;
    const { outcome } = working.answer;
    const put = (column: number, value: string, style: StyleName) =>
      this.cells.push(valueCell(column, listRow, value, style));
    put(0, `${tree.at.sheet}!${tree.at.address}`, "label");
    put(1, working.answer.call.id, "text");
    put(2, call.told, "text");
    if (
      how === "value" &&
      !block &&
      outcome.ok &&
      !(isWhole && isTable(working))
    )
      this.cells.push(
        constantCell(at(VALUE, listRow), tableOf(outcome.value)[0]?.[0] ?? ""),
      );
    else if (how === "value" && isWhole && isTable(working))
      put(VALUE, "in the sheet itself", "text");
    const conditions = [
      ...(block ? blockConditions(block) : []),
      ...(how === "native" ? [] : this.heldConditions(call)),
    ];
    if (conditions.length === 0) return;
    this.cells.push({
      at: at(HOLDS, listRow),
      formula: yesOrNo(`AND(${conditions.join(",")})`),
      style: "resultText",
    });
  }

  private heldConditions({ working }: CopiedCall): string[] {
    const cells = referencesOf(working.answer.call).flatMap(
      ({ area, value }) =>
        area && value !== undefined ? heldCells(area, tableOf(value)) : [],
    );
    return sameRanges(this.held.rowsOf(cells)).map(
      (range) => `COUNTIF({${HELD_KEY}}!${range},"no")=0`,
    );
  }

  private head(): PlanCell[] {
    const { size } = this.calls;
    const last = Math.max(LIST_ROW, LIST_ROW + size - 1);
    const range = `$I$${LIST_ROW}:$I$${last}`;
    return [
      valueCell(0, 1, "Workings of this plain copy", "title"),
      valueCell(
        0,
        2,
        "No cell of this copy needs the add-in. Native formulas follow the inputs; they do not refuse impossible ones, as the functions do.",
        "subtitle",
      ),
      valueCell(0, HOLDS_ROW, "Solved values still hold", "label"),
      {
        at: at(VALUE, HOLDS_ROW),
        formula: `IF(COUNTIF(${range},"no")=0,"yes","no: this copy's solved values are of inputs as they were; solve again with the add-in")`,
        style: "key",
      },
      ...["Cell", "Function", "Here", "Value"].map((heading, column) =>
        valueCell(column, LIST_ROW - 1, heading, "tableHeading"),
      ),
      valueCell(
        HOLDS,
        LIST_ROW - 1,
        BLOCK_COLUMNS[HOLDS] ?? "",
        "tableHeading",
      ),
    ];
  }
}

function howCopied(
  working: CallWorking,
  spill: FeedSpill | undefined,
): CopiedCall["how"] {
  if (!working.answer.outcome.ok) return "refused";
  if (working.kind === "closed form") return "native";
  if (working.kind === "fixed") return "value";
  const given = working.results.flat().some((line) => line !== undefined);
  return given || spill ? "solved" : "value";
}

function isTable({ answer: { outcome } }: CallWorking): boolean {
  return outcome.ok && isCellTable(outcome.value);
}

function toldOf(
  how: CopiedCall["how"],
  { answer: { outcome } }: CallWorking,
  why: string | undefined,
  listRow: number,
): string {
  if (why !== undefined) return `as it was: ${why}`;
  switch (how) {
    case "native":
      return `in native formulas, Workings row ${listRow}`;
    case "solved":
      return `solved values as they were, checked on Workings row ${listRow}`;
    case "value":
      return `as it was, inputs checked on Workings row ${listRow}`;
    case "refused":
      return `refused: ${outcome.ok ? "" : outcome.message}`;
  }
}

/** One condition for each column that the block's checks stand in. */
function blockConditions({ checks }: CallBlock): string[] {
  const byColumn = new Map<number, number[]>();
  for (const { at: address } of checks) {
    const { left, top } = areaPlace(address);
    byColumn.set(left, [...(byColumn.get(left) ?? []), top]);
  }
  return [...byColumn].map(([column, rows]) => {
    const first = cellAddress({ row: Math.min(...rows), column });
    const last = cellAddress({ row: Math.max(...rows), column });
    return `COUNTIF(${fixedAddress(`${first}:${last}`)},"no")=0`;
  });
}

function heldCells(
  area: SheetArea,
  table: ReturnType<typeof tableOf>,
): HeldCell[] {
  return table.flatMap((row, rowIndex) =>
    row.map((value, column) => ({
      area: cellWithin(area, rowIndex, column),
      value,
    })),
  );
}

function sheetOf(
  key: string,
  name: string,
  columnWidths: readonly number[],
  cells: readonly PlanCell[],
): SheetPlan {
  return {
    key,
    name,
    columnWidths,
    cells,
    frozenRows: 0,
    merges: [],
    validations: [],
    conditionalFormats: [],
    pictures: [],
  };
}
