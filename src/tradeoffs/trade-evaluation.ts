/**
 * One candidate judged: mass and cost, then the feed solved at light, nominal and peak load, against every limit.
 *
 * The feed of one or two stages is set up once; from one candidate to the next only numbers in its arrays change.
 */
import { type CompiledFeed, compiledFeed } from "../network/compiled-feed.js";
import { loadOf } from "../network/feed-conditions.js";
import { columnsOf } from "../network/feed-columns.js";
import { enterRow } from "../network/feed-numbers.js";
import { solveTree } from "../network/feed-solver.js";
import { lossAt } from "../network/row-flow.js";
import { worstVoltage } from "../safety/worst-voltage.js";
import {
  CASE_CONDITIONS,
  loopResistance,
  outputAt,
  ratioAt,
  stageFigures,
  tradeFeed,
  type TradeCase,
} from "./trade-feed.js";
import type { TradeRequest } from "./trade-request.js";
import { type TradeCandidate, tradeCandidate, type TradeSpace } from "./trade-space.js";

/** In the order in which they are tried: the first one that a candidate breaks is named. */
export const TRADE_VERDICTS = [
  "kept",
  "distribution band",
  "load band",
  "load window at no load",
  "mass",
  "cost",
  "collapse",
  "load window at peak",
  "drop",
  "conductor temperature",
  "unit rating",
] as const;
export type TradeVerdict = (typeof TRADE_VERDICTS)[number];

export interface TradeResult {
  readonly verdict: TradeVerdict;
  /** Loss of the whole feed at nominal load, W; 0 where the verdict was found before the feed was solved. */
  readonly loss: number;
  /** Cable and units, kg. */
  readonly mass: number;
  /** What is bought, and the present cost of the energy lost at nominal load. */
  readonly cost: number;
}

/** Rows of a candidate's feed. */
const SUPPLY = 0;
const CABLE = 1;
const FIRST_STAGE = 2;

/** @returns The judge of candidates by their number in the space. */
export function tradeEvaluation(
  request: TradeRequest,
  space: TradeSpace,
): (index: number) => TradeResult {
  const feeds = new Map<number, CompiledFeed>();
  return (index) => {
    const candidate = tradeCandidate(space, index);
    const stages = candidate.arrangement.length;
    let feed = feeds.get(stages);
    if (!feed) {
      feed = enteredFeed(request, candidate);
      feeds.set(stages, feed);
    }
    return judged(request, candidate, feed);
  };
}

/** Kinds, links and all that is the same for every candidate of this many stages. */
function enteredFeed(request: TradeRequest, candidate: TradeCandidate): CompiledFeed {
  const columns = columnsOf(tradeFeed(request, candidate, "nominal"));
  const feed = compiledFeed(columns);
  for (let row = 0; row < columns.count; row++) {
    const voltage = columns.figures.voltage[row] || 0;
    const load = loadOf(columns, row, "nominal");
    enterRow(feed.numbers, columns, row, voltage, load);
  }
  return feed;
}

function judged(request: TradeRequest, candidate: TradeCandidate, feed: CompiledFeed): TradeResult {
  const bought = boughtOf(request, candidate);
  const early = limitBeforeSolving(request, candidate, bought);
  if (early) return { verdict: early, loss: 0, ...bought };
  enterCandidate(request, candidate, feed);
  const peak = verdictAtPeak(request, candidate, feed);
  if (peak) return { verdict: peak, loss: 0, ...bought };
  if (!solvedAt("light", request, candidate, feed))
    return { verdict: "collapse", loss: 0, ...bought };
  if (!solvedAt("nominal", request, candidate, feed))
    return { verdict: "collapse", loss: 0, ...bought };
  const loss = lossOf(feed);
  const cost = bought.cost + lostEnergyCost(request, loss);
  const { limits } = request;
  const verdict = limits.cost !== undefined && cost > limits.cost ? "cost" : "kept";
  return { verdict, loss, mass: bought.mass, cost };
}

function boughtOf(
  { length, converter }: TradeRequest,
  { cable, arrangement, inParallel }: TradeCandidate,
) {
  const count = arrangement.length * inParallel;
  return {
    mass: cable.massPerMetre * length + converter.mass * count,
    cost: cable.pricePerMetre * length + converter.price * count,
  };
}

