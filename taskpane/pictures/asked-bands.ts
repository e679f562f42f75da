/** The bands that a budget asks for, with their limits: lines in the picture of voltages. */
import {
  bandLimit,
  type FrameworkName,
  FRAMEWORKS,
  touchFrameworks,
} from "../../src/safety/touch-bands.js";
import { rangeRows, sameItem, textOf } from "../budgets/reading/range-table.js";
import type { FoundBudget } from "../budgets/reading/found-budget.js";

export interface BandLine {
  readonly name: string;
  /** V dc. */
  readonly limit: number;
}

/** The bands from the lower one up; none where no framework is asked for, or it prints no limit for the place. */
export function askedBands({ ranges }: FoundBudget): readonly BandLine[] {
  const rows = ranges["Asked"] ? rangeRows(ranges["Asked"]) : [];
  const asked = (label: string) =>
    textOf(rows.find(({ item }) => sameItem(item, label))?.value("Value"));
  const name = FRAMEWORKS.find((one) => sameItem(one, asked("Framework")));
  if (name === undefined) return [];
  const place = asked("Place").toLowerCase();
  // A place that is not said counts as wet.
  return bandsOf(name, place === "dry" ? "dry" : "wet");
}

function bandsOf(name: FrameworkName, place: "dry" | "wet"): BandLine[] {
  const { bands, bandsAsked } = touchFrameworks[name];
  const names = new Set([bandsAsked.touchable, bandsAsked.above]);
  return bands.flatMap((band) => {
    const limit = bandLimit(band, "dc", place);
    return names.has(band.name) && limit !== undefined ? [{ name: band.name, limit }] : [];
  });
}
