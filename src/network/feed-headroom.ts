/**
 * How far the loads of a feed can grow together, from nominal and from peak, whichever is less: to the multiple at which the voltage collapses, and to the multiple
 * at which the first item falls below its window or exceeds its rating. Both get worse as loads grow; a voltage above
 * a window does not, and is worst at no load (the worst case of the feed).
 */
import { NoAnswerError } from "../quantities/errors.js";
import type { Caveat, Step } from "../quantities/steps.js";
import { collapseOf, givingNow, loadScale, MOST_MULTIPLE } from "./collapse.js";
import { type CompiledFeed, compiledFeed, enterTree } from "./compiled-feed.js";
import { type FeedColumns, itemAt } from "./feed-columns.js";
import { loadOf, type SupplyCase } from "./feed-conditions.js";
import type { FeedItem } from "./feed-item.js";
import type { FeedTree } from "./feed-topology.js";
import { ratedFlowAt } from "./row-flow.js";
import { KINDS } from "./row-kinds.js";

export interface FeedHeadroom {
  /** Not there where nothing collapses up to `MOST_MULTIPLE` times the loads. */
  readonly collapse: CollapsePoint | undefined;
  /** Not there where no item has a window or rating that it leaves before the collapse. */
  readonly limit: LimitPoint | undefined;
  readonly caveats: readonly Caveat[];
}

export type GrowingLoads = (typeof GROWING_LOADS)[number];

interface GrowingConditions {
  readonly loads: GrowingLoads;
  readonly supply: SupplyCase;
}

export interface CollapsePoint {
  readonly multiple: number;
  /** The loads that are multiplied. */
  readonly loads: GrowingLoads;
  readonly item: FeedItem;
  readonly leastDivisor: number;
}

export interface LimitPoint {
  readonly multiple: number;
  /** The loads that are multiplied. */
  readonly loads: GrowingLoads;
  readonly item: FeedItem;
  /** What is left behind: the input voltage, or the current of the whole row. */
  readonly quantity: "lowestVoltage" | "ratedCurrent";
  /** The input voltage or current at the multiple. */
  readonly reached: number;
  /** Lowest voltage, or rated current of the whole row. */
  readonly allowed: number;
}

/** Part of the multiple to which both are found; the square of the smallest divisor at the edge is of this order. */
const TOLERANCE = 1e-13;

/** Sets of loads that grow; the lesser multiple counts, since either may be the heavier one. */
const GROWING_LOADS = ["nominal", "peak"] as const;

/** No load draws anything that could be multiplied. */
export class NoLoadError extends NoAnswerError {}

/**
 * @throws {NoLoadError}
 * @throws {NoAnswerError} where the stages' own losses are too much already, or a load gives power back.
 * For a feed whose rows are all in order.
 */
export function feedHeadroom(columns: FeedColumns, supply: SupplyCase): FeedHeadroom {
  const feed = compiledFeed(columns);
  const sets = GROWING_LOADS.filter((loads) => drawsAnything(columns, loads));
  if (sets.length === 0) throw new NoLoadError("feedTable", "there is no load to multiply");
  const found = sets.flatMap((loads) =>
    feed.trees.map((tree) => treeHeadroom(tree, { loads, supply }, feed)),
  );
  const collapse = least(found.map((tree) => tree.collapse));
  const limit = least(found.map((tree) => tree.limit));
  return { collapse, limit, caveats: notesOn(collapse, limit) };
}

/**
 * Whether a feed carries a multiple of its loads, from nominal and from peak.
 * @throws {InputError} for a row that is not in order.
 * @throws {NoAnswerError} where a load gives power back.
 */
export function carriesTimes(
  columns: FeedColumns,
  supply: SupplyCase,
  multiple: number,
  alike?: CompiledFeed,
): boolean {
  const feed = compiledFeed(columns, alike);
  return GROWING_LOADS.every((loads) =>
    feed.trees.every((tree) => {
      const fault = enterTree(feed, tree, { loads, supply });
      if (fault) throw fault.error;
      const giving = givingNow(tree, feed);
      if (giving !== undefined) throw notDetermined(feed, giving);
      return loadScale(tree, feed)(multiple).outcome === "solved";
    }),
  );
}

function notDetermined({ columns }: CompiledFeed, row: number): NoAnswerError {
  return new NoAnswerError(
    "feedTable",
    `how far the loads can grow is not determined where one gives power back, as "${columns.item[row]}" does: a multiple of all of them may be carried where a lesser one is not`,
  );
}

function drawsAnything(columns: FeedColumns, loads: GrowingLoads): boolean {
  return columns.kind.some(
    (kind, row) => KINDS[kind]!.role === "load" && loadOf(columns, row, loads) > 0,
  );
}

function least<Point extends { readonly multiple: number }>(
  points: readonly (Point | undefined)[],
): Point | undefined {
  return points.reduce(
    (found, point) => (point && !(found && found.multiple <= point.multiple) ? point : found),
    undefined,
  );
}

function treeHeadroom(
  tree: FeedTree,
  conditions: GrowingConditions,
  feed: CompiledFeed,
): Pick<FeedHeadroom, "collapse" | "limit"> {
  const { columns } = feed;
  const { loads } = conditions;
  const fault = enterTree(feed, tree, conditions);
  if (fault) throw fault.error;
  const found = collapseOf(tree, feed, TOLERANCE);
  if (found.outcome === "not determined") throw notDetermined(feed, found.row);
  if (found.outcome === "carries nothing") {
    const name = columns.item[found.row];
    throw new NoAnswerError(
      "feedTable",
      `no operating point at any loads: the stages' no-load loss alone is more than the feed can deliver; the voltage collapses at "${name}"`,
    );
  }
  const top = found.outcome === "carries" ? found.multiple : MOST_MULTIPLE;
  const collapse =
    found.outcome === "carries"
      ? {
          multiple: found.multiple,
          loads,
          item: itemAt(columns, found.row),
          leastDivisor: found.leastDivisor,
        }
      : undefined;
  const limit = limitBelow(top, tree, feed);
  return { collapse, limit: limit && { ...limit, loads } };
}

