/** What the schedules and requirements held at an issue, cell by cell, and how they differ from it now. */
import { BLOCK_NAMES } from "../../../src/schedules/columns.js";
import { BLOCK_AREAS } from "../names.js";
import { errorOf, textOf } from "../reading/range-table.js";
import type { FoundBudget, ReadValue } from "../reading/found-budget.js";

/** Headings of the rows in which a budget keeps the values of its issues. */
export const ISSUED_COLUMNS = ["Schedule", "Item", "Column", "Issue before", "As issued"] as const;

export type Held = string | number | boolean;

export interface HeldCell {
  readonly schedule: string;
  readonly item: string;
  /** As it is headed, with its unit. */
  readonly column: string;
  readonly value: Held;
}

/** One cell at the last issue and at the one before; "" where it was empty or not there. */
export type IssuedRow = readonly [
  schedule: string,
  item: string,
  column: string,
  before: Held,
  issued: Held,
];

export type HeldChange = { readonly schedule: string; readonly item: string } & (
  | { readonly kind: "new" | "gone" }
  | {
      readonly kind: "changed";
      readonly column: string;
      readonly was: Held;
      readonly is: Held;
    }
);

/** Every filled cell of the schedules and of what is asked for; an item is found again by its name. */
export function heldCells({ ranges }: Pick<FoundBudget, "ranges">): readonly HeldCell[] {
  return BLOCK_NAMES.flatMap((schedule) => {
    const [head = [], ...rows] = ranges[BLOCK_AREAS[schedule]]?.values ?? [];
    const seen = new Map<string, number>();
    return rows.flatMap((row, index) => {
      if (row.every((value) => heldValue(value) === "")) return [];
      const name = textOf(row[0]) || `row ${index + 1}`;
      const times = (seen.get(name) ?? 0) + 1;
      seen.set(name, times);
      const item = times === 1 ? name : `${name} (${times})`;
      return row.flatMap((cell, at): HeldCell[] => {
        const [column, value] = [textOf(head[at]), heldValue(cell)];
        return column === "" || value === "" ? [] : [{ schedule, item, column, value }];
      });
    });
  });
}

function heldValue(value: ReadValue): Held {
  const error = errorOf(value);
  if (error !== undefined) return error;
  return typeof value === "number" || typeof value === "boolean" ? value : textOf(value);
}

/** In the order of the schedules as they are now; what is gone stands at the end of its schedule. */
export function heldChanges(
  before: readonly HeldCell[],
  now: readonly HeldCell[],
): readonly HeldChange[] {
  const [was, is] = [new HeldItems(before), new HeldItems(now)];
  return BLOCK_NAMES.flatMap((schedule) =>
    union(is.items(schedule), was.items(schedule)).flatMap((item): HeldChange[] => {
      const [old, own] = [was.cells(schedule, item), is.cells(schedule, item)];
      if (!old) return [{ kind: "new", schedule, item }];
      if (!own) return [{ kind: "gone", schedule, item }];
      return union([...own.keys()], [...old.keys()]).flatMap((column): HeldChange[] => {
        const [wasHere, isHere] = [old.get(column) ?? "", own.get(column) ?? ""];
        return wasHere === isHere
          ? []
          : [{ kind: "changed", schedule, item, column, was: wasHere, is: isHere }];
      });
    }),
  );
}

/** The rows that keep an issue: what it holds beside what the one before held. */
export function issuedRows(
  before: readonly HeldCell[],
  now: readonly HeldCell[],
): readonly IssuedRow[] {
  const [was, is] = [new HeldItems(before), new HeldItems(now)];
  return BLOCK_NAMES.flatMap((schedule) =>
    union(is.items(schedule), was.items(schedule)).flatMap((item) => {
      const [old, own] = [was.cells(schedule, item), is.cells(schedule, item)];
      return union([...(own?.keys() ?? [])], [...(old?.keys() ?? [])]).map((column): IssuedRow => [
        schedule,
        item,
        column,
        old?.get(column) ?? "",
        own?.get(column) ?? "",
      ]);
    }),
  );
}

/** The cells of the last issue or of the one before, out of the rows that were kept. */
export function cellsOfIssue(
  rows: readonly (readonly ReadValue[])[],
  which: "Issue before" | "As issued",
): readonly HeldCell[] {
  const at = ISSUED_COLUMNS.indexOf(which);
  return rows.flatMap((row) => {
    const [schedule = "", item = "", column = ""] = row.map((cell) => textOf(cell));
    const value = heldValue(row[at] ?? "");
    return schedule === "" || value === "" ? [] : [{ schedule, item, column, value }];
  });
}

class HeldItems {
  private readonly bySchedule = new Map<string, Map<string, Map<string, Held>>>();

  constructor(cells: readonly HeldCell[]) {
    for (const { schedule, item, column, value } of cells) {
      const items = this.bySchedule.get(schedule) ?? new Map<string, Map<string, Held>>();
      const columns = items.get(item) ?? new Map<string, Held>();
      this.bySchedule.set(schedule, items.set(item, columns.set(column, value)));
    }
  }

  items(schedule: string): readonly string[] {
    return [...(this.bySchedule.get(schedule)?.keys() ?? [])];
  }

  cells(schedule: string, item: string): ReadonlyMap<string, Held> | undefined {
    return this.bySchedule.get(schedule)?.get(item);
  }
}

function union(first: readonly string[], more: readonly string[]): readonly string[] {
  return [...new Set([...first, ...more])];
}
