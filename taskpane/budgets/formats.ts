/** How figures are shown: by the quantity of a column, and by the unit that ends a heading of a spill. */
import type { HeaderQuantity } from "../../src/quantities/header-units.js";

const BY_QUANTITY: Partial<Readonly<Record<HeaderQuantity, string>>> = {
  voltage: "0.0##",
  current: "0.0##",
  power: "0.0#",
  // From milliohms of a contact to kilohms of a bleed.
  resistance: "[>=10]0.0##;0.0000##",
  inductance: "0.0##",
  "loss for each ampere": "0.0#####",
  "loss for each square ampere": "0.0#####",
  load: "0.0#",
  fraction: "0.0##%",
  length: "0.0#",
  mass: "0.0##",
  money: "#,##0.00",
};

export function quantityFormat(quantity: HeaderQuantity): string | undefined {
  return BY_QUANTITY[quantity];
}

/**
 * A part of a limit that is left. Below 0 it fails: with more digits, so that a hair beyond the limit does not look like 0,
 * and in a section of its own, which every program shows with its sign; sections with conditions differ in that.
 */
export const MARGIN_FORMAT = "0.0%;-0.0###%";

/** The first that the heading ends with, or is. */
const BY_HEADING: readonly (readonly [RegExp, string])[] = [
  [/^Closing error/, "0.0E+00"],
  [/^(Efficiency|Share of losses|Loading|Highest loading)$/, "0.0%"],
  [/^(Least margin$|Margin)/, MARGIN_FORMAT],
  [/ V$/, "0.00"],
  [/ A$/, "0.00"],
  [/ W$/, "0.0"],
  // Of very different sizes: volts, fractions, seconds. What is below 0 is of the first section, where alone every program
  // keeps its sign.
  [/^(Found|Limit)$/, "[<1]0.00##;[>=100]0;0.00"],
  [/^Output per litre/, "0"],
  [/^(Length|Mass|Volume)/, "0.0"],
  [/^Price$/, "#,##0"],
  [/^(In parallel|Cores)$/, "0"],
  [/^Ratio$/, "0.0#####"],
];

/** Undefined for a column of words. */
export function headingFormat(heading: string): string | undefined {
  return BY_HEADING.find(([pattern]) => pattern.test(heading))?.[1];
}
