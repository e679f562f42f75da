/** What is different where the user types the feed: rows that show nothing while empty, and one line that says what is missing. */
import { firstOf, fixedAt, quoted } from "../plans/sheet-builder.js";
import { type BudgetLayout, feedColumnArea } from "./budget-layout.js";
import { COMMON_KEYS, type InputReach } from "./budget-scenario.js";

/** Line 3 of Budget: what is solved, or else what is to be entered first. */
export const SOLVED_FOR_ROW = 3;
export const SOLVED_FOR = "Solved for ";

/** Whether all is entered that a typed budget needs, as a condition on any sheet of the plan. */
export function isReady(prefix = "{budget}!"): string {
  return `LEFT(${prefix}${fixedAt(0, SOLVED_FOR_ROW)},${SOLVED_FOR.length})=${quoted(SOLVED_FOR)}`;
}

/** As it is where the feed is not typed; "" while something is missing where it is. */
export function whenReady(
  { typed }: Pick<BudgetLayout, "typed">,
  formula: string,
  otherwise = '""',
): string {
  return typed ? `IF(${isReady()},${formula},${otherwise})` : formula;
}

/** The name of a typed row, or "" while the row is empty or something is missing. */
export function shownItem(
  { typed }: Pick<BudgetLayout, "typed">,
  item: string,
): string {
  return typed ? `IF(AND(${isReady()},${item}<>""),${item},"")` : item;
}

/** A figure of a row, or "" where the row's own first cell shows no item. */
export function inShownRow(
  { typed }: Pick<BudgetLayout, "typed">,
  item: string,
  formula: string,
): string {
  return typed ? `IF(${item}="","",${formula})` : formula;
}

/** Nothing is solved or judged without these. */
const REQUIRED: readonly (readonly [
  key: string,
  label: string,
  isNumber: boolean,
])[] = [
  [COMMON_KEYS.framework, "the framework of the voltage bands", false],
  [COMMON_KEYS.margin, "the margin for growth and ageing (0 is allowed)", true],
  [COMMON_KEYS.dropLimit, "the largest drop of a run", true],
  [COMMON_KEYS.loadingLimit, "the largest loading", true],
  [COMMON_KEYS.altitude, "the altitude", true],
];

/** Of a typed feed: what is missing, one thing after the other, or else what is solved. */
export function whatIsMissing(
  layout: BudgetLayout,
  { given }: InputReach,
  solvedFor: string,
): string {
  const missing = REQUIRED.map(
    ([key, label, isNumber]) =>
      [
        isNumber ? `NOT(ISNUMBER(${given(key)}))` : `${given(key)}=""`,
        quoted(`Enter ${label} on Inputs: nothing is solved without it.`),
      ] as const,
  );
  return firstOf(
    [
      ...missing,
      [
        `COUNTIF(${feedColumnArea(layout, "kind")},"supply")=0`,
        quoted(
          "Enter a supply in the feed table below, then what it feeds: one row for each item.",
        ),
      ],
    ],
    solvedFor,
  );
}
