/** What of a budget's schedules may be varied: each mark names the cells that its choices type, and begins with what stands there. */
import { OF_SIZE } from "../../functions/tradeoffs/size-choices.js";
import { headerParts } from "../../src/quantities/header-units.js";
import { type BlockColumn, type BlockName, BLOCKS } from "../../src/schedules/columns.js";
import { BLOCK_AREAS } from "../budgets/names.js";
import { fedBy, type TypedItem, typedItems } from "../budgets/reading/feed-outline.js";
import type { FoundBudget, ReadValue } from "../budgets/reading/found-budget.js";
import {
  numberOf,
  type RangeRow,
  rangeRows,
  sameItem,
  textOf,
} from "../budgets/reading/range-table.js";
import { typedText } from "../workbook/entries/entry-text.js";
import { headedColumn } from "../workbook/typed-sheets.js";

export const MARK_KINDS = ["size", "units", "type", "voltage", "ratio", "place"] as const;

export type MarkKind = (typeof MARK_KINDS)[number];

/** One cell of the schedules. */
export interface MarkColumn {
  readonly block: BlockName;
  readonly row: string;
  /** As the sheet heads it, in its unit. */
  readonly column: BlockColumn;
  /** May be left empty in a choice. */
  readonly isOptional: boolean;
  /** Words that it is one of. */
  readonly words?: readonly string[];
}

export interface Mark {
  readonly kind: MarkKind;
  /** The row that varies. */
  readonly item: string;
  readonly columns: readonly MarkColumn[];
  /** A row for each choice, a text for each column, as they are typed; the first is what stands there. */
  readonly texts: readonly (readonly string[])[];
  /** Of a place: the cable behind the stage, which takes what is left of the length of both. */
  readonly rest?: { readonly cable: string; readonly length: number };
}

/** In the order of the kinds, each item in the order of its schedule. */
export function offeredMarks(budget: FoundBudget): readonly Mark[] {
  const items = typedItems(budget);
  const rows = new TypedRows(budget);
  const of = (block: BlockName) => items.filter((item) => item.block === block);
  const types = rows.names("Stage type");
  const marks: Readonly<Record<MarkKind, readonly (Mark | undefined)[]>> = {
    size: of("Cable").map(({ name }) => sizeMark(rows, name)),
    units: of("Stage").map(({ name }) => unitsMark(rows, name)),
    type: of("Stage").map(({ name }) => typeMark(rows, name, types)),
    voltage: of("Supply").map((supply) => voltageMark(rows, supply, items, types)),
    ratio: types.map((name) => ratioMark(rows, name)),
    place: of("Stage").map((stage) => placeMark(rows, stage, items)),
  };
  return MARK_KINDS.flatMap((kind) => marks[kind].filter((mark) => mark !== undefined));
}

/** A mark without the cells that other marks vary; undefined where its first cell is one of them. */
export function freeMark(mark: Mark, others: readonly Mark[]): Mark | undefined {
  const taken = others.flatMap(cellsOf);
  const isFree = mark.columns.map((column) => !taken.includes(keyOf(column)));
  const own = { ...mark, columns: mark.columns.filter((_, at) => isFree[at]) };
  if (!isFree[0] || cellsOf(own).some((cell) => taken.includes(cell))) return undefined;
  return { ...own, texts: mark.texts.map((row) => row.filter((_, at) => isFree[at])) };
}

function cellsOf({ columns, rest }: Mark): readonly string[] {
  const [length] = columns;
  return [...columns, ...(rest && length ? [{ ...length, row: rest.cable }] : [])].map(keyOf);
}

function keyOf({ block, row, column }: MarkColumn): string {
  return `${block}|${row.trim().toLowerCase()}|${column.header}`;
}

function sizeMark(rows: TypedRows, cable: string): Mark | undefined {
  const size = rows.column("Cable", cable, "Size");
  // What another size changes too: those that are typed, and its price.
  const others = OF_SIZE.filter(
    (header) => header === "Price per m" || rows.text("Cable", cable, header) !== "",
  );
  return mark(rows, "size", cable, [
    size,
    ...others.map((header) => optional(rows.column("Cable", cable, header))),
  ]);
}

function unitsMark(rows: TypedRows, stage: string): Mark | undefined {
  const made = mark(rows, "units", stage, [rows.column("Stage", stage, "In parallel")]);
  const units = Number(rows.text("Stage", stage, "In parallel") || 1);
  const counts = Number.isInteger(units) ? [units, units + 1] : [units];
  return made && { ...made, texts: counts.map((count) => [String(count)]) };
}

