/** What a result of a feed has to tell, so that its changes with every figure follow from one solution. */
import type { CompiledFeed } from "../network/compiled-feed.js";
import type { MovingFigure } from "./moving-figures.js";

/** By row: change of a quantity with one voltage or current, all others held. */
export interface FlowPartials {
  readonly inputVoltage: Float64Array;
  readonly outputVoltage: Float64Array;
  readonly inputCurrent: Float64Array;
  readonly outputCurrent: Float64Array;
}

/** Change of a quantity with a figure that it reads itself, all voltages and currents held. */
export interface OwnPartial {
  readonly row: number;
  readonly figure: MovingFigure;
  readonly slope: number;
}

/** All functions are for a feed in which every tree is solved. */
export interface QuantityFlows {
  /** NaN where the solved feed has none: no efficiency without power. @throws {NoAnswerError} saying why there is none. */
  readonly value: (feed: CompiledFeed) => number;
  /** Adds its own changes to partials that are 0. */
  readonly addPartials: (feed: CompiledFeed, partials: FlowPartials) => void;
  readonly ownPartials: (feed: CompiledFeed) => readonly OwnPartial[];
  /** What its own figures may be. @throws {InputError} naming one. */
  readonly check?: () => void;
}

export function none(): readonly OwnPartial[] {
  return [];
}
