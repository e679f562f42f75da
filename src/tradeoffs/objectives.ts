/** What candidates are traded in: each a figure of the whole feed, of which less is better, but of the margin more. */
import type { JudgedRow } from "../judgement/checks.js";
import type { DetailFigure, JudgedFeed } from "../judgement/judged-feed.js";
import type { ConductorSize } from "../conductors/conductor-section.js";
import { compiledFeed, enterTree } from "../network/compiled-feed.js";
import { kindAt } from "../network/feed-columns.js";
import { NOMINAL } from "../network/feed-conditions.js";
import type { FeedKind } from "../network/feed-item.js";
import { solveTree } from "../network/feed-solver.js";
import { feedTotals } from "../network/feed-totals.js";
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

export type Summed = keyof typeof SUMMED;

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

/** A figure that is traded and that nobody typed. */
export interface UnknownFigure {
  readonly objective: Summed;
  readonly item: string;
  /** Of a cable, the size that has none; "" of other items. */
  readonly size: string;
}

/** A candidate is no better for it: the first item that is varied and lacks such a figure at any of its choices. */
export function unknownFigure(
  varied: VariedFeed,
  objectives: readonly Objective[],
): UnknownFigure | undefined {
  for (const objective of objectives.filter(isSummed)) {
    const { field, kinds } = SUMMED[objective];
    for (const { rows, feeds } of varied.parts)
      for (const { columns, details } of feeds)
        for (const row of rows) {
          const kind = kindAt(columns, row);
          if (columns.refused.has(row) || kind === undefined || !kinds.includes(kind)) continue;
          const { figures, size } = details[row]!;
          if (figures[field] === undefined)
            return { objective, item: columns.item[row]!, size: size ? sizeText(size) : "" };
        }
  }
  return undefined;
}

function sizeText(size: ConductorSize): string {
  return size.sizing === "bare metal" ? `${size.areaMm2} mm²` : size.written;
}
