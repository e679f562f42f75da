/** Rows that feeds of several scenarios share. */
import {
  COMMON_KEYS,
  type FeedRowPlan,
  type InputReach,
} from "./budget-scenario.js";

/** Of the two lines of `rippleLines`; a cell that reads an empty one would hold 0. */
export function rippleFigures(
  key: string,
  given: InputReach["given"],
  column = 0,
): Pick<FeedRowPlan["figures"], "rippleRms" | "ripplePeak"> {
  const orNothing = (cell: string) => `IF(N(${cell})=0,"",${cell})`;
  return {
    rippleRms: orNothing(given(`${key}Rms`, column)),
    ripplePeak: orNothing(given(`${key}Peak`, column)),
  };
}

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
