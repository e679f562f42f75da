/** What candidates are traded in: each a figure of the whole feed, of which less is better, but of the margin more. */
import type { JudgedRow } from "../judgement/checks.js";
import type { DetailFigure, JudgedFeed } from "../judgement/judged-feed.js";
import { sizeText } from "../conductors/conductor-section.js";
import { InputError } from "../quantities/errors.js";
import { compiledFeed, enterTree } from "../network/compiled-feed.js";
import { NOMINAL } from "../network/feed-conditions.js";
import { solution } from "../network/solution.js";
import { feedTotals } from "../network/feed-totals.js";
import { KINDS, type RowKind } from "../network/row-kinds.js";

export const OBJECTIVES = ["loss", "mass", "volume", "price", "worst margin"] as const;

export type Objective = (typeof OBJECTIVES)[number];

/** Figures that are the sum over the items which have them: of which kinds, and whether one stands for its whole row. */
const SUMMED: Readonly<
  Record<
    Exclude<Objective, "loss" | "worst margin">,
    {
      readonly field: DetailFigure;
      readonly isOf: (kind: RowKind) => boolean;
      readonly of: "row" | "one";
    }
  >
> = {
  mass: { field: "mass", isOf: ({ summed }) => summed.includes("mass"), of: "row" },
  volume: { field: "volume", isOf: ({ role }) => role === "stage", of: "one" },
  price: { field: "price", isOf: ({ summed }) => summed.includes("price"), of: "row" },
};

export type Summed = keyof typeof SUMMED;

export function isSummed(objective: Objective): objective is Summed {
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
      if (enterTree(compiled, tree, NOMINAL) || solution(tree, compiled).outcome !== "solved")
        return Number.NaN;
    return feedTotals(compiled).loss;
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

export class UnknownFigureError extends InputError {
  constructor(readonly figure: UnknownFigure) {
    const { objective, item, size } = figure;
    super(
      "objectives",
      objective,
      `one that every item which is varied has: ${item} has none${size && ` with ${size}`}`,
    );
  }
}

/**
 * A candidate is no better for it.
 * @param rows Those that are varied.
 * @throws {UnknownFigureError} for the first of them that lacks a figure which is traded.
 */
export function requireFigures(
  feed: JudgedFeed,
  rows: readonly number[],
  objectives: readonly Objective[],
): void {
  for (const objective of objectives) {
    if (!isSummed(objective)) continue;
    const row = lacking(feed, rows, objective);
    if (row === undefined) continue;
    const { size } = feed.details[row]!;
    const item = feed.columns.item[row]!;
    throw new UnknownFigureError({ objective, item, size: size ? sizeText(size) : "" });
  }
}

/** The first of some rows that should have such a figure, and of which it is not entered. */
export function lacking(
  { columns, details }: JudgedFeed,
  rows: readonly number[],
  objective: Summed,
): number | undefined {
  const { field, isOf } = SUMMED[objective];
  return rows.find((row) => {
    const kind = KINDS[columns.kind[row]!];
    if (columns.refused.has(row) || !kind || !isOf(kind)) return false;
    return details[row]!.figures[field] === undefined;
  });
}
