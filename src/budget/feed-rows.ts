/** Rows that feeds of several scenarios share. */
import {
  COMMON_KEYS,
  type FeedRowPlan,
  type InputReach,
} from "./budget-scenario.js";

/** A load that holds its power, with the margin on it: lines `key` (light, nominal, peak) and `keyWindow` of the inputs. */
export function powerLoadRow(
  item: string,
  fedFrom: string,
  key: string,
  given: InputReach["given"],
): FeedRowPlan {
  const withMargin = (column: number) =>
    `${given(key, column)}*(1+${given(COMMON_KEYS.margin)})`;
  return {
    item,
    fedFrom,
    kind: "power load",
    figures: {
      lightLoad: withMargin(0),
      load: withMargin(1),
      peakLoad: withMargin(2),
      lowest: given(`${key}Window`, 0),
      highest: given(`${key}Window`, 1),
    },
  };
}
