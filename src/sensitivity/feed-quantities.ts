/**
 * Results of a solved feed that may be asked for by name, of the whole feed or of one item: the value, and how it
 * changes with the voltages and currents of the rows.
 */
import { InputError, NoAnswerError } from "../quantities/errors.js";
import type { CompiledFeed } from "../network/compiled-feed.js";
import { feedTotals, leastMargin } from "../network/feed-totals.js";
import { loadingAt, lossAt, ratedFlowAt } from "../network/row-flow.js";
import { KINDS, type SummedField } from "../network/row-kinds.js";
import type { MovableFeed } from "./movable-feed.js";
import { type FlowPartials, none, type QuantityFlows } from "./quantity-flows.js";
import { summedFlows, temperatureFlows } from "./standing-quantities.js";

export const FEED_QUANTITIES = [
  "loss",
  "efficiency",
  "supply power",
  "load power",
  "lowest margin",
  "highest loading",
  "input voltage",
  "output voltage",
  "current",
  "conductor temperature",
  "mass",
  "price",
] as const;

/** Those that are added up over what was entered. */
export const SUMMED_QUANTITIES = ["mass", "price"] as const satisfies readonly SummedField[];

export type FeedQuantityName = (typeof FEED_QUANTITIES)[number];

/** One result of a feed. */
export interface FeedQuantity extends QuantityFlows {
  readonly name: FeedQuantityName;
  readonly unit: string;
}

interface Quantity {
  readonly unit: string;
  readonly ofFeed?: (movable: MovableFeed) => QuantityFlows;
  /** @throws {InputError} for an item that has no such quantity. */
  readonly ofItem?: (feed: CompiledFeed, row: number, movable: MovableFeed) => QuantityFlows;
}

/**
 * @param feed Of the columns of `movable`, solved as entered.
 * @param row The item's, or undefined for the whole feed.
 * @throws {InputError} where the item, or the lack of one, does not suit the quantity.
 */
export function feedQuantity(
  name: FeedQuantityName,
  feed: CompiledFeed,
  row: number | undefined,
  movable: MovableFeed,
): FeedQuantity {
  const { unit, ofFeed, ofItem } = QUANTITIES[name];
  const flows = row === undefined ? ofFeed?.(movable) : ofItem?.(feed, row, movable);
  if (!flows)
    throw row === undefined
      ? new InputError("item", null, `given: ${name} is that of one item`)
      : new InputError("item", feed.columns.item[row]!, `blank: ${name} is that of the whole feed`);
  return { name, unit, ...flows };
}

/** The quantity of a solved feed, in SI. @throws {NoAnswerError} where the solved feed has no such quantity. */
export function requireValue({ name, value }: FeedQuantity, feed: CompiledFeed): number {
  const found = value(feed);
  if (Number.isNaN(found))
    throw new NoAnswerError("quantity", `there is no ${name} of this feed as entered`);
  return found;
}

const QUANTITIES: Readonly<Record<FeedQuantityName, Quantity>> = {
  loss: {
    unit: "W",
    ofFeed: () =>
      ofTotals(
        ({ loss }) => loss,
        () => ({ supply: 1, load: -1 }),
      ),
    ofItem: (feed, row) => {
      requireFeeds(feed, row);
      return {
        value: (solved) => lossAt(solved, row),
        // What goes in less what comes out: the equations of the solver close the power of every row.
        addPartials(solved, partials) {
          addInputPower(solved, row, 1, partials);
          addOutputPower(solved, row, -1, partials);
        },
        ownPartials: none,
      };
    },
  },
  efficiency: {
    unit: "1",
    ofFeed: () =>
      ofTotals(
        ({ efficiency }) => efficiency ?? Number.NaN,
        ({ efficiency = Number.NaN, supplyPower }) => ({
          supply: -efficiency / supplyPower,
          load: 1 / supplyPower,
        }),
      ),
    ofItem: (feed, row) => {
      requireFeeds(feed, row);
      const efficiency = (solved: CompiledFeed) =>
        outputPower(solved, row) / inputPower(solved, row);
      return {
        value: efficiency,
        addPartials(solved, partials) {
          const input = inputPower(solved, row);
          addInputPower(solved, row, -efficiency(solved) / input, partials);
          addOutputPower(solved, row, 1 / input, partials);
        },
        ownPartials: none,
      };
    },
  },
  "supply power": {
    unit: "W",
    ofFeed: () =>
      ofTotals(
        ({ supplyPower }) => supplyPower,
        () => ({ supply: 1, load: 0 }),
      ),
  },
  "load power": {
    unit: "W",
    ofFeed: () =>
      ofTotals(
        ({ loadPower }) => loadPower,
        () => ({ supply: 0, load: 1 }),
      ),
  },
  "lowest margin": {
    unit: "1",
    ofFeed: () => ofWorstRow(marginOf, (feed, row) => -marginAt(feed, row)),
    ofItem: (feed, row) => {
      if (marginAt(feed, row) === Infinity)
        throw new InputError(
          "item",
          feed.columns.item[row]!,
          "a stage or load with Lowest V or Highest V",
        );
      return marginOf(row);
    },
  },
  "highest loading": {
    unit: "1",
    ofFeed: () => ofWorstRow(loadingOf, (feed, row) => loadingAt(feed, row) ?? -Infinity),
    ofItem: (feed, row) => {
      if (loadingAt(feed, row) === undefined)
        throw new InputError("item", feed.columns.item[row]!, "an item with Rated A");
      return loadingOf(row);
    },
  },
  "input voltage": { unit: "V", ofItem: (_, row) => ofFlow("inputVoltage", row) },
  "output voltage": {
    unit: "V",
    ofItem: (feed, row) => {
      requireFeeds(feed, row);
      return ofFlow("outputVoltage", row);
    },
  },
  current: {
    unit: "A",
    ofItem: (feed, row) => ofFlow(isLoad(feed, row) ? "inputCurrent" : "outputCurrent", row),
  },
  "conductor temperature": {
    unit: "°C",
    ofItem: (_, row, movable) => temperatureFlows(movable, row),
  },
  mass: ofSum("mass", "kg"),
  // In the currency in which all prices were typed.
  price: ofSum("price", "1"),
};

