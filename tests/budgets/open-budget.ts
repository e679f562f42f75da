/** A budget in the workbench's own calculation, read as its user reads it: by labels and headings. */
import { cellPlace, columnLetters } from "../../src/plans/addresses.js";
import type { PlanCell, WorkbookPlan } from "../../src/plans/sheet-plan.js";
import type { FoundBudget } from "../../taskpane/budgets/reading/found-budget.js";
import type { HostValue } from "../../taskpane/hosts/host.js";
import { type HeadlessWorkbook, openHeadless } from "../helpers/headless-workbook.js";

export interface OpenBudget {
  readonly workbook: HeadlessWorkbook;
  readonly plan: WorkbookPlan;
  /** All cells of a sheet, from A1 on. */
  readonly rows: (sheet: string) => readonly (readonly HostValue[])[];
  /** The value beside a label of the Budget sheet's head. */
  readonly balance: (label: string) => HostValue;
  /** A table as records by heading, of the first row of headings that begins with these two. */
  readonly table: (
    sheet: string,
    first: string,
    second: string,
  ) => readonly Readonly<Record<string, HostValue>>[];
  /** Types into an input by its label; `value` counts the values beside it from 0. */
  readonly enter: (label: string, content: string | number, value?: number) => Promise<void>;
  readonly read: (label: string, value?: number) => HostValue;
  /** As the pane finds it. */
  readonly found: () => FoundBudget;
}

export async function openBudget(plan: WorkbookPlan): Promise<OpenBudget> {
  const workbook = await openHeadless(plan);
  const rows = (sheet: string) => {
    const cells = plan.sheets.find(({ name }) => name === sheet)?.cells ?? [];
    const last = Math.max(...cells.map(({ at }) => Number(at.replace(/\D/g, ""))));
    return workbook.values(sheet, `A1:${lastColumn(cells)}${last}`);
  };
  // An input that was emptied is still found where it was.
  const foundInputs = new Map<string, string>();
  const inputAt = (label: string, value: number) => {
    const key = `${label} ${value}`;
    const at = foundInputs.get(key) ?? findInput(label, value);
    foundInputs.set(key, at);
    return at;
  };
  const findInput = (label: string, value: number) => {
    const read = rows("Inputs");
    const row = read.findIndex(([first]) => first === label);
    const filled = (read[row] ?? []).flatMap((cell, column) =>
      column >= 1 && column <= 3 && cell !== "" ? [column] : [],
    );
    const column = filled[value];
    if (column === undefined) throw new Error(`no input ${label}, ${value}`);
    return `${columnLetters(column)}${row + 1}`;
  };
  return {
    workbook,
    plan,
    rows,
    balance(label) {
      const row = rows("Budget").find(([first]) => first === label);
      if (!row) throw new Error(`no ${label}`);
      return row[1] ?? "";
    },
    table: (sheet, first, second) => records(rows(sheet), first, second),
    enter: (label, content, value = 0) => workbook.set("Inputs", inputAt(label, value), content),
    read: (label, value = 0) => workbook.value("Inputs", inputAt(label, value)),
    found: () => ({
      stem: plan.stem,
      ranges: Object.fromEntries(
        workbook
          .names()
          .map(({ name, range: { sheet, address } }) => [
            name.slice(name.indexOf("_") + 1),
            { sheet, address, ...workbook.read(sheet, address) },
          ]),
      ),
    }),
  };
}

/** T, or further where the plan has cells there. */
function lastColumn(cells: readonly PlanCell[]): string {
  const columns = cells.map(({ at }) => cellPlace(at).column);
  return columnLetters(Math.max(19, ...columns));
}

function records(
  rows: readonly (readonly HostValue[])[],
  first: string,
  second: string,
): Record<string, HostValue>[] {
  const head = rows.findIndex(([a, b]) => a === first && b === second);
  if (head < 0) throw new Error(`no table ${first}, ${second}`);
  const headings = rows[head] ?? [];
  const end = rows.findIndex(([item], row) => row > head && (item === "" || item === "Total"));
  return rows
    .slice(head + 1, end < 0 ? undefined : end)
    .map((row) =>
      Object.fromEntries(
        headings.flatMap((heading, column) =>
          heading === "" ? [] : [[String(heading), row[column] ?? ""]],
        ),
      ),
    );
}
