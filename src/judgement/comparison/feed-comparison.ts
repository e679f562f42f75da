/**
 * Two versions of a feed side by side: figures of the whole feed over the nine cases, figures of each item in one case,
 * and the checks that are judged otherwise. It judges nothing itself: a word says which way a figure went.
 */
import type { CompiledFeed } from "../../network/compiled-feed.js";
import { caseText, type FeedCase, type RowFigure } from "../../network/feed-cases.js";
import { plainName } from "../../network/feed-topology.js";
import { leastMargin } from "../../network/feed-totals.js";
import type { OperatingPoint } from "../../network/operating-point.js";
import { loadingAt, lossAt } from "../../network/row-flow.js";
import { KINDS, type SummedField } from "../../network/row-kinds.js";
import type { Quantities, Steps } from "../../quantities/steps.js";
import type { FindingWorking } from "../check.js";
import { type CheckRow, type Verdict, WHOLE_FEED } from "../check-row.js";
import { type SummedFigure, summedFigure } from "../checks/summed-figure.js";
import type { JudgedFeed } from "../judged-feed.js";

/** One version, solved and judged. */
export interface FeedVersion {
  readonly feed: JudgedFeed;
  readonly cases: readonly FeedCase[];
  /** The case that the figures of its items are of. */
  readonly point: OperatingPoint;
  readonly checks: readonly CheckRow[];
  /** Currency of its prices; "" where none is named. */
  readonly currency: string;
}

/** What stands in either version; undefined where one has no such figure. */
export interface ComparedFigure {
  readonly item: string;
  readonly figure: string;
  readonly a: number | string | undefined;
  readonly b: number | string | undefined;
  /** B less A; undefined unless both are numbers of one unit. */
  readonly difference: number | undefined;
  /** Difference as a part of A's magnitude; undefined for fractions and counts, and where A is 0. */
  readonly relative: number | undefined;
  readonly unit: string;
  readonly verdict: string;
}

/** Which way a figure has to go to be better; undefined where that depends on what is wanted. */
type Better = "more" | "less" | undefined;

interface Kind {
  readonly unit: string;
  readonly better?: Better;
  /** Differences are told as parts of A too. */
  readonly isRelative?: true;
}

type Value = number | string | undefined;

/** First the whole feed, then items as A has them and those that only B has, then checks. */
export function feedComparison(a: FeedVersion, b: FeedVersion): readonly ComparedFigure[] {
  return [...coverFigures(a, b), ...itemFigures(a, b), ...checkChanges(a.checks, b.checks)];
}

/** What a figure of the whole feed is: how it is shown depends on it. */
export type CoverKind = "count" | "power" | "fraction" | "place" | "mass" | "price";

interface CoverFigure {
  readonly figure: string;
  readonly is: CoverKind;
  readonly better?: Better;
  readonly find: (version: FeedVersion) => Value;
  /** Where no word of better or worse can be said, whatever the figures. */
  readonly isUndecided?: (a: FeedVersion, b: FeedVersion) => boolean;
}

