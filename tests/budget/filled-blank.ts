/** The blank budget as a plan with a small feed typed into it; figures invented. */
import { typedColumns } from "../../src/budget/budget-columns.js";
import { budgets } from "../../src/budget/budgets.js";
import { columnLetters } from "../../src/plans/addresses.js";
import type { PlanCell, WorkbookPlan } from "../../src/plans/sheet-plan.js";

type Content = string | number;

const INPUTS: readonly (readonly [string, string, Content])[] = [
  ["Framework of the voltage bands", "D", "IEC 62368-1"],
  ["Margin for growth and ageing, on each load", "D", 0.1],
  ["Largest drop of a run", "D", 0.2],
  ["Largest loading of anything with a rating", "D", 1],
  ["Altitude of the highest equipment", "D", 0],
  ["Hours", "B", 24],
];

/** A row is left empty between the second and the third. */
const ROWS: readonly (Readonly<Record<string, Content>> | undefined)[] = [
  {
    item: "Bus",
    kind: "supply",
    voltage: 100,
    resistance: 1,
    lowest: 90,
    highest: 110,
  },
  { item: "Cable", fedFrom: "Bus", kind: "run", resistance: 1, rated: 50 },
  undefined,
  {
    item: "Winch",
    fedFrom: "Cable",
    kind: "power load",
    lightBefore: 50,
    loadBefore: 500,
    peakBefore: 900,
    lowest: 40,
    highest: 120,
  },
];

export function filledBlank(): WorkbookPlan {
  const plan = budgets.find(({ id }) => id === "blank-budget");
  const feed = plan?.names.find(({ name }) => name === "Feed");
  if (!plan || !feed) throw new Error("there is no blank budget");
  const head = Number(/\d+/.exec(feed.area)?.[0]);
  const [inputs] = plan.sheets;
  const typed = new Map<string, Content>();
  for (const [label, column, content] of INPUTS) {
    const cell = inputs?.cells.find(({ value }) => value === label);
    typed.set(`inputs!${column}${cell?.at.slice(1)}`, content);
  }
  ROWS.forEach((row = {}, index) => {
    for (const [key, content] of Object.entries(row)) {
      const column = typedColumns.findIndex((one) => one.key === key);
      typed.set(`budget!${columnLetters(column)}${head + 1 + index}`, content);
    }
  });
  const filled = (sheet: string, cell: PlanCell): PlanCell => {
    const value = typed.get(`${sheet}!${cell.at}`);
    if (value === undefined) return cell;
    typed.delete(`${sheet}!${cell.at}`);
    return { ...cell, value };
  };
  const sheets = plan.sheets.map((sheet) => ({
    ...sheet,
    cells: sheet.cells.map((cell) => filled(sheet.key, cell)),
  }));
  if (typed.size > 0) throw new Error(`no cells ${[...typed.keys()].join()}`);
  return { ...plan, sheets };
}
