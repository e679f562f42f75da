/** What each input that may vary does to a result: solved with the input at either end, all others as entered. */
import { type AskedQuantity, feedFunction } from "./feed-function.js";
import { type FeedQuantity, requireValue } from "./feed-quantities.js";
import { type FeedSensitivity, feedSensitivity } from "./feed-sensitivity.js";
import type { CompiledFeed } from "../network/compiled-feed.js";
import type { MovableFeed } from "./movable-feed.js";
import { MOVING_FIGURES } from "./moving-figures.js";
import { exactInput, type VariedInput } from "./varied-inputs.js";

export interface TornadoLine {
  /** One input, or all those of a group: they are low and high together. */
  readonly inputs: readonly VariedInput[];
  /** Undefined where the feed has no operating point, or no such quantity. */
  readonly lowGives: number | undefined;
  readonly highGives: number | undefined;
  /** Between the least and the greatest of the two and of the result as entered; undefined where one of the two is. */
  readonly swing: number | undefined;
  /** Change of the quantity per unit of the input's value, as entered; undefined of several inputs. */
  readonly slope: number | undefined;
}

export interface FeedTornado {
  readonly quantity: FeedQuantity;
  readonly nominal: number;
  readonly sensitivity: FeedSensitivity;
  /** Solved as entered. */
  readonly feed: CompiledFeed;
  readonly movable: MovableFeed;
  /** Widest swing first; before them those that have an end without an answer. */
  readonly lines: readonly TornadoLine[];
  /**
   * Figures that were entered, that move the quantity and that no input moves: each with its slope and no ends. The one
   * of which a hundredth moves it most comes first.
   */
  readonly slopesOnly: readonly TornadoLine[];
}

/**
 * A line for each input or group: the quantity at its two ends, all other inputs as entered.
 * @throws {InputError | NoAnswerError} as `feedFunction`, and where the feed as entered has no such quantity.
 */
export function feedTornado(
  entered: MovableFeed,
  asked: AskedQuantity,
  inputs: readonly VariedInput[],
): FeedTornado {
  const { feed, movable, quantity, valueAt } = feedFunction(entered, asked, inputs);
  const nominal = requireValue(quantity, feed);
  const sensitivity = feedSensitivity(feed, quantity, movable);
  const nominals = Float64Array.from(inputs, (input) => input.nominal);
  const lines = movedTogether(inputs).map((places): TornadoLine => {
    const solvedAt = (end: "low" | "high") => {
      const values = nominals.slice();
      for (const place of places) values[place] = inputs[place]![end];
      const value = valueAt(values);
      return Number.isNaN(value) ? undefined : value;
    };
    const lowGives = solvedAt("low");
    const highGives = solvedAt("high");
    return {
      inputs: places.map((place) => inputs[place]!),
      lowGives,
      highGives,
      swing:
        lowGives === undefined || highGives === undefined
          ? undefined
          : (Math.abs(highGives - lowGives) +
              Math.abs(highGives - nominal) +
              Math.abs(lowGives - nominal)) /
            2,
      slope: places.length === 1 ? slopeOf(inputs[places[0]!]!, entered, sensitivity) : undefined,
    };
  });
  valueAt(nominals);
  const width = ({ swing }: TornadoLine) => swing ?? Infinity;
  // Two that have no swing are left in the table's order: the difference of two infinities would be none.
  lines.sort((one, other) => (width(one) === width(other) ? 0 : width(other) - width(one)));
  const slopesOnly = unvaried(entered, inputs, sensitivity);
  return { quantity, nominal, sensitivity, feed, movable, lines, slopesOnly };
}

function unvaried(
  entered: MovableFeed,
  inputs: readonly VariedInput[],
  { slopes }: FeedSensitivity,
): readonly TornadoLine[] {
  const varied = new Set(
    inputs.flatMap(({ row, figures }) => figures.map((figure) => `${row} ${figure}`)),
  );
  const found = entered.columns.item.flatMap((_, row) =>
    MOVING_FIGURES.flatMap((figure) => {
      const slope = slopes[figure][row]!;
      // NaN of what is not entered.
      if (!(Math.abs(slope) > 0) || varied.has(`${row} ${figure}`)) return [];
      const input = exactInput(entered, row, figure);
      // No load in the case that is solved.
      if (figure === "load" && input.nominal === 0) return [];
      return [{ input, slope, byPart: Math.abs(slope * input.nominal) }];
    }),
  );
  return found
    .sort((one, other) => other.byPart - one.byPart)
    .map(({ input, slope }) => ({
      inputs: [input],
      lowGives: undefined,
      highGives: undefined,
      swing: undefined,
      slope,
    }));
}

/** Places of the inputs of each group, and of each that is in none, in their order. */
function movedTogether(inputs: readonly VariedInput[]): readonly (readonly number[])[] {
  const groups = new Map<string, number[]>();
  inputs.forEach(({ group }, place) => {
    const key = group === undefined ? `${place}` : `group ${group}`;
    groups.set(key, [...(groups.get(key) ?? []), place]);
  });
  return [...groups.values()];
}

function slopeOf(
  { row, figures }: VariedInput,
  entered: MovableFeed,
  { slopes }: FeedSensitivity,
): number {
  const [first, ...others] = figures;
  if (first !== undefined && others.length === 0) return slopes[first][row]!;
  // With a common factor f each figure is f times what was entered.
  return figures.reduce(
    (sum, figure) => sum + slopes[figure][row]! * entered.figures[figure][row]!,
    0,
  );
}
