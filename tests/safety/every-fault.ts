/**
 * The rule of one fault told the long way: every stage of the feed fails in every way that it can, one at a time, and
 * each fault is walked from item to item, up and down. Written from the rule, item by item and without circuits; what
 * is not known is endless.
 */
import type { FeedItem } from "../../src/network/feed-item.js";

export interface EveryFault {
  /** Infinity where it is not determined. */
  readonly normal: number;
  readonly afterFault: number;
  /** Stages of which one fault brings that about; none where no fault raises the voltage. */
  readonly stages: ReadonlySet<string>;
}

interface Feed {
  readonly items: readonly FeedItem[];
  readonly parent: readonly number[];
  readonly normal: readonly number[];
}

export function everyFault(items: readonly FeedItem[]): EveryFault[] {
  const parent = items.map(({ fedFrom }) => items.findIndex(({ item }) => item === fedFrom));
  const normal: number[] = [];
  const normalOf = (at: number): number =>
    (normal[at] ??=
      parent[at] === -1
        ? (items[at]!.highestVoltage ?? Infinity)
        : working(items[at]!, normalOf(parent[at]!)));
  items.forEach((_, at) => normalOf(at));
  const feed: Feed = { items, parent, normal };
  const worst = [...normal];
  const stages = items.map(() => new Set<string>());
  items.forEach((failing, at) => {
    for (const levels of faultsOf(feed, failing, at))
      levels.forEach((level, other) => {
        if (level > worst[other]!) {
          worst[other] = level;
          stages[other]!.clear();
        }
        if (level === worst[other]! && level > normal[other]!) stages[other]!.add(failing.item);
      });
  });
  return items.map((_, at) => ({
    normal: normal[at]!,
    afterFault: worst[at]!,
    stages: stages[at]!,
  }));
}

/** The voltages of all items in each of the faults that one stage can have. */
function faultsOf(feed: Feed, failing: FeedItem, at: number): number[][] {
  if (!isStage(failing)) return [];
  const [input, output] = [feed.normal[feed.parent[at]!]!, feed.normal[at]!];
  const stopped = failing.tripVoltage ?? Infinity;
  const faults: number[][] = [];
  if (failing.kind === "regulated") {
    const levels = [...feed.normal];
    lift(feed, levels, at, stopped, "down");
    faults.push(levels);
  }
  if (failing.isolation === "reinforced") return faults;
  const lowest = Math.min(input, failing.lowestVoltage ?? Infinity);
  const counts =
    failing.kind === "regulated" && (failing.tripVoltage !== undefined || output >= lowest);
  const joined = Math.max(input, output, counts ? stopped : 0);
  const levels = [...feed.normal];
  lift(feed, levels, at, joined, "down");
  lift(feed, levels, feed.parent[at]!, joined, "both", at);
  return [...faults, levels];
}

/** Puts a voltage on what an item feeds, and on what feeds the item where that is one with it or fails with it. */
function lift(
  feed: Feed,
  levels: number[],
  at: number,
  voltage: number,
  ways: "down" | "both",
  from = -1,
): void {
  levels[at] = Math.max(levels[at]!, voltage);
  feed.items.forEach((child, row) => {
    if (feed.parent[row] !== at || row === from) return;
    const output = working(child, voltage);
    const passes = isStage(child) && child.isolation !== "reinforced";
    lift(feed, levels, row, passes ? Math.max(output, voltage) : output, "down");
  });
  const above = feed.parent[at]!;
  const item = feed.items[at]!;
  const holds = isStage(item) && item.isolation === "reinforced";
  if (ways === "both" && above !== -1 && !holds) lift(feed, levels, above, voltage, "both", at);
}

function isStage({ kind }: FeedItem): boolean {
  return kind === "ratio" || kind === "regulated";
}

function working(one: FeedItem, input: number): number {
  const most = 1 + (one.tolerance ?? Infinity);
  if (one.kind === "ratio") return input * one.ratio! * most;
  if (one.kind === "regulated") return one.voltage! * most;
  return input;
}
