/** Figures of a feed that move a result of it. */
import type { FeedFigure } from "../network/feed-columns.js";

/** Those that the solution reads, or that a voltage or current is held against. */
export const SOLVED_FIGURES = [
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

/** Those that move a mass, a price or a temperature, and no voltage or current. */
export const STANDING_FIGURES = [
  "mass",
  "price",
  "outerDiameter",
  "grouping",
  "hottestC",
  "altitude",
  "sun",
] as const;

export const MOVING_FIGURES = [...SOLVED_FIGURES, ...STANDING_FIGURES] as const;

export type SolvedFigure = (typeof SOLVED_FIGURES)[number];
export type StandingFigure = (typeof STANDING_FIGURES)[number];
export type MovingFigure = (typeof MOVING_FIGURES)[number];

/** Those that may vary by a part of themselves, as a part of a temperature in °C would mean nothing. */
export const SPREAD_FIGURES: readonly MovingFigure[] = MOVING_FIGURES.filter(
  (figure) => figure !== "hottestC",
);