/** Steps of the search before bisection, closer together at small multiples. */
const SEARCH_STEPS = 48;

/** The least multiple up to `top` beyond which an item is below its window or above its rating. */
function limitBelow(
  top: number,
  tree: FeedTree,
  feed: CompiledFeed,
): Omit<LimitPoint, "loads"> | undefined {
  const solveAt = loadScale(tree, feed);
  const exceededAt = (multiple: number) =>
    solveAt(multiple).outcome === "solved"
      ? tree.order.find((row) => limitsOf(row, feed).some(isExceeded))
      : undefined;
  let within = 0;
  let beyond: number | undefined;
  let row = exceededAt(0);
  if (row !== undefined) beyond = 0;
  for (let step = 1; step <= SEARCH_STEPS && beyond === undefined; step++) {
    const multiple = top * (step / SEARCH_STEPS) ** 3;
    row = exceededAt(multiple);
    if (row === undefined) within = multiple;
    else beyond = multiple;
  }
  if (beyond === undefined || row === undefined) return undefined;
  while (beyond - within > TOLERANCE * beyond) {
    const middle: number = (within + beyond) / 2;
    if (middle <= within || middle >= beyond) break;
    const found = exceededAt(middle);
    if (found === undefined) within = middle;
    else {
      beyond = middle;
      row = found;
    }
  }
  return limitAt(beyond, row, feed, solveAt);
}

function limitAt(
  multiple: number,
  row: number,
  feed: CompiledFeed,
  solveAt: ReturnType<typeof loadScale>,
): Omit<LimitPoint, "loads"> {
  solveAt(multiple);
  const limits = limitsOf(row, feed);
  const { quantity, reached, allowed } = limits.find(isExceeded) ?? limits[0]!;
  return {
    multiple,
    item: itemAt(feed.columns, row),
    quantity,
    reached,
    allowed,
  };
}

type Limit = Pick<LimitPoint, "quantity" | "reached" | "allowed">;

/** A supply's range describes its tolerance; it is no limit to check. */
function limitsOf(row: number, feed: CompiledFeed): Limit[] {
  const { columns, state } = feed;
  const { lowestVoltage, ratedCurrent, inParallel } = columns.figures;
  const lowest = lowestVoltage[row]!;
  const rated = ratedCurrent[row]!;
  const limits: Limit[] = [];
  if (KINDS[columns.kind[row]!]!.role !== "supply" && !Number.isNaN(lowest))
    limits.push({
      quantity: "lowestVoltage",
      reached: state.inputVoltage[row]!,
      allowed: lowest,
    });
  if (!Number.isNaN(rated))
    limits.push({
      quantity: "ratedCurrent",
      reached: ratedFlowAt(feed, row),
      allowed: rated * inParallel[row]!,
    });
  return limits;
}

function isExceeded({ quantity, reached, allowed }: Limit): boolean {
  return quantity === "lowestVoltage" ? reached < allowed : reached > allowed;
}

function notesOn(collapse: CollapsePoint | undefined, limit: LimitPoint | undefined): Caveat[] {
  const add = (code: string, field: string, text: string): Caveat => ({
    code,
    field,
    text,
    cite: "two-roots",
  });
  const caveats: Caveat[] = [];
  if (collapse === undefined)
    caveats.push(
      add(
        "no-collapse",
        "collapseMultiple",
        `no collapse up to ${MOST_MULTIPLE} times the loads: a feed without resistance, or without loads that hold their power`,
      ),
    );
  else if (collapse.loads !== "nominal")
    caveats.push(
      add(
        "counted-from-peak",
        "collapseMultiple",
        `collapse counted from ${collapse.loads} loads, which are the heavier ones`,
      ),
    );
  if (collapse && collapse.multiple < 1)
    caveats.push(
      add("overloaded", "collapseMultiple", "the loads as given are more than the feed can supply"),
    );
  if (limit !== undefined)
    caveats.push({
      ...add("limit", "limitMultiple", limitText(limit)),
      cite: "definition",
    });
  return caveats;
}

/** Said only where the loads are not the nominal ones, which people expect. */
function countedFrom({ loads }: { readonly loads: GrowingLoads }): string {
  return loads === "nominal" ? "" : `, counted from ${loads} loads`;
}

function limitText(limit: LimitPoint): string {
  const { item, quantity, multiple } = limit;
  const what = quantity === "lowestVoltage" ? "falls below its Lowest V" : "exceeds its Rated A";
  return multiple === 0
    ? `"${item.item}" ${what} without any load`
    : `"${item.item}" ${what}${countedFrom(limit)}`;
}

/** What the two multiples satisfy; `leastDivisor` goes as the square root of the distance to the edge. */
export const collapseStep: Step = {
  label: "Multiple of every load at collapse",
  symbol: "λ",
  unit: "1",
  kind: "solved",
  residual: "leastDivisor^2",
  cite: "two-roots",
};

export const limitStep: Step = {
  label: "Multiple of every load at the first limit",
  symbol: "λ₁",
  unit: "1",
  kind: "solved",
  residual: "(reached - allowed) / allowed",
  cite: "definition",
};