/** Present cost of a loss that lasts for the hours of a year; 0 where no price is given. */
export function lostEnergyCost({ energy }: TradeRequest, loss: number): number {
  if (!energy) return 0;
  const { hoursPerYear, pricePerKwh, presentWorthFactor } = energy;
  return (loss / 1000) * hoursPerYear * pricePerKwh * presentWorthFactor;
}

function limitBeforeSolving(
  { limits, load, converter }: TradeRequest,
  { supply, arrangement }: TradeCandidate,
  { mass, cost }: { readonly mass: number; readonly cost: number },
): TradeVerdict | undefined {
  const beyond = (value: number, limit: number | undefined) => limit !== undefined && value > limit;
  if (beyond(supply.highestVoltage, limits.distributionBand)) return "distribution band";
  const ratio = arrangement.reduce((product, step) => product / step, 1);
  const tolerance = (1 + converter.tolerance) ** arrangement.length - 1;
  const supplyHighest = supply.highestVoltage;
  const { voltage: noLoad } = worstVoltage({ supplyHighest, ratio, tolerance });
  if (beyond(noLoad, limits.loadBand)) return "load band";
  if (noLoad > load.highestVoltage) return "load window at no load";
  if (beyond(mass, limits.mass)) return "mass";
  if (beyond(cost, limits.cost)) return "cost";
  return undefined;
}

/** What differs from candidate to candidate whatever the case. */
function enterCandidate(
  request: TradeRequest,
  candidate: TradeCandidate,
  { numbers }: CompiledFeed,
): void {
  const { supply, arrangement, inParallel } = candidate;
  numbers.resistance[SUPPLY] = supply.resistance;
  numbers.resistance[CABLE] = loopResistance(request, candidate);
  arrangement.forEach((_, stage) => {
    const row = FIRST_STAGE + stage;
    const figures = stageFigures(request.converter, outputAt(candidate, stage));
    numbers.resistance[row] = figures.resistance / inParallel;
    numbers.fixedLoss[row] = inParallel * figures.fixedLoss;
  });
}

function solvedAt(
  at: TradeCase,
  { converter, load }: TradeRequest,
  { supply, arrangement }: TradeCandidate,
  feed: CompiledFeed,
): boolean {
  const { numbers } = feed;
  const { supply: supplyCase } = CASE_CONDITIONS[at];
  numbers.voltage[SUPPLY] =
    supplyCase === "lowest"
      ? supply.lowestVoltage
      : supplyCase === "highest"
        ? supply.highestVoltage
        : supply.voltage;
  arrangement.forEach((step, stage) => {
    numbers.ratio[FIRST_STAGE + stage] = ratioAt(step, converter, at);
  });
  numbers.demand[FIRST_STAGE + arrangement.length] = load[at];
  const { outcome } = solveTree(feed.trees[0]!.order, feed);
  return outcome === "solved";
}

function verdictAtPeak(
  request: TradeRequest,
  candidate: TradeCandidate,
  feed: CompiledFeed,
): TradeVerdict | undefined {
  if (!solvedAt("peak", request, candidate, feed)) return "collapse";
  const { state } = feed;
  const { arrangement, cable, inParallel } = candidate;
  const { load, limits, converter } = request;
  const stages = arrangement.length;
  if (state.inputVoltage[FIRST_STAGE + stages]! < load.lowestVoltage) return "load window at peak";
  const current = state.outputCurrent[CABLE]!;
  const nearEnd = state.inputVoltage[CABLE]!;
  const dropped = nearEnd - state.outputVoltage[CABLE]!;
  if (limits.drop !== undefined && dropped > limits.drop * nearEnd) return "drop";
  if (current > cable.ampacity) return "conductor temperature";
  for (let stage = 0; stage < stages; stage++) {
    const { ratedCurrent } = stageFigures(converter, outputAt(candidate, stage));
    if (state.outputCurrent[FIRST_STAGE + stage]! > ratedCurrent * inParallel) return "unit rating";
  }
  return undefined;
}

function lossOf(feed: CompiledFeed): number {
  let loss = 0;
  for (let row = 0; row < feed.columns.count; row++) loss += lossAt(feed, row);
  return loss;
}
