/** How a result of a feed changes with the figures that were entered, each of one item, as they stand in its rows. */
import type { CompiledFeed } from "../network/compiled-feed.js";
import { type FeedAdjoint, feedAdjoint } from "./feed-adjoint.js";
import { type FeedColumns, notGiven } from "../network/feed-columns.js";
import type { FeedQuantity } from "./feed-quantities.js";
import { isEntered, type MovableFeed } from "./movable-feed.js";
import { MOVING_FIGURES, type MovingFigure } from "./moving-figures.js";
import { EQUATION, KINDS } from "../network/row-kinds.js";

export interface FeedSensitivity {
  /** As entered. */
  readonly value: number;
  /** By row: change of the quantity per unit of the figure; NaN where none was entered, or the kind does not read it. */
  readonly slopes: Readonly<Record<MovingFigure, Float64Array>>;
  readonly adjoint: FeedAdjoint;
}

/** @param feed Of the columns of `movable`, solved. */
export function feedSensitivity(
  feed: CompiledFeed,
  quantity: FeedQuantity,
  movable: MovableFeed,
): FeedSensitivity {
  const { columns } = feed;
  const adjoint = feedAdjoint(feed, quantity);
  const slopes = Object.fromEntries(
    MOVING_FIGURES.map((figure) => [figure, notGiven(columns.count)]),
  ) as Record<MovingFigure, Float64Array>;
  for (let row = 0; row < columns.count; row++)
    for (const figure of MOVING_FIGURES)
      if (isEntered(movable, row, figure))
        // A sum, so that −0 is 0.
        slopes[figure][row] = 0 + figureSlope(columns, row, figure, adjoint.slopes);
  for (const { row, figure, slope } of quantity.ownPartials(feed)) slopes[figure][row]! += slope;
  return { value: quantity.value(feed), slopes, adjoint };
}

/** From the coefficients of the whole row, as `enterRow` makes them, to the figure of one item. */
function figureSlope(
  { kind, figures }: FeedColumns,
  row: number,
  figure: MovingFigure,
  slopes: FeedAdjoint["slopes"],
): number {
  const inParallel = figures.inParallel[row]!;
  const { equation } = KINDS[kind[row]!]!;
  switch (figure) {
    case "voltage":
    case "ratio":
    case "linearLoss":
    case "efficiency":
      return slopes[figure][row]!;
    case "fixedLoss":
      return inParallel * slopes.fixedLoss[row]!;
    case "quadraticLoss":
      return slopes.quadraticLoss[row]! / inParallel;
    case "resistance": {
      // The quadratic loss of a ratio row holds what its resistance dissipates, and what is drawn beyond it gets less.
      const drawn =
        equation === EQUATION.ratio && !Number.isNaN(figures.quadraticLoss[row]!)
          ? slopes.quadraticLoss[row]!
          : 0;
      return (slopes.resistance[row]! - drawn) / inParallel;
    }
    case "load": {
      const load = figures.load[row]!;
      if (equation !== EQUATION.conductance) return inParallel * slopes.demand[row]!;
      return load === 0 ? 0 : (-inParallel / load ** 2) * slopes.demand[row]!;
    }
    default:
      // It moves no voltage or current.
      return 0;
  }
}
