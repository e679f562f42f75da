/** A feed of which figures may be moved: those that its solution reads, and those that only some results read. */
import type { ItemDetails, JudgedFeed } from "../judgement/judged-feed.js";
import { type FeedColumns, notGiven } from "../network/feed-columns.js";
import { KINDS } from "../network/row-kinds.js";
import {
  type MovingFigure,
  SOLVED_FIGURES,
  STANDING_FIGURES,
  type StandingFigure,
} from "./moving-figures.js";

export interface MovableFeed {
  /** What is solved. */
  readonly columns: FeedColumns;
  /** By row, as entered: words, sizes, and figures that are not moved. */
  readonly details: readonly ItemDetails[];
  /** By row, in SI (°C of a temperature), those of `columns` in its own arrays; NaN where nothing was given. */
  readonly figures: Readonly<Record<MovingFigure, Float64Array>>;
}

export function movableFeed({ columns, details }: JudgedFeed): MovableFeed {
  const { count } = columns;
  const standing = Object.fromEntries(
    STANDING_FIGURES.map((figure) => {
      const values = notGiven(count);
      details.forEach(({ figures }, row) => {
        const value = figures[figure];
        if (value !== undefined) values[row] = value;
      });
      return [figure, values];
    }),
  ) as Record<StandingFigure, Float64Array>;
  return { columns, details, figures: { ...columns.figures, ...standing } };
}

/** The same with arrays of its own for some figures. */
export function withOwnFigures(
  { columns, details, figures }: MovableFeed,
  moved: Iterable<MovingFigure>,
): MovableFeed {
  const own = { ...figures };
  for (const figure of moved) own[figure] = figures[figure].slice();
  const solved = Object.fromEntries(SOLVED_FIGURES.map((figure) => [figure, own[figure]]));
  return {
    columns: { ...columns, figures: { ...columns.figures, ...solved } },
    details,
    figures: own,
  };
}

/** Whether the row has the figure and its kind reads it. */
export function isEntered(
  { columns, figures: given }: MovableFeed,
  row: number,
  figure: MovingFigure,
): boolean {
  if (Number.isNaN(given[figure][row]!)) return false;
  const { role, figures, summed, builtOf } = KINDS[columns.kind[row]!]!;
  switch (figure) {
    case "ratedCurrent":
      return true;
    case "lowestVoltage":
    case "highestVoltage":
      // A supply's window says how far its voltage moves, and is no limit to hold it against.
      return role !== "supply";
    case "mass":
    case "price":
      return summed.includes(figure);
    case "outerDiameter":
    case "grouping":
    case "hottestC":
    case "altitude":
    case "sun":
      return builtOf === "conductors";
    default:
      return figure in figures;
  }
}

/** The row's details with its figures where they have been moved to. */
export function detailsAt({ details, figures }: MovableFeed, row: number): ItemDetails {
  const entered = details[row]!;
  const moved = { ...entered.figures };
  for (const figure of STANDING_FIGURES)
    if (moved[figure] !== undefined) moved[figure] = figures[figure][row]!;
  return { ...entered, figures: moved };
}
