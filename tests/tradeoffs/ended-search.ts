/** A search to its end, without threads: each round in shares, as threads would settle them. */
import type { FeedSearchRequest, Round, Settling, Share } from "../../src/tradeoffs/feed-search.js";
import { FeedSearch } from "../../src/tradeoffs/feed-search.js";
import { SearchRounds } from "../../src/tradeoffs/search-rounds.js";

export function ended(
  rounds: SearchRounds,
  settling: (round: Round, share: Share) => Settling,
  threads = 1,
): SearchRounds {
  while (rounds.round) {
    const { round } = rounds;
    rounds.take(
      Array.from({ length: threads }, (_, first) => {
        const own = settling(round, { first, every: threads });
        own.advance(Infinity);
        return own.findings();
      }),
    );
  }
  return rounds;
}

/** @param most Candidates that are settled. */
export function searched(request: FeedSearchRequest, threads = 1, most?: number): SearchRounds {
  const search = new FeedSearch(request);
  const settling = (round: Round, share: Share) => search.settling(round, share);
  return ended(new SearchRounds(request.varied, most), settling, threads);
}
