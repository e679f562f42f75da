/** A candidate as the rows of a feed: what is solved in the search, and what a budget is made from. */
import type { FeedConditions } from "../network/feed-conditions.js";
import type { FeedItem } from "../network/feed-item.js";
import type { Amperes, Ohms, Watts } from "../quantities/units.js";
import type { TradeRequest, ConverterOption } from "./trade-request.js";
import type { TradeCandidate } from "./trade-space.js";

/** The three cases that a candidate is solved in; each stands at the end of the ratio's tolerance that is worse there. */
export const TRADE_CASES = ["light", "nominal", "peak"] as const;
export type TradeCase = (typeof TRADE_CASES)[number];

export const CASE_CONDITIONS: Readonly<Record<TradeCase, FeedConditions>> = {
  light: { loads: "light", supply: "highest" },
  nominal: { loads: "nominal", supply: "nominal" },
  peak: { loads: "peak", supply: "lowest" },
};

const TOLERANCE_SIGN: Readonly<Record<TradeCase, number>> = {
  light: 1,
  nominal: 0,
  peak: -1,
};

export const STAGE_NAMES = ["Converter", "Second converter"] as const;

export function tradeFeed(
  request: TradeRequest,
  candidate: TradeCandidate,
  at: TradeCase,
): readonly FeedItem[] {
  const { supply, cable, inParallel } = candidate;
  const { load, converter } = request;
  const rows: FeedItem[] = [
    {
      ...NOTHING,
      item: "Supply",
      kind: "supply",
      voltage: supply.voltage,
      resistance: supply.resistance,
      lowestVoltage: supply.lowestVoltage,
      highestVoltage: supply.highestVoltage,
    },
    {
      ...NOTHING,
      item: "Cable",
      fedFrom: "Supply",
      kind: "run",
      resistance: loopResistance(request, candidate),
      ratedCurrent: cable.ampacity,
    },
  ];
  let feeding = "Cable";
  candidate.arrangement.forEach((step, stage) => {
    const item = STAGE_NAMES[stage]!;
    const figures = stageFigures(converter, outputAt(candidate, stage));
    rows.push({
      ...NOTHING,
      item,
      fedFrom: feeding,
      kind: "ratio",
      ratio: ratioAt(step, converter, at),
      resistance: figures.resistance,
      fixedLoss: figures.fixedLoss,
      inParallel: inParallel,
      ratedCurrent: figures.ratedCurrent,
    });
    feeding = item;
  });
  rows.push({
    ...NOTHING,
    item: "Load",
    fedFrom: feeding,
    kind: "power load",
    load: load.nominal,
    lightLoad: load.light,
    peakLoad: load.peak,
    lowestVoltage: load.lowestVoltage,
    highestVoltage: load.highestVoltage,
  });
  return rows;
}

/** Out and back, hot. */
export function loopResistance({ length }: TradeRequest, { cable }: TradeCandidate): Ohms {
  return 2 * length * cable.resistancePerMetre;
}

export function ratioAt(step: number, { tolerance }: ConverterOption, at: TradeCase) {
  return (1 + TOLERANCE_SIGN[at] * tolerance) / step;
}

/** Nominal voltage behind a stage, without any drop: what a unit is made for. */
export function outputAt({ supply, arrangement }: TradeCandidate, stage: number): number {
  let voltage = supply.voltage;
  for (let index = 0; index <= stage; index++) voltage /= arrangement[index]!;
  return voltage;
}

/** Figures of one unit that is made for an output voltage. */
export function stageFigures(
  converter: ConverterOption,
  outputVoltage: number,
): {
  readonly ratedCurrent: Amperes;
  readonly resistance: Ohms;
  readonly fixedLoss: Watts;
} {
  const ratedCurrent = converter.ratedPower / outputVoltage;
  return {
    ratedCurrent,
    resistance: (converter.droop * outputVoltage) / ratedCurrent,
    fixedLoss: converter.noLoadLoss * converter.ratedPower,
  };
}

/** A row of which nothing is given yet. */
const NOTHING: Omit<FeedItem, "item" | "kind"> = {
  fedFrom: undefined,
  voltage: undefined,
  resistance: undefined,
  ratio: undefined,
  fixedLoss: undefined,
  linearLoss: undefined,
  quadraticLoss: undefined,
  efficiency: undefined,
  load: undefined,
  lightLoad: undefined,
  peakLoad: undefined,
  inParallel: 1,
  lowestVoltage: undefined,
  highestVoltage: undefined,
  ratedCurrent: undefined,
  tolerance: undefined,
  isolation: undefined,
  tripVoltage: undefined,
  rippleRms: undefined,
  ripplePeak: undefined,
};
