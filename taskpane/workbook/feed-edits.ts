/** Changes to a feed as its user thinks of them: an item added, renamed, fed from elsewhere, copied, taken out. */
import type { BlockName } from "../../src/schedules/columns.js";
import { SEPARATOR } from "../../src/network/feed-topology.js";
import { ACCEPTANCE_COLUMNS } from "../budgets/warnings/acceptances.js";
import { cellAt, sameItem, textOf } from "../budgets/reading/range-table.js";
import {
  fedBy,
  FED_FROM_COLUMN,
  feederNames,
  type TypedItem,
  withAllItFeeds,
} from "../budgets/reading/feed-outline.js";
import type { ReadRange, ReadValue } from "../budgets/reading/found-budget.js";
import type { SheetEdit } from "../hosts/host.js";
import type { TypedCell, TypedSheets } from "./typed-sheets.js";

/** Cells by header without unit; the name under the block's own name. */
export type RowCells = Readonly<Record<string, TypedCell>>;

/** A row behind the last one of the block. */
export function addRow(sheets: TypedSheets, block: BlockName, cells: RowCells): void {
  const row = sheets.freeRow(block);
  for (const [header, content] of Object.entries(cells))
    sheets.write(block, row, sheets.columnOf(block, header), content);
}

export function changeRow(
  sheets: TypedSheets,
  block: BlockName,
  row: number,
  cells: RowCells,
): void {
  for (const [header, content] of Object.entries(cells))
    sheets.write(block, row, sheets.columnOf(block, header), content);
}

/** Every `Fed from` and every row of Spread follows; a cell that holds a formula follows by itself. */
export function renameItem(
  sheets: TypedSheets,
  items: readonly TypedItem[],
  item: TypedItem,
  name: string,
): void {
  sheets.write(item.block, item.row, 0, name);
  for (const fed of fedBy(item, items)) replaceFeeder(sheets, fed, item.name, name);
  for (const row of spreadRows(sheets, [item])) sheets.write("Spread", row, 0, name);
}

/** A name of Location or Stage type: every row that uses it follows. */
export function renameShared(
  sheets: TypedSheets,
  block: "Location" | "Stage type",
  row: number,
  name: string,
): void {
  const old = textOf(sheets.cells(block, row)[0] as string);
  sheets.write(block, row, 0, name);
  const header = block === "Location" ? "Location" : "Type";
  const users: readonly BlockName[] =
    block === "Location" ? ["Supply", "Stage", "Cable", "In line", "Load"] : ["Stage"];
  for (const user of users.filter((one) => sheets.has(one))) {
    const column = sheets.headers(user).indexOf(header, 1);
    for (const at of column < 0 ? [] : sheets.filledRows(user)) {
      const content = sheets.cells(user, at)[column];
      if (typeof content !== "string" || content.startsWith("=")) continue;
      const names = content.split(";").map((one) => one.trim());
      if (names.some((one) => sameItem(one, old)))
        sheets.write(
          user,
          at,
          column,
          names.map((one) => (sameItem(one, old) ? name : one)).join("; "),
        );
    }
  }
}

/** What hangs on it comes along. */
export function feedFrom(sheets: TypedSheets, item: TypedItem, feeder: string): void {
  writeFeeder(sheets, item, feeder);
}

/** Items that may feed this one: all but itself, what hangs on it, and loads. */
export function possibleFeeders(
  items: readonly TypedItem[],
  item: TypedItem,
): readonly TypedItem[] {
  const own = withAllItFeeds(item, items);
  return items.filter((one) => one.block !== "Load" && !own.includes(one));
}

/** The item and all that hangs on it once more, fed as it is and varying alike; @returns the name of the copy. */
export function duplicateItem(
  sheets: TypedSheets,
  items: readonly TypedItem[],
  item: TypedItem,
): string {
  const taken = items.map(({ name }) => name);
  const copies = new Map<TypedItem, string>();
  for (const one of withAllItFeeds(item, items)) {
    const name = freshName(one.name, taken);
    taken.push(name);
    copies.set(one, name);
  }
  for (const [one, name] of copies) {
    const row = sheets.copyRow(one.block, one.row);
    sheets.write(one.block, row, 0, name);
    const feeders = feederNames(one.fedFrom);
    const copied = feeders.map(
      (name) => [...copies].find(([other]) => sameItem(other.name, name))?.[1] ?? name,
    );
    if (one !== item && copied.some((name, at) => name !== feeders[at]))
      sheets.write(one.block, row, FED_FROM_COLUMN, copied.join(`${SEPARATOR} `));
    for (const varied of spreadRows(sheets, [one]))
      sheets.write("Spread", sheets.copyRow("Spread", varied), 0, name);
  }
  return copies.get(item)!;
}

