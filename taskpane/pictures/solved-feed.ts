/** A budget's feed as solved on its sheet: what the pictures are drawn from, cell by cell. */
import { feederNames } from "../budgets/reading/feed-outline.js";
import { kindOf } from "../../src/network/row-kinds.js";
import {
  type RangeRow,
  rangeRows,
  numberOf,
  sameItem,
  textOf,
} from "../budgets/reading/range-table.js";
import type { FoundBudget } from "../budgets/reading/found-budget.js";

export interface SolvedItem {
  readonly item: string;
  readonly fedFrom: string;
  readonly kind: string;
  readonly inputVoltage: number;
  /** Not there for a load. */
  readonly outputVoltage: number | undefined;
  readonly inputPower: number;
  readonly loss: number;
  readonly lowestVoltage: number | undefined;
  readonly highestVoltage: number | undefined;
  readonly ratedCurrent: number | undefined;
}

/** Every item, or nothing where one of them is not solved. */
export function solvedFeed({ ranges }: FoundBudget): readonly SolvedItem[] | undefined {
  const { Feed: feed, Solved: solved } = ranges;
  if (!feed || !solved) return undefined;
  const results = rangeRows(solved);
  const items = rangeRows(feed).map((row) =>
    solvedItem(
      row,
      results.find(({ item }) => sameItem(item, row.item)),
    ),
  );
  const whole = items.filter((item) => item !== undefined);
  return whole.length > 0 && whole.length === items.length ? whole : undefined;
}

function solvedItem(entered: RangeRow, solved: RangeRow | undefined): SolvedItem | undefined {
  const of = (row: RangeRow, heading: string) => numberOf(row.value(heading));
  if (!solved) return undefined;
  const [inputVoltage, inputPower, loss] = [
    of(solved, "Input V"),
    of(solved, "Input W"),
    of(solved, "Loss W"),
  ];
  if (inputVoltage === undefined || inputPower === undefined) return undefined;
  if (loss === undefined) return undefined;
  return {
    item: entered.item,
    fedFrom: textOf(entered.value("Fed from")),
    kind: textOf(entered.value("Kind")).toLowerCase(),
    inputVoltage,
    outputVoltage: of(solved, "Output V"),
    inputPower,
    loss,
    lowestVoltage: of(entered, "Lowest V"),
    highestVoltage: of(entered, "Highest V"),
    ratedCurrent: of(entered, "Rated A"),
  };
}

export function isSupply({ kind }: SolvedItem): boolean {
  return kindOf(kind)?.role === "supply";
}

/** What converts, by its kind in the feed table. */
export function isStage({ kind }: Pick<SolvedItem, "kind">): boolean {
  return kindOf(kind)?.role === "stage";
}

/** As the sheet's balance tells them: what has no output. */
export function isLoad({ outputVoltage }: SolvedItem): boolean {
  return outputVoltage === undefined;
}

export interface FeedSums {
  readonly supply: number;
  readonly loads: number;
  readonly losses: number;
}

/** As the sheet's balance adds them. */
export function feedSums(items: readonly SolvedItem[]): FeedSums {
  const sum = (numbers: readonly number[]) => numbers.reduce((total, number) => total + number, 0);
  const power = ({ inputPower }: SolvedItem) => inputPower;
  return {
    supply: sum(items.filter(isSupply).map(power)),
    loads: sum(items.filter(isLoad).map(power)),
    losses: sum(items.map(({ loss }) => loss)),
  };
}

/** Whether currents have more than one way, so that no item is fed by one other alone. */
export function isMeshed(items: readonly SolvedItem[]): boolean {
  return items.some(({ fedFrom }) => feederNames(fedFrom).length > 1);
}

/** The items from the supply to the item, both included; of several ways the first one named. */
export function pathTo(items: readonly SolvedItem[], end: SolvedItem): readonly SolvedItem[] {
  const path: SolvedItem[] = [];
  let at: SolvedItem | undefined = end;
  while (at && !path.includes(at)) {
    path.unshift(at);
    const { fedFrom }: SolvedItem = at;
    const [feeder = ""] = feederNames(fedFrom);
    at = items.find(({ item }) => sameItem(item, feeder));
  }
  return path;
}

/** The supply, where there is one and no more. */
export function onlySupply(items: readonly SolvedItem[]): SolvedItem | undefined {
  const supplies = items.filter(isSupply);
  return supplies.length === 1 ? supplies[0] : undefined;
}
