/** Turns a plan's formulas into those of the workbook that it is written into. */
import { quotedSheet } from "./addresses.js";
import type { WorkbookPlan } from "./sheet-plan.js";

/** What the sheets, the names and the functions of one insertion are really called. */
export interface UsedNames {
  readonly namespace: string;
  /** Name of each sheet by its key in the plan. */
  readonly sheets: Readonly<Record<string, string>>;
  /** Full name by its name in the plan: `Feed` → `Ridge2_Feed`. */
  readonly names: Readonly<Record<string, string>>;
}

/** Either a text or a sheet's name in quotes, which stays as it is, or a placeholder and what tells its kind. */
const TEXT_OR_PLACEHOLDER = /"(?:[^"]|"")*"|'(?:[^']|'')*'|\{([A-Za-z][A-Za-z0-9]*)\}([!.]?)/g;

/** `{inputs}!B4` → `'Inputs'!B4`, `{Feed}` → `Ridge_Feed`, `{FEED}.NAME(` → `FEED.NAME(`. @throws {RangeError} */
export function fillPlaceholders(formula: string, used: UsedNames): string {
  return formula.replace(TEXT_OR_PLACEHOLDER, (found, word: string | undefined, mark: string) => {
    if (word === undefined) return found;
    const filled = filledWord(word, mark, used);
    if (filled === undefined) throw new RangeError(`${found} in "${formula}" is not in the plan`);
    return filled + mark;
  });
}

function filledWord(
  word: string,
  mark: string,
  { namespace, sheets, names }: UsedNames,
): string | undefined {
  if (mark === ".") return word === "FEED" ? namespace : undefined;
  if (mark !== "!") return names[word];
  const sheet = sheets[word];
  return sheet === undefined ? undefined : quotedSheet(sheet);
}

/** The names of a plan in a workbook that holds nothing else. */
export function plainNames(plan: WorkbookPlan, namespace: string): UsedNames {
  return freshNames(plan, namespace, { sheets: [], names: [] }).used;
}

export interface TakenNames {
  readonly sheets: readonly string[];
  readonly names: readonly string[];
}

/** Names for an insertion that collide with nothing; spreadsheets compare names without case. */
export function freshNames(
  plan: WorkbookPlan,
  namespace: string,
  taken: TakenNames,
): { readonly stem: string; readonly used: UsedNames } {
  const takenNames = taken.names.map((name) => name.toLowerCase());
  const takenSheets = new Set(taken.sheets.map((name) => name.toLowerCase()));
  const stem = firstFree(
    (count) => (count === 1 ? plan.stem : `${plan.stem}${count}`),
    (candidate) => !takenNames.some((name) => name.startsWith(`${candidate}_`.toLowerCase())),
  );
  const sheets = firstFree(
    (count) => plan.sheets.map(({ name }) => numberedSheet(name, count)),
    (candidates) => candidates.every((name) => !takenSheets.has(name.toLowerCase())),
  );
  const used: UsedNames = {
    namespace,
    sheets: Object.fromEntries(plan.sheets.map(({ key }, index) => [key, sheets[index] ?? key])),
    names: Object.fromEntries(plan.names.map(({ name }) => [name, `${stem}_${name}`])),
  };
  return { stem, used };
}

function firstFree<T>(candidateAt: (count: number) => T, isFree: (candidate: T) => boolean): T {
  let count = 1;
  while (!isFree(candidateAt(count))) count += 1;
  return candidateAt(count);
}

/** The longest sheet name that spreadsheets take. */
const MOST_CHARACTERS = 31;

function numberedSheet(name: string, count: number): string {
  if (count === 1) return name;
  const suffix = ` ${count}`;
  return name.slice(0, MOST_CHARACTERS - suffix.length) + suffix;
}
