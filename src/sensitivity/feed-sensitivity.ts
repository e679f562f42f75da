/** How a result of a feed changes with the figures that were entered, each of one item, as they stand in its rows. */
import type { CompiledFeed } from "../network/compiled-feed.js";
import { type FeedAdjoint, feedAdjoint } from "./feed-adjoint.js";
import { type FeedColumns, type FeedFigure, notGiven } from "../network/feed-columns.js";
import type { FeedQuantity } from "./feed-quantities.js";
import { EQUATION, KINDS } from "../network/row-kinds.js";

/** Figures that move a result at nominal supply and loads: through the solution, or as the limit that it is held against. */
export const MOVING_FIGURES = [
  "voltage",
  "resistance",
  "ratio",
  "fixedLoss",
  "linearLoss",
  "quadraticLoss",
  "efficiency",
  "load",
  "lowestVoltage",
  "highestVoltage",
  "ratedCurrent",
] as const satisfies readonly FeedFigure[];

export type MovingFigure = (typeof MOVING_FIGURES)[number];

export interface FeedSensitivity {
  /** As entered. */
  readonly value: number;
  /** By row: change of the quantity per unit of the figure; NaN where none was entered, or the kind does not read it. */
  readonly slopes: Readonly<Record<MovingFigure, Float64Array>>;
  readonly adjoint: FeedAdjoint;
}

/** For a feed that is solved at nominal supply and loads. */
export function feedSensitivity(feed: CompiledFeed, quantity: FeedQuantity): FeedSensitivity {
  const { columns } = feed;
  const adjoint = feedAdjoint(feed, quantity);
  const slopes = Object.fromEntries(
    MOVING_FIGURES.map((figure) => [figure, notGiven(columns.count)]),
  ) as Record<MovingFigure, Float64Array>;
  for (let row = 0; row < columns.count; row++)
    for (const figure of MOVING_FIGURES)
      if (isEntered(columns, row, figure))
        slopes[figure][row] = figureSlope(columns, row, figure, adjoint.slopes);
  for (const { row, figure, slope } of quantity.limitPartials(feed)) slopes[figure][row]! += slope;
  return { value: quantity.value(feed), slopes, adjoint };
}

/** Whether the row has the figure and its kind reads it. */
export function isEntered(columns: FeedColumns, row: number, figure: MovingFigure): boolean {
  if (Number.isNaN(columns.figures[figure][row]!)) return false;
  const { role, figures } = KINDS[columns.kind[row]!]!;
  if (figure === "ratedCurrent") return true;
  // A supply's window says how far its voltage moves, and is no limit to hold it against.
  if (figure === "lowestVoltage" || figure === "highestVoltage") return role !== "supply";
  return figure in figures;
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
    case "lowestVoltage":
    case "highestVoltage":
    case "ratedCurrent":
      return 0;
  }
}
