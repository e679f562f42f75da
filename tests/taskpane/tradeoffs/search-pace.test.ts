/** How long a search takes, told from its first small block. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { requirementsOf } from "../../../functions/reading/asked-for.js";
import { variedFeed } from "../../../functions/tradeoffs/varied-blocks.js";
import { FeedSearch } from "../../../src/tradeoffs/feed-search.js";
import { SearchRounds } from "../../../src/tradeoffs/search-rounds.js";
import { SearchPace } from "../../../taskpane/tradeoffs/search-pace.js";
import { quarry, SIZES, TYPES, UNITS, VOLTAGES } from "../../tradeoffs/quarry-feed.js";

describe("the pace of a search", () => {
  it("is told before the figures of the rest are found, from a block that is judged first", () => {
    const feed = quarry();
    const varied = variedFeed([...feed.blocks, feed.askedFor], [VOLTAGES, SIZES, TYPES, UNITS]);
    const search = new FeedSearch({
      varied,
      requirements: requirementsOf(feed.askedFor),
      checks: ["Drop"],
      objectives: ["loss", "mass"],
    });
    const settling = search.settling(new SearchRounds(varied).round!);
    assert.equal(settling.count, 60);
    const pace = new SearchPace(settling, 0);
    settling.advance(31);
    pace.look(31);
    assert.equal(pace.left, undefined);
    settling.advance(1);
    pace.look(32);
    // A millisecond for the figures of each, four for its judgement.
    settling.advance(32);
    assert.deepEqual([settling.figured, settling.settled], [32, 32]);
    pace.look(32 + 128);
    assert.equal(pace.left, 28 * (1 + 4));
    settling.advance(28);
    pace.look(32 + 128 + 28);
    assert.equal(pace.left, 28 * 4);
    assert.equal(settling.advance(Infinity), false);
    assert.equal(pace.left, 0);
  });
});