/** The first rows of every comparison, in their order. */
export const COVER_FIGURES: readonly CoverFigure[] = [
  {
    figure: "Cases solved, of nine",
    is: "count",
    better: "more",
    find: (version) => solvedCases(version).length,
  },
  ...overCases([
    // More power is no worse where more loads are served.
    {
      figure: "Highest supply power",
      is: "power",
      find: ({ cases }) => most(cases, ({ point }) => point.totals.supplyPower),
    },
    {
      figure: "Highest loss",
      is: "power",
      better: "less",
      find: ({ cases }) => most(cases, ({ point }) => point.totals.loss),
    },
    {
      figure: "Least efficiency at nominal loads",
      is: "fraction",
      better: "more",
      find: ({ cases }) =>
        most(
          cases.filter(({ loads }) => loads === "nominal"),
          ({ point }) => point.totals.efficiency,
          -1,
        ),
    },
    {
      figure: "Least margin to a window",
      is: "fraction",
      better: "more",
      find: ({ cases }) => most(cases, ({ margin }) => margin?.value, -1),
    },
    {
      figure: "Least margin at",
      is: "place",
      find: ({ cases }) => placeOf(cases, ({ margin }) => margin, -1),
    },
    {
      figure: "Highest loading",
      is: "fraction",
      better: "less",
      find: ({ cases }) => most(cases, ({ loading }) => loading?.value),
    },
    {
      figure: "Highest loading at",
      is: "place",
      find: ({ cases }) => placeOf(cases, ({ loading }) => loading),
    },
  ]),
  {
    figure: "Mass",
    is: "mass",
    better: "less",
    find: ({ feed }) => knownTotal(summedFigure(feed, "mass")),
    isUndecided: isIncomplete("mass"),
  },
  {
    figure: "Price",
    is: "price",
    better: "less",
    find: ({ feed }) => knownTotal(summedFigure(feed, "price")),
    isUndecided: isIncomplete("price"),
  },
  ...overCases([
    {
      figure: "Checks that fail",
      is: "count",
      better: "less",
      find: ({ checks }) => counted(checks, "fails"),
    },
    {
      figure: "Checks not determined",
      is: "count",
      better: "less",
      find: ({ checks }) => counted(checks, "not determined"),
    },
  ]),
];

/** Figures of unequal sets of cases do not compare: in a case that is not solved nothing fails. */
function overCases(figures: readonly CoverFigure[]): CoverFigure[] {
  const isUndecided = (a: FeedVersion, b: FeedVersion) =>
    solvedCases(a).join() !== solvedCases(b).join();
  return figures.map((one) => ({ ...one, isUndecided }));
}

/** What is not entered may turn it. */
function isIncomplete(field: SummedField) {
  return (a: FeedVersion, b: FeedVersion) =>
    [a, b].some(({ feed }) => summedFigure(feed, field).missing.length > 0);
}

function coverFigures(a: FeedVersion, b: FeedVersion): ComparedFigure[] {
  return COVER_FIGURES.map(({ figure, is, better, find, isUndecided }) => {
    const kind = { ...COVER_KINDS[is], better };
    const row = compared(WHOLE_FEED, figure, kind, find(a), find(b));
    const said =
      isUndecided?.(a, b) && row.verdict !== IN_NEITHER ? { ...row, verdict: UNDECIDED } : row;
    return is === "price" ? priced(said, a.currency, b.currency) : said;
  });
}

const FRACTION = { unit: "" } as const;
const WATTS = { unit: "W", isRelative: true } as const;

const COVER_KINDS: Readonly<Record<CoverKind, Kind>> = {
  count: { unit: "" },
  power: WATTS,
  fraction: FRACTION,
  place: { unit: "" },
  mass: { unit: "kg", isRelative: true },
  // In the currency of each.
  price: { unit: "", isRelative: true },
};

function solvedCases({ cases }: FeedVersion): string[] {
  return cases.filter(({ refused }) => !refused).map(caseText);
}

function counted(checks: readonly CheckRow[], verdict: Verdict): number {
  return checks.filter((row) => row.verdict === verdict).length;
}

type FigureOfCase = (one: FeedCase) => number | undefined;

/** Of the cases that were solved. @param sign −1 for the least. */
function extremeCase(
  cases: readonly FeedCase[],
  of: FigureOfCase,
  sign: 1 | -1,
): { readonly value: number; readonly one: FeedCase } | undefined {
  let found: { readonly value: number; readonly one: FeedCase } | undefined;
  for (const one of cases) {
    const value = one.refused ? undefined : of(one);
    if (value !== undefined && (!found || sign * value > sign * found.value))
      found = { value, one };
  }
  return found;
}

function most(cases: readonly FeedCase[], of: FigureOfCase, sign: 1 | -1 = 1): Value {
  return extremeCase(cases, of, sign)?.value;
}

/** The item that has it, and the case. */
function placeOf(
  cases: readonly FeedCase[],
  of: (one: FeedCase) => RowFigure | undefined,
  sign: 1 | -1 = 1,
): Value {
  const one = extremeCase(cases, (each) => of(each)?.value, sign)?.one;
  return one && `${one.point.feed.columns.item[of(one)!.row]}: ${caseText(one)}`;
}