function typeMark(rows: TypedRows, stage: string, types: readonly string[]): Mark | undefined {
  const made = mark(rows, "type", stage, [typeColumn(rows, stage, types)]);
  const [[own = ""] = []] = made?.texts ?? [];
  const others = types.filter((type) => !sameItem(type, own));
  return made && { ...made, texts: [own, ...others].map((type) => [type]) };
}

/** With the types of the stages that stand at this voltage. */
function voltageMark(
  rows: TypedRows,
  supply: TypedItem,
  items: readonly TypedItem[],
  types: readonly string[],
): Mark | undefined {
  const of = (header: string) => rows.column("Supply", supply.name, header);
  return mark(rows, "voltage", supply.name, [
    of("Voltage"),
    of("Lowest V"),
    of("Highest V"),
    optional(of("Price")),
    ...stagesAt(supply, items).map(({ name }) => typeColumn(rows, name, types)),
  ]);
}

function ratioMark(rows: TypedRows, type: string): Mark | undefined {
  return rows.text("Stage type", type, "Kind") === "ratio"
    ? mark(rows, "ratio", type, [rows.column("Stage type", type, "Steps down by")])
    : undefined;
}

/** Between a cable and the only cable behind it. */
function placeMark(
  rows: TypedRows,
  stage: TypedItem,
  items: readonly TypedItem[],
): Mark | undefined {
  const before = items.find(
    ({ block, name }) => block === "Cable" && sameItem(name, stage.fedFrom),
  );
  const [behind, ...more] = fedBy(stage, items);
  if (!before || behind?.block !== "Cable" || more.length > 0) return undefined;
  const made = mark(rows, "place", stage.name, [rows.column("Cable", before.name, "Length")]);
  const lengths = [before, behind].map(({ name }) => rows.figure("Cable", name, "Length"));
  const [one, other] = lengths;
  return made && one !== undefined && other !== undefined
    ? { ...made, rest: { cable: behind.name, length: one + other } }
    : undefined;
}

/** Undefined where the sheet lacks its first column. */
function mark(
  rows: TypedRows,
  kind: MarkKind,
  item: string,
  columns: readonly (MarkColumn | undefined)[],
): Mark | undefined {
  if (!columns[0]) return undefined;
  const own = columns.filter((column) => column !== undefined);
  const texts = own.map(({ block, row, column }) => rows.text(block, row, column.header));
  return { kind, item, columns: own, texts: [texts] };
}

function optional(column: MarkColumn | undefined): MarkColumn | undefined {
  return column && { ...column, isOptional: true };
}

/** Undefined where there is but one type to choose. */
function typeColumn(
  rows: TypedRows,
  stage: string,
  types: readonly string[],
): MarkColumn | undefined {
  const column = rows.column("Stage", stage, "Type");
  return column && types.length > 1 ? { ...column, words: types } : undefined;
}

/** Those with no other stage between them and the supply. */
function stagesAt(feeder: TypedItem, items: readonly TypedItem[]): readonly TypedItem[] {
  return fedBy(feeder, items).flatMap((item) =>
    item.block === "Stage" ? [item] : stagesAt(item, items),
  );
}

/** The schedules by names of row and header, as they were read with the budget. */
class TypedRows {
  constructor(private readonly budget: FoundBudget) {}

  names(block: BlockName): readonly string[] {
    return this.rows(block).map(({ item }) => item);
  }

  /** Undefined where the sheet does not have the column. */
  column(block: BlockName, row: string, header: string): MarkColumn | undefined {
    const known = BLOCKS[block].find((one) => one.header === header);
    const headers = this.budget.ranges[BLOCK_AREAS[block]]?.values[0] ?? [];
    const own = headers.map(textOf).find((one) => sameItem(headerParts(one).name, header));
    if (!known || own === undefined) return undefined;
    return { block, row, column: headedColumn(known, own), isOptional: false };
  }

  /** What the cell comes to, as it would be typed. */
  text(block: BlockName, row: string, header: string): string {
    const value = this.value(block, row, header);
    const column = this.column(block, row, header);
    if (!column || typeof value === "object") return "";
    return typedText(column.column, value);
  }

  figure(block: BlockName, row: string, header: string): number | undefined {
    return numberOf(this.value(block, row, header));
  }

  private value(block: BlockName, row: string, header: string): ReadValue {
    const own = this.rows(block).find(({ item }) => sameItem(item, row));
    return own?.value(header) ?? "";
  }

  private rows(block: BlockName): readonly RangeRow[] {
    const range = this.budget.ranges[BLOCK_AREAS[block]];
    return range ? rangeRows(range) : [];
  }
}
