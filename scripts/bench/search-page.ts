/** What runs in the page of the measurement: the search as the pane starts it, in as many threads as are asked for. */
import { candidateCount, type Counted } from "../../src/tradeoffs/varied-feed.js";
import type { SearchJob } from "../../taskpane/tradeoffs/search-messages.js";
import { startSearch } from "../../taskpane/tradeoffs/search-run.js";
import { feeds } from "./varied-feeds.js";

interface Searched {
  readonly count: number;
  /** From the start to the result. */
  readonly milliseconds: number;
  /** Longest time in which the page took no turn. */
  readonly longestBlock: number;
}

declare global {
  var searches: {
    search(feed: string, sizes: readonly string[], threads: number): Promise<Searched>;
    /** Milliseconds from the cancelling of a running search until it has ended and the page has taken a turn. */
    cancel(feed: string, sizes: readonly string[], threads: number): Promise<number>;
  };
}

globalThis.searches = {
  async search(feed, sizes, threads) {
    const { job, count } = jobOf(feed, sizes);
    const watch = watchTurns();
    const begin = performance.now();
    const run = startSearch(job, count, () => undefined, threads);
    await run.result;
    const milliseconds = performance.now() - begin;
    run.end();
    return { count, milliseconds, longestBlock: watch() };
  },
  async cancel(feed, sizes, threads) {
    const { job, count } = jobOf(feed, sizes);
    return new Promise((done, failed) => {
      let begun: number | undefined;
      const run = startSearch(
        job,
        count,
        () => {
          if (begun !== undefined) return;
          begun = performance.now();
          run.end();
        },
        threads,
      );
      run.result.then((result) => {
        if (result !== undefined) failed(new Error("the search ended before it was cancelled"));
        setTimeout(() => done(performance.now() - begun!), 0);
      }, failed);
    });
  },
};

function jobOf(name: string, sizes: readonly string[]): { job: SearchJob; count: number } {
  const { blocks, askedFor, variations } = feeds(sizes)[name as keyof ReturnType<typeof feeds>];
  const job: SearchJob = {
    blocks,
    askedFor,
    variations,
    checks: ["Input above lowest", "Input below highest", "Drop"],
    objectives: ["loss", "mass"],
  };
  const counted: Counted = { variations };
  return { job, count: candidateCount(counted) };
}

/** Counts how long the page takes no turn, until the function that it gives is called. */
function watchTurns(): () => number {
  const { port1, port2 } = new MessageChannel();
  let longest = 0;
  let last = performance.now();
  port1.onmessage = () => {
    const now = performance.now();
    longest = Math.max(longest, now - last);
    last = now;
    setTimeout(() => port2.postMessage(undefined), 0);
  };
  port2.postMessage(undefined);
  return () => {
    port1.close();
    return Math.max(longest, performance.now() - last);
  };
}
