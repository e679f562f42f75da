/** What the view of a feed does to the workbook: each command reads the sheets as they are now, and is one undo step where the host can. */
import type { Label } from "../../../src/judgement/requirements.js";
import { headerParts } from "../../../src/quantities/header-units.js";
import type { BlockColumn, BlockName } from "../../../src/schedules/columns.js";
import { BLOCK_AREAS } from "../../budgets/names.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { type TypedItem, typedItems, withAllItFeeds } from "../../budgets/reading/feed-outline.js";
import { type Host, HostError, type SheetEdit } from "../../hosts/host.js";
import {
  addRow,
  changeRow,
  duplicateItem,
  feedFrom,
  removeItem,
  renamedAcceptances,
  renameItem,
  renameShared,
  type RowCells,
} from "../../workbook/feed-edits.js";
import { keepColumns } from "../../workbook/lists/kept-lists.js";
import { type OwnColumns, readOwnColumns, writeList } from "../../workbook/lists/list-changes.js";
import type { ListBlock } from "../../workbook/lists/list-words.js";
import { type ListChoices, pastedList } from "../../workbook/lists/pasted-list.js";
import { triedRow, triedRows } from "../../workbook/tried-row.js";
import { headedColumn, type TypedCell, TypedSheets } from "../../workbook/typed-sheets.js";
import type { WorkbookStore } from "../../workbook/workbook-store.js";
import { feedWords as said } from "../../words/feed-words.js";
import { listWords } from "../../words/list-words.js";
import { sameItem, textOf } from "../../budgets/reading/range-table.js";

export interface FeedCommands {
  /** Each resolves with whether it was done. */
  add(block: BlockName, cells: RowCells): Promise<boolean>;
  /** @param row In its block. */
  change(block: BlockName, row: number, cells: RowCells): Promise<boolean>;
  rename(item: TypedItem, name: string): Promise<boolean>;
  feedFrom(item: TypedItem, feeder: string): Promise<boolean>;
  /** Resolves with the copy's name. */
  duplicate(item: TypedItem): Promise<string | undefined>;
  remove(item: TypedItem, fate: "goes too" | "is fed by the one before"): Promise<boolean>;
  /** Values of what is asked for, on Inputs. */
  ask(changes: readonly { readonly label: Label; readonly content: TypedCell }[]): Promise<boolean>;
  /** What stands in a row, by header without unit: formulas as they are typed. */
  cells(block: BlockName, row: number): Promise<RowCells>;
  /** A column as the sheet heads it, in its unit. */
  headed(block: BlockName, column: BlockColumn): BlockColumn;
  /** What the feed table would say of a row; "" for nothing. */
  tried(block: BlockName, row: number | undefined, cells: RowCells): string;
  /** And of several new ones. */
  triedRows(block: BlockName, rows: readonly RowCells[]): readonly string[];
  /** Columns of the user's own beside a block. */
  ownColumns(block: ListBlock): Promise<OwnColumns>;
  /** A list as rows of its block. @param basis Where its figures come from; "" says nothing. */
  paste(choices: ListChoices, basis: string): Promise<boolean>;
}

export interface FeedCommandsOptions {
  readonly host: Host;
  readonly store: WorkbookStore;
  readonly budget: FoundBudget;
  readonly failed: (error: unknown) => void;
  readonly tell: (what: string) => void;
}

