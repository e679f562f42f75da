/** Every combination of the options, by a number: candidates are never listed, they are counted. */
import type { CableOption, SupplyOption, TradeRequest } from "./trade-request.js";

/** Steps down in line from the supply to the load: one stage, or two. */
export type Arrangement = readonly number[];

export interface TradeSpace {
  readonly supplies: readonly SupplyOption[];
  readonly cables: readonly CableOption[];
  readonly arrangements: readonly Arrangement[];
  /** Units in parallel, from 1 on. */
  readonly mostInParallel: number;
  readonly count: number;
}

/** Places of one candidate on the axes of a space. */
export interface TradePlace {
  readonly supply: number;
  readonly cable: number;
  readonly arrangement: number;
  /** Units in parallel less one. */
  readonly inParallel: number;
}

export function tradeSpace(request: TradeRequest): TradeSpace {
  const { supplies, cables, mostInParallel } = request;
  const arrangements = arrangementsOf(request);
  const count = supplies.length * cables.length * arrangements.length * mostInParallel;
  return { supplies, cables, arrangements, mostInParallel, count };
}

function arrangementsOf({ stepsDown, mostStages }: TradeRequest): Arrangement[] {
  const single = stepsDown.map((step) => [step]);
  if (mostStages === 1) return single;
  // 1 is a stage that changes nothing, so a pair with it is one stage with needless loss.
  const real = stepsDown.filter((step) => step !== 1);
  const pairs = real.flatMap((first) => real.map((second) => [first, second]));
  return [...single, ...pairs];
}

/** @param index From 0 to below the space's count. */
export function tradePlace(space: TradeSpace, index: number): TradePlace {
  const { cables, arrangements, mostInParallel } = space;
  const inParallel = index % mostInParallel;
  let rest = (index - inParallel) / mostInParallel;
  const arrangement = rest % arrangements.length;
  rest = (rest - arrangement) / arrangements.length;
  const cable = rest % cables.length;
  return { supply: (rest - cable) / cables.length, cable, arrangement, inParallel };
}

/** The options that stand at a place. */
export interface TradeCandidate {
  readonly supply: SupplyOption;
  readonly cable: CableOption;
  readonly arrangement: Arrangement;
  readonly inParallel: number;
}

export function tradeCandidate(space: TradeSpace, index: number): TradeCandidate {
  const place = tradePlace(space, index);
  return {
    supply: space.supplies[place.supply]!,
    cable: space.cables[place.cable]!,
    arrangement: space.arrangements[place.arrangement]!,
    inParallel: place.inParallel + 1,
  };
}