function isLoad({ columns }: CompiledFeed, row: number): boolean {
  return KINDS[columns.kind[row]!]!.role === "load";
}

function requireFeeds(feed: CompiledFeed, row: number): void {
  if (isLoad(feed, row))
    throw new InputError("item", feed.columns.item[row]!, "an item that feeds others, not a load");
}

function ofFlow(flow: keyof FlowPartials, row: number): QuantityFlows {
  return {
    value: ({ state }) => state[flow][row]!,
    addPartials: (_, partials) => {
      partials[flow][row]! += 1;
    },
    ownPartials: none,
  };
}

function ofSum(field: SummedField, unit: string): Quantity {
  return {
    unit,
    ofFeed: (movable) => summedFlows(field, movable, undefined),
    ofItem: (_, row, movable) => summedFlows(field, movable, row),
  };
}

/** A function of the powers that the supplies give and the loads take. */
function ofTotals(
  value: (totals: ReturnType<typeof feedTotals>) => number,
  weights: (totals: ReturnType<typeof feedTotals>) => Readonly<Record<"supply" | "load", number>>,
): QuantityFlows {
  return {
    value: (feed) => value(feedTotals(feed)),
    addPartials(feed, partials) {
      const weight = weights(feedTotals(feed));
      const { kind, count } = feed.columns;
      for (let row = 0; row < count; row++) {
        const { role } = KINDS[kind[row]!]!;
        if (role === "supply" || role === "load") addInputPower(feed, row, weight[role], partials);
      }
    },
    ownPartials: none,
  };
}

/** That of the row where `badness` is highest; its changes are those of the row that has it now. */
function ofWorstRow(
  ofRow: (row: number) => QuantityFlows,
  badness: (feed: CompiledFeed, row: number) => number,
): QuantityFlows {
  const worst = (feed: CompiledFeed): QuantityFlows | undefined => {
    let found: number | undefined;
    let highest = -Infinity;
    for (let row = 0; row < feed.columns.count; row++) {
      const here = badness(feed, row);
      if (here <= highest) continue;
      highest = here;
      found = row;
    }
    return found === undefined ? undefined : ofRow(found);
  };
  return {
    value: (feed) => worst(feed)?.value(feed) ?? Number.NaN,
    addPartials: (feed, partials) => worst(feed)?.addPartials(feed, partials),
    ownPartials: (feed) => worst(feed)?.ownPartials(feed) ?? [],
  };
}

/** Infinity without a window. */
function marginAt({ columns, state }: CompiledFeed, row: number): number {
  return leastMargin(columns, row, state.inputVoltage[row]!);
}

/** (V − lowest)/lowest or (highest − V)/highest, whichever is less. */
function marginOf(row: number): QuantityFlows {
  const limitOf = (feed: CompiledFeed) => {
    const { lowestVoltage, highestVoltage } = feed.columns.figures;
    const voltage = feed.state.inputVoltage[row]!;
    const lowest = lowestVoltage[row]!;
    const isLow = (voltage - lowest) / lowest === marginAt(feed, row);
    return isLow
      ? ({ figure: "lowestVoltage", limit: lowest, sign: 1, voltage } as const)
      : ({ figure: "highestVoltage", limit: highestVoltage[row]!, sign: -1, voltage } as const);
  };
  return {
    value: (feed) => marginAt(feed, row),
    addPartials(feed, partials) {
      const { sign, limit } = limitOf(feed);
      partials.inputVoltage[row]! += sign / limit;
    },
    ownPartials(feed) {
      const { figure, sign, limit, voltage } = limitOf(feed);
      return [{ row, figure, slope: (-sign * voltage) / limit ** 2 }];
    },
  };
}

function loadingOf(row: number): QuantityFlows {
  return {
    value: (feed) => loadingAt(feed, row)!,
    addPartials(feed, partials) {
      const flow = isLoad(feed, row) ? partials.inputCurrent : partials.outputCurrent;
      const { ratedCurrent, inParallel } = feed.columns.figures;
      flow[row]! += 1 / (ratedCurrent[row]! * inParallel[row]!);
    },
    ownPartials(feed) {
      const { ratedCurrent, inParallel } = feed.columns.figures;
      const rated = ratedCurrent[row]!;
      const slope = -ratedFlowAt(feed, row) / (rated ** 2 * inParallel[row]!);
      return [{ row, figure: "ratedCurrent", slope }];
    },
  };
}

function inputPower({ state }: CompiledFeed, row: number): number {
  return state.inputVoltage[row]! * state.inputCurrent[row]!;
}

function outputPower({ state }: CompiledFeed, row: number): number {
  return state.outputVoltage[row]! * state.outputCurrent[row]!;
}

function addInputPower(
  { state }: CompiledFeed,
  row: number,
  weight: number,
  { inputVoltage, inputCurrent }: FlowPartials,
): void {
  inputVoltage[row]! += weight * state.inputCurrent[row]!;
  inputCurrent[row]! += weight * state.inputVoltage[row]!;
}

function addOutputPower(
  { state }: CompiledFeed,
  row: number,
  weight: number,
  { outputVoltage, outputCurrent }: FlowPartials,
): void {
  outputVoltage[row]! += weight * state.outputCurrent[row]!;
  outputCurrent[row]! += weight * state.outputVoltage[row]!;
}