export function feedCommands(options: FeedCommandsOptions): FeedCommands {
  const { host, store, budget, failed, tell } = options;

  async function change<T>(
    make: (sheets: TypedSheets, items: readonly TypedItem[], now: FoundBudget) => T | Promise<T>,
    done: (made: T) => string,
    also: (made: T) => readonly SheetEdit[] = () => [],
  ): Promise<T | undefined> {
    try {
      tell(said.saving);
      const now = await freshBudget(store, budget);
      const sheets = await TypedSheets.read(host, now);
      const made = await make(sheets, typedItems(now), now);
      await host.edit([...sheets.edits, ...also(made)]);
      await store.read();
      tell(done(made));
      return made;
    } catch (error) {
      tell("");
      failed(error);
      return undefined;
    }
  }

  return {
    async add(block, cells) {
      const name = String(cells[block] ?? "");
      const done = await change(
        (sheets) => {
          addRow(sheets, block, filled(cells));
          return sheets.rangeOf(block).sheet;
        },
        (sheet) => said.written(name, block, sheet),
      );
      return done !== undefined;
    },
    async change(block, row, cells) {
      const before = nameIn(budget, block, row);
      const name = String(cells[block] ?? before);
      const done = await change(
        (sheets, items) => {
          const item = items.find((one) => one.block === block && one.row === row);
          if (name !== before && item) renameItem(sheets, items, item, name);
          else if (name !== before && (block === "Location" || block === "Stage type"))
            renameShared(sheets, block, row, name);
          changeRow(sheets, block, row, cells);
          return sheets.rangeOf(block).sheet;
        },
        (sheet) => said.written(name, block, sheet),
        () => (name === before ? [] : renamedAcceptances(budget.ranges["Accepted"], before, name)),
      );
      return done !== undefined;
    },
    async rename(item, name) {
      const done = await change(
        (sheets, items) => {
          renameItem(sheets, items, current(items, item), name);
          return true;
        },
        () => said.renamed(item.name, name),
        () => renamedAcceptances(budget.ranges["Accepted"], item.name, name),
      );
      return done !== undefined;
    },
    async feedFrom(item, feeder) {
      const done = await change(
        (sheets, items) => {
          feedFrom(sheets, current(items, item), feeder);
          return true;
        },
        () => said.moved(item.name, feeder || said.nothing),
      );
      return done !== undefined;
    },
    duplicate: (item) =>
      change(
        (sheets, items) => duplicateItem(sheets, items, current(items, item)),
        (copy) => said.duplicated(item.name, copy),
      ),
    async remove(item, fate) {
      const done = await change(
        (sheets, items) => {
          const now = current(items, item);
          const goes = fate === "goes too" ? withAllItFeeds(now, items) : [now];
          removeItem(sheets, items, now, fate);
          return goes.map(({ name }) => name);
        },
        (names) => `${said.removed(names)} ${said.undo}`,
      );
      return done !== undefined;
    },
    async ask(changes) {
      const done = await change(
        (sheets) => {
          for (const { label, content } of changes) {
            const row = sheets.rowNamed("Asked for", label);
            sheets.write("Asked for", row, sheets.columnOf("Asked for", "Value"), content);
          }
          return sheets.rangeOf("Asked for").sheet;
        },
        (sheet) => said.asked.written(sheet),
      );
      return done !== undefined;
    },
    async cells(block, row) {
      const sheets = await TypedSheets.read(host, await freshBudget(store, budget));
      const content = sheets.cells(block, row);
      return Object.fromEntries(
        sheets
          .headers(block)
          .flatMap((header, column): [string, TypedCell][] =>
            header === "" ? [] : [[header, content[column] ?? ""]],
          ),
      );
    },
    headed(block, column) {
      const headers = (budget.ranges[BLOCK_AREAS[block]]?.values[0] ?? []).map(textOf);
      const own = headers.find((header) => sameItem(headerParts(header).name, column.header));
      return own === undefined ? column : headedColumn(column, own);
    },
    tried: (block, row, cells) => triedRow(budget, block, row, inPlaces(budget, block, cells)),
    triedRows: (block, rows) =>
      triedRows(
        budget,
        block,
        rows.map((cells) => ({ row: undefined, cells: inPlaces(budget, block, cells) })),
      ),
    async ownColumns(block) {
      return await readOwnColumns(host, TypedSheets.of(budget), block);
    },
    async paste(choices, basis) {
      const { block } = choices;
      const done = await change(
        async (sheets, _, now) => {
          const own = await readOwnColumns(host, sheets, block);
          const { changes, head } = pastedList(choices, now, sheets, own);
          const ownEdits = writeList(sheets, own, block, changes, basis);
          const { sheet } = sheets.rangeOf(block);
          return {
            said: listWords.written(block, changes.added.length, changes.changed.length, sheet),
            also: [...ownEdits, ...keepColumns(now, block, head.columns)],
          };
        },
        (made) => made.said,
        (made) => made.also,
      );
      return done !== undefined;
    },
  };
}

/** Cells by header as they stand in the block. */
function inPlaces({ ranges }: FoundBudget, block: BlockName, cells: RowCells): TypedCell[] {
  const headers = ranges[BLOCK_AREAS[block]]?.values[0] ?? [];
  return headers.map((cell) => cells[String(cell).replace(/\s*\([^()]*\)$/, "")] ?? "");
}

/** The budget as it stands now: the sheet may have been typed on since the view was drawn. */
async function freshBudget(store: WorkbookStore, { stem }: FoundBudget): Promise<FoundBudget> {
  const { budgets } = await store.read();
  const found = budgets.find((one) => one.stem === stem);
  if (!found) throw new HostError(said.gone(stem));
  return found;
}

function current(items: readonly TypedItem[], item: TypedItem): TypedItem {
  const found = items.find((one) => one.block === item.block && sameItem(one.name, item.name));
  if (!found) throw new HostError(said.itemGone(item.name));
  return found;
}

/** A new row leaves out what is empty. */
function filled(cells: RowCells): RowCells {
  return Object.fromEntries(Object.entries(cells).filter(([, content]) => content !== ""));
}

function nameIn({ ranges }: FoundBudget, block: BlockName, row: number): string {
  return String(ranges[BLOCK_AREAS[block]]?.values[row]?.[0] ?? "");
}
