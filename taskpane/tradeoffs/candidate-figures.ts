/** What one candidate comes to in the three cases that it is judged in, beside its loss, mass and cost. */
import type { SolvedRow } from "../../src/network/feed-row.js";
import { operatingPoint } from "../../src/network/operating-point.js";
import { CASE_CONDITIONS, tradeFeed, type TradeCase } from "../../src/tradeoffs/trade-feed.js";
import type { TradeRequest } from "../../src/tradeoffs/trade-request.js";
import type { TradeCandidate } from "../../src/tradeoffs/trade-space.js";

export interface CandidateFigures {
  /** At the load, V: light load on the highest supply, then peak load on the lowest. */
  readonly highestAtLoad: number;
  readonly lowestAtLoad: number;
  /** At peak load. */
  readonly cableCurrent: number;
  readonly cableLoading: number;
  readonly dropShare: number;
  /** Of the stage that is loaded most, at peak load. */
  readonly converterLoading: number;
  /** W at nominal load. */
  readonly cableLoss: number;
  readonly converterLoss: number;
  readonly supplyLoss: number;
}

/** @throws {RangeError} for a candidate that has no operating point: none that the search keeps. */
export function candidateFigures(
  request: TradeRequest,
  candidate: TradeCandidate,
): CandidateFigures {
  const [light, nominal, peak] = (["light", "nominal", "peak"] as const).map((at) =>
    solvedRows(request, candidate, at),
  );
  const cable = row(peak, "run");
  const dropped = cable.inputVoltage - (cable.output?.voltage ?? 0);
  const lossOf = (kind: SolvedRow["item"]["kind"]) =>
    (nominal ?? [])
      .filter(({ item }) => item.kind === kind)
      .reduce((sum, { loss }) => sum + loss, 0);
  return {
    highestAtLoad: row(light, "power load").inputVoltage,
    lowestAtLoad: row(peak, "power load").inputVoltage,
    cableCurrent: cable.inputCurrent,
    cableLoading: cable.loading ?? 0,
    dropShare: dropped / cable.inputVoltage,
    converterLoading: Math.max(
      ...(peak ?? [])
        .filter(({ item }) => item.kind === "ratio")
        .map(({ loading }) => loading ?? 0),
    ),
    cableLoss: lossOf("run"),
    converterLoss: lossOf("ratio"),
    supplyLoss: lossOf("supply"),
  };
}

function solvedRows(request: TradeRequest, candidate: TradeCandidate, at: TradeCase): SolvedRow[] {
  const { rows } = operatingPoint(tradeFeed(request, candidate, at), CASE_CONDITIONS[at]);
  return rows.flatMap((one) => (one.outcome === "solved" ? [one] : []));
}

function row(rows: readonly SolvedRow[] | undefined, kind: SolvedRow["item"]["kind"]): SolvedRow {
  const found = rows?.find(({ item }) => item.kind === kind);
  if (!found) throw new RangeError(`the candidate has no solved ${kind}`);
  return found;
}
