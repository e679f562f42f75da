/** A pasted list as it would be written: its columns as chosen, its rows against those of the sheet. */
import { sameItem, textOf } from "../../budgets/reading/range-table.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { typedItems } from "../../budgets/reading/feed-outline.js";
import type { TypedSheets } from "../typed-sheets.js";
import { clipboardRows } from "./clipboard-table.js";
import { keptColumns } from "./kept-lists.js";
import { comparedList, type ListChanges, type OwnColumns } from "./list-changes.js";
import { type ListHead, type ListTable, proposedHead } from "./list-columns.js";
import { type DecimalSign, decimalSignOf } from "./list-figures.js";
import { type ReadRows, readRows } from "./list-rows.js";
import { LEFT_OUT, type ListBlock, OWN, type Role, unitsOfRole } from "./list-words.js";

export interface ListChoices {
  readonly text: string;
  readonly block: ListBlock;
  /** Row of the headers, from 0; proposed where it is left out. */
  readonly headerRow?: number | undefined;
  /** By the column's place in the table; proposed where left out. */
  readonly roles: Readonly<Record<number, Role>>;
  readonly units: Readonly<Record<number, string>>;
  readonly sign?: DecimalSign | undefined;
}

export interface PastedList {
  readonly table: ListTable;
  readonly head: ListHead;
  /** Whether the columns are those of the list pasted before. */
  readonly isAsKept: boolean;
  readonly sign: DecimalSign | undefined;
  readonly read: ReadRows;
  readonly changes: ListChanges;
  /** Names that new rows are fed from and no item has. */
  readonly unknownFeeders: readonly string[];
  /** Whether all that has to be chosen is chosen, and there is something to write. */
  readonly isReady: boolean;
}

export function pastedList(
  choices: ListChoices,
  budget: Pick<FoundBudget, "ranges">,
  sheets: TypedSheets,
  own: OwnColumns,
): PastedList {
  const { block } = choices;
  const table = clipboardRows(choices.text);
  const kept = keptColumns(budget, block);
  const locations = sheets
    .filledRows("Location")
    .map((row) => textOf(sheets.cells("Location", row)[0] as string));
  const proposed = proposedHead(table, block, kept, choices.headerRow);
  const head = chosenHead(withKnownPlaces(proposed, table, locations), choices);
  const figures = head.columns
    .filter(({ role }) => role !== OWN && role !== LEFT_OUT)
    .flatMap(({ at }) => table.slice(head.row + 1).map((cells) => cells[at] ?? ""));
  const sign = choices.sign ?? decimalSignOf(figures);
  const read = readRows({
    table,
    block,
    head,
    sign,
    column: (header) => sheets.column(block, header),
    locations,
  });
  const changes = comparedList(sheets, own, block, read.rows);
  const names = [
    ...typedItems(budget).map(({ name }) => name),
    ...read.rows.map(({ name }) => name),
  ];
  const feeders = changes.added.map(({ cells }) => String(cells["Fed from"] ?? ""));
  const isOpen = read.open.sign || read.open.units.length > 0;
  return {
    table,
    head,
    isAsKept: head.columns.some(({ header }) => kept.some((one) => sameItem(one.header, header))),
    sign,
    read,
    changes,
    unknownFeeders: [...new Set(feeders)].filter(
      (feeder) => feeder !== "" && !names.some((name) => sameItem(name, feeder)),
    ),
    isReady: !isOpen && changes.added.length + changes.changed.length > 0,
  };
}

/** Places of the list that are none of the feed are carried. */
function withKnownPlaces(head: ListHead, table: ListTable, locations: readonly string[]): ListHead {
  const isKnown = (at: number) =>
    table
      .slice(head.row + 1)
      .flatMap((cells) => (cells[at] ?? "").split(";"))
      .every((name) => name.trim() === "" || locations.some((one) => sameItem(one, name)));
  const columns = head.columns.map((column) =>
    column.role === "Location" && !isKnown(column.at) ? { ...column, role: OWN } : column,
  );
  return { ...head, columns };
}

function chosenHead(head: ListHead, { block, roles, units }: ListChoices): ListHead {
  const columns = head.columns.map((column) => {
    const role = roles[column.at] ?? column.role;
    const allowed = unitsOfRole(block, role);
    const unit = units[column.at] ?? column.unit;
    return { ...column, role, unit: allowed.includes(unit) ? unit : "" };
  });
  return { ...head, columns };
}
