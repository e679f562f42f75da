/** What the columns of a pasted list were taken for, kept on a sheet of its budget for the list's next issue. */
import { cellAt, sameItem, textOf } from "../../budgets/reading/range-table.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import type { SheetEdit } from "../../hosts/host.js";
import type { KeptColumn, ListColumn } from "./list-columns.js";
import type { ListBlock } from "./list-words.js";

/** Block, the list's header, role, unit. */
const WIDTH = 4;

/** Columns of the block's list that was pasted last; empty where none was. */
export function keptColumns(
  { ranges }: Pick<FoundBudget, "ranges">,
  block: ListBlock,
): KeptColumn[] {
  const [, ...rows] = ranges["Lists"]?.values ?? [];
  return rows
    .filter(([name]) => sameItem(textOf(name), block))
    .map(([, header, role, unit]) => ({
      header: textOf(header),
      role: textOf(role) === NOT_TAKEN ? "" : textOf(role),
      unit: textOf(unit),
    }));
}

/** A cell that is empty would say that nothing was chosen. */
const NOT_TAKEN = "left out";

/** Instead of what was kept of the block's list; nothing where the budget has no place for it. */
export function keepColumns(
  { ranges }: Pick<FoundBudget, "ranges">,
  block: ListBlock,
  columns: readonly ListColumn[],
): readonly SheetEdit[] {
  const range = ranges["Lists"];
  if (!range) return [];
  const room = range.values.length - 1;
  const others = range.values
    .slice(1)
    .map((row) => row.slice(0, WIDTH).map(textOf))
    .filter(([name = ""]) => name !== "" && !sameItem(name, block));
  const own = columns.map(({ header, role, unit }) => [block, header, role || NOT_TAKEN, unit]);
  const rows = [...own, ...others].slice(0, room);
  const blank = Array.from({ length: room - rows.length }, () => Array<string>(WIDTH).fill(""));
  const [first, last] = [cellAt(range, 1, 0), cellAt(range, room, WIDTH - 1)];
  return [
    {
      kind: "write",
      range: { sheet: range.sheet, address: `${first.address}:${last.address}` },
      cells: [...rows, ...blank],
    },
  ];
}
