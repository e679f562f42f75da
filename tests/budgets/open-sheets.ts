/** A budget in the workbench's own calculation, read by its spills' headings and items. */
import { cellPlace, columnLetters } from "../../src/plans/addresses.js";
import type { HostValue } from "../../taskpane/hosts/host.js";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import { Places, SOLVED_ROW } from "../../taskpane/budgets/places.js";
import type { BudgetSample } from "../../taskpane/budgets/sample.js";
import type { Spill } from "../../taskpane/budgets/spill.js";
import { type HeadlessWorkbook, openHeadless } from "../helpers/headless-workbook.js";

/** Rows by heading. */
export type Records = readonly Readonly<Record<string, HostValue>>[];

export interface OpenSheets {
  readonly workbook: HeadlessWorkbook;
  readonly plan: ReturnType<typeof budgetPlan>;
  readonly places: Places;
  /** Every row that a spill has now. */
  readonly spilled: (spill: Spill) => Records;
  /** The value beside a label of a sheet's first column. */
  readonly beside: (sheet: string, label: string) => HostValue;
  readonly choose: (loads: string, supply: string) => Promise<void>;
  /** Cells that hold an error, as `Sheet!A1: #N/A`. */
  readonly errors: () => readonly string[];
}

const FIRST_ROWS = 60;

export async function openSheets(sample: BudgetSample): Promise<OpenSheets> {
  const plan = budgetPlan(sample);
  const places = new Places(sample);
  const workbook = await openHeadless(plan);
  const nameOf = (key: string) => plan.sheets.find((sheet) => sheet.key === key)!.name;
  const widths = new Map(
    plan.sheets.map(({ name, cells }) => [
      name,
      Math.max(...cells.map(({ at }) => cellPlace(at).column)),
    ]),
  );
  const rows = (sheet: string, first: number, last: number) =>
    workbook.values(sheet, `A${first}:${columnLetters(widths.get(sheet) ?? 0)}${last}`);
  return {
    workbook,
    plan,
    places,
    spilled(spill) {
      const [headings = [], ...below] = rows(nameOf(spill.sheet), spill.row, spill.last);
      const end = below.findIndex((row) =>
        row.slice(spill.left, spill.left + spill.width).every((value) => value === ""),
      );
      return below
        .slice(0, end < 0 ? undefined : end)
        .map((row) =>
          Object.fromEntries(
            headings
              .slice(spill.left, spill.left + spill.width)
              .map((heading, column) => [String(heading), row[spill.left + column] ?? ""]),
          ),
        );
    },
    beside(sheet, label) {
      const row = rows(sheet, 1, FIRST_ROWS).find(([first]) => first === label);
      if (!row) throw new Error(`${sheet} has no ${label}`);
      return row[1] ?? "";
    },
    async choose(loads, supply) {
      for (const [row, choice] of [
        [SOLVED_ROW, loads],
        [SOLVED_ROW + 1, supply],
      ] as const)
        if (workbook.value("Inputs", `B${row}`) !== choice)
          await workbook.set("Inputs", `B${row}`, choice);
    },
    errors: () =>
      plan.sheets.flatMap(({ name, cells }) => {
        const last = Math.max(...cells.map(({ at }) => Number(at.replace(/\D/g, ""))));
        return rows(name, 1, last).flatMap((row, index) =>
          row.flatMap((value, column) =>
            typeof value === "object"
              ? [`${name}!${columnLetters(column)}${index + 1}: ${value.error}`]
              : [],
          ),
        );
      }),
  };
}
