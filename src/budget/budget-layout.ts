/** Which rows of the Budget sheet hold what, for a feed of so many items. */
import { fixedArea, fixedAt } from "../plans/sheet-builder.js";
import {
  feedColumnAt,
  resultColumnAt,
  solvedColumnAt,
  solvedColumns,
  type SolvedHeading,
  typedColumnAt,
} from "./budget-columns.js";
import type {
  AnswerReach,
  BudgetReach,
  FeedColumn,
  FeedRowPlan,
  InputReach,
  ResultColumn,
} from "./budget-scenario.js";

/** A spill keeps free cells below for so many items more. */
export const SPARE_ITEMS = 20;

/** The balance and the limits stand side by side from here on. */
export const BALANCE_ROW = 5;
export const balanceRows = {
  supplyVoltage: 6,
  supplyPower: 7,
  loadPower: 8,
  loss: 9,
  together: 10,
  efficiency: 11,
  closingError: 12,
  closingAllowed: 13,
  closingCheck: 14,
  rowsHere: 15,
  rowsOnBands: 16,
  mass: 17,
  cost: 18,
} as const;

export const limitRows = {
  drop: 6,
  loading: 7,
  framework: 8,
  place: 9,
  band: 10,
  bandAbove: 11,
  bandLimit: 12,
  bandAboveLimit: 13,
  closing: 14,
  altitude: 15,
  altitudeLimit: 16,
} as const;
export const LIMIT_LABEL_COLUMN = 4;
export const LIMIT_VALUE_COLUMN = 6;
export const LIMIT_UNIT_COLUMN = 7;

export interface BudgetLayout {
  /** Names of the rows, "" where the user types them. */
  readonly items: readonly string[];
  readonly typed: boolean;
  /** The row with a table's headings; its items follow. */
  readonly resultsHead: number;
  readonly feedHead: number;
  readonly handHead: number;
  readonly solvedHead: number;
}

export function budgetLayout(
  feed: readonly FeedRowPlan[],
  handChecks: number,
  typedRows?: number,
): BudgetLayout {
  const items =
    typedRows === undefined
      ? feed.map(({ item }) => item)
      : Array.from({ length: typedRows }, () => "");
  const resultsHead = balanceRows.cost + 3;
  const feedHead = resultsHead + items.length + 4;
  const handHead = feedHead + items.length + 3;
  const solvedHead = handHead + (handChecks > 0 ? handChecks + 3 : 0);
  return {
    items,
    typed: typedRows !== undefined,
    resultsHead,
    feedHead,
    handHead,
    solvedHead,
  };
}

/** @throws {RangeError} for an item that the feed does not have. */
export function rowOf(head: number, layout: BudgetLayout, item: string) {
  const index = layout.items.indexOf(item);
  if (index < 0) throw new RangeError(`there is no item ${item}`);
  return head + 1 + index;
}

export function enteredAt(
  layout: BudgetLayout,
  item: string,
  column: FeedColumn,
): string {
  return fixedAt(feedColumnAt(column), rowOf(layout.feedHead, layout, item));
}

export function solvedAt(
  layout: BudgetLayout,
  item: string,
  column: ResultColumn,
): string {
  return fixedAt(
    resultColumnAt(column),
    rowOf(layout.resultsHead, layout, item),
  );
}

export function balanceAt(line: keyof typeof balanceRows): string {
  return fixedAt(1, balanceRows[line]);
}

export function limitAt(line: keyof typeof limitRows): string {
  return fixedAt(LIMIT_VALUE_COLUMN, limitRows[line]);
}

/** The feed table with its headings. */
export function feedArea({ feedHead, items, typed }: BudgetLayout): string {
  const last = typed ? typedColumnAt("peakLoad") : feedColumnAt("ripplePeak");
  return fixedArea(0, feedHead, last, feedHead + items.length);
}

/** One column of the feed table without its heading. */
export function feedColumnArea(
  { feedHead, items }: BudgetLayout,
  key: FeedColumn,
): string {
  const column = feedColumnAt(key);
  return fixedArea(column, feedHead + 1, column, feedHead + items.length);
}

/** Whether the one call has not given its rows; what they held before may then still be read. */
export function notSolved({ solvedHead }: BudgetLayout): string {
  return `IFERROR(${fixedAt(0, solvedHead)}<>"${solvedColumns[0].heading}",TRUE)`;
}

/** One column of the results table without its heading. */
export function resultColumnArea(
  { resultsHead, items }: BudgetLayout,
  key: ResultColumn,
): string {
  const column = resultColumnAt(key);
  return fixedArea(column, resultsHead + 1, column, resultsHead + items.length);
}

/** One column of the spill without its heading, with what may still come below. */
export function solvedColumnArea(
  { solvedHead, items }: BudgetLayout,
  heading: SolvedHeading,
): string {
  const column = solvedColumnAt(heading);
  const last = solvedHead + items.length + SPARE_ITEMS;
  return fixedArea(column, solvedHead + 1, column, last);
}

/** The spill with its headings and the room for more items. */
export function solvedArea({ solvedHead, items }: BudgetLayout): string {
  const last = solvedHead + items.length + SPARE_ITEMS;
  return fixedArea(0, solvedHead, solvedColumns.length - 1, last);
}

export function budgetReach(
  inputs: InputReach,
  layout: BudgetLayout,
): BudgetReach {
  return {
    ...inputs,
    solved: (item, column) => solvedAt(layout, item, column),
    entered: (item, column) => enteredAt(layout, item, column),
    solvedSupplyVoltage: balanceAt("supplyVoltage"),
  };
}

/** The same cells seen from another sheet. */
export function answerReach(
  inputs: InputReach,
  layout: BudgetLayout,
): AnswerReach {
  const budget = (address: string) => `{budget}!${address}`;
  return {
    ...inputs,
    solved: (item, column) => budget(solvedAt(layout, item, column)),
    entered: (item, column) => budget(enteredAt(layout, item, column)),
    solvedSupplyVoltage: budget(balanceAt("supplyVoltage")),
    feedTable: budget(feedArea(layout)),
    itemCount: layout.items.length,
  };
}
