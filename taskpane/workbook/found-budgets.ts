/** Budgets in a workbook, found by the names that their insertion wrote. */
import { BLOCK_AREAS, CANDIDATE_ID, MOVED_ID } from "../budgets/names.js";
import { textOf } from "../budgets/reading/range-table.js";
import type { FoundBudget, ReadRange } from "../budgets/reading/found-budget.js";
import { samples } from "../budgets/samples/samples.js";
import type { RangeContent, Host, HostName } from "../hosts/host.js";

export interface BudgetSearch {
  readonly budgets: readonly FoundBudget[];
  /** Budgets that an earlier version made: they calculate, and are judged by their own sheets. */
  readonly old: readonly FoundBudget[];
  /** Names of `_About` ranges that hold no plan id known here. */
  readonly unknown: readonly string[];
}

const ABOUT = /^(.+)_About$/i;

const KNOWN: ReadonlySet<string> = new Set([
  ...samples.map(({ id }) => id),
  CANDIDATE_ID,
  MOVED_ID,
]);

export async function findBudgets(host: Pick<Host, "names" | "read">): Promise<BudgetSearch> {
  const names = await host.names();
  const stems = names.flatMap(({ name }) => ABOUT.exec(name)?.[1] ?? []);
  const ours = names.filter(({ name }) => stemOf(name, stems) !== undefined);
  const contents = ours.length > 0 ? await host.read(ours.map(({ range }) => range)) : [];
  const found = stems.map((stem) => foundBudget(stem, stems, ours, contents));
  const known = found.filter((budget) => KNOWN.has(planIdOf(budget)));
  return {
    budgets: known.filter((budget) => !isOld(budget)),
    old: known.filter(isOld),
    unknown: found.filter((budget) => !known.includes(budget)).map(({ stem }) => `${stem}_About`),
  };
}

/** From the first cell of `_About`. */
export function planIdOf({ ranges }: FoundBudget): string {
  return textOf(ranges["About"]?.values[0]?.[0]);
}

/** Schedules came with version 2 of every budget. */
function isOld({ ranges }: FoundBudget): boolean {
  return textOf(ranges["About"]?.values[0]?.[1]).startsWith("1.");
}

/** As it stands on its Inputs, else the stem of its names. */
export function titleOf({ ranges, stem }: FoundBudget): string {
  return textOf(ranges["Title"]?.values[0]?.[0]) || stem;
}

/** The longest stem wins, so that `Ridge` does not claim what belongs to `Ridge_East`. */
function stemOf(name: string, stems: readonly string[]): string | undefined {
  return stems
    .filter((stem) => name.toLowerCase().startsWith(`${stem.toLowerCase()}_`))
    .sort((a, b) => b.length - a.length)[0];
}

function foundBudget(
  stem: string,
  stems: readonly string[],
  names: readonly HostName[],
  contents: readonly RangeContent[],
): FoundBudget {
  const ranges: Record<string, ReadRange> = {};
  names.forEach(({ name }, index) => {
    const content = contents[index];
    if (!content || stemOf(name, stems) !== stem) return;
    const { range, values, formulas } = content;
    ranges[partName(name.slice(stem.length + 1))] = { ...range, values, formulas };
  });
  return { stem, ranges };
}

const PARTS = [
  "Title",
  "Document",
  "Issues",
  "Issued",
  "Balance",
  "Feed",
  "Solved",
  "Bands",
  "Cases",
  "Checks",
  "Schedule",
  "Day",
  "Answers",
  "Accepted",
  "Lists",
  "About",
  ...Object.values(BLOCK_AREAS),
];

/** Spreadsheets keep a name's case but do not tell names apart by it. */
function partName(part: string): string {
  return PARTS.find((own) => own.toLowerCase() === part.toLowerCase()) ?? part;
}
