/** What the sheets of a budget say of each item: solved figures, and the worst of its checks. */
import { rangeRows, numberOf, sameItem, textOf } from "./range-table.js";
import type { FoundBudget } from "./found-budget.js";
import { feedOutline, type OutlineItem } from "./feed-outline.js";

/** Worst first. */
export const ITEM_VERDICTS = ["fails", "not determined", "holds", "not judged"] as const;

export type ItemVerdict = (typeof ITEM_VERDICTS)[number];

export interface FeedItem extends OutlineItem {
  /** Kind in the feed table, "" where it is not in it yet. */
  readonly kind: string;
  /** What an item in line is. */
  readonly inLineKind: string;
  /** At its input; a supply's at its terminals. */
  readonly volts: number | undefined;
  readonly amperes: number | undefined;
  readonly watts: number | undefined;
  /** As the feed table or the solved row says: why it is refused, what was assumed. */
  readonly note: string;
  readonly verdict: ItemVerdict;
  /** How many of its checks have that verdict. */
  readonly count: number;
}

export function feedItems(budget: Pick<FoundBudget, "ranges">): readonly FeedItem[] {
  const { Feed: feed, Solved: solved, Checks: checks } = budget.ranges;
  const rows = feed ? rangeRows(feed) : [];
  const figures = solved ? rangeRows(solved) : [];
  const judged = checks ? rangeRows(checks) : [];
  return feedOutline(budget).map((item) => {
    const row = rows.find((one) => sameItem(one.item, item.name));
    const own = figures.find((one) => sameItem(one.item, item.name));
    const isSupply = item.block === "Supply";
    const figure = (quantity: "V" | "A" | "W") =>
      own && numberOf(own.value(`${isSupply ? "Output" : "Input"} ${quantity}`));
    const verdicts = judged
      .filter((one) => sameItem(one.item, item.name))
      .map((one) => textOf(one.value("Verdict")));
    const verdict = ITEM_VERDICTS.find((one) => verdicts.includes(one)) ?? "not judged";
    return {
      ...item,
      kind: textOf(row?.value("Kind")),
      inLineKind: textOf(row?.value("In line kind")),
      volts: figure("V"),
      amperes: figure("A"),
      watts: figure("W"),
      note: textOf(own?.value("Note")) || textOf(row?.value("Note")),
      verdict,
      count: verdicts.filter((one) => one === verdict).length,
    };
  });
}
