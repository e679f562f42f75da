/** Options of which no candidate is left, together where one limit refused them. */
import {
  type RejectedOption,
  TRADE_AXES,
} from "../../src/tradeoffs/rejection-tally.js";
import type { TradeVerdict } from "../../src/tradeoffs/trade-evaluation.js";
import type { TradeSpace } from "../../src/tradeoffs/trade-space.js";
import { ratioText } from "./candidate-name.js";
import { element } from "./element.js";
import { words } from "./words.js";

const said = words.tradeoffs;

export function rejectedRegions(
  space: TradeSpace,
  rejected: readonly RejectedOption[],
): HTMLElement[] {
  if (rejected.length === 0) return [];
  const lines = TRADE_AXES.flatMap((axis) => {
    const ofAxis = rejected.filter((one) => one.axis === axis);
    return [...byLimit(ofAxis)].map(([limit, options]) => {
      const shares = options.map(({ share }) => Math.round(100 * share));
      return said.rejectedBy(
        options.map((one) => optionName(space, one)).join(", "),
        limit,
        Math.min(...shares),
        Math.max(...shares),
      );
    });
  });
  return [
    element("h3", { class: "feed-group-heading" }, said.rejected),
    element(
      "ul",
      { class: "feed-rejected" },
      ...lines.map((line) => element("li", {}, line)),
    ),
  ];
}

function byLimit(
  rejected: readonly RejectedOption[],
): ReadonlyMap<TradeVerdict, readonly RejectedOption[]> {
  const groups = new Map<TradeVerdict, RejectedOption[]>();
  for (const one of rejected)
    groups.set(one.limit, [...(groups.get(one.limit) ?? []), one]);
  return groups;
}

function optionName(
  space: TradeSpace,
  { axis, option }: RejectedOption,
): string {
  const cable = space.cables[option];
  switch (axis) {
    case "supply":
      return `${String(space.supplies[option]?.voltage)} V`;
    case "cable":
      return `${String(cable?.material)} ${String(cable?.size)}`;
    case "arrangement":
      return ratioText(space.arrangements[option] ?? []);
    case "units":
      return said.units(option + 1);
  }
}