/** Undefined where nothing is entered that could be added up. */
function knownTotal({ total, rows, missing }: SummedFigure): number | undefined {
  return rows.length > 0 && missing.length === rows.length ? undefined : total;
}

/** Prices of two currencies do not compare. */
function priced(row: ComparedFigure, inA: string, inB: string): ComparedFigure {
  if (inA === inB) return { ...row, unit: inA };
  return {
    ...row,
    unit: [inA, inB].map((name) => name || "no currency").join("; "),
    difference: undefined,
    relative: undefined,
    verdict: row.verdict === IN_NEITHER ? IN_NEITHER : UNDECIDED,
  };
}

function isLoad({ columns }: CompiledFeed, row: number): boolean {
  return KINDS[columns.kind[row]!]!.role === "load";
}

const VOLTS = { unit: "V", isRelative: true } as const;

/** Figures of one row of a solved feed; undefined where a row of its kind has no such figure. */
const ITEM_FIGURES: readonly (readonly [
  figure: string,
  kind: Kind,
  find: (feed: CompiledFeed, row: number) => number | undefined,
])[] = [
  ["Input V", VOLTS, ({ state }, row) => state.inputVoltage[row]],
  [
    "Output V",
    VOLTS,
    (feed, row) => (isLoad(feed, row) ? undefined : feed.state.outputVoltage[row]),
  ],
  ["Input A", { unit: "A", isRelative: true }, ({ state }, row) => state.inputCurrent[row]],
  [
    "Loss W",
    { ...WATTS, better: "less" },
    // A load's is counted at what feeds it.
    (feed, row) => (isLoad(feed, row) ? undefined : lossAt(feed, row)),
  ],
  ["Loading", { ...FRACTION, better: "less" }, loadingAt],
  [
    "Margin to its window",
    { ...FRACTION, better: "more" },
    ({ columns, state }, row) => {
      const margin = leastMargin(columns, row, state.inputVoltage[row]!);
      return margin === Infinity ? undefined : margin;
    },
  ],
];

function itemFigures(a: FeedVersion, b: FeedVersion): ComparedFigure[] {
  const rowsOfB = rowByName(b);
  const namesOfA = rowByName(a);
  const both = a.feed.columns.item.map((name, row) => ({
    name,
    inA: row as number | undefined,
    inB: rowsOfB.get(plainName(name)),
  }));
  const onlyB = b.feed.columns.item.flatMap((name, row) =>
    namesOfA.has(plainName(name)) ? [] : [{ name, inA: undefined, inB: row }],
  );
  return [...both, ...onlyB].flatMap(({ name, inA, inB }) =>
    ITEM_FIGURES.flatMap(([figure, kind, find]) => {
      const of = ({ point }: FeedVersion, row: number | undefined) =>
        row === undefined || point.faults.has(row) ? undefined : find(point.feed, row);
      const row = compared(name, figure, kind, of(a, inA), of(b, inB));
      return row.verdict === IN_NEITHER ? [] : row;
    }),
  );
}

function rowByName({ feed }: FeedVersion): ReadonlyMap<string, number> {
  return new Map(feed.columns.item.map((name, row) => [plainName(name), row]));
}

/** Holds but for the rounding of a solution, in any unit that is shown. */
const ROUNDING = 1e-9;

const IN_NEITHER = "in neither";
const UNDECIDED: Verdict = "not determined";

function compared(item: string, figure: string, kind: Kind, a: Value, b: Value): ComparedFigure {
  const { unit, isRelative } = kind;
  const row = { item, figure, a, b, unit, ...differenceOf(a, b, isRelative) };
  return { ...row, verdict: wordOf(row, kind.better) };
}

function differenceOf(
  a: Value,
  b: Value,
  isRelative: boolean | undefined,
): Pick<ComparedFigure, "difference" | "relative"> {
  if (typeof a !== "number" || typeof b !== "number")
    return { difference: undefined, relative: undefined };
  const difference = b - a;
  return { difference, relative: isRelative && a !== 0 ? difference / Math.abs(a) : undefined };
}

