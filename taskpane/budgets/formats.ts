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

/** The first that the heading ends with, or is. */
const BY_HEADING: readonly (readonly [RegExp, string])[] = [
  [/^Closing error/, "0.0E+00"],
  [/^(Efficiency|Share of losses|Loading|Highest loading|Least margin)$/, "0.0%"],
  [/^Margin/, "0.0%"],
  [/ V$/, "0.00"],
  [/ A$/, "0.00"],
  [/ W$/, "0.0"],
  // Of very different sizes: volts, fractions, seconds.
  [/^(Found|Limit)$/, "[>=100]0;[>=1]0.00;0.00##"],
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
