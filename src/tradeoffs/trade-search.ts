/** The search through every candidate of a request, in parts, so that its caller can tell how far it is and stop it. */
import { type LeastLosses, leastLossTally } from "./least-loss.js";
import { type FrontPoint, paretoFront } from "./pareto-front.js";
import {
  type RejectedOption,
  rejectedOptions,
  rejectionTally,
  type VerdictCounts,
} from "./rejection-tally.js";
import { tradeEvaluation } from "./trade-evaluation.js";
import { requireTradeRequest, type TradeRequest } from "./trade-request.js";
import { type TradeSpace, tradeSpace } from "./trade-space.js";

export interface TradeSearch {
  readonly space: TradeSpace;
  /** Judges up to so many more candidates. @returns how many are judged in all. */
  readonly advance: (candidates: number) => number;
  readonly findings: () => TradeFindings;
}

export interface TradeFindings {
  readonly judged: number;
  /** By rising loss. */
  readonly front: readonly FrontPoint[];
  readonly verdicts: VerdictCounts;
  readonly rejected: readonly RejectedOption[];
  readonly leastLosses: LeastLosses;
}

/** @throws {InputError} naming a field of the request. */
export function tradeSearch(request: TradeRequest): TradeSearch {
  requireTradeRequest(request);
  const space = tradeSpace(request);
  const evaluate = tradeEvaluation(request, space);
  const front = paretoFront();
  const tally = rejectionTally(space);
  const least = leastLossTally(space);
  let judged = 0;
  return {
    space,
    advance(candidates) {
      const end = Math.min(space.count, judged + candidates);
      for (; judged < end; judged++) {
        const { verdict, loss, mass, cost } = evaluate(judged);
        tally.add(judged, verdict);
        if (verdict !== "kept") continue;
        front.offer({ index: judged, loss, mass, cost });
        least.offer(judged, loss);
      }
      return judged;
    },
    findings: () => ({
      judged,
      front: front.points(),
      verdicts: tally.all(),
      rejected: rejectedOptions(tally),
      leastLosses: least.all(),
    }),
  };
}
