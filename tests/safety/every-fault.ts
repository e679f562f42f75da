/**
 * The rule of one fault told the long way: for each item, every stage on its path fails alone, and the voltage is
 * walked down from there. Written from the rule, for feeds with every figure given.
 */
import type { FeedItem } from "../../src/network/feed-item.js";

export interface EveryFault {
  readonly normal: number;
  readonly afterFault: number;
}

export function everyFault(
  items: readonly FeedItem[],
  index: number,
): EveryFault {
  const path = pathTo(items, index);
  const normal = normalAlong(path);
  let worst = normal.at(-1)!;
  path.forEach((failing, at) => {
    if (failing.kind !== "ratio" && failing.kind !== "regulated") return;
    const rest = path.slice(at + 1);
    if (failing.isolation !== "reinforced") {
      const risen = Math.max(normal[at - 1]!, normal[at]!);
      worst = Math.max(worst, walkedDown(risen, rest));
    }
    if (failing.kind === "regulated") {
      const risen = Math.max(failing.tripVoltage!, normal[at]!);
      worst = Math.max(worst, walkedDown(risen, rest));
    }
  });
  return { normal: normal.at(-1)!, afterFault: worst };
}

function pathTo(items: readonly FeedItem[], index: number): FeedItem[] {
  const path: FeedItem[] = [];
  let at: FeedItem | undefined = items[index];
  while (at) {
    path.unshift(at);
    const { fedFrom } = at;
    at = items.find(({ item }) => item === fedFrom);
  }
  return path;
}

function normalAlong(path: readonly FeedItem[]): number[] {
  const voltages: number[] = [];
  for (const one of path) {
    const input = voltages.at(-1) ?? 0;
    if (one.kind === "supply") voltages.push(one.highestVoltage!);
    else voltages.push(working(one, input));
  }
  return voltages;
}

function working(one: FeedItem, input: number): number {
  if (one.kind === "ratio") return input * one.ratio! * (1 + one.tolerance!);
  if (one.kind === "regulated") return one.voltage! * (1 + one.tolerance!);
  return input;
}

/** Stages that are not reinforced fail with the one above, or work on: whichever gives more. */
function walkedDown(risen: number, rest: readonly FeedItem[]): number {
  return rest.reduce((voltage, one) => {
    const output = working(one, voltage);
    const holds = one.isolation === "reinforced";
    return holds ? output : Math.max(voltage, output);
  }, risen);
}
