/** A budget once more on new sheets, as it stands: what is typed, every formula and its names, with none of the first one's. */
import { cellAddress, quotedSheet, rangePlace } from "../../src/plans/addresses.js";
import { notAlike } from "../../src/plans/plan-faults.js";
import type { PlanCell, PlanName, SheetPlan, WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { type Cell, type CellTable, isCellError, isCellTable } from "../downfeed.js";
import { answersOf } from "./lines/call-answer.js";
import type { CallPart, FormulaTree, SheetRange } from "./lines/call-tree.js";
import {
  type CopiedCell,
  type CopiedSheet,
  cellsOfSheet,
  copyKeys,
  lookOf,
  usualStyle,
} from "./copy/copied-sheet.js";
import { partNative, type Surroundings } from "./native/native-writing.js";
import type { CopyRequest } from "./copy/plain-copy.js";

export interface NamedBudget {
  /** Plan id of the budget. */
  readonly id: string;
  /** Of the copy: two budgets of one title could not be told apart in a report. */
  readonly title: string;
  readonly stem: string;
  /** By the part of the name behind the stem. */
  readonly names: Readonly<Record<string, SheetRange>>;
}

/** Every sheet of the request that a name of the budget lies on; others are shared with the first one. */
export function wholeCopy(
  request: CopyRequest,
  { id, title, stem, names }: NamedBudget,
): WorkbookPlan {
  const own = new Set(Object.values(names).map(({ sheet }) => sheet));
  const sheets = request.sheets.filter(({ name }) => own.has(name));
  const keys = copyKeys(sheets);
  const keyOf = new Map(sheets.map(({ name }, index) => [name.toLowerCase(), keys[index]!]));
  return {
    id,
    title,
    stem: stem.replace(/\d+$/, ""),
    sheets: sheets.map((sheet, index) =>
      new SheetCopy(
        titled(sheet, names["Title"], title),
        keys[index]!,
        keyOf,
        request.trees,
      ).plan(),
    ),
    names: Object.entries(names).map(([name, { sheet, address }]): PlanName => ({
      name,
      sheet: keyOf.get(sheet.toLowerCase())!,
      range: address,
    })),
  };
}

/** With that title in its cell, whatever stands there in the first one. */
function titled(sheet: CopiedSheet, at: SheetRange | undefined, title: string): CopiedSheet {
  if (sheet.name !== at?.sheet) return sheet;
  const { top, left } = rangePlace(at.address);
  const holding = <T>(table: readonly (readonly T[])[], content: T) =>
    table.map((cells, row) =>
      row === top ? cells.map((cell, column) => (column === left ? content : cell)) : cells,
    );
  return { ...sheet, values: holding(sheet.values, title), formulas: holding(sheet.formulas, "") };
}

class SheetCopy {
  private readonly planned: ReadonlyMap<string, PlanCell>;
  /** Cells that a formula fills from its own on. */
  private readonly spilled = new Map<string, readonly [rows: number, columns: number]>();
  private readonly filled = new Set<string>();

  constructor(
    private readonly sheet: CopiedSheet,
    private readonly key: string,
    private readonly keyOf: ReadonlyMap<string, string>,
    private readonly trees: CopyRequest["trees"],
  ) {
    this.planned = new Map(sheet.plan?.cells.map((cell) => [cell.at, cell]));
    for (const cell of cellsOfSheet(sheet)) this.mark(cell);
  }

  plan(): SheetPlan {
    const { sheet, key, keyOf } = this;
    const known = new Set(keyOf.values());
    const read = cellsOfSheet(sheet);
    const seen = new Set(read.map(({ address }) => address));
    return {
      key,
      name: sheet.name,
      ...lookOf(sheet),
      ...(sheet.plan && {
        validations: sheet.plan.validations.filter(
          (one) => one.kind !== "offer" || known.has(/^\{(\w+)\}!/.exec(one.source)?.[1] ?? ""),
        ),
      }),
      cells: [
        ...read.flatMap((cell) => this.cell(cell)),
        // Beyond what is filled: the sheet has to be as long as the ranges that read it.
        ...[...this.planned.values()].flatMap(({ at, style, format }) =>
          seen.has(at) ? [] : [{ at, style, ...(format !== undefined && { format }) }],
        ),
      ],
      pictures: [],
    };
  }

  private mark({ address, row, column, formula, value }: CopiedCell): void {
    if (formula === "" || typeof value === "object") return;
    const tree = this.treeAt(address);
    const table = tree && tableOf(tree);
    if (!table) return;
    const width = table[0]?.length ?? 1;
    this.spilled.set(address, [table.length, width]);
    for (let below = 0; below < table.length; below += 1)
      for (let beside = 0; beside < width; beside += 1)
        this.filled.add(cellAddress({ row: row + below, column: column + beside }));
  }

  private treeAt(address: string): FormulaTree | undefined {
    return this.trees.get(`${this.sheet.name}!${address}`);
  }

  private cell(cell: CopiedCell): PlanCell[] {
    const { address: at, formula, value, format } = cell;
    const planned = this.planned.get(at);
    const holds = formula !== "" || (value !== "" && !this.filled.has(at));
    if (!holds && !planned) return [];
    const look = {
      at,
      style: planned?.style ?? usualStyle(cell),
      ...(format !== "General" && { format }),
      ...(planned?.note !== undefined && { note: planned.note }),
      ...(planned?.citation !== undefined && { citation: planned.citation }),
      ...(planned?.shows !== undefined && { shows: planned.shows }),
    };
    if (!holds) return [look];
    const spill = this.spilled.get(at);
    const text = formula === "" ? undefined : this.formulaOf(cell);
    if (text !== undefined) return [{ ...look, formula: text, ...(spill && { spill }) }];
    if (isCellError(value as Cell)) return [{ ...look, formula: "NA()" }];
    return [
      {
        ...look,
        value: value as string | number | boolean,
        ...(formula !== "" && { note: `A value only: ${formula}` }),
      },
    ];
  }

  /** With the copy's own sheets and functions; undefined for what a plan cannot hold. */
  private formulaOf({ address, formula }: CopiedCell): string | undefined {
    const tree = this.treeAt(address);
    if (!tree) return undefined;
    const around: Surroundings = {
      range: (range, text) => this.named(range, text),
      result: (call) => callText(call, around),
    };
    const text = partNative(tree.whole, around);
    return notAlike(text).length > 0 || formula.includes("{") ? undefined : text;
  }

  private named({ sheet }: SheetRange, address: string): string {
    if (sheet.toLowerCase() === this.sheet.name.toLowerCase()) return address;
    const key = this.keyOf.get(sheet.toLowerCase());
    return key === undefined ? `${quotedSheet(sheet)}!${address}` : `{${key}}!${address}`;
  }
}

function callText({ id, args }: CallPart, around: Surroundings): string {
  const given = args.map((part) => (part ? partNative(part, around) : ""));
  return `{FEED}.${id}(${given.join(",")})`;
}

/** What a formula alone fills several cells with. */
function tableOf({ whole, ...tree }: FormulaTree): CellTable | undefined {
  const outcome =
    whole.kind === "call" ? answersOf({ whole, ...tree }, 0).get(whole)?.outcome : undefined;
  const value = whole.kind === "call" ? (outcome?.ok ? outcome.value : undefined) : whole.value;
  return value !== undefined && isCellTable(value) && value.flat().length > 1 ? value : undefined;
}
