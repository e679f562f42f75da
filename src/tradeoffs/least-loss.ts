/** The least loss kept for each distribution voltage, cable and number of units: with the ratio that suits them best. */
import { tradePlace, type TradeSpace } from "./trade-space.js";

/** By supply, cable and units, as `leastLossAt` counts them. */
export interface LeastLosses {
  /** W; Infinity where no candidate was kept. */
  readonly loss: Float64Array;
  /** Number of that candidate in its space; -1 for none. */
  readonly index: Float64Array;
}

export interface LeastLossTally {
  readonly offer: (index: number, loss: number) => void;
  readonly all: () => LeastLosses;
}

export function leastLossTally(space: TradeSpace): LeastLossTally {
  const { supplies, cables, mostInParallel } = space;
  const places = supplies.length * cables.length * mostInParallel;
  const least: LeastLosses = {
    loss: new Float64Array(places).fill(Infinity),
    index: new Float64Array(places).fill(-1),
  };
  return {
    offer(index, loss) {
      const { supply, cable, inParallel } = tradePlace(space, index);
      const at = leastLossAt(space, supply, cable, inParallel);
      if (loss >= least.loss[at]!) return;
      least.loss[at] = loss;
      least.index[at] = index;
    },
    all: () => least,
  };
}

function leastLossAt(
  { cables, mostInParallel }: TradeSpace,
  supply: number,
  cable: number,
  inParallel: number,
): number {
  return (supply * cables.length + cable) * mostInParallel + inParallel;
}

export interface KeptLoss {
  readonly index: number;
  readonly loss: number;
}

/** What can be had at one distribution voltage; not there where no candidate was kept. */
export interface LossAtVoltage {
  /** Place of the voltage among the supplies. */
  readonly supply: number;
  readonly least: KeptLoss | undefined;
  /** With the cable and the units of the chosen candidate, and at its own voltage that candidate itself. */
  readonly alike: KeptLoss | undefined;
}

/** For each supply in turn. */
export function lossByVoltage(
  space: TradeSpace,
  { loss, index }: LeastLosses,
  chosen: KeptLoss | undefined,
): LossAtVoltage[] {
  const place = chosen && tradePlace(space, chosen.index);
  const kept = (at: number): KeptLoss | undefined =>
    index[at]! < 0 ? undefined : { index: index[at]!, loss: loss[at]! };
  return space.supplies.map((_, supply) => {
    const first = leastLossAt(space, supply, 0, 0);
    const end = leastLossAt(space, supply + 1, 0, 0);
    let best = first;
    for (let at = first; at < end; at++) if (loss[at]! < loss[best]!) best = at;
    const alike =
      place &&
      (place.supply === supply
        ? chosen
        : kept(leastLossAt(space, supply, place.cable, place.inParallel)));
    return { supply, least: kept(best), alike };
  });
}
