import type { Arrangement, TradeCandidate } from "../../../src/tradeoffs/trade-space.js";
import { words } from "../../words/words.js";

/** What tells a candidate from others: 600 V, copper 1.5 mm², 1/12, 2 units. */
export function candidateName(candidate: TradeCandidate): string {
  const { supply, cable, arrangement, inParallel } = candidate;
  return words.tradeoffs.candidate(
    supply.voltage,
    `${cable.material} ${cable.size}`,
    ratioText(arrangement),
    inParallel,
  );
}

export function ratioText(arrangement: Arrangement): string {
  return arrangement.map((step) => `1/${step}`).join(" · ");
}
