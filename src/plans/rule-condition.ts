/** A rule of a plan as one native formula about the top left cell of its range: rules by value do not see what is spilled. */
import { rangePlace, cellAddress } from "./addresses.js";
import { fillPlaceholders, type UsedNames } from "./placeholders.js";
import type { PlanRule } from "./sheet-plan.js";

/** True paints. */
export function ruleCondition(rule: PlanRule, used: UsedNames): string {
  const { top, left } = rangePlace(rule.range);
  const cell = cellAddress({ row: top, column: left });
  switch (rule.kind) {
    case "text":
      return `EXACT(${cell},"${rule.text.replaceAll('"', '""')}")`;
    case "above":
      return `AND(ISNUMBER(${cell}),N(${cell})>${rule.limit})`;
    case "below":
      return `AND(ISNUMBER(${cell}),N(${cell})<${rule.limit})`;
    case "formula":
      return fillPlaceholders(rule.formula, used);
  }
}
