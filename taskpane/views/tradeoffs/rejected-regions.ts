/** Options of which no candidate is left, together where one limit refused them. */
import { type RejectedOption, TRADE_AXES } from "../../../src/tradeoffs/rejection-tally.js";
import type { TradeSpace } from "../../../src/tradeoffs/trade-space.js";
import { ratioText } from "./candidate-name.js";
import { element } from "../parts/element.js";
import { words } from "../../words/words.js";

const said = words.tradeoffs;

export function rejectedRegions(
  space: TradeSpace,
  rejected: readonly RejectedOption[],
): HTMLElement[] {
  if (rejected.length === 0) return [];
  const lines = TRADE_AXES.flatMap((axis) => {
    const ofAxis = rejected.filter((one) => one.axis === axis);
    return byLimits(ofAxis).map((options) => {
      const shares = options.map(({ share }) => Math.round(100 * share));
      return said.rejectedBy({
        options: options.map((one) => optionName(space, one)).join(", "),
        limit: options[0]?.limit ?? "",
        furthest: options[0]?.furthest ?? "",
        least: Math.min(...shares),
        most: Math.max(...shares),
      });
    });
  });
  return [
    element("h3", { class: "feed-group-heading" }, said.rejected),
    element("ul", { class: "feed-rejected" }, ...lines.map((line) => element("li", {}, line))),
  ];
}

/** Those that the same two limits are named for stand together. */
function byLimits(rejected: readonly RejectedOption[]): RejectedOption[][] {
  const groups = new Map<string, RejectedOption[]>();
  for (const one of rejected) {
    const key = `${one.limit}, ${one.furthest}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()];
}

function optionName(space: TradeSpace, { axis, option }: RejectedOption): string {
  const cable = space.cables[option];
  switch (axis) {
    case "supply":
      return `${String(space.supplies[option]?.voltage)} V`;
    case "cable":
      return `${String(cable?.material)} ${String(cable?.size)}`;
    case "arrangement":
      return ratioText(space.arrangements[option] ?? []);
    case "inParallel":
      return said.converters(option + 1);
  }
}
