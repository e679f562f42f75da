/** The supply's open-circuit voltage at its lowest, nominal and highest: from Inputs, or from the row of a typed feed. */
import { type BudgetLayout, feedColumnArea } from "./budget-layout.js";
import { COMMON_KEYS, type InputReach } from "./budget-scenario.js";

export const SUPPLY_CHOICES = ["lowest", "nominal", "highest"] as const;
export type SupplyChoice = (typeof SUPPLY_CHOICES)[number];

export const NOT_GIVEN = "not given";

const TYPED_COLUMN = {
  lowest: "lowest",
  nominal: "voltage",
  highest: "highest",
} as const;

/** @param prefix Of the Budget sheet, "" on that sheet itself. */
export function supplyVoltage(
  layout: BudgetLayout,
  given: InputReach["given"],
  which: SupplyChoice,
  prefix: "" | "{budget}!",
): string {
  if (!layout.typed)
    return given(COMMON_KEYS.supplyVoltage, SUPPLY_CHOICES.indexOf(which));
  const column = (key: "kind" | (typeof TYPED_COLUMN)[SupplyChoice]) =>
    prefix + feedColumnArea(layout, key);
  const cell = `INDEX(${column(TYPED_COLUMN[which])},MATCH("supply",${column("kind")},0))`;
  return `IFERROR(IF(N(${cell})>0,${cell},"${NOT_GIVEN}"),"${NOT_GIVEN}")`;
}