function wordOf(
  { a, b, difference }: Pick<ComparedFigure, "a" | "b" | "difference">,
  better: Better,
): string {
  if (a === undefined && b === undefined) return IN_NEITHER;
  if (b === undefined) return "only in A";
  if (a === undefined) return "only in B";
  if (difference === undefined) return a === b ? "same" : "differs";
  const scale = Math.max(1, Math.abs(Number(a)), Math.abs(Number(b)));
  if (Math.abs(difference) <= ROUNDING * scale) return "same";
  if (better === undefined) return "differs";
  return difference > 0 === (better === "more") ? "better" : "worse";
}

/** Checks that are judged otherwise; of those that only one version has, the ones that do not hold. */
function checkChanges(a: readonly CheckRow[], b: readonly CheckRow[]): ComparedFigure[] {
  const [ofA, ofB] = [a, b].map((rows) => new Map(rows.map((row) => [keyOf(row), row])));
  const changed = a.flatMap((row) => checkChange(row, ofB!.get(keyOf(row))));
  const added = b.flatMap((row) => (ofA!.has(keyOf(row)) ? [] : checkChange(undefined, row)));
  return [...changed, ...added];
}

function keyOf({ item, check }: CheckRow): string {
  return JSON.stringify([plainName(item), check]);
}

function checkChange(a: CheckRow | undefined, b: CheckRow | undefined): ComparedFigure[] {
  if (a?.verdict === b?.verdict) return [];
  const [one = b!, other = a!] = [a, b];
  if ((!a || !b) && (one.verdict === "holds" || one.verdict === "not asked")) return [];
  return [
    {
      item: one.item,
      figure: one.check,
      a: a?.found,
      b: b?.found,
      ...differenceOf(a?.found, b?.found, false),
      unit: one.unit === other.unit ? one.unit : `${one.unit || "–"}; ${other.unit || "–"}`,
      verdict: changeWord(a?.verdict, b?.verdict),
    },
  ];
}

function changeWord(a: Verdict | undefined, b: Verdict | undefined): string {
  if (b === undefined) return `${a}, only in A`;
  if (a === undefined) return `${b}, only in B`;
  if (a === "holds" && b === "fails") return "now fails";
  if (a === "fails" && b === "holds") return "now holds";
  return `${a} in A, ${b} in B`;
}

/** The words that say that B is better than A. */
export const BETTER_WORDS: readonly string[] = ["better", "now holds"];

/** The words that say that B is worse, or that a check fails in B alone. */
export const WORSE_WORDS: readonly string[] = [
  "worse",
  changeWord("holds", "fails"),
  changeWord("not determined", "fails"),
  changeWord("not asked", "fails"),
  changeWord(undefined, "fails"),
];

function comparedGivens(unit: string): Quantities {
  return {
    a: { label: "In A", symbol: "x_A", unit },
    b: { label: "In B", symbol: "x_B", unit },
  };
}

function differenceStep(unit: string): Steps {
  return {
    difference: {
      label: "Difference, B less A",
      symbol: "Δx",
      unit,
      kind: "formula",
      formula: "b - a",
      cite: "definition",
    },
  };
}

const RELATIVE: Steps = {
  relative: {
    label: "Difference as a part of A",
    symbol: "δ",
    unit: "1",
    kind: "formula",
    formula: "(b - a) / abs(a)",
    cite: "definition",
  },
};

/** How a difference comes about; nothing where there is none. */
export function comparisonWorking(row: ComparedFigure): readonly FindingWorking[] {
  const { item, figure, a, b, difference, relative, unit } = row;
  if (difference === undefined) return [];
  return [
    {
      title: `${item}, ${figure}: B less A`,
      givens: comparedGivens(unit),
      steps: { ...differenceStep(unit), ...(relative !== undefined && RELATIVE) },
      values: { a, b, difference, ...(relative !== undefined && { relative }) },
      frozen: { a: "as found in A", b: "as found in B" },
    },
  ];
}
