/** A result of a feed as a function of what may vary in it: set up once, then one solution for each set of values. */
import { InputError, NoAnswerError } from "../quantities/errors.js";
import { type CompiledFeed, compiledFeed, enterTree } from "../network/compiled-feed.js";
import type { FeedColumns } from "../network/feed-columns.js";
import { loadOf, NOMINAL } from "../network/feed-conditions.js";
import { enterRow } from "../network/feed-numbers.js";
import { type FeedQuantity, feedQuantity, type FeedQuantityName } from "./feed-quantities.js";
import { noOperatingPoint } from "../network/operating-point.js";
import { KINDS } from "../network/row-kinds.js";
import { type SolvableTree, solution } from "../network/solution.js";
import { type MovableFeed, withOwnFigures } from "./movable-feed.js";
import { type MovingFigure, SOLVED_FIGURES } from "./moving-figures.js";
import type { VariedInput } from "./varied-inputs.js";

/** What is asked of a feed. */
export interface AskedQuantity {
  readonly name: FeedQuantityName;
  /** The item's, or undefined for the whole feed. */
  readonly row: number | undefined;
}

export interface FeedFunction {
  /** The feed as entered, solved; calls of `valueAt` change it. */
  readonly feed: CompiledFeed;
  readonly movable: MovableFeed;
  readonly quantity: FeedQuantity;
  /**
   * The quantity with every input at its value, in the order of the inputs; NaN where there is no operating point, or no
   * such quantity, or a row may not have such a figure. Between the ends of the inputs each row may have all figures.
   */
  readonly valueAt: (values: Float64Array) => number;
}

/**
 * At nominal supply and loads.
 * @throws {InputError | NoAnswerError} for a feed that is refused or has no operating point as entered, an item that has
 * no such quantity, and an input of which an end is no figure that its row may have.
 */
export function feedFunction(
  entered: MovableFeed,
  { name, row }: AskedQuantity,
  inputs: readonly VariedInput[],
): FeedFunction {
  const varied = withOwnFigures(entered, new Set(inputs.flatMap(({ figures }) => figures)));
  const feed = compiledFeed(varied.columns);
  for (const tree of feed.trees) {
    const fault = enterTree(feed, tree, NOMINAL) ?? solved(tree, feed);
    if (fault) throw fault.error;
  }
  const quantity = feedQuantity(name, feed, row, varied);
  const check = (of: number) => {
    feed.check(of);
    quantity.check?.();
  };
  requireEnds(check, varied, entered, inputs);
  const rows = [...new Set(inputs.filter(movesFlows).map((input) => input.row))];
  const moving = feed.trees.filter(({ order }) => rows.some((moved) => order.includes(moved)));
  // Only a normal input leaves its ends; a supply's window bounds nothing.
  const mayLeave = new Set(
    inputs
      .filter(({ distribution, row: own }) => distribution === "normal" && !isSupply(varied, own))
      .map((input) => input.row),
  );
  return {
    feed,
    movable: varied,
    quantity,
    valueAt(values) {
      inputs.forEach((input, index) => enterValue(varied, entered, input, values[index]!));
      for (const moved of mayLeave) if (refusal(check, moved)) return Number.NaN;
      for (const moved of rows) enterMoved(feed, moved);
      for (const tree of moving) if (solution(tree, feed).outcome !== "solved") return Number.NaN;
      return answerOf(quantity, feed);
    },
  };
}

/** Whether it moves what the solution reads. */
function movesFlows({ figures }: VariedInput): boolean {
  return figures.some((figure) => (SOLVED_FIGURES as readonly MovingFigure[]).includes(figure));
}

function isSupply({ columns }: MovableFeed, row: number): boolean {
  return KINDS[columns.kind[row]!]!.role === "supply";
}

/** NaN where there is none. */
function answerOf({ value }: FeedQuantity, feed: CompiledFeed): number {
  try {
    return value(feed);
  } catch (error) {
    if (error instanceof NoAnswerError) return Number.NaN;
    throw error;
  }
}

function solved(tree: SolvableTree, feed: CompiledFeed) {
  return solution(tree, feed).outcome === "solved" ? undefined : noOperatingPoint(tree, feed);
}

function enterValue(
  varied: MovableFeed,
  entered: MovableFeed,
  { row, figures, nominal }: VariedInput,
  value: number,
): void {
  const factor = value / nominal;
  for (const figure of figures)
    varied.figures[figure][row] = entered.figures[figure][row]! * factor;
}

function enterMoved({ numbers, columns }: CompiledFeed, row: number): void {
  const voltage = columns.figures.voltage[row]! || 0;
  enterRow(numbers, columns, row, voltage, loadOf(columns, row, NOMINAL.loads));
}

/** Every row at every combination of its inputs' ends: some figures bound each other. */
function requireEnds(
  check: (row: number) => void,
  varied: MovableFeed,
  entered: MovableFeed,
  inputs: readonly VariedInput[],
): void {
  for (const row of new Set(inputs.map((input) => input.row))) {
    // Of a supply the window says how far its voltage moves; it bounds nothing.
    if (isSupply(varied, row)) continue;
    const own = inputs.filter((input) => input.row === row);
    for (let ends = 0; ends < 2 ** own.length; ends++) {
      own.forEach((input, place) =>
        enterValue(varied, entered, input, (ends >> place) & 1 ? input.high : input.low),
      );
      requireRow(check, row, varied.columns);
    }
    for (const input of own) enterValue(varied, entered, input, input.nominal);
  }
}

/** Why the row may not have its figures; undefined where it may. */
function refusal(check: (row: number) => void, row: number): InputError | undefined {
  try {
    check(row);
    return undefined;
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
}

function requireRow(check: (row: number) => void, row: number, { item }: FeedColumns): void {
  const refused = refusal(check, row);
  if (!refused) return;
  const { field, value, requirement } = refused;
  throw new InputError(
    field,
    value,
    `${requirement}, at every end of what "${item[row]}" varies by`,
  );
}
