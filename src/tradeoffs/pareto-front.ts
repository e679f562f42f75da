/** The candidates that no other one beats: none is at least as good in everything and better in something. */
import type { TradeResult } from "./trade-evaluation.js";

export interface FrontPoint extends Pick<TradeResult, "loss" | "mass" | "cost"> {
  /** The candidate's number in its space. */
  readonly index: number;
}

export interface ParetoFront {
  /** @returns Whether the point stands on the front now; those that it beats are gone. */
  readonly offer: (point: FrontPoint) => boolean;
  readonly points: () => readonly FrontPoint[];
}

export function paretoFront(): ParetoFront {
  let front: FrontPoint[] = [];
  return {
    offer(point) {
      const at = front.findIndex((one) => beatsOrEquals(one, point));
      if (at >= 0) {
        // What beats one candidate is likely to beat its neighbours: ask it first next time.
        if (at > 0) front.unshift(...front.splice(at, 1));
        return false;
      }
      front = front.filter((one) => !beatsOrEquals(point, one));
      front.push(point);
      return true;
    },
    points: () => [...front].sort((one, other) => one.loss - other.loss),
  };
}

/** At least as good in loss, mass and cost; of equals the first one stays. */
function beatsOrEquals(one: FrontPoint, other: FrontPoint): boolean {
  return one.loss <= other.loss && one.mass <= other.mass && one.cost <= other.cost;
}
