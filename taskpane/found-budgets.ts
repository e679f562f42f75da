/** Budgets in a workbook, found by the names that their insertion wrote. */
import type { FoundBudget, ReadArea } from "../src/warnings/warning.js";
import type { AreaContent, Host, HostName } from "./hosts/host.js";

export interface BudgetSearch {
  readonly budgets: readonly FoundBudget[];
  /** Names of `_About` areas that hold no plan id known here. */
  readonly unknown: readonly string[];
}

const ABOUT = /^(.+)_About$/i;

/** @param known Ids of the plans that this version can read. */
export async function findBudgets(
  host: Host,
  known: ReadonlySet<string>,
): Promise<BudgetSearch> {
  const names = await host.names();
  const stems = names.flatMap(({ name }) => ABOUT.exec(name)?.[1] ?? []);
  const ours = names.filter(({ name }) => stemOf(name, stems) !== undefined);
  const contents =
    ours.length > 0 ? await host.read(ours.map(({ area }) => area)) : [];
  const budgets = stems.map((stem) => foundBudget(stem, stems, ours, contents));
  const isKnown = (budget: FoundBudget) => known.has(planIdOf(budget));
  return {
    budgets: budgets.filter(isKnown),
    unknown: budgets
      .filter((budget) => !isKnown(budget))
      .map(({ stem }) => `${stem}_About`),
  };
}

/** From the first cell of `_About`. */
export function planIdOf({ areas }: FoundBudget): string {
  return String(areas["About"]?.values[0]?.[0] ?? "");
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
  contents: readonly AreaContent[],
): FoundBudget {
  const areas: Record<string, ReadArea> = {};
  names.forEach(({ name }, index) => {
    const content = contents[index];
    if (!content || stemOf(name, stems) !== stem) return;
    const { area, values } = content;
    areas[partName(name.slice(stem.length + 1))] = { ...area, values };
  });
  return { stem, areas };
}

const PARTS = [
  "Feed",
  "Solved",
  "Bands",
  "Cases",
  "Day",
  "Closing",
  "Limits",
  "About",
];

/** Spreadsheets keep a name's case but do not tell names apart by it. */
function partName(part: string): string {
  return PARTS.find((own) => own.toLowerCase() === part.toLowerCase()) ?? part;
}