/**
 * @param fate Of what hangs on the item: it goes too, or what feeds the item feeds it from now on. Where that is nothing
 *   it is not fed.
 */
export function removeItem(
  sheets: TypedSheets,
  items: readonly TypedItem[],
  item: TypedItem,
  fate: "goes too" | "is fed by the one before",
): void {
  const goes = fate === "goes too" ? withAllItFeeds(item, items) : [item];
  if (fate !== "goes too")
    for (const fed of fedBy(item, items)) replaceFeeder(sheets, fed, item.name, item.fedFrom);
  // What others feed too stays, without those that go.
  else
    for (const one of goes)
      for (const fed of fedBy(one, items))
        if (!goes.includes(fed)) replaceFeeder(sheets, fed, one.name, "");
  // From the last row on, so that the rows that are still to go keep their places.
  for (const { block, row } of [...goes].sort((one, other) => other.row - one.row))
    sheets.removeRow(block, row);
  for (const row of [...spreadRows(sheets, goes)].reverse()) sheets.removeRow("Spread", row);
}

/** Rows of Spread that are about one of the items, from the first on. */
function spreadRows(sheets: TypedSheets, items: readonly TypedItem[]): readonly number[] {
  if (!sheets.has("Spread")) return [];
  return sheets.filledRows("Spread").filter((row) => {
    const named = textOf(sheets.cells("Spread", row)[0] as ReadValue);
    return items.some(({ name }) => sameItem(name, named));
  });
}

/** Acceptances follow a renamed item: what was accepted is the same finding under another name. */
export function renamedAcceptances(
  accepted: ReadRange | undefined,
  old: string,
  name: string,
): readonly SheetEdit[] {
  if (!accepted) return [];
  const last = ACCEPTANCE_COLUMNS.length - 1;
  return accepted.values.flatMap((cells, row) => {
    if (row === 0) return [];
    return [0, last].flatMap((column): SheetEdit[] => {
      const before = textOf(cells[column]);
      const after = column === 0 ? renamedKey(before, old, name) : renamedIn(before, old, name);
      if (after === before) return [];
      return [{ kind: "write", range: cellAt(accepted, row, column), cells: [[after]] }];
    });
  });
}

function renamedKey(key: string, old: string, name: string): string {
  return key
    .split("|")
    .map((part) => (sameItem(part, old) ? name : part))
    .join("|");
}

/** The name where it stands as words of its own. */
function renamedIn(text: string, old: string, name: string): string {
  const escaped = old.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
  return text.replace(
    new RegExp(`(?<![\\p{L}\\p{N}])${escaped}(?![\\p{L}\\p{N}])`, "gu"),
    () => name,
  );
}

function writeFeeder(sheets: TypedSheets, { block, row }: TypedItem, feeder: string): void {
  const content = sheets.cells(block, row)[FED_FROM_COLUMN];
  if (typeof content === "string" && content.startsWith("=")) return;
  sheets.write(block, row, FED_FROM_COLUMN, feeder);
}

/** One of the names in its `Fed from` by another, or by none. */
function replaceFeeder(sheets: TypedSheets, item: TypedItem, old: string, name: string): void {
  const { block, row } = item;
  const content = sheets.cells(block, row)[FED_FROM_COLUMN];
  const now = typeof content === "string" ? content : item.fedFrom;
  const names = feederNames(now).map((one) => (sameItem(one, old) ? name : one));
  writeFeeder(sheets, item, names.filter((one) => one !== "").join(`${SEPARATOR} `));
}

/** `Bus` → `Bus 2`, `Bus 2` → `Bus 3`: the first that is free. */
export function freshName(name: string, taken: readonly string[]): string {
  const isTaken = (one: string) => taken.some((other) => sameItem(other, one));
  const [, stem = name, count] = /^(.*?)(?: (\d+))?$/.exec(name) ?? [];
  for (let next = Number(count ?? 1) + 1; ; next += 1)
    if (!isTaken(`${stem} ${next}`)) return `${stem} ${next}`;
}
