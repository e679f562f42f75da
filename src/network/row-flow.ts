/** What flows through a solved row and what it loses, straight from the solver's arrays. */
import type { Amperes, Watts } from "../quantities/units.js";
import type { CompiledFeed } from "./compiled-feed.js";
import { KINDS } from "./row-kinds.js";

export function lossAt({ columns, numbers, state }: CompiledFeed, row: number): Watts {
  return KINDS[columns.kind[row]!]!.loss(row, numbers, state);
}

/** Current that a rating is about: the output's, of a load the input's; either may flow backwards. */
export function ratedFlowAt({ columns, state }: CompiledFeed, row: number): Amperes {
  const isLoad = KINDS[columns.kind[row]!]!.role === "load";
  return Math.abs((isLoad ? state.inputCurrent : state.outputCurrent)[row]!);
}

/** Undefined where no rated current is given. */
export function loadingAt(feed: CompiledFeed, row: number): number | undefined {
  const { ratedCurrent, inParallel } = feed.columns.figures;
  const rated = ratedCurrent[row]!;
  return Number.isNaN(rated) ? undefined : ratedFlowAt(feed, row) / (rated * inParallel[row]!);
}
