/** What each input that may vary does to a result: solved with the input at either end, all others as entered. */
import type { FeedColumns } from "../network/feed-columns.js";
import { type AskedQuantity, feedFunction } from "./feed-function.js";
import { type FeedQuantity, requireValue } from "./feed-quantities.js";
import { type FeedSensitivity, feedSensitivity } from "./feed-sensitivity.js";
import type { CompiledFeed } from "../network/compiled-feed.js";
import type { VariedInput } from "./varied-inputs.js";

export interface TornadoLine {
  /** One input, or all those of a group: they are low and high together. */
  readonly inputs: readonly VariedInput[];
  /** Undefined where the feed has no operating point, or no such quantity. */
  readonly lowGives: number | undefined;
  readonly highGives: number | undefined;
  /** Between the two; undefined where one is. */
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
  /** Widest swing first; before them those that have an end without an answer. */
  readonly lines: readonly TornadoLine[];
}

/**
 * A line for each input or group: the quantity at its two ends, all other inputs as entered.
 * @throws {InputError | NoAnswerError} as `feedFunction`, and where the feed as entered has no such quantity.
 */
export function feedTornado(
  columns: FeedColumns,
  asked: AskedQuantity,
  inputs: readonly VariedInput[],
): FeedTornado {
  const { feed, quantity, valueAt } = feedFunction(columns, asked, inputs);
  const nominal = requireValue(quantity, feed);
  const sensitivity = feedSensitivity(feed, quantity);
  const entered = Float64Array.from(inputs, (input) => input.nominal);
  const lines = movedTogether(inputs).map((places): TornadoLine => {
    const solvedAt = (end: "low" | "high") => {
      const values = entered.slice();
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
          : Math.abs(highGives - lowGives),
      slope: places.length === 1 ? slopeOf(inputs[places[0]!]!, columns, sensitivity) : undefined,
    };
  });
  valueAt(entered);
  const width = ({ swing }: TornadoLine) => swing ?? Infinity;
  // Two that have no swing are left in the table's order: the difference of two infinities would be none.
  lines.sort((one, other) => (width(one) === width(other) ? 0 : width(other) - width(one)));
  return { quantity, nominal, sensitivity, feed, lines };
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
  columns: FeedColumns,
  { slopes }: FeedSensitivity,
): number {
  const [first, ...others] = figures;
  if (first !== undefined && others.length === 0) return slopes[first][row]!;
  // With a common factor f each figure is f times what was entered.
  return figures.reduce(
    (sum, figure) => sum + slopes[figure][row]! * columns.figures[figure][row]!,
    0,
  );
}
