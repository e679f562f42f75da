/** What candidates are traded in: each a figure of the whole feed, of which less is better, but of the margin more. */
import type { JudgedRow } from "../../judgement/checks.js";
import type { DetailFigure, JudgedFeed } from "../../judgement/judged-feed.js";
import { compiledFeed, enterTree } from "../../network/compiled-feed.js";
import { kindAt } from "../../network/feed-columns.js";
import { NOMINAL } from "../../network/feed-conditions.js";
import type { FeedKind } from "../../network/feed-item.js";
import { solveTree } from "../../network/feed-solver.js";
import { feedTotals } from "../../network/feed-totals.js";
import { InputError } from "../../quantities/errors.js";
import type { VariedFeed } from "./varied-feed.js";

export const OBJECTIVES = ["loss", "mass", "volume", "price", "worst margin"] as const;

export type Objective = (typeof OBJECTIVES)[number];

/** Figures that are the sum over the items which have them: by kind, and whether one stands for its whole row. */
const SUMMED: Readonly<
  Record<
    Exclude<Objective, "loss" | "worst margin">,
    {
      readonly field: DetailFigure;
      readonly kinds: readonly FeedKind[];
      readonly of: "row" | "one";
    }
  >
> = {
  mass: { field: "mass", kinds: ["run", "series", "ratio", "regulated"], of: "row" },
  volume: { field: "volume", kinds: ["ratio", "regulated"], of: "one" },
  price: { field: "price", kinds: ["supply", "run", "series", "ratio", "regulated"], of: "row" },
};

type Summed = keyof typeof SUMMED;

function isSummed(objective: Objective): objective is Summed {
  return objective in SUMMED;
}

/** SI; loss at nominal loads and supply, as CHAIN_TOTAL gives it. Undefined of one that cannot be told before it is judged. */
export type FiguresOf = () => readonly (number | undefined)[];

/**
 * Figures of a feed as it stands whenever they are asked for: who feeds whom is set up once. Loss is NaN where the feed
 * has no operating point.
 */
export function figuresOf(feed: JudgedFeed, objectives: readonly Objective[]): FiguresOf {
  const compiled = compiledFeed(feed.columns);
  const loss = (): number => {
    for (const tree of compiled.trees)
      if (
        enterTree(compiled, tree, NOMINAL) ||
        solveTree(tree.order, compiled).outcome !== "solved"
      )
        return Number.NaN;
    return feedTotals(compiled, () => true).loss;
  };
  return () =>
    objectives.map((objective) => {
      if (objective === "loss") return loss();
      return isSummed(objective) ? sumOf(feed, SUMMED[objective]) : undefined;
    });
}

/** What is not known of an item that stays the same adds the same to every candidate, and is left out. */
function sumOf({ columns, details }: JudgedFeed, { field, of }: (typeof SUMMED)[Summed]): number {
  let sum = 0;
  for (let row = 0; row < columns.count; row++) {
    const figure = details[row]!.figures[field];
    if (figure === undefined) continue;
    sum += of === "row" ? figure : figure * columns.figures.inParallel[row]!;
  }
  return sum;
}

/** The least margin of the rows that have one; 1 and more where nothing is near its limit. */
export function worstMargin(rows: Iterable<Pick<JudgedRow, "margin">>): number {
  let least = Infinity;
  for (const { margin } of rows) if (margin !== undefined && margin < least) least = margin;
  return least;
}

/**
 * A candidate is no better for a figure that nobody typed.
 * @throws {InputError} where an item that is varied lacks a figure that is traded, at any of its choices.
 */
export function requireFigures(varied: VariedFeed, objectives: readonly Objective[]): void {
  for (const objective of objectives.filter(isSummed)) {
    const { field, kinds } = SUMMED[objective];
    for (const { rows, feeds } of varied.parts)
      for (const feed of feeds)
        for (const row of rows) {
          const kind = kindAt(feed.columns, row);
          if (feed.columns.refused.has(row) || kind === undefined || !kinds.includes(kind))
            continue;
          if (feed.details[row]!.figures[field] === undefined)
            throw new InputError(
              "objectives",
              objective,
              `one whose figure every item that is varied has at all its choices: ${feed.columns.item[row]!} has none${choiceText(feed, row)}`,
            );
        }
  }
}

function choiceText({ details }: JudgedFeed, row: number): string {
  const size = details[row]!.size;
  return size === undefined
    ? ""
    : ` with ${size.sizing === "bare metal" ? `${size.areaMm2} mm²` : size.written}`;
}
