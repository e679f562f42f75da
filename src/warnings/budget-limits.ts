/** What a budget is held against, as its Limits area says. */
import { areaRows, numberOf, sameItem, textOf } from "./area-table.js";
import type { FoundBudget, ReadValue } from "./warning.js";

/** A limit that the area does not give is undefined, and nothing is held against it. */
export interface BudgetLimits {
  readonly drop: number | undefined;
  readonly loading: number | undefined;
  readonly framework: string;
  readonly place: string;
  readonly band: string;
  readonly bandAbove: string;
  readonly bandLimit: number | undefined;
  readonly bandAboveLimit: number | undefined;
  readonly altitude: number | undefined;
  readonly altitudeLimit: number | undefined;
  readonly at: (label: string) => { sheet: string; address: string };
}

export const ALTITUDE_LABEL = "Altitude";

export function budgetLimits({ areas }: FoundBudget): BudgetLimits | undefined {
  const area = areas["Limits"];
  if (!area) return undefined;
  const rows = areaRows(area);
  const rowOf = (label: string) =>
    rows.find(({ item }) => sameItem(item, label));
  const value = (label: string): ReadValue =>
    rowOf(label)?.value("Value") ?? "";
  const number = (label: string) => numberOf(value(label));
  return {
    drop: number("Largest drop of a run"),
    loading: number("Largest loading"),
    framework: textOf(value("Framework")),
    place: textOf(value("Place")),
    band: textOf(value("Band asked for")),
    bandAbove: textOf(value("Band above it")),
    bandLimit: number("Limit of the band asked for"),
    bandAboveLimit: number("Limit of the band above it"),
    altitude: number(ALTITUDE_LABEL),
    altitudeLimit: number("Clearances as printed up to"),
    at: (label) =>
      rowOf(label)?.at("Value") ?? {
        sheet: area.sheet,
        address: area.address,
      },
  };
}
