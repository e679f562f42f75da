/** A list against the block that it becomes rows of, by name: what is new, what changed, what is not in it any more. */
import { rangeAddress, rangePlace } from "../../../src/plans/addresses.js";
import { sameItem, textOf } from "../../budgets/reading/range-table.js";
import type { Host, SheetEdit } from "../../hosts/host.js";
import type { TypedCell, TypedSheets } from "../typed-sheets.js";
import type { ListRow } from "./list-rows.js";
import type { ListBlock } from "./list-words.js";

export interface ChangedCell {
  readonly header: string;
  readonly old: TypedCell;
  readonly new: TypedCell;
}

export interface ChangedRow {
  readonly row: ListRow;
  /** In the block; 0 is the header. */
  readonly at: number;
  readonly changes: readonly ChangedCell[];
  /** What the list says otherwise and the sheet keeps: what feeds it and where it is, typed here, and formulas. */
  readonly stays: readonly ChangedCell[];
}

export interface ListChanges {
  readonly added: readonly ListRow[];
  readonly changed: readonly ChangedRow[];
  /** How many stand in the block as the list has them. */
  readonly same: number;
  /** Items of the block that are not in the list: left as they are. */
  readonly gone: readonly string[];
}

/** Columns of the user's own that stand right of a block. */
export interface OwnColumns {
  /** With `# `, from the first column right of the block on. */
  readonly headers: readonly string[];
  /** By row of the block, as wide as the headers. */
  readonly rows: readonly (readonly TypedCell[])[];
}

const MOST_OWN = 30;

/** Typed on the sheet: the list's word for them is shown, and never overwrites. */
const KEPT_AS_TYPED = ["Fed from", "Location", "Kind", "Basis"];

export async function readOwnColumns(
  host: Pick<Host, "read" | "used">,
  sheets: TypedSheets,
  block: ListBlock,
): Promise<OwnColumns> {
  const { sheet, address } = sheets.rangeOf(block);
  const { top, bottom, right } = rangePlace(address);
  const end = Math.min(rangePlace((await host.used(sheet)).address).right, right + MOST_OWN);
  if (end <= right) return { headers: [], rows: [] };
  const beside = rangeAddress({ top, bottom, left: right + 1, right: end });
  const [content] = await host.read([{ sheet, address: beside }]);
  const [header = [], ...rows] = content?.values ?? [];
  const headers: string[] = [];
  for (const cell of header) {
    if (!textOf(cell).startsWith("#")) break;
    headers.push(textOf(cell));
  }
  const formulas = content?.formulas.slice(1) ?? [];
  return {
    headers,
    rows: rows.map((cells, row) =>
      headers.map((_, column) => formulas[row]?.[column] || textOf(cells[column])),
    ),
  };
}

export function comparedList(
  sheets: TypedSheets,
  own: OwnColumns,
  block: ListBlock,
  rows: readonly ListRow[],
): ListChanges {
  const typed = sheets.filledRows(block).map((at) => ({ at, name: nameAt(sheets, block, at) }));
  const added: ListRow[] = [];
  const changed: ChangedRow[] = [];
  let same = 0;
  for (const row of rows) {
    const found = typed.find(({ name }) => sameItem(name, row.name));
    if (!found) {
      added.push(row);
      continue;
    }
    const { changes, stays } = cellChanges(sheets, own, block, found.at, row);
    if (changes.length > 0 || stays.length > 0) changed.push({ row, at: found.at, changes, stays });
    else same += 1;
  }
  const gone = typed
    .map(({ name }) => name)
    .filter((name) => name !== "" && !rows.some((row) => sameItem(row.name, name)));
  return { added, changed, same, gone };
}

function cellChanges(
  sheets: TypedSheets,
  own: OwnColumns,
  block: ListBlock,
  at: number,
  row: ListRow,
): Pick<ChangedRow, "changes" | "stays"> {
  const changes: ChangedCell[] = [];
  const stays: ChangedCell[] = [];
  for (const [header, content] of Object.entries(row.cells)) {
    if (header === block) continue;
    const old = sheets.cells(block, at)[sheets.columnOf(block, header)] ?? "";
    if (isSame(old, content)) continue;
    const isFormula = typeof old === "string" && old.startsWith("=");
    const keeps = isFormula || (KEPT_AS_TYPED.includes(header) && old !== "");
    (keeps ? stays : changes).push({ header, old, new: content });
  }
  for (const [header, content] of Object.entries(row.own)) {
    const column = own.headers.findIndex((one) => sameItem(one, header));
    const old = own.rows[at - 1]?.[column] ?? "";
    if (!isSame(old, content)) changes.push({ header, old, new: content });
  }
  return { changes, stays };
}

function isSame(old: TypedCell, content: TypedCell): boolean {
  if (typeof old === "number" && typeof content === "number")
    return Math.abs(old - content) <= 1e-12 * Math.abs(old);
  return sameItem(String(old), String(content));
}

function nameAt(sheets: TypedSheets, block: ListBlock, at: number): string {
  return textOf(sheets.cells(block, at)[0] as string);
}

/**
 * Writes it on the sheets: new rows behind the last one, changed figures in their cells.
 * @param basis Where the figures come from, for rows that are new or changed.
 * @returns Edits of the user's own columns, which follow those of the sheets.
 */
export function writeList(
  sheets: TypedSheets,
  own: OwnColumns,
  block: ListBlock,
  { added, changed }: ListChanges,
  basis: string,
): readonly SheetEdit[] {
  const headers = [...own.headers];
  const columnOf = (header: string) => {
    const found = headers.findIndex((one) => sameItem(one, header));
    return found < 0 ? headers.push(header) - 1 : found;
  };
  const basisColumn = sheets.columnOf(block, "Basis");
  const ownCells: OwnWrite[] = [];
  for (const { at, changes, row } of changed) {
    for (const { header, new: content } of changes)
      if (header in row.own)
        ownCells.push({ row: at, column: columnOf(header), cells: [[content]] });
      else sheets.write(block, at, sheets.columnOf(block, header), content);
    if (basis !== "" && changes.some(({ header }) => !(header in row.own)))
      sheets.write(block, at, basisColumn, basis);
  }
  for (const { own: carried } of added) for (const header of Object.keys(carried)) columnOf(header);
  if (added.length > 0) {
    const row = sheets.addRows(
      block,
      added.map(({ cells }) => ({ ...cells, ...(basis !== "" && { Basis: basis }) })),
    );
    const cells = added.map(({ own: carried }) => headers.map((header) => carried[header] ?? ""));
    if (headers.length > 0) ownCells.push({ row, column: 0, cells });
  }
  const fresh = headers.slice(own.headers.length);
  if (fresh.length > 0) ownCells.push({ row: 0, column: own.headers.length, cells: [fresh] });
  return ownCells.map((write) => ownEdit(sheets, block, write));
}

interface OwnWrite {
  /** Row in the block; 0 is the header. */
  readonly row: number;
  /** From the first right of the block on. */
  readonly column: number;
  readonly cells: readonly (readonly TypedCell[])[];
}

function ownEdit(sheets: TypedSheets, block: ListBlock, write: OwnWrite): SheetEdit {
  const { row, column, cells } = write;
  const { sheet, address } = sheets.rangeOf(block);
  const { top, right } = rangePlace(address);
  const place = {
    top: top + row,
    bottom: top + row + cells.length - 1,
    left: right + 1 + column,
    right: right + column + (cells[0]?.length ?? 1),
  };
  return { kind: "write", range: { sheet, address: rangeAddress(place) }, cells };
}
