/** A combination typed into the schedules of its budget, or of a copy that is made for it. */
import type { CellChange } from "../../functions/tradeoffs/varied-blocks.js";
import type { FoundBudget } from "../budgets/reading/found-budget.js";
import { sameItem } from "../budgets/reading/range-table.js";
import { type Host, HostError } from "../hosts/host.js";
import { proposedTitle, versionPlan } from "../workbook/versions/kept-version.js";
import { TypedSheets } from "../workbook/typed-sheets.js";
import type { WorkbookStore } from "../workbook/workbook-store.js";
import { feedWords as said } from "../words/feed-words.js";

export interface Workbook {
  readonly host: Host;
  readonly store: WorkbookStore;
}

/** One undo step where the host can. @throws {HostError} where the budget or a row of it is gone. */
export async function writeOption(
  { host, store }: Workbook,
  stem: string,
  cells: readonly CellChange[],
): Promise<void> {
  const { budgets } = await store.read();
  const sheets = await TypedSheets.read(host, foundIn(budgets, stem));
  typeCells(sheets, cells);
  await host.edit(sheets.edits);
  await store.read();
}

/** @returns the sheets of the copy. @throws {HostError} as `writeOption`. */
export async function writeIntoCopy(
  workbook: Workbook,
  stem: string,
  cells: readonly CellChange[],
): Promise<readonly string[]> {
  const { host, store } = workbook;
  const { budgets } = await store.read();
  const budget = foundIn(budgets, stem);
  const plan = await versionPlan(host, budget, proposedTitle(budget, budgets), budgets);
  const copy = await host.insert(plan);
  await store.read();
  await writeOption(workbook, copy.stem, cells);
  return Object.values(copy.sheets);
}

/** @throws {HostError} where a row is gone. */
export function typeCells(sheets: TypedSheets, cells: readonly CellChange[]): void {
  for (const { block, row, header, value } of cells) {
    const at = sheets
      .filledRows(block)
      .find((one) => sameItem(String(sheets.cells(block, one)[0]), row));
    if (at === undefined) throw new HostError(said.itemGone(row));
    const content = value === null || typeof value === "object" ? "" : value;
    sheets.write(block, at, sheets.columnOf(block, header), content);
  }
}

function foundIn(budgets: readonly FoundBudget[], stem: string): FoundBudget {
  const budget = budgets.find((one) => one.stem === stem);
  if (!budget) throw new HostError(said.gone(stem));
  return budget;
}
